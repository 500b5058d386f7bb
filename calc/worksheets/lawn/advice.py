"""What to do about it."""

from __future__ import annotations

import math

from calc import model, si, tables
from calc.mechanics import turf
from calc.search import Remedies
from calc.worksheets.lawn.compute import wheel, yields
from calc.worksheets.lawn.fields import IN_SOIL, TEARS, tool_row

LOWEST_PSI = 6.0  # value/L7d: as low as agronomists go where the load table allows it
BURIED = ("heads", "boxes")
CAUTIONS = ("slope", "turns")  # whatever the tool


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Offer what keeps the lawn whole and the heads on; list what to flag and when to work."""
    remedies.choose("soil_state", "moist", mends=("soil",), source="value/L7d", key="wait")
    for axle in ("front", "rear"):
        remedies.more(
            f"{axle}_inflation", mends=(f"{axle}_print",), step=1.0, source="value/DERIVED"
        )
    remedies.do("flag", mends=BURIED, source="value/DERIVED")
    remedies.less("tool_depth", mends=BURIED, end=0.0, source="value/DERIVED")
    gentle = {"tool": "spring-tine", "tool_depth": 0.0}
    if v.tool != "tiller":  # no rake does the work of a tiller
        torn = ("turf",) if v.tool in TEARS else ()
        remedies.change("gentle", gentle, mends=(*BURIED, *torn), source="value/L3d")
    remedies.do("sown", mends=("turf",), source="value/PRACTICE")
    remedies.less("slope", mends=("slope",), step=1.0, end=0.0, source="value/L9")
    lists = () if v.sprinklers == "no" and v.tool not in IN_SOIL else (_flag_list(v),)
    return model.Advice(
        [*_softer(v, found), *_lighter(v, found)],
        found.cautions(
            *(("lines", "tools") if v.tool in IN_SOIL else ("tools", "lines")), *CAUTIONS
        ),
        lists,
        _notes(v, found),
        says={"tool": _told(v, found), "season": _season(v, found), "flags": _flags(v, found)},
    )


# --- remedies for what is only advice -------------------------------------------------------


def _loader_off(v: model.Inputs, found: model.Found) -> bool:
    """Whether somebody said that it is off: nobody's word is not enough to let a tire down."""
    return v.loader == "off" and "loader" not in found.assumed


def _softer(v: model.Inputs, found: model.Found) -> list[model.Remedy]:
    """Let a tire down, with the loader off and while it still carries its load."""
    if not _loader_off(v, found):
        return []
    offered = []
    for axle in ("front", "rear"):
        if f"{axle}_ground" not in found.broken or wheel(axle, v).measured:
            continue
        psi = float(math.floor(found.inflation_limit / si.PSI + 1e-9))
        softened = wheel(axle, v.but(**{f"{axle}_inflation": psi * si.PSI}))
        room = softened.largest_print
        if psi >= LOWEST_PSI and room is not None and softened.print_area <= room:
            text = found.note("softer", axle=axle, p=(psi * si.PSI, "pressure", "psi"))
            sets = {f"{axle}_inflation": f"{psi:.0f} psi"}
            offered.append(
                model.Remedy(text, sets, "value/L7d; value/DERIVED", (f"{axle}_ground",))
            )
    return offered


def _lighter(v: model.Inputs, found: model.Found) -> list[model.Remedy]:
    """Set the tips higher until the springs push less than the rake weighs; never load it."""
    if "tines" not in found.broken or "push" not in found or found.push <= 0.0:
        return []
    most = math.floor(v.tine_deflection * found.weight / found.push / si.INCH * 100.0) / 100.0
    text = found.note("higher", x=(most * si.INCH, "length"))
    return [model.Remedy(text, {"tine_deflection": f"{most:.2f} in"}, "value/L3e", ("tines",))]


# --- sentences ------------------------------------------------------------------------------

# In the order in which they are told, and whether they are limits or advice.
_LIMITS = (("heads", BURIED), ("soil", ("soil",)), ("print", ("front_print", "rear_print")))
_ADVICE = (("ground", ("front_ground", "rear_ground")), ("tines", ("tines",)))


def _told(v: model.Inputs, found: model.Found) -> model.Words:
    """The main question in a sentence: what is broken, what may be, then slope and advice."""
    for wanted, listed in ((model.OVER, _LIMITS), (model.UNKNOWN, _LIMITS)):
        for key, names in listed:
            if wanted in {found.finding(name) for name in names}:
                if key == "heads":
                    return _heads(v, found, sure=wanted == model.OVER)
                return found.note(f"tell_{key}" if wanted == model.OVER else f"tell_{key}_open")
    if found.finding("slope") not in (model.WITHIN, ""):
        return found.note("tell_slope")
    for key, names in _ADVICE:
        if set(names) & found.broken and (key != "tines" or "push" in found):
            return found.note(f"tell_{key}" if set(names) & found.over else f"tell_{key}_open")
    return found.note("tell_near")


def _heads(v: model.Inputs, found: model.Found, *, sure: bool) -> model.Words:
    if not sure:
        cleared = "heads" not in found.broken
        return found.note("tell_boxes_open" if cleared else "tell_heads_open")
    highest = min(v.head_depth, v.box_depth)
    if yields(v) and highest < 0.0:
        return found.note("tell_heads_proud", proud=(-highest, "length"))
    return found.note("tell_heads")


def _season(v: model.Inputs, found: model.Found) -> model.Words:
    """When: of the grass that somebody named, else of both."""
    rows = tables.by_key("lawn/seasons", "grass")
    if "grass" not in found.assumed:
        rows = {v.grass: rows[v.grass]}
    said = "; ".join(
        f"{row['name'].partition(' (')[0].lower()}: {row['best']}, then {row['next']}"
        for row in rows.values()
    )
    half = 0.5 * si.INCH
    numbers: dict[str, model.Number] = {
        "when": said[:1].upper() + said[1:],
        "half": (half, "length"),
    }
    if "tool" not in found.assumed and v.tool == "core":
        return found.note("season_core", **numbers)
    if "thatch" not in found.assumed:
        return found.note("season_thick" if v.thatch > half else "season_thin", **numbers)
    return found.note("season", **numbers)


def _flags(v: model.Inputs, found: model.Found) -> model.Words:
    if v.sprinklers == "no":
        return found.note("flags_none")
    if {*BURIED} & found.broken:
        return _heads(v, found, sure=True)
    if v.tool == "roller":
        return found.note("flags_over")
    return found.note("flags_yield" if yields(v) else "flags_within")


def _flag_list(v: model.Inputs) -> model.Table:
    wanted = [
        row for row in tables.rows("lawn/flag_list") if row["tools"] == "all" or v.tool in IN_SOIL
    ]
    return model.Table(
        "Flag before you start",
        ("What", "Why"),
        tuple((row["item"], row["why"]) for row in wanted),
        "; ".join(dict.fromkeys(row["source"] for row in wanted)),
        checklist=True,
    )


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    half = (0.5 * si.INCH, "length")
    row = tool_row(v.tool)
    notes: list[model.Words] = [f"{row['name']}: {row['boxes'][:1].lower()}{row['boxes'][1:]}."]
    if {"front_ground", "rear_ground"} & found.broken and not _loader_off(v, found):
        notes.append(found.note("loader_on"))
    if v.tool in ("spring-tine", "rigid-blade"):
        raked = turf.thatch_passes(v.thatch)
        if raked != 1:
            notes.append(found.note("thin" if raked == 0 else "thick", half=half))
        notes.append(found.note("mow", half=half))
    if v.tool == "core":
        notes.append(found.note("water", inch=(si.INCH, "length")))
    if v.front_print is None:
        notes += [
            found.note(
                "other_rule",
                rule=other["name"].split(" (")[0].lower(),
                p=(turf.mean_pressure(v.front_inflation, other["key"]), "pressure"),
            )
            for other in tables.rows("lawn/contact_pressure_rules")
            if other["key"] != v.pressure_rule
        ]
    notes.append(found.note("lugs"))
    return notes
