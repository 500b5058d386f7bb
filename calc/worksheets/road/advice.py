"""What to do about it."""

from __future__ import annotations

from collections.abc import Sequence

from calc import model, quantities, si, tables
from calc.mechanics import road_limits, road_rules, smv_emblem
from calc.search import Remedies
from calc.subjects import road_list as rl
from calc.subjects import road_tables
from calc.worksheets.road.behind import missing
from calc.worksheets.road.emblem import SHOWN
from calc.worksheets.road.equipment import COUNTED, HIGHEST, PLACED

# The markings of what is behind, from least to most, and the words of each as a remedy.
MARKED = {"reflectors": "reflectors", "emblem": "marked", "full": "full"}
BEHIND = ("behind", "tail_seen", "amber_seen")
WIDTHS = ("width_limit", "carried", "daylight", "speed", "special_order")
FOUR_INCHES = 4 * si.INCH
SPEEDS = ("speed", "rated_speed", "symbol_speed")
JUST = 0.01  # m/s; "25 mph" in a law and on a page are the same speed
LOOK = "Is yours there, bright, and at the right height?"
LONGEST_LEAD = 160  # characters of a sentence that can be said aloud


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Give the lists to cross off, and solve for what would meet each check."""
    road = rl.situation(v)
    broken = set(remedies.broken)
    _emblem_remedies(v, broken, remedies)
    _lamp_remedies(v, found, road, broken, remedies)
    _marking_remedies(v, found, broken, remedies)
    _trip_remedies(v, road, broken, remedies)
    lists = [
        road_tables.checklist(v, road, "tractor"),
        road_tables.checklist(v, road, "towed") if v.behind_kind != "none" else None,
        road_tables.conduct(v, road),
        road_tables.law_table(v.place),
    ]
    return model.Advice(
        _standard_remedies(v, found, road, remedies),
        found.cautions("law", "seen", "trip"),
        [table for table in lists if table is not None],
        _notes(v, found, road),
        _headline(v, found, road),
        says={"emblem": _triangle(v, found, road), "width": _free(v, found)},
    )


def _free(v: model.Inputs, found: model.Found) -> model.Words:
    """What the law says of a width that it sets no number for."""
    rule = road_limits.width_rule(v.place)
    if rule is None:
        within = found.finding("lane") == model.WITHIN
        return found.note("width_unread" if within else "width_over")
    return found.note("width_free", says=model.in_sentence(rule.note))


# --- remedies --------------------------------------------------------------------------------


def _emblem_remedies(v: model.Inputs, broken: set[str], remedies: Remedies) -> None:
    if "emblem" in broken:
        remedies.choose("emblem", "yes", mends=("emblem",), also=_in_window(v, remedies))
    if "emblem_off" in broken:
        remedies.choose("emblem", "no", mends=("emblem_off",), key="emblem_off")
    if "speed_symbol" in broken:
        remedies.choose("speed_symbol", "yes", mends=("speed_symbol",), source="road/STD-1")
    if "emblem_height" in broken:
        low, high = smv_emblem.emblem_window(v.place)
        all_low, all_high = smv_emblem.emblem_height_for_all()
        ends = {"low": low, "high": high, "all_low": all_low, "all_high": all_high}
        numbers = {name: (value, "length") for name, value in ends.items()}
        height = {"emblem_height": _target(v)}
        remedies.change(
            "emblem_height", height, mends=("emblem_height",), source="road/CALC-1", **numbers
        )


def _target(v: model.Inputs) -> float:
    """A height right here and, where that can be, everywhere."""
    low, high = smv_emblem.emblem_window(v.place)
    return float(min(max(smv_emblem.emblem_height_for_all()[0], low), high))


def _in_window(v: model.Inputs, remedies: Remedies) -> dict[str, float]:
    """A new emblem goes where it is right, as near to the place of the old one as that is."""
    low, high = smv_emblem.emblem_window(v.place)
    near = remedies.whole("emblem_height", v.emblem_height, step=1.0)
    return {"emblem_height": float(min(max(near, low), high))}


def _lamp_remedies(
    v: model.Inputs,
    found: model.Found,
    road: rl.Situation,
    broken: set[str],
    remedies: Remedies,
) -> None:
    fitted = {}
    for item in COUNTED:
        need = road.need("tractor", item) if item in broken else None
        if need is not None:
            wanted = float(rl.count_of(need, rl.BINDING, road.federal["tractor"]))
            fitted[item] = wanted
            asked = (wanted, "count")
            source = rl.cited(need)
            if not remedies.change(item, {item: wanted}, mends=(item,), source=source, n=asked):
                _fit_over(item, wanted, need, road, remedies)
    if len(fitted) > 1:
        names = [rl.item_row(item)["short"] for item in fitted]
        remedies.change("all_lamps", fitted, source="road/CALC-1", names=quantities.joined(names))
    if "head_lamps_seen" in broken:
        remedies.choose("bucket", "none", mends=("head_lamps_seen",), source="road/CALC-1")
    for name, (_, field) in zip(("tail_seen", "amber_seen"), PLACED, strict=True):
        if name in broken:
            remedies.more(field, mends=(name,), step=1.0, key=name, source="road/CALC-1")
    for item, field in PLACED:
        name = f"{item}_height"
        need = road.need("tractor", item) if name in broken else None
        if need is not None and need.height_low is not None:
            low, high = need.height_low, need.height_high or HIGHEST
            target = min(max(getattr(v, field), low), high)
            ends = {"low": (low, "length"), "high": (high, "length")}
            remedies.change(name, {field: target}, mends=(name,), source=rl.cited(need), **ends)
    edges = [name for name in broken if name.endswith("_edge")]
    if edges:
        apart = remedies.whole("lamp_spread", _apart(v, road), up=True)
        remedies.change("lamp_spread", {"lamp_spread": apart}, mends=edges, source="road/CALC-1")


def _fit_over(
    item: str, wanted: float, need: road_rules.Need, road: rl.Situation, remedies: Remedies
) -> None:
    """Lamps where there were none: as low as they show over what is behind, in steps of 4 in."""
    field = dict(PLACED).get(item)
    if field is None or road.clear_tail <= 0:
        return
    highest = need.height_high or HIGHEST
    for step in range(int(highest / FOUR_INCHES)):
        height = road.clear_tail + step * FOUR_INCHES
        height = remedies.whole(field, height, step=1.0, up=True)
        if height > highest:
            return
        changes = {item: wanted, field: height}
        asked, source = (wanted, "count"), rl.cited(need)
        if remedies.change(f"{item}_over", changes, mends=(item,), source=source, n=asked):
            return


def _apart(v: model.Inputs, road: rl.Situation) -> float:
    limits = [need.edge for need in road.needs if need.unit == "tractor" and need.edge]
    return float(v.tractor_width - 2 * min(limits))


def _marking_remedies(
    v: model.Inputs, found: model.Found, broken: set[str], remedies: Remedies
) -> None:
    """The least marking of its own that mends what is behind."""
    names = broken & set(BEHIND)
    if not names:
        return
    for marking in MARKED:
        if marking == v.implement_marking:
            continue
        changes = {"implement_marking": marking}
        if remedies.change(MARKED[marking], changes, mends=names, source="road/WEB-1"):
            return


def _trip_remedies(
    v: model.Inputs, road: rl.Situation, broken: set[str], remedies: Remedies
) -> None:
    if "daylight" in broken:
        remedies.choose("hours", "day", mends=("daylight",), source="road/CALC-1")
    for name in ("escort", "permit"):
        if name in broken:
            remedies.choose(name, "yes", mends=(name,), source="road/CALC-1")
    speeds = broken & set(SPEEDS)
    if speeds:
        remedies.less("road_speed", mends=speeds, step=1.0, source="road/CALC-1")
    names = broken & set(WIDTHS)
    if names:
        slower = {"road_speed": lambda wide: _allowed(v, wide)}
        remedies.less("transport_width", mends=names, step=1.0, also=slower, source="road/CALC-1")
    if "mirror" in broken:
        half = remedies.whole("mirror_reach", v.tractor_width / 2, step=1.0, up=True)
        reach = {"mirror_reach": half}
        if v.mirror_reach is None and not road.facts["hides_rear"]:
            remedies.change("mirror", reach, mends=("mirror",), source="road/CALC-1")
        elif v.mirror_reach is None:
            _mirror(v, remedies)
        else:
            remedies.more("mirror_reach", mends=("mirror",), end=2.0, step=1.0)


def _allowed(v: model.Inputs, wide: float) -> float:
    """The speed at a width: some laws slow down what is wide."""
    limit = road_limits.road_speed_limit(v.place, max(wide, v.tractor_width))
    return float(min(v.road_speed, limit[0])) if limit and limit[0] else float(v.road_speed)


def _mirror(v: model.Inputs, remedies: Remedies) -> None:
    """The first mirror, of those in steps of two inches, that shows the road behind."""
    for inches in range(20, 79, 2):
        whole = remedies.whole("mirror_reach", inches * si.INCH, step=1.0, up=True)
        reach = {"mirror_reach": whole}
        if remedies.change("mirror_reach", reach, mends=("mirror",), source="road/CALC-1"):
            return


def _standard_remedies(
    v: model.Inputs, found: model.Found, road: rl.Situation, solve: Remedies
) -> list[model.Remedy]:
    """What the standard asks for beyond the law: worth fitting, and nothing is broken."""
    remedies = []
    emblem = found.outcome.check("emblem")
    by_law = smv_emblem.emblem_by_law(v.place, v.top_speed, v.road_speed)
    if emblem is not None and not emblem.margin and v.emblem == "no" and not by_law:
        height = _in_window(v, solve)["emblem_height"]
        text = found.worded("remedies", "emblem", emblem_height=(height, "length"))
        remedies.append(model.Remedy(text, {"emblem": "yes"}, emblem.source))
    for item in COUNTED:
        check = found.outcome.check(f"{item}_standard")
        need = road.need("tractor", item)
        if check is None or check.margin or need is None:
            continue
        asked = rl.count_of(need, road_rules.BASES, False)
        name = rl.item_row(item)["name"]
        text = found.worded("remedies", "standard", name=name, asked=(float(asked), "count"))
        remedies.append(model.Remedy(text, {item: str(asked)}, check.source))
    edges = [
        check
        for check in found.outcome.checks
        if check.name.endswith("_edge_standard") and not check.margin
    ]
    if edges:
        apart = solve.whole("lamp_spread", _apart(v, road), up=True)
        text = found.worded("remedies", "lamp_spread", lamp_spread=(apart, "length"))
        typed = {"lamp_spread": solve.typed("lamp_spread", apart)}
        remedies.append(model.Remedy(text, typed, "road/CALC-1"))
    behind = found.outcome.check("behind")
    if behind is not None and not behind.margin:
        for marking in MARKED:
            if not missing(v.but(implement_marking=marking), road):
                text = found.worded("remedies", MARKED[marking])
                typed = {"implement_marking": marking}
                remedies.append(model.Remedy(text, typed, "road/WEB-1"))
                break
    by_day = found.outcome.check("daylight")
    if by_day is not None and not by_day.margin:  # a rule for some machines only
        need = road.daylight
        rule = model.in_sentence("; ".join(rule.text for rule in need.rules)) if need else ""
        text = found.worded("remedies", "hours_some", text=rule)
        remedies.append(model.Remedy(text, {"hours": "day"}, by_day.source))
    return remedies


# --- what is said ----------------------------------------------------------------------------


def _notes(v: model.Inputs, found: model.Found, road: rl.Situation) -> list[model.Words]:
    row = road_rules.place_row(v.place)
    notes: list[model.Words] = [_depth(v.place, row["name"], road.american)]
    if road.american:
        notes.append(found.note("bound" if road.federal["tractor"] else "unbound"))
    hours = tables.by_key("road/lamp_hours", "place")
    when = hours.get(v.place) or (hours["US-UVC"] if road.american else None)
    if when is not None and v.hours == "dark":
        notes.append(f"When lamps are required here: {when['text']}.")
    if smv_emblem.emblem_rule_for(v.place) is not None and v.emblem == "yes":
        failing = [
            p for p in smv_emblem.emblem_fails(v.emblem_height) if not p.startswith("US-STD")
        ]
        names = sorted(road_rules.place_row(p)["name"] for p in failing)
        key = "emblem_elsewhere" if names else "emblem_everywhere"
        notes.append(
            found.note(key, h=(v.emblem_height, "length"), places=quantities.joined(names))
        )
    unasked = [
        rl.item_row(need.item)["name"]
        for need in rl.listed(road, "tractor")
        if need.item not in {*COUNTED, "mirrors"}
    ]
    if unasked:
        notes.append(found.note("unasked", items=quantities.joined(unasked)))
    return notes


def _depth(place: str, name: str, american: bool) -> str:
    """How much of a place's law was read, and of which years."""
    rows = [row for row in tables.rows("road/state_road_rules") if row["place"] == place]
    if not rows:
        pattern = " and the common pattern of state law" if american else ""
        where = "your place" if place == "OTHER" else name
        return (
            f"No rule was read for {where}. The list follows the standard{pattern}; "
            "look up your own code."
        )
    years = sorted({row["year"] for row in rows if row["year"].isdigit()})
    span = years[0] if len(years) == 1 else f"{years[0]} to {years[-1]}" if years else "undated"
    count = f"{len(rows)} rule{'s' if len(rows) > 1 else ''}"
    texts = "undated copies" if span == "undated" else f"texts of {span}"
    stands = (
        " What they leave open follows the standard and the common pattern of state law."
        if american
        else ""
    )
    return f"Read of {name}: {count}, {texts}.{stands}"


def _needed(v: model.Inputs, road: rl.Situation) -> list[str]:
    """The short names of what the lists hold, the tractor first."""
    emblem = ["an emblem"] if road.emblem_use in SHOWN else []
    symbol = ["a speed sign"] if road.symbol else []
    items = [rl.item_row(need.item)["short"] for need in rl.listed(road, "tractor")]
    return list(dict.fromkeys([*emblem, *symbol, *items]))


def _headline(v: model.Inputs, found: model.Found, road: rl.Situation) -> model.Words:
    """What is needed here, and everything of it that is missing or wrong."""
    where = road_rules.place_row(v.place)["name"]
    where = f"{where[:1].upper()}{where[1:]}"
    when = "by day" if v.hours == "day" else "at dusk or dark"
    needed = quantities.joined(_needed(v, road)) or "nothing that was read"
    # A hidden emblem is told among what is missing behind.
    told = [x for x in found.verdicts if x.check.name != "emblem_seen"]
    wrong = [_wrong(v, road, x.check) for x in told if x.finding == model.OVER]
    open_ = [model.in_sentence(x.check.title) for x in told if x.finding == model.UNKNOWN]
    asked = f"{where}, {when}: {needed}."
    if wrong:
        all_of_it = f"{asked} Missing or wrong: {quantities.joined(wrong)}."
        if len(all_of_it) <= LONGEST_LEAD:
            return all_of_it
        return _in_short(f"{where}, {when}.", "Missing or wrong: ", wrong)
    day = road.daylight
    if day is not None and v.hours == "dark":  # what nobody would look for below
        asked += "".join(f" {rule.text}." for rule in day.rules)
    unseen = {x.check.name for x in found.verdicts if x.finding == model.UNKNOWN}
    if len(open_) > 2 and unseen & {"emblem", *COUNTED}:
        return f"{asked} Which of these are on it?"
    if open_:
        return _in_short(asked, "Still to be seen: ", open_)
    wanting = [
        model.in_sentence(check.title)
        for check in found.outcome.checks
        if check.sense == "fits" and not check.margin and check.name != "emblem_seen"
    ]
    if wanting:
        return _in_short(asked, "Worth a look: ", wanting)
    return f"{asked} All of it is there."


def _triangle(v: model.Inputs, found: model.Found, road: rl.Situation) -> model.Words:
    """Whether it needs an emblem, and a sign with it, by whose rule, and whether both are there."""
    rule = smv_emblem.emblem_rule_for(v.place)
    if rule is None:
        return "No: the rules read for this place know no such emblem."
    numbers = {"speed": (rule.speed_to, "speed"), "top": (v.top_speed, "speed")}
    return model.phrase(_whose_rule(v, found, road, rule), **numbers)


def _whose_rule(
    v: model.Inputs, found: model.Found, road: rl.Situation, rule: smv_emblem.EmblemRule
) -> str:
    than = "less than {speed}" if rule.below else "{speed} or less"
    if road.emblem_use not in SHOWN:
        return f"No: it is for machines of {than}, and yours is built for {{top}}."
    sign = "" if road.emblem_use == "show" else ", with a speed sign beside it"
    by_law = smv_emblem.emblem_by_law(v.place, v.top_speed, v.road_speed)
    missing = v.emblem == "no" and "emblem" not in found.assumed
    asks = f"It depends on how fast it is used: the law here says {than}"
    if missing and found.finding("emblem") == model.UNKNOWN and not rule.amber_instead:
        return f"{asks}, and yours is built for {{top}}. Fit one."
    # Where the design counts, how fast it is driven changes nothing.
    built_at = rule.counts and rule.below and abs(v.top_speed - rule.speed_to) < JUST
    if built_at and "top_speed" not in found.assumed and "road_speed" in found.assumed:
        return f"{asks}, and yours is built for {{top}}. With the emblem on it is right."
    standard_alone = f"Not by the law here, which says {than}; by the standard yes"
    if found.finding("emblem") == model.CLOSE and not by_law:
        if rule.required == "standard":
            return f"By the standard yes{sign}: no law was read that asks for it here."
        return f"{standard_alone}{sign}."
    if found.finding("emblem") == model.CLOSE:
        return "Not with a flashing amber light: by the law here that may stand in for it."
    if missing and rule.amber_instead:
        return f"Yes, or a flashing amber light instead: machines for {than} show one of them."
    findings = {found.finding(name) for name in ("emblem", "emblem_height", "speed_symbol")}
    known = model.UNKNOWN not in findings
    if not sign:
        asks = f"Yes: machines for {than} show it"
        if rule.below and not by_law and "top_speed" not in found.assumed:
            asks = standard_alone
        return f"{asks}, and yours is there." if known else f"{asks}. {LOOK}"
    if found.finding("speed_symbol") == model.CLOSE:
        return "Yes, and it is there. The standard has a speed sign beside it: yours does {top}."
    asks = f"Yes{sign}: yours is built for {{top}}, more than {{speed}}."
    return f"{asks} Both are there." if known else f"{asks} Are both there?"


def _in_short(asked: str, lead: str, listed: Sequence[str]) -> str:
    """What is asked for, and as much of a list as a sentence holds; the answer lists the rest."""
    for count in range(len(listed), 0, -1):
        more = len(listed) - count
        named = [*listed[:count], *([f"{more} more"] if more else [])]
        said = f"{asked} {lead}{quantities.joined(named)}."
        if len(said) <= LONGEST_LEAD:
            return said
    things = "one thing" if len(listed) == 1 else f"{len(listed)} things"
    return f"{asked} {lead}{things}, listed below."


def _wrong(v: model.Inputs, road: rl.Situation, check: model.Check) -> str:
    """What is broken, in a few words; of what is behind, everything that is missing."""
    if check.name == "behind":
        items = [item for item, binding in missing(v, road) if binding]
        names = [rl.item_row(item)["short"] for item in items]
        return f"{quantities.joined(names)} on what is behind"
    return model.in_sentence(check.broken or check.title)
