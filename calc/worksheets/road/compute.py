"""The sums."""

from __future__ import annotations

from calc import arith, model, quantities, tables
from calc.mechanics import lamps, mirrors
from calc.subjects import road_list as rl

# --- checks ----------------------------------------------------------------------------------

_COUNTED = (
    ("head_lamps", "White head lamps"),
    ("tail_lamps", "Red tail lamps"),
    ("amber_flashers", "Amber warning lamps"),
    ("turn_signals", "Turn signals"),
    ("rear_reflectors", "Red reflectors"),
)


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
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
        model.Output("width", "Widest part", facts["width"], "length"),
        model.Output(
            "reach",
            "Reach from the tractor's center line",
            facts["reach"],
            "length",
            "the larger side",
        ),
        model.Output("items", "Items to carry", arith.number(rl.item_count(v, found)), "count"),
    ]
    if work.on:
        _steps(v, work, found)
    return model.Outcome(checks, outputs)


def _emblem_checks(v: model.Inputs, found: rl.Situation) -> list[model.Check]:
    rule = lamps.emblem_rule_for(v.place)
    if rule is None or not model.wants("emblem", "emblem_height"):
        return []
    has = v.emblem == "yes"
    checks = []
    if found.emblem_use in ("show", "with symbol"):
        margin = 1.0 if has else (-1.0 if rule.required == "law" else 0.0)
        checks.append(
            model.fits(
                "emblem",
                "Slow-moving-vehicle emblem",
                margin,
                "The emblem is on the tractor." if has else "The tractor has no good emblem.",
                rule.source,
                why="Drivers don't see in time how slow you are.",
            )
        )
        if has:
            low, high = lamps.emblem_window(v.place)
            checks.append(
                model.between(
                    "emblem_height",
                    "Lower edge of the emblem",
                    v.emblem_height,
                    low,
                    high,
                    "length",
                    rule.source if rule.height_low else "road/EXT-2",
                    close_band=0.0,
                    why="It is out of the place where drivers look.",
                )
            )
    elif has:
        said = "comes off or is covered" if found.emblem_use == "covered" else "is not shown"
        checks.append(
            model.fits(
                "emblem",
                "Slow-moving-vehicle emblem",
                -1.0,
                f"Above the emblem's speed it {said} here.",
                rule.source,
                why="It tells drivers that you are slower than you are.",
            )
        )
    return checks


def _lamp_checks(v: model.Inputs, found: rl.Situation) -> list[model.Check]:
    checks = []
    federal = found.federal["tractor"]
    for item, title in _COUNTED:
        if not model.wants(item, f"{item}_standard"):
            continue
        need = found.need("tractor", item)
        if need is None:
            continue
        has = getattr(v, item)
        bound = rl.count_of(need, rl.BINDING, federal)
        asked = rl.count_of(need, lamps.BASES, federal)
        source = rl.cited(need)
        if bound:
            checks.append(
                model.at_least(
                    item,
                    title,
                    has,
                    arith.number(bound),
                    "count",
                    source,
                    close_band=0.0,
                    why=_ASKED[need.basis],
                )
            )
        if asked > bound and has >= bound:
            enough = 1.0 - arith.below(has, asked)
            checks.append(
                model.fits(
                    f"{item}_standard",
                    f"{title}, by the standard",
                    enough,
                    f"The standard asks for {asked}.",
                    source,
                    why="Not law for a machine of this age as far as was read, but good practice.",
                )
            )
    return [*checks, *_height_checks(v, found), *_edge_checks(v, found)]


def _height_checks(v: model.Inputs, found: rl.Situation) -> list[model.Check]:
    """Heights of tail and warning lamps, where a rule gives them and there are lamps."""
    checks = []
    for item, title, height in (
        ("tail_lamps", "Height of the tail lamps", v.tail_height),
        ("amber_flashers", "Height of the warning lamps", v.flasher_height),
    ):
        if not model.wants(f"{item}_height", f"{item}_height_standard"):
            continue
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
                model.between(
                    name,
                    title,
                    height,
                    need.height_low,
                    high,
                    "length",
                    source,
                    close_band=0.0,
                    why="Too low or too high to be seen as a lamp.",
                )
            )
        else:
            outside = arith.max(
                arith.below(height, need.height_low - 1e-9), arith.below(high + 1e-9, height)
            )
            checks.append(
                model.fits(
                    f"{name}_standard",
                    title,
                    1.0 - outside,
                    model.phrase(
                        "The standard wants them {low} to {high} up.",
                        low=(need.height_low, "length"),
                        high=(high, "length"),
                    ),
                    source,
                )
            )
    return checks


def _edge_checks(v: model.Inputs, found: rl.Situation) -> list[model.Check]:
    """Lamps near enough to the widest part of the tractor, where a rule says how near."""
    inward = arith.max((v.tractor_width - v.lamp_spread) / 2, 0.0)
    checks = []
    for item, title in (
        ("tail_lamps", "Tail lamps to the edge of the tractor"),
        ("amber_flashers", "Warning lamps to the edge of the tractor"),
    ):
        if not model.wants(f"{item}_edge", f"{item}_edge_standard"):
            continue
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
                model.at_most(
                    f"{item}_edge",
                    title,
                    inward,
                    need.edge,
                    "length",
                    source,
                    close_band=0.0,
                    why="They don't show how wide you are.",
                )
            )
        else:
            near = 1.0 - arith.below(need.edge + 1e-9, inward)
            checks.append(
                model.fits(
                    f"{item}_edge_standard",
                    title,
                    near,
                    model.phrase(
                        "The standard wants them within {edge}.", edge=(need.edge, "length")
                    ),
                    source,
                )
            )
    return checks


def _behind_checks(v: model.Inputs, found: rl.Situation) -> list[model.Check]:
    """What is hidden, and what the unit behind must carry of its own."""
    if v.behind_kind == "none":
        return []
    carries = rl.CARRIES[v.implement_marking]
    checks = []
    for name, title, item, height, clear in (
        (
            "tail_seen",
            "Tail lamps seen over what is behind",
            "tail_lamps",
            v.tail_height,
            found.clear_tail,
        ),
        (
            "amber_seen",
            "Warning lamps seen over what is behind",
            "amber_flashers",
            v.flasher_height,
            found.clear_amber,
        ),
    ):
        if not model.wants(name) or item in carries:
            continue
        if clear > 0 and getattr(v, item) > 0:
            if found.need("tractor", item) is None:
                continue
            checks.append(
                model.at_least(
                    name,
                    title,
                    height,
                    clear,
                    "length",
                    "road/CALC-1; road/DOT-1",
                    close_band=0.0,
                    why="Hidden lamps are no lamps.",
                )
            )
    if not model.wants("behind"):
        return checks
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
            model.fits(
                "behind",
                "Marking of what is behind",
                -1.0 if law else (0.0 if standard else 1.0),
                sentence,
                rl.unique("; ".join(sources)),
                why=reason,
            )
        )
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


def _size_checks(v: model.Inputs, found: rl.Situation) -> list[model.Check]:
    width = found.facts["width"]
    checks = []
    if v.behind_kind == "carried":
        limit, text, source = lamps.carried_width(v.place)
        checks.append(
            model.at_most(
                "carried",
                "Width of a carried machine",
                v.transport_width,
                limit,
                "length",
                source,
                close_band=0.0,
                why=f"{text}.",
            )
        )
    elif model.wants("width_limit", "width"):
        checks += rl.width_checks(v.place, v.hours, width)
    daylight = None
    if model.wants("daylight"):
        daylight = found.need("tractor", "daylight") or found.need("towed", "daylight")
    if daylight is not None:
        dark = v.hours == "dark"
        checks.append(
            model.fits(
                "daylight",
                "Hours of travel",
                -1.0 if dark else 1.0,
                "This may travel by daylight only.",
                rl.cited(daylight),
            )
        )
    return [*checks, *_speed_checks(v, width), *_road_fit_checks(v, width)]


def _speed_checks(v: model.Inputs, width: float) -> list[model.Check]:
    checks = []
    if v.rated_speed is not None and v.behind_kind != "none":
        checks.append(
            model.at_most(
                "rated_speed",
                "Speed of the slowest-rated unit",
                v.road_speed,
                v.rated_speed,
                "speed",
                "road/STD-2",
                close_band=0.0,
                why="A combination goes no faster than its slowest-rated unit.",
            )
        )
    limit = None
    if model.wants("special_order", "speed"):
        limit = lamps.road_speed_limit(v.place, width)
    if limit is None:
        return checks
    speed, text, source = limit
    if not speed:
        return [*checks, model.fits("special_order", "Special order", -1.0, f"{text}.", source)]
    return [
        *checks,
        model.at_most(
            "speed",
            "Speed on the road",
            v.road_speed,
            speed,
            "speed",
            source,
            why=f"{text}.",
            close_band=0.0,
        ),
    ]


def _road_fit_checks(v: model.Inputs, width: float) -> list[model.Check]:
    """Height under wires and bridges, and the lane."""
    checks = []
    heights = tables.by_key("road/road_heights", "place")
    row = heights.get(v.place) or (
        heights["US"] if lamps.place_row(v.place)["country"] == "US" else None
    )
    if row is not None:
        limit = lamps.measure(row["limit"])
        assert limit is not None
        checks.append(
            model.at_most(
                "height",
                "Overall height",
                arith.max(v.overall_height, _top(v)),
                limit,
                "length",
                row["source"],
                why="Wires and bridges.",
            )
        )
    if not model.wants("lane"):
        return checks
    over = lamps.over_center_line(width, v.lane_width)
    checks.append(
        model.fits(
            "lane",
            "Staying in your lane",
            0.0 if over > 0 else 1.0,
            model.phrase(
                "Reaches {over} over the center line when its right side is at the edge.",
                over=(over, "length"),
            )
            if over > 0
            else "It fits in your lane.",
            "road/CALC-1",
            why="Stop and let traffic by before narrow places." if over > 0 else "",
        )
    )
    return checks


def _top(v: model.Inputs) -> float:
    return arith.number(v.implement_top) if v.behind_kind != "none" else 0.0


def _mirror_check(v: model.Inputs, found: rl.Situation) -> model.Check | None:
    need = found.need("tractor", "mirrors") if model.wants("mirror") else None
    if need is None:
        return None
    binding = rl.count_of(need, rl.BINDING, found.federal["tractor"]) > 0
    if v.mirror_reach is None:
        return model.fits(
            "mirror",
            "View to the rear",
            -1.0 if binding else 0.0,
            "No mirror that shows the road behind.",
            rl.cited(need),
        )
    edge = found.facts["reach"]
    if not found.facts["hides_rear"]:
        return model.fits("mirror", "View to the rear", 1.0, "There is a mirror.", rl.cited(need))
    needed = mirrors.mirror_offset_needed(edge, v.lamps_to_implement + v.behind_hitch)
    if needed <= 0:
        return None
    if binding:
        return model.at_least(
            "mirror",
            "Reach of the mirror",
            v.mirror_reach,
            needed,
            "length",
            f"{rl.cited(need)}; road/CALC-1",
            close_band=0.0,
            why="A car that follows can't be seen at 200 ft.",
        )
    far = v.mirror_reach >= needed
    return model.fits(
        "mirror",
        "Reach of the mirror",
        1.0 if far else 0.0,
        model.phrase(
            "A mirror {needed} from the middle shows a car 200 ft behind.",
            needed=(needed, "length"),
        ),
        f"{rl.cited(need)}; road/CALC-1",
    )


def _steps(v: model.Inputs, work: model.Work, found: rl.Situation) -> None:
    if v.behind_kind == "none":
        return
    work.step(
        "Reach to the left",
        "l",
        "w / 2 + offset",
        (("w", v.transport_width, "length"), ("offset", v.offset_left, "length")),
        found.facts["left"],
        "length",
        "road/CALC-1",
    )
    if found.clear_tail > 0:
        work.step(
            "Height at which a lamp shows over it, from 100 to 1,000 ft behind",
            "h",
            "(top − eye × x/D) / (1 − x/D), the largest",
            (
                ("top", v.implement_top, "length"),
                ("eye", mirrors.EYE_HEIGHT, "length"),
                ("x", v.lamps_to_implement, "length"),
            ),
            found.clear_tail,
            "length",
            "road/DOT-1; road/CALC-1",
        )
