"""What the words right beside an amount say of it: a road's speed or width, an overlap, heat."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from calc.reading.amounts import Amount
from calc.reading.words import MARK, Token

_ROADS = frozenset(["road", "rd", "highway", "hwy", "zone"])
_SIGNS = frozenset(["road", "highway", "car", "cars", "traffic"])
_SIGNED = frozenset(range(25, 85, 5))  # [mph]; bare before "road" it is the speed on its signs
_WAYS = frozenset(["road", "highway", "street", "bridge", "driveway", "pavement"])
_OVERLAPS = (["overlap", "is"], ["overlap", "of"], ["overlap", "only"])
_WHEELS = frozenset(["wheels", "tires", "rears", "tyres"])
_NEAR_WHEELS = 5  # words: "the rear wheels stand about 60 in apart"
_ENDS = frozenset(["front", "rear", "back"])
_HEATERS = frozenset(["heat", "heater", "heating", "heaters"])


def word_before(tokens: Sequence[Token], amount: Amount) -> str:
    """Return the word right before an amount."""
    return tokens[amount.first - 1].text if amount.first else ""


def is_overlap(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether an amount is that of an overlap: "overlap 8 in", "8 in of overlap"."""
    texts = [token.text for token in tokens]
    before = texts[max(0, amount.first - 2) : amount.first]
    behind = texts[amount.last : amount.last + 2]
    said = before[-1:] == ["overlap"] or behind[:1] == ["overlap"]
    return said or before in _OVERLAPS or behind == ["of", "overlap"]


def is_track(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a length is how far the wheels stand apart: "wheels 60 in apart"."""
    before = {token.text for token in tokens[max(0, amount.first - _NEAR_WHEELS) : amount.first]}
    behind = [token.text for token in tokens[amount.last : amount.last + 1]]
    return "length" in amount.kinds and behind == ["apart"] and bool(before & _WHEELS)


def is_heat(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a power is that of a heater, which no page asks for: "cab heat 5 kW"."""
    if "power" not in amount.kinds:
        return False
    beside = {word_before(tokens, amount)}
    beside |= {token.text for token in tokens[amount.last : amount.last + 1]}
    return bool(beside & _HEATERS)


def is_piece(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a mass is that of one weight of how many it asks: "how many weights, 42 lb each"."""
    behind = {token.text for token in tokens[amount.last : amount.last + 1]}
    asked = any(token.text == "many" for token in tokens)
    return "mass" in amount.kinds and asked and bool(behind & {"each", "ea", "apiece"})


def is_axles(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a mass is that of an axle which nobody calls front or rear: "axle 2100 lb"."""
    before = [token.text for token in tokens[max(0, amount.first - 2) : amount.first]]
    return "mass" in amount.kinds and before[-1:] == ["axle"] and before[0] not in _ENDS


def is_apart(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether no page has a field for an amount: a road's width, a heater's power, one piece."""
    each_of = (is_roads, is_heat, is_piece, is_axles, is_more)
    return any(each(tokens, amount) for each in each_of)


def is_more(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a share is by how much something grows: "it brings 6% more"."""
    behind = {token.text for token in tokens[amount.last : amount.last + 1]}
    return "fraction" in amount.kinds and bool(behind & {"more", "less"})


def told(tokens: Sequence[Token], amount: Amount) -> tuple[str, str, str] | None:
    """Return the field, kind and reason of an amount that the words beside it settle."""
    for says, name, kind, why in (
        (is_gearbox_rating, "power_limit", "power", "what the gearbox is rated for"),
        (is_between_arms, "links_narrowest", "length", "the arms stand so far apart"),
        (is_pumps, "implement_flow", "flow", "what the pump gives"),
        (is_suitcases, "front_ballast", "mass", "such weights hang in front"),
        (is_lift_distance, "lift_rated_at", "length", "“at” stands behind a lift figure"),
        (is_traffics, "car_speed", "speed", "no tractor goes so fast"),
        (is_repair, "parts", "money", "a repair costs so much"),
        (is_front_limit, "front_axle_limit", "mass", "the front axle's limit"),
        (is_rear_limit, "rear_axle_limit", "mass", "the rear axle's limit"),
        (is_chains, "chain_rating", "mass", "a chain that holds so much"),
        (is_hole_across, "auger_diameter", "length", "a hole so wide"),
        (is_track, "track_width", "length", "the wheels stand apart"),
        (is_my_speed, "road_speed", "speed", "“me” beside the cars' speed"),
        (road_behind, "car_speed", "speed", "the road is known by it"),
    ):
        if says(tokens, amount):
            return name, kind, why
    return None


def is_wanted(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a length is what somebody asks about: "a blade for my subcompact, is 54 in ok"."""
    behind = {token.text for token in tokens[amount.last : amount.last + 1]}
    asks = word_before(tokens, amount) in ("is", "would", "will")
    return "length" in amount.kinds and asks and bool(behind & _GOOD)


_GOOD = frozenset(["ok", "okay", "enough", "right", "too", "fine", "do", "work"])


def is_told_of(tokens: Sequence[Token], last: int, own: Amount, other: Amount) -> bool:
    """Whether a verb tells of the amount behind it, and not of the one before.

    "The tractor is 1700 lb, hitch lifts 800 lb": `last` is the place behind "lifts".
    """
    alike = bool(set(own.kinds) & set(other.kinds)) or not own.kinds
    return tokens[last - 1].text == "lifts" and alike


def is_gearbox_rating(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a power or a bare number is the gearbox's: "gearbox on the cutter is rated 40"."""
    if amount.spelled or (amount.kinds and "power" not in amount.kinds):
        return False
    if amount.kinds and _GEARBOX & {token.text for token in tokens[amount.last : amount.last + 1]}:
        return True  # "a 40 hp gearbox"
    before = [token.text for token in tokens[max(0, amount.first - _NEAR_GEARBOX) : amount.first]]
    ends = [place for place, text in enumerate(before) if text in ",;?!." or text.isdigit()]
    before = before[ends[-1] + 1 :] if ends else before
    boxes = [place for place, text in enumerate(before) if text in _GEARBOX]
    rated = boxes and _RATED & set(before[boxes[0] :])
    return bool(rated) and before[-1] in {*_RATED, "for", "at", "to"}


_GEARBOX = frozenset(["gearbox", "driveline"])
_RATED = frozenset(["rated", "rating", "good", "say", "says", "max"])
_NEAR_GEARBOX = 8  # words


def road_behind(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a speed is that of a road: "a 55 mph road", "on a 45 road", "road 55"."""
    if not amount.kinds and word_before(tokens, amount) in _SIGNS:
        return amount.value in _SIGNED
    if not any(t.text in _ROADS for t in tokens[amount.last : amount.last + 1]):
        return False
    return "speed" in amount.kinds or amount.value in _SIGNED


def _is_axle_limit(tokens: Sequence[Token], amount: Amount, ends: frozenset[str]) -> bool:
    """Whether a mass is what an axle may carry: "rear axle 5800 lb limit"."""
    before = [token.text for token in tokens[max(0, amount.first - 4) : amount.first]]
    behind = {token.text for token in tokens[amount.last : amount.last + 1]}
    axles = [end for end, axle in pairwise(before) if axle == "axle"]
    limits = {"limit", "rating", "max", "rated"}
    return "mass" in amount.kinds and bool(behind & limits) and bool(ends & set(axles))


def is_front_limit(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a mass is the front axle's limit."""
    return _is_axle_limit(tokens, amount, frozenset(["front"]))


def is_rear_limit(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a mass is the rear axle's limit."""
    return _is_axle_limit(tokens, amount, frozenset(["rear", "back"]))


def is_between_arms(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a range is what the lower arms can be set to: "arms spread 26 to 31 in"."""
    near = {token.text for token in tokens[max(0, amount.first - 4) : amount.first]}
    return "length" in amount.kinds and " to " in amount.number and bool(near & _ARMS)


def is_lift_distance(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a length is where a lift is measured: "lift cap 1980 lb at 24 in"."""
    before = [token.text for token in tokens[max(0, amount.first - 2) : amount.first]]
    mass = before[:1] and (before[0] in _MASSES or before[0].isdigit())
    near = "lift" in {token.text for token in tokens[max(0, amount.first - 8) : amount.first]}
    far = amount.kinds.get("length") == "in" and amount.value in (12, 24)
    return bool(near and far and mass and before[-1] in ("at", "@"))


_MASSES = frozenset(["lb", "lbs", "pounds", "kg", "#"])


def is_pumps(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a flow is what the tractor's pump gives: "pump 8.2 gpm"."""
    return "flow" in amount.kinds and word_before(tokens, amount) == "pump"


def is_suitcases(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a mass is that of counted suitcase weights: "4 suitcase 55 lb each"."""
    inside = {token.text for token in tokens[amount.first : amount.last]}
    return "mass" in amount.kinds and bool(inside & {"suitcase", "suitcases"})


def is_traffics(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a speed is that of the cars where a road is told, and no train."""
    fast = amount.value >= FASTEST.get(amount.kinds.get("speed", ""), float("inf"))
    words = {token.text for token in tokens}
    return fast and bool(words & _ROADSIDE) and not words & _RAILS


_ARMS = frozenset(["arm", "arms", "links"])
FASTEST = {"mph": 45.0, "km/h": 70.0}  # and more is no compact tractor's
_ROADSIDE = frozenset(["road", "highway", "hwy", "lane", "onto", "traffic", "car", "cars", "truck"])
_RAILS = frozenset(["train", "trains", "freight", "rail", "railroad", "tracks", "rr"])


def is_repair(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether an amount is what a repair costs: "to replace the clutch 1900"."""
    before = [token.text for token in tokens[max(0, amount.first - 4) : amount.first]]
    money = "money" in amount.kinds or (not amount.kinds and amount.value >= LEAST_REPAIR)
    begins = [place for place, text in enumerate(before) if text in _REPAIRS]
    told = before[begins[-1] + 1 :] if begins else []
    return money and bool(begins) and all(text.isalpha() for text in told) and not amount.spelled


_REPAIRS = frozenset(["replace", "replacing", "rebuild", "rebuilding", "redo"])
LEAST_REPAIR = 100.0


def is_chains(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a mass is what a chain holds: "a 10,000 lb safety chain"."""
    behind = [token.text for token in tokens[amount.last : amount.last + 2]]
    behind = behind[1:] if behind[:1] == ["safety"] else behind[:1]
    return "mass" in amount.kinds and bool(behind) and behind[0] in ("chain", "chains")


def is_hole_across(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a length is how wide a hole is: "9 inch holes", and not "a 30 inch hole"."""
    narrow = amount.value <= WIDEST_HOLE and amount.kinds.get("length") == "in"
    dug = _DUG & {token.text for token in tokens}
    behind = {token.text for token in tokens[amount.last : amount.last + 1]}
    return bool(narrow and dug and behind & {"hole", "holes", "across"})


WIDEST_HOLE = 18  # [in]; a hole of more inches may be so deep
_DUG = frozenset(
    ["auger", "augers", "digger", "dig", "digging", "drill", "drilling", "post", "holes"]
)


def is_my_speed(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a number behind "me" is a speed: "me 12 mph", "road 55, me 12"."""
    if "speed" in amount.kinds:
        return word_before(tokens, amount) in ("me", "my")
    words = {token.text for token in tokens}
    bare = not amount.kinds and not amount.spelled and amount.value < min(_SIGNED)
    ends = all(token.kind == MARK for token in tokens[amount.last : amount.last + 1])
    mine = word_before(tokens, amount) == "me" or (word_before(tokens, amount) == "at" and ends)
    return bare and mine and bool(words & {*_SIGNS, "limit"})


def is_roads(tokens: Sequence[Token], amount: Amount) -> bool:
    """Whether a length is the width of a road or a bridge: "the road is 20 ft wide"."""
    if "length" not in amount.kinds:
        return False
    before = [token.text for token in tokens[max(0, amount.first - 3) : amount.first]]
    behind = [token.text for token in tokens[amount.last : amount.last + 2]]
    if before[-1:] == ["at"] or "lane" in before or behind[:1] == ["lane"] or "wide" not in behind:
        return False
    return bool(_WAYS & {*before, *behind[1:]})
