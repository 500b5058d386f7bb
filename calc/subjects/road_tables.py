"""The lists of what a machine on the road needs, worded: to cross off, to do, and the law."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import road_limits, road_rules, smv_emblem
from calc.sources import unique
from calc.subjects import road_list as rl

Row = tuple[model.Cell, ...]
COLUMNS = ("No.", "What, where and when", "Why")
ALWAYS = "always on the road"


def _what(name: str, need: road_rules.Need) -> model.Phrase:
    """What an item is, where it goes and when it is needed, in the reader's units."""
    parts: list[str] = [name]
    numbers: dict[str, tuple[float, str] | tuple[float, str, str] | str] = {}
    if need.height_low is not None and need.height_high is not None:
        parts.append("{low} to {high} above the road")
    elif need.height_low is not None:
        parts.append("at least {low} above the road")
    if need.height_low is not None:
        numbers["low"] = (need.height_low, "length")
    if need.height_high is not None:
        numbers["high"] = (need.height_high, "length")
    if need.edge is not None:
        parts.append("within {edge} of the edge")
        numbers["edge"] = (need.edge, "length")
    if need.seen is not None:
        parts.append("seen at {seen}")
        numbers["seen"] = (need.seen, "distance")
    parts.append(ALWAYS if need.hours == "any" else "when lamps are required")
    return model.Phrase("; ".join(parts), numbers)


def _named(need: road_rules.Need) -> str:
    name = rl.item_row(need.item)["name"]
    return f"{need.count} {name}" if need.count > 1 else name[0].upper() + name[1:]


def _reasons(need: road_rules.Need) -> str:
    by_basis: dict[str, list[str]] = {}
    for rule in sorted(need.rules, key=lambda rule: road_rules.BASES.index(rule.basis)):
        by_basis.setdefault(rule.basis, []).append(rule.text)
    return " ".join(
        f"{road_rules.BASIS_WORDS[basis].capitalize()}: {'; '.join(dict.fromkeys(texts))}."
        for basis, texts in by_basis.items()
    )


def emblem_rows(v: model.Inputs, found: rl.Situation) -> list[tuple[str, Row, str]]:
    """The rows of the emblem and the speed symbol: item, cells, source."""
    rule = smv_emblem.emblem_rule_for(v.place)
    if rule is None or found.emblem_use == "none":
        return []
    low, high = smv_emblem.emblem_window(v.place)
    basis = "Law that was read" if rule.required == "law" else "Standard"
    shown = found.emblem_use in ("show", "with symbol")
    said: model.Words = {
        "covered": "Emblem taken off or covered while you go faster than it allows",
        "not shown": "No emblem",
    }.get(found.emblem_use, "")
    if shown:
        said = model.phrase(
            "Slow-moving-vehicle emblem; lower edge {low} to {high} above the road, center of the "
            f"rear or just left of it; {ALWAYS}",
            low=(low, "length"),
            high=(high, "length"),
        )
    rows: list[tuple[str, Row, str]] = []
    own = rule.height_low is not None
    height = "" if own else " The height is the standard’s."
    cites = rule.source if own else f"{rule.source}; road/EXT-2"
    rows.append(("emblem", (said, f"{basis}: {rule.text}.{height}"), cites))
    if found.symbol:
        text: model.Words = model.phrase(
            "Designed for more than {low}: the emblem goes with a symbol that states the highest "
            "speed, and no unit of the combination may be rated lower.",
            low=(rule.speed_to, "speed"),
        )
        rows.append(
            (
                "speed_symbol",
                (f"Speed identification symbol; beside the emblem; {ALWAYS}", text),
                "road/STD-1; road/STD-2",
            )
        )
    return rows


def checklist(v: model.Inputs, found: rl.Situation, unit: str) -> model.Table | None:
    """The crossable list of one unit; its numbers stand in the drawing."""
    rows: list[tuple[model.Cell, ...]] = []
    sources: list[str] = []
    if unit == "tractor":
        for _, cells, source in emblem_rows(v, found):
            rows.append(cells)
            sources.append(source)
    elif found.emblem_behind:
        why, source, _ = found.emblem_behind
        low, high = smv_emblem.emblem_window(v.place)
        rows.append(
            (
                model.phrase(
                    "Slow-moving-vehicle emblem of its own; lower edge {low} to {high} above "
                    f"the road; {ALWAYS}",
                    low=(low, "length"),
                    high=(high, "length"),
                ),
                f"{why}.",
            )
        )
        sources.append(source)
    for need in rl.listed(found, unit):
        rows.append((_what(_named(need), need), _reasons(need)))
        sources.append(rl.cited(need))
    if not rows:
        return None
    start = number_of_first(v, found, unit)
    title = "On the tractor" if unit == "tractor" else "On what is behind"
    return model.Table(
        f"{title}: cross off what is there",
        COLUMNS,
        tuple((str(start + i), *row) for i, row in enumerate(rows)),
        unique("; ".join(sources)),
        checklist=True,
    )


def number_of_first(v: model.Inputs, found: rl.Situation, unit: str) -> int:
    """The number of a unit's first item: the list behind goes on where the tractor's ends."""
    if unit == "tractor":
        return 1
    return 1 + len(emblem_rows(v, found)) + len(rl.listed(found, "tractor"))


def conduct(v: model.Inputs, found: rl.Situation) -> model.Table | None:
    """What to do and to know before going, as a crossable list."""
    rows: list[tuple[model.Cell, ...]] = []
    sources: list[str] = []
    ordered = sorted(found.needs, key=lambda need: int(rl.item_row(need.item)["order"]))
    for need in ordered:
        row = rl.item_row(need.item)
        if row["group"] == "do":
            what: model.Words = row["name"][0].upper() + row["name"][1:]
            why = _reasons(need)
            limit = road_limits.road_speed_limit(v.place, found.facts["width"])
            if need.item == "speed_limit" and limit is not None and limit[0]:
                what = model.phrase("Travel no faster than {limit}", limit=(limit[0], "speed"))
                why = f"{why} {limit[1]}."
            rows.append((what, why))
            sources.append(rl.cited(need))
    if not rows:
        return None
    return model.Table(
        "Before you go", ("What", "Why"), tuple(rows), unique("; ".join(sources)), checklist=True
    )


def dated(year: str) -> str:
    """The year of a text in words."""
    return "undated copy" if year == "n.d." else f"text of {year}"


def law_table(place: str) -> model.Table | None:
    """What was read of the law of a place, with year and confidence."""
    rows = [row for row in tables.rows("road/state_road_rules") if row["place"] == place]
    if not rows:
        return None
    name = road_rules.place_row(place)["name"]
    return model.Table(
        f"What was read of the rules of {name}",
        ("In our words", "Citation"),
        tuple(
            (
                f"{row['about']}: {row['rule']}",
                f"{row['citation']}, {dated(row['year'])}, confidence {row['confidence']}",
            )
            for row in rows
        ),
        note="Summaries for planning, not legal advice. Rules differ by state, county and road and "
        "change every year: check the current text before you travel.",
    )
