"""What does my machine need to travel on the road?"""

from __future__ import annotations

from calc import quantities, tables
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import lamps, mirrors
from calc.picture import Picture
from calc.vocabulary import field
from calc.worksheets import _road_list as rl
from calc.worksheets import _road_view as view
from calc.worksheets._solved import solved

_COUNTRIES = {"US": "United States: ", "Canada": "Canada: "}
PLACES = tuple(
    ws.Option(row["place"], _COUNTRIES.get(row["country"], "") + row["name"])
    for row in tables.rows("road_places")
)
_TRACTOR, _BEHIND, _LAMPS = "Tractor", "Behind the tractor", "Lamps and emblem on the tractor"


def _typical(low: float, high: float, of: str = "compact tractors") -> ws.Typical:
    return ws.Typical(low, high, "road/SIZE-practice", of)


FIELDS = (
    ws.Choice(
        "place", "Where", PLACES,
        "The state, province or country whose roads you use. A place without rules of its own in "
        "our tables gets the standard and the common pattern.",
        default="OH", essential=True, group="Where and when",
    ),
    ws.Choice(
        "hours", "When",
        (
            ws.Option("dark", "Also at dusk, in the dark or in poor light"),
            ws.Option("day", "Only by day, in clear weather"),
        ),
        "“Night” starts earlier or later from place to place; dusk counts in most.",
        default="dark", essential=True, group="Where and when",
    ),
    ws.Field(
        "top_speed", "Top speed of the tractor", "speed", "5 mph", "45 mph",
        "What it is built for, in its highest gear: on a decal or in the manual.",
        default="18 mph", essential=True, group=_TRACTOR, typical=_typical(5.4, 11.2),
    ),
    ws.Field(
        "road_speed", "Your speed on the road", "speed", "1 mph", "45 mph",
        "What you really drive with this load.",
        default="15 mph", group=_TRACTOR, typical=_typical(4.5, 11.0),
    ),
    field(
        "tractor_width", default="56 in", high="240 in", essential=True, optional=False,
        typical=_typical(1.1, 1.8),
    ),
    ws.Field(
        "tractor_made", "Year the tractor was made", "count", "1930", "2100",
        "On the plate. The federal rule binds makers from the middle of 2017; type 2017.5 for one "
        "made after June of that year.",
        default="2012", group=_TRACTOR, typical=_typical(1990.0, 2024.0, "tractors at work"),
    ),
    ws.Choice(
        "use", "Built as",
        (
            ws.Option("field", "A farm or utility tractor"),
            ws.Option("lawn", "A lawn and garden machine"),
        ),
        "The federal rule leaves lawn and garden machines out.",
        default="field", group=_TRACTOR,
    ),
    ws.Choice(
        "duals", "Dual wheels", (ws.Option("no", "No"), ws.Option("yes", "Yes")),
        "Two wheels side by side on an axle end.", default="no", group=_TRACTOR,
    ),
    ws.Field(
        "overall_height", "Overall height", "length", "3 ft", "20 ft",
        "To the top of the roll-over bar, cab or load.",
        default="92 in", group=_TRACTOR, typical=_typical(2.1, 2.7),
    ),
    ws.Field(
        "lane_width", "Width of your lane", "length", "7 ft", "15 ft",
        "From the center line to the edge of the pavement.",
        default="10 ft", group="Where and when", unit_us="ft",
        typical=_typical(2.7, 3.7, "country roads"),
    ),
    ws.Field(
        "head_lamps", "White head lamps", "count", "0", "6", "Count those that light.",
        default="2", group=_LAMPS, typical=_typical(0.0, 2.0),
    ),
    ws.Field(
        "tail_lamps", "Red tail lamps", "count", "0", "6", "Count those that light.",
        default="2", essential=True, group=_LAMPS, typical=_typical(0.0, 2.0),
    ),
    field("tail_height", default="40 in", group=_LAMPS),
    ws.Field(
        "amber_flashers", "Amber warning lamps to the rear", "count", "0", "6",
        "Lamps that flash together and show to the rear.",
        default="2", essential=True, group=_LAMPS, typical=_typical(0.0, 2.0),
    ),
    ws.Field(
        "flasher_height", "Height of the warning lamps", "length", "10 in", "140 in",
        "From the road to the middle of the lamp.",
        default="64 in", group=_LAMPS, typical=_typical(1.0, 2.0),
    ),
    field("lamp_spread", default="44 in", group=_LAMPS),
    ws.Field(
        "turn_signals", "Turn signals to the rear", "count", "0", "4",
        "Warning lamps that also signal a turn count.",
        default="2", group=_LAMPS, typical=_typical(0.0, 2.0),
    ),
    ws.Field(
        "rear_reflectors", "Red reflectors on the tractor", "count", "0", "6",
        "Clean and facing straight back.",
        default="2", group=_LAMPS, typical=_typical(0.0, 2.0),
    ),
    ws.Choice(
        "emblem", "Slow-moving-vehicle emblem on the tractor",
        (ws.Option("yes", "Yes, bright and clean"), ws.Option("no", "No, or faded")),
        "The orange triangle with a dark red border.",
        default="yes", unsure=("yes", "no"), essential=True, group=_LAMPS,
    ),
    ws.Field(
        "emblem_height", "Height of its lower edge", "length", "6 in", "140 in",
        "From the road, tires at working pressure.",
        default="30 in", essential=True, group=_LAMPS, typical=_typical(0.6, 1.2),
    ),
    ws.Field(
        "mirror_reach", "Outer edge of the mirror from the middle of the tractor", "length",
        "4 in", "80 in",
        "On the side where the load reaches furthest. Blank when there is no mirror.",
        optional=True, group=_TRACTOR,
    ),
    ws.Field(
        "combination_length", "Length of the whole combination", "length", "5 ft", "120 ft",
        "From the front of the tractor to the rear of the last thing behind it.",
        default="16 ft", group=_BEHIND, unit_us="ft", typical=_typical(3.0, 9.0),
    ),
    ws.Choice(
        "behind_kind", "Behind the tractor",
        (
            ws.Option("none", "Nothing"),
            ws.Option("mounted", "An implement on the three-point hitch"),
            ws.Option("trailed", "An implement towed on its own wheels"),
            ws.Option("trailer", "A farm trailer built for the road"),
            ws.Option("carried", "A machine carried on a trailer"),
        ),
        "Rules differ for a machine that rolls and one that rides.",
        default="mounted", essential=True, group=_BEHIND,
    ),
    field(
        "transport_width", label="Its width on the road", default="66 in", essential=True,
        optional=False, help="The widest part of what is behind, as it travels.", group=_BEHIND,
        typical=_typical(1.2, 2.4, "implements for compact tractors"),
    ),
    ws.Field(
        "offset_left", "How far its middle is left of the tractor's middle", "length",
        "-100 in", "100 in", "Negative when it is offset to the right.",
        default="0 in", group=_BEHIND, typical=_typical(-0.2, 0.2),
    ),
    ws.Field(
        "behind_hitch", "How far it reaches behind the hitch", "length", "4 in", "80 ft",
        "From the lower hitch points or the drawbar pin to its rear, as it travels.",
        default="72 in", essential=True, group=_BEHIND,
        typical=_typical(0.8, 2.2, "implements for compact tractors"),
    ),
    field("implement_top", default="44 in", essential=True, group=_BEHIND),
    ws.Field(
        "implement_bottom", "Height of its bottom, as it travels", "length", "0 in", "10 ft",
        "Raised for the road.",
        default="14 in", group=_BEHIND, typical=_typical(0.25, 0.5),
    ),
    ws.Choice(
        "see_through", "Can one see through it?",
        (
            ws.Option("solid", "No: a deck, a tank, a bale, a box"),
            ws.Option("open", "Yes: forks, a boom, tines"),
        ),
        "A solid implement hides what is in front of it.",
        default="solid", group=_BEHIND,
    ),
    field("lamps_to_implement", default="60 in", group=_BEHIND),
    ws.Choice(
        "implement_marking", "What it carries of its own",
        (
            ws.Option("none", "Nothing"),
            ws.Option("reflectors", "Reflectors and strips"),
            ws.Option("emblem", "Reflectors and an emblem"),
            ws.Option("full", "A marking kit: lamps, flashers, reflectors, emblem"),
        ),
        "Magnetic lamp bars count while they are on.",
        default="none", unsure=("none", "reflectors", "emblem", "full"), essential=True,
        group=_BEHIND,
    ),
    ws.Field(
        "rated_speed", "Speed that it is rated for", "speed", "5 mph", "45 mph",
        "On its speed symbol, its plate or in its manual.",
        optional=True, group=_BEHIND,
    ),
    ws.Field(
        "implement_made", "Year it was made", "count", "1930", "2100", "On its plate.",
        default="2015", group=_BEHIND, typical=_typical(1990.0, 2024.0, "implements at work"),
    ),
)  # fmt: skip


# --- checks ----------------------------------------------------------------------------------

_COUNTED = (
    ("head_lamps", "White head lamps"),
    ("tail_lamps", "Red tail lamps"),
    ("amber_flashers", "Amber warning lamps"),
    ("turn_signals", "Turn signals"),
    ("rear_reflectors", "Red reflectors"),
)


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks of emblem, lamps, what is hidden, width, speed and view."""
    found = rl.situation(v)
    checks = [
        *_emblem_checks(v, found),
        *_lamp_checks(v, found),
        *_behind_checks(v, found),
        *_size_checks(v, found),
    ]
    mirror = _mirror_check(v, found)
    if mirror:
        checks.append(mirror)
    facts = found.facts
    outputs = [
        ws.Output("width", "Widest part", facts["width"], "length"),
        ws.Output("reach", "Reach from the tractor's center line", facts["reach"], "length",
                  "the larger side"),
        ws.Output("items", "Items to carry", float(rl.item_count(v, found)), "count"),
    ]  # fmt: skip
    if work.on:
        _steps(v, work, found)
    return ws.Outcome(checks, outputs)


def _emblem_checks(v: ws.Inputs, found: rl.Situation) -> list[ws.Check]:
    rule = lamps.emblem_rule_for(v.place)
    if rule is None:
        return []
    has = v.emblem == "yes"
    checks = []
    if found.emblem_use in ("show", "with symbol"):
        margin = 1.0 if has else (-1.0 if rule.required == "law" else 0.0)
        checks.append(
            ws.fits("emblem", "Slow-moving-vehicle emblem", margin,
                    "The emblem is on the tractor." if has else "The tractor has no good emblem.",
                    rule.source, why="Drivers don't see in time how slow you are.")
        )  # fmt: skip
        if has:
            low, high = lamps.emblem_window(v.place)
            checks.append(
                ws.between("emblem_height", "Lower edge of the emblem", v.emblem_height, low, high,
                           "length", rule.source if rule.height_low else "road/EXT-2",
                           close_band=0.0, why="It is out of the place where drivers look.")
            )  # fmt: skip
    elif has:
        said = "comes off or is covered" if found.emblem_use == "covered" else "is not shown"
        checks.append(
            ws.fits("emblem", "Slow-moving-vehicle emblem", -1.0,
                    f"Above the emblem's speed it {said} here.", rule.source,
                    why="It tells drivers that you are slower than you are.")
        )  # fmt: skip
    return checks


def _lamp_checks(v: ws.Inputs, found: rl.Situation) -> list[ws.Check]:
    checks = []
    federal = found.federal["tractor"]
    for item, title in _COUNTED:
        need = found.need("tractor", item)
        if need is None:
            continue
        has = getattr(v, item)
        bound = rl.count_of(need, rl.BINDING, federal)
        asked = rl.count_of(need, lamps.BASES, federal)
        source = rl.cited(need)
        if bound:
            checks.append(
                ws.at_least(item, title, has, float(bound), "count", source, close_band=0.0,
                            why=_ASKED[need.basis])
            )  # fmt: skip
        if asked > bound and has >= bound:
            enough = has >= asked
            checks.append(
                ws.fits(f"{item}_standard", f"{title}, by the standard", 1.0 if enough else 0.0,
                        f"The standard asks for {asked}.", source,
                        why="Not law for a machine of this age as far as was read, but good "
                        "practice.")
            )  # fmt: skip
    return [*checks, *_height_checks(v, found), *_edge_checks(v, found)]


def _height_checks(v: ws.Inputs, found: rl.Situation) -> list[ws.Check]:
    """Heights of tail and warning lamps, where a rule gives them and there are lamps."""
    checks = []
    for item, title, height in (
        ("tail_lamps", "Height of the tail lamps", v.tail_height),
        ("amber_flashers", "Height of the warning lamps", v.flasher_height),
    ):
        need = found.need("tractor", item)
        if need is None or need.height_low is None or getattr(v, item) <= 0:
            continue
        high = need.height_high if need.height_high is not None else 10 * mirrors.FOOT
        name = f"{item}_height"
        binding = any(
            rule.height_low is not None and (rule.basis in rl.BINDING or found.federal["tractor"])
            for rule in need.rules
        )
        source = rl.cited(need)
        if binding:
            checks.append(
                ws.between(name, title, height, need.height_low, high, "length", source,
                           close_band=0.0, why="Too low or too high to be seen as a lamp.")
            )  # fmt: skip
        else:
            inside = need.height_low - 1e-9 <= height <= high + 1e-9
            checks.append(
                ws.fits(f"{name}_standard", title, 1.0 if inside else 0.0,
                        ws.phrase("The standard wants them {low} to {high} up.",
                                  low=(need.height_low, "length"), high=(high, "length")), source)
            )  # fmt: skip
    return checks


def _edge_checks(v: ws.Inputs, found: rl.Situation) -> list[ws.Check]:
    """Lamps near enough to the widest part of the tractor, where a rule says how near."""
    inward = max((v.tractor_width - v.lamp_spread) / 2, 0.0)
    checks = []
    for item, title in (
        ("tail_lamps", "Tail lamps to the edge of the tractor"),
        ("amber_flashers", "Warning lamps to the edge of the tractor"),
    ):
        need = found.need("tractor", item)
        if need is None or need.edge is None or getattr(v, item) <= 0:
            continue
        binding = any(
            rule.edge is not None and (rule.basis in rl.BINDING or found.federal["tractor"])
            for rule in need.rules
        )
        source = rl.cited(need)
        if binding:
            checks.append(
                ws.at_most(f"{item}_edge", title, inward, need.edge, "length", source,
                           close_band=0.0, why="They don't show how wide you are.")
            )  # fmt: skip
        else:
            near = inward <= need.edge + 1e-9
            checks.append(
                ws.fits(f"{item}_edge_standard", title, 1.0 if near else 0.0,
                        ws.phrase("The standard wants them within {edge}.",
                                  edge=(need.edge, "length")), source)
            )  # fmt: skip
    return checks


def _behind_checks(v: ws.Inputs, found: rl.Situation) -> list[ws.Check]:
    """What is hidden, and what the unit behind must carry of its own."""
    if v.behind_kind == "none":
        return []
    carries = rl.CARRIES[v.implement_marking]
    checks = []
    for name, title, item, height, clear in (
        ("tail_seen", "Tail lamps seen over what is behind", "tail_lamps", v.tail_height,
         found.clear_tail),
        ("amber_seen", "Warning lamps seen over what is behind", "amber_flashers",
         v.flasher_height, found.clear_amber),
    ):  # fmt: skip
        if clear > 0 and getattr(v, item) > 0 and item not in carries:
            if found.need("tractor", item) is None:
                continue
            checks.append(
                ws.at_least(name, title, height, clear, "length", "road/CALC-1; road/DOT-1",
                            close_band=0.0, why="Hidden lamps are no lamps.")
            )  # fmt: skip
    law, standard = _missing_behind(found, carries)
    missing = law or standard
    if missing:
        sentence = f"Missing on what is behind: {quantities.joined(missing)}."
        reason = _ASKED[_strongest(found)] if law else _ASKED["standard"]
    else:
        sentence, reason = "What is behind carries what it must.", ""
    sources = [rl.cited(need) for need in rl.listed(found, "towed")]
    if found.emblem_behind:
        sources.append(found.emblem_behind[1])
    if sources:
        checks.append(
            ws.fits("behind", "Marking of what is behind",
                    -1.0 if law else (0.0 if standard else 1.0), sentence,
                    rl.unique("; ".join(sources)), why=reason)
        )  # fmt: skip
    return checks


_ASKED = {
    "law": "The law that was read asks for it.",
    "maker": "The federal rule asked its maker for it.",
    "pattern": "The common pattern of state law asks for it; this state's own text was not read.",
    "memory": "The law asks for it, from memory.",
    "standard": "The standard asks for it.",
    "practice": "It is good practice.",
}


def _strongest(found: rl.Situation) -> str:
    """The strongest basis on which something is asked of what is behind."""
    bases = [need.basis for need in rl.listed(found, "towed")]
    if found.emblem_behind:
        bases.append(found.emblem_behind[2])
    return min(bases, key=lamps.BASES.index, default="standard")


def _missing_behind(found: rl.Situation, carries: frozenset[str]) -> tuple[list[str], list[str]]:
    """The items missing by binding rules, and by the standard. A chain isn't asked about."""
    law: list[str] = []
    standard: list[str] = []
    if found.emblem_behind and "emblem" not in carries:
        (law if found.emblem_behind[2] == "law" else standard).append("an emblem")
    for need in rl.listed(found, "towed"):
        if need.item in carries or need.item in ("safety_chain", "flags"):
            continue
        bound = rl.count_of(need, rl.BINDING, found.federal["towed"])
        (law if bound else standard).append(rl.item_row(need.item)["name"])
    return law, standard


def _size_checks(v: ws.Inputs, found: rl.Situation) -> list[ws.Check]:
    width = found.facts["width"]
    checks = []
    if v.behind_kind == "carried":
        limit, text, source = lamps.carried_width(v.place)
        checks.append(
            ws.at_most("carried", "Width of a carried machine", v.transport_width, limit, "length",
                       source, close_band=0.0, why=f"{text}.")
        )  # fmt: skip
    else:
        checks += rl.width_checks(v.place, v.hours, width)
    daylight = found.need("tractor", "daylight") or found.need("towed", "daylight")
    if daylight is not None:
        dark = v.hours == "dark"
        checks.append(
            ws.fits("daylight", "Hours of travel", -1.0 if dark else 1.0,
                    "This may travel by daylight only.", rl.cited(daylight))
        )  # fmt: skip
    return [*checks, *_speed_checks(v, width), *_road_fit_checks(v, width)]


def _speed_checks(v: ws.Inputs, width: float) -> list[ws.Check]:
    checks = []
    if v.rated_speed is not None and v.behind_kind != "none":
        checks.append(
            ws.at_most("rated_speed", "Speed of the slowest-rated unit", v.road_speed,
                       v.rated_speed, "speed", "road/STD-2", close_band=0.0,
                       why="A combination goes no faster than its slowest-rated unit.")
        )  # fmt: skip
    limit = lamps.road_speed_limit(v.place, width)
    if limit is None:
        return checks
    speed, text, source = limit
    if not speed:
        return [*checks, ws.fits("special_order", "Special order", -1.0, f"{text}.", source)]
    return [
        *checks,
        ws.at_most("speed", "Speed on the road", v.road_speed, speed, "speed", source,
                   why=f"{text}.", close_band=0.0)
    ]  # fmt: skip


def _road_fit_checks(v: ws.Inputs, width: float) -> list[ws.Check]:
    """Height under wires and bridges, and the lane."""
    checks = []
    heights = tables.by_key("road_heights", "place")
    row = heights.get(v.place) or (
        heights["US"] if lamps.place_row(v.place)["country"] == "US" else None
    )
    if row is not None:
        limit = lamps.measure(row["limit"])
        assert limit is not None
        checks.append(
            ws.at_most("height", "Overall height", max(v.overall_height, _top(v)), limit, "length",
                       row["source"], why="Wires and bridges.")
        )  # fmt: skip
    over = lamps.over_center_line(width, v.lane_width)
    checks.append(
        ws.fits("lane", "Staying in your lane", 0.0 if over > 0 else 1.0,
                ws.phrase("Reaches {over} over the center line when its right side is at the edge.",
                          over=(over, "length")) if over > 0 else "It fits in your lane.",
                "road/CALC-1",
                why="Stop and let traffic by before narrow places." if over > 0 else "")
    )  # fmt: skip
    return checks


def _top(v: ws.Inputs) -> float:
    return float(v.implement_top) if v.behind_kind != "none" else 0.0


def _mirror_check(v: ws.Inputs, found: rl.Situation) -> ws.Check | None:
    need = found.need("tractor", "mirrors")
    if need is None:
        return None
    binding = rl.count_of(need, rl.BINDING, found.federal["tractor"]) > 0
    if v.mirror_reach is None:
        return ws.fits(
            "mirror", "View to the rear", -1.0 if binding else 0.0,
            "No mirror that shows the road behind.", rl.cited(need),
        )  # fmt: skip
    edge = found.facts["reach"]
    if not found.facts["hides_rear"]:
        return ws.fits("mirror", "View to the rear", 1.0, "There is a mirror.", rl.cited(need))
    needed = mirrors.mirror_offset_needed(edge, v.lamps_to_implement + v.behind_hitch)
    if needed <= 0:
        return None
    if binding:
        return ws.at_least(
            "mirror", "Reach of the mirror", v.mirror_reach, needed, "length",
            f"{rl.cited(need)}; road/CALC-1", close_band=0.0,
            why="A car that follows can't be seen at 200 ft.",
        )  # fmt: skip
    far = v.mirror_reach >= needed
    return ws.fits(
        "mirror", "Reach of the mirror", 1.0 if far else 0.0,
        ws.phrase("A mirror {needed} from the middle shows a car 200 ft behind.",
                  needed=(needed, "length")), f"{rl.cited(need)}; road/CALC-1",
    )  # fmt: skip


def _steps(v: ws.Inputs, work: ws.Work, found: rl.Situation) -> None:
    if v.behind_kind == "none":
        return
    work.step("Reach to the left", "l", "w / 2 + offset",
              (("w", v.transport_width, "length"), ("offset", v.offset_left, "length")),
              found.facts["left"], "length", "road/CALC-1")  # fmt: skip
    if found.clear_tail > 0:
        work.step("Height at which a lamp shows over it, from 100 to 1,000 ft behind", "h",
                  "(top − eye × x/D) / (1 − x/D), the largest",
                  (("top", v.implement_top, "length"), ("eye", mirrors.EYE_HEIGHT, "length"),
                   ("x", v.lamps_to_implement, "length")),
                  found.clear_tail, "length", "road/DOT-1; road/CALC-1")  # fmt: skip


# --- advice ----------------------------------------------------------------------------------


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Give the lists to cross off, and solve for what would meet each check."""
    found = rl.situation(v)
    broken = {check.name for check in outcome.checks if check.margin < 0}
    lists = [
        rl.checklist(v, found, "tractor"),
        rl.checklist(v, found, "towed") if v.behind_kind != "none" else None,
        rl.conduct(v, found),
        rl.law_table(v.place),
    ]
    return ws.Advice(
        [*_emblem_remedies(v, broken, solve), *_lamp_remedies(v, outcome, found, broken, solve),
         *_size_remedies(v, broken, solve, bool(found.facts["hides_rear"]))],
        _cautions(v),
        [table for table in lists if table is not None],
        _notes(v, found),
        _headline(outcome),
    )  # fmt: skip


def _emblem_remedies(v: ws.Inputs, broken: set[str], solve: Solver) -> list[ws.Remedy]:
    remedies = []
    if "emblem" in broken:
        rule = lamps.emblem_rule_for(v.place)
        source = rule.source if rule else ""
        if v.emblem == "no":
            remedies.append(ws.Remedy("Fit a new emblem.", {"emblem": "yes"}, source))
        else:
            remedies.append(ws.Remedy("Take the emblem off or cover it.", {"emblem": "no"}, source))
    if "emblem_height" in broken:
        low, high = lamps.emblem_window(v.place)
        all_low, all_high = lamps.emblem_height_for_all()
        target = min(max(all_low, low), high)
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "Mount the emblem with its lower edge {low} to {high} above the road. Between "
                    "{all_low} and {all_high} it satisfies every height rule in our tables.",
                    low=(low, "length"), high=(high, "length"),
                    all_low=(all_low, "length"), all_high=(all_high, "length"),
                ),
                solved(solve, "emblem_height", target, ("emblem_height",), up=target <= low),
                "road/CALC-1",
            )
        )  # fmt: skip
    return remedies


def _lamp_remedies(
    v: ws.Inputs, outcome: ws.Outcome, found: rl.Situation, broken: set[str], solve: Solver
) -> list[ws.Remedy]:
    remedies = []
    for item, title in _COUNTED:
        check = outcome.check(item)
        if check is not None and check.margin < 0:
            wanted = int(check.limit)
            remedies.append(
                ws.Remedy(f"{title}: have {wanted} on the tractor.", {item: str(wanted)},
                          check.source)
            )  # fmt: skip
        standard = outcome.check(f"{item}_standard")
        if standard is not None and not standard.margin:
            need = found.need("tractor", item)
            asked = rl.count_of(need, lamps.BASES, False) if need else 0
            remedies.append(
                ws.Remedy(f"{title}: the standard asks for {asked}; worth fitting.",
                          {item: str(asked)}, standard.source)
            )  # fmt: skip
    for name, field_name, said in (
        ("tail_seen", "tail_height", "Raise the tail lamps to {h} and they show over it."),
        ("amber_seen", "flasher_height", "Raise the warning lamps to {h} and they show over it."),
    ):
        if name in broken:
            height = solve.smallest(field_name, getattr(v, field_name), 3.0, (name,))
            if height is not None:
                remedies.append(
                    ws.Remedy(ws.phrase(said, h=(height, "length")),
                              solved(solve, field_name, height, (name,), up=True),
                              "road/CALC-1")
                )  # fmt: skip
    for name, field_name in (
        ("tail_lamps_height", "tail_height"), ("amber_flashers_height", "flasher_height"),
    ):  # fmt: skip
        check = outcome.check(name)
        if check is not None and check.margin < 0:
            target = min(max(check.value, check.limit), check.upper)
            middle = (check.limit + check.upper) / 2
            remedies.append(
                ws.Remedy(
                    ws.phrase("{title}: between {low} and {high}.", title=check.title,
                              low=(check.limit, "length"), high=(check.upper, "length")),
                    solved(solve, field_name, target, (name,), up=target < middle),
                    check.source)
            )  # fmt: skip
    edges = [
        check.name
        for check in outcome.checks
        if check.name.partition("_edge")[1] and (check.name in broken or not check.margin)
    ]
    if edges:
        limits = [need.edge for need in found.needs if need.unit == "tractor" and need.edge]
        near = v.tractor_width - 2 * min(limits)
        remedies.append(
            ws.Remedy(
                ws.phrase("Set the lamps {apart} apart, so that they show your width.",
                          apart=(near, "length")),
                solved(solve, "lamp_spread", near, edges, up=True), "road/CALC-1",
            )
        )  # fmt: skip
    return [*remedies, *_marking_remedies(v, outcome, broken, solve)]


def _marking_remedies(
    v: ws.Inputs, outcome: ws.Outcome, broken: set[str], solve: Solver
) -> list[ws.Remedy]:
    names = tuple(broken & {"behind", "tail_seen", "amber_seen"})
    behind = outcome.check("behind")
    wanting = behind is not None and behind.margin <= 0
    if not names and not wanting:
        return []
    said = {
        "reflectors": "Put reflectors and strips on what is behind.",
        "emblem": "Put reflectors and an emblem of its own on what is behind.",
        "full": "Put a marking kit on what is behind: lamps, flashers, reflectors and an emblem, "
        "fed from the seven-terminal socket.",
    }
    for marking, text in said.items():
        after = solve.run(implement_marking=marking)
        marked = after.check("behind")
        enough = not wanting or marked is None or marked.margin > 0
        if marking != v.implement_marking and enough and (not names or after.margin(names) >= 0):
            return [ws.Remedy(text, {"implement_marking": marking}, "road/WEB-1")]
    return []


def _size_remedies(
    v: ws.Inputs, broken: set[str], solve: Solver, hidden_rear: bool
) -> list[ws.Remedy]:
    remedies = []
    names = tuple(broken & {"width_limit", "carried", "daylight", "speed", "special_order"})
    if "daylight" in broken and solve.run(hours="day").margin(("daylight",)) >= 0:
        remedies.append(
            ws.Remedy("Travel by daylight, in clear weather.", {"hours": "day"}, "road/CALC-1")
        )
    speeds = tuple(broken & {"speed", "rated_speed"})
    if speeds:
        speed = solve.largest("road_speed", 0.5, v.road_speed, speeds)
        if speed is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase("Drive {speed} or less.", speed=(speed, "speed")),
                    solved(solve, "road_speed", speed, speeds, up=False), "road/CALC-1",
                )
            )  # fmt: skip
    if names:
        width = solve.largest("transport_width", 0.5, v.transport_width, names)
        if width is not None and width < v.transport_width:
            remedies.append(
                ws.Remedy(
                    ws.phrase("Fold, turn or split it to {w} or less.", w=(width, "length")),
                    solved(solve, "transport_width", width, names, up=False),
                    "road/CALC-1",
                )
            )  # fmt: skip
    if "mirror" in broken and v.mirror_reach is None and not hidden_rear:
        half = v.tractor_width / 2
        remedies.append(
            ws.Remedy(
                "Fit a rear-view mirror.",
                solved(solve, "mirror_reach", half, ("mirror",), up=True),
                "road/CALC-1",
            )
        )
    elif "mirror" in broken:
        reach = solve.smallest("mirror_reach", v.mirror_reach or 0.1, 2.0, ("mirror",))
        if reach is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase("A mirror that reaches {reach} from the middle shows the road "
                              "behind.", reach=(reach, "length")),
                    solved(solve, "mirror_reach", reach, ("mirror",), up=True), "road/CALC-1",
                )
            )  # fmt: skip
    return remedies


def _cautions(v: ws.Inputs) -> list[ws.Caution]:
    cautions = [
        ws.Caution(
            "A summary for planning, not legal advice. Rules differ by state, county and road and "
            "change yearly. Check the current text, or ask the state police or the road "
            "department, before you travel.", "road/US-ALL-caution",
        ),
        ws.Caution(
            "Being lawful isn't the same as being seen. Run the flashers by day too where that is "
            "allowed, and keep lamps and emblem clean.", "road/OEM-2",
        ),
        ws.Caution(
            "On the road: implement raised and locked, shaft off, brake pedals locked together, "
            "roll-over bar up and belt on, no riders. The operator's manuals come first.",
            "road/ROAD-practice",
        ),
    ]  # fmt: skip
    return cautions


def _notes(v: ws.Inputs, found: rl.Situation) -> list[ws.Words]:
    notes: list[ws.Words] = []
    name = lamps.place_row(v.place)["name"]
    country = lamps.place_row(v.place)["country"]
    if not lamps.has_own_rules(v.place):
        notes.append(
            f"No rule of {name} itself is in our tables. The list follows the standard"
            + (" and the common pattern of state law" if country == "US" else "")
            + "; look up your own code."
        )
    if country == "US":
        notes.append(
            "The federal rule (49 CFR part 562) asked the maker of this tractor for lamps and "
            "marking to the standard."
            if found.federal["tractor"]
            else "The federal rule does not reach this tractor: it binds makers of field machines "
            "made for sale from June 2017 and asks nobody to refit an older one. State law applies "
            "all the same."
        )
    hours = tables.by_key("lamp_hours", "place")
    row = hours.get(v.place) or (hours["US-UVC"] if country == "US" else None)
    if row is not None and v.hours == "dark":
        notes.append(f"When lamps are required here: {row['text']}.")
    if lamps.emblem_rule_for(v.place) is not None and v.emblem == "yes":
        failing = [p for p in lamps.emblem_fails(v.emblem_height) if not p.startswith("US-STD")]
        names = sorted(lamps.place_row(p)["name"] for p in failing)
        notes.append(
            ws.phrase(
                "An emblem whose lower edge is at {h} is "
                + (f"out of place in {quantities.joined(names)}." if names
                   else "right under every height rule in our tables."),
                h=(v.emblem_height, "length"),
            )
        )  # fmt: skip
    unasked = [
        f"{rl.item_row(need.item)['name']}"
        for need in found.needs
        if rl.item_row(need.item)["group"] == "fit" and need.unit == "tractor"
        and need.item not in {item for item, _ in _COUNTED} | {"mirrors"}
    ]  # fmt: skip
    if unasked:
        notes.append(
            f"On the list but not asked about above, so not part of the finding: "
            f"{quantities.joined(unasked)}."
        )
    return notes


def _headline(outcome: ws.Outcome) -> ws.Words:
    """What to say when nothing is broken."""
    if outcome.margin() < 0:
        return ""
    wanting = [
        check.title for check in outcome.checks if check.sense == "fits" and not check.margin
    ]
    if wanting:
        return f"No rule that was read is broken; still to look at: {quantities.joined(wanting)}."
    return "No rule that was read is broken. Go through the lists below at the machine."


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Draw the rear view and the side view with every item in its place."""
    found = rl.situation(v)
    return [view.rear(v, found), view.side(v, found)]


WORKSHEET = ws.Worksheet(
    name="road",
    title="Lamps and marking for the road",
    question="What does my machine need to travel on the road?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="road/lighting",
    example="a compact tractor in Ohio at dusk with a raised 5 ft rotary cutter that carries no "
    "marking of its own.",
)
