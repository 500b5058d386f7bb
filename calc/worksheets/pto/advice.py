"""What to do about it."""

from __future__ import annotations

from calc import model, quantities, si, tables
from calc.mechanics import auger, implement_class, implement_power, pto, pto_power, typical
from calc.search import Remedies
from calc.subjects import hung_remedies, shaft_power
from calc.worksheets.pto.compute import left_by, need_at, row_of, size_of, uses_shaft_figures
from calc.worksheets.pto.fields import NAMED_NONE

WIDEST = 120 * si.INCH  # tedders and rakes are sold wider than what hangs on a small hitch
POWER = ("power", "class", "starting")


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Offer what this power runs, the power that would do, and what other rules give."""
    row = row_of(v)
    if row is None:
        headline: model.Words = ""
        if v.implement_kind != NAMED_NONE and v.power_needed is None:
            label = dict(typical.implement_kinds()).get(v.implement_kind, "It")
            headline = found.note("no_shaft", kind=label)
        name_it = headline or found.note("name_it")
        notes = [] if v.pto_power is not None else [_from_engine(v)]
        return model.Advice(
            headline=headline,
            cautions=found.cautions("manuals"),
            tables=[_altitude_table(v)],
            notes=notes,
            says={
                **_what_to_say(found),
                **dict.fromkeys(("enough", "widest", "takes", "generator_tractor"), name_it),
            },
        )
    _remedies(v, row, remedies)
    shown = [_demand_table(v, row), _altitude_table(v)]
    return model.Advice(
        cautions=_cautions(v, row, found),
        tables=shown,
        notes=_notes(v, row, found),
        says={
            **_what_to_say(found),
            "widest": found.note("no_width"),
            "takes": found.note("name_it"),
            "generator_tractor": found.note("no_generator"),
        },
    )


def _what_to_say(found: model.Found) -> dict[str, model.Words]:
    """What a question has to be told first, where its own sentence would name a blank."""
    return {"left": found.note("tell_altitude"), "reaches": found.note("tell_engine")}


def _remedies(v: model.Inputs, row: dict[str, str], remedies: Remedies) -> None:
    source = "power/DERIVED"
    if row["size"] == "width":
        stock = (*typical.stock_widths(v.implement_kind), WIDEST)
        remedies.less("working_width", mends=POWER, stock=stock, source=source)
    elif row["size"] == "opening":
        remedies.less(
            "working_width",
            mends=POWER,
            stock=typical.stock("chipper_openings"),
            key="opening",
            source=source,
        )
    elif row["size"] == "auger":
        remedies.less("auger_diameter", mends=("power",), stock=auger.sold_augers(), source=source)
    elif row["size"] == "throughput":
        remedies.less("throughput", mends=("power",), source=source)
    elif row["size"] == "rating":
        remedies.less("generator_rating", mends=POWER, step=1.0, source="power/S23")
    _lighter_work(v, row, remedies)
    if v.slope and v.slope > hung_remedies.FLAT:
        flat = hung_remedies.FLAT
        end = {"end": flat, "step": 1.0, "plainly": True}
        remedies.less("slope", mends=("slope",), key="keep_off", source="hitch/M14", **end)
        if "slope" not in remedies.over:  # no climb that manuals forbid is offered
            remedies.less("slope", mends=("power",), end=flat, step=1.0, source=source)
        remedies.less("ground_speed", mends=("power",), source=source)
    if v.pto_power is not None:
        remedies.more("pto_power", mends=POWER, step=1.0, another=True, source=source)
    else:
        remedies.more("engine_power", mends=POWER, step=1.0, another=True, source=source)
    if v.tractor_shaft != "unseen":
        remedies.choose("implement_shaft", v.tractor_shaft, mends=("shaft",), source="hitch/S4")
    remedies.do("lighter_duty", ("duty",), source="hitch/PRACTICE")
    if "driveline" in remedies.broken:
        remedies.more("power_limit", mends=("driveline",), step=5.0, source="power/S25")
    if "class" not in remedies.over:  # else neither weight makes them go together
        _lighter_behind(v, remedies)


def _lighter_behind(v: model.Inputs, remedies: Remedies) -> None:
    """A heavier tractor, less on what is towed, or a lighter machine."""
    if hung_remedies.neither_told(remedies):
        return
    source = "power/TOW-M10"
    remedies.more("tractor_mass", mends=("towed",), another=True, source=source)
    if v.load_carried:
        remedies.less("load_carried", mends=("towed",), end=0.0, step=50.0, source=source)
    else:
        remedies.less("implement_mass", mends=("towed",), source=source)


# How lighter work is said where the names of the materials, made for grass and soil, don't fit.
LIGHTER_KIND = {
    "snow_blower": "lighter_snow",
    "front_blower": "lighter_snow",
    "rotary_tiller": "lighter_ground",
    "tedder": "lighter_crop",
    "rotary_rake": "lighter_crop",
}
LIGHTER = {"auger": "lighter_soil", "throughput": "lighter_crop"}


def _lighter_work(v: model.Inputs, row: dict[str, str], remedies: Remedies) -> None:
    """The least step to lighter work that the power runs.

    A generator's load has none. A chipper's opening is made for the thickest wood that goes in, and
    no tractor below its class runs it on thinner.
    """
    if row["size"] in ("rating", "opening"):
        return
    key = LIGHTER.get(row["size"], "lighter_crop" if row["hangs"] == "towed" else "")
    key = LIGHTER_KIND.get(v.implement_kind, key)
    for load in ("typical", "light"):
        lighter = implement_power.LOADS.index(load) < implement_power.LOADS.index(v.material)
        if lighter and remedies.choose(
            "material", load, mends=("power",), source="power/DERIVED", key=key
        ):
            return


def _cautions(v: model.Inputs, row: dict[str, str], found: model.Found) -> list[model.Caution]:
    keys = ["manuals", "shaft"]
    if row["hangs"] == "towed":
        keys.append("towed")
    if row["size"] == "rating":
        keys.append("transfer")
    if (v.slope or 0.0) >= 0.10:
        keys.append("slope")
    return found.cautions(*keys)


def _demand_table(v: model.Inputs, row: dict[str, str]) -> model.Table:
    """What every source in the tables gives for this implement at this size."""
    size = size_of(v)
    rows: list[tuple[model.Cell, ...]] = []
    cited: list[str] = []
    kind = tables.by_key("power/power_density", "key").get(row["power_key"], {}).get("kind", "")
    for entry in tables.rows("power/power_density"):
        # A chipper's log and its rated opening are different sizes.
        if entry["kind"] != kind or (kind == "chipper" and entry["key"] != row["power_key"]):
            continue
        cited += [entry["light_source"], entry["source"], entry["heavy_source"]]
        cells: list[model.Cell] = [f"{entry['label']} ({entry['basis']})"]
        for load in implement_power.LOADS:
            cells.append(
                (implement_power.demand(entry["key"], size, load), "power") if entry[load] else "–"
            )
        rows.append(tuple(cells))
    if row["size"] == "rating":
        shaft = (implement_power.generator_shaft_power(size), "power")
        rows.append(("Rated load through an alternator of 85 %, at the shaft", shaft, shaft, shaft))
    if row["rotary_key"]:
        through = row["size"] == "throughput"
        usual = implement_power.rotary_power(
            row["rotary_key"], 0.0 if through else size, size if through else 0.0
        )
        spread = implement_power.rotary_spread(row["rotary_key"]) or 0.0
        found = tables.by_key("power/rotary_power", "key")[row["rotary_key"]]
        cited += [found["source"], found["also"]]
        rows.append(
            (
                f"ASAE D497: {found['label'].lower()}, shaft power without reserve",
                (usual, "power"),
                (usual, "power"),
                (usual * (1 + spread), "power"),
            )
        )
    wide = shaft_power.class_size(v.implement_kind, v.working_width, v.implement_mass)
    if wide is not None:
        low, high, _ = implement_class.class_power(v.implement_kind, wide)
        cited.append(implement_class.class_source(v.implement_kind))
        rows.append(
            ("Makers of this class ask for at least", (low, "power"), "to", (high, "power"))
        )
    note = row["note"] or "The figures differ because they count different things; see the page."
    return model.Table(
        "What each source gives for this implement",
        ("Figures", "Light", "Typical", "Heavy"),
        tuple(rows),
        "; ".join(dict.fromkeys(item for item in "; ".join(cited).split("; ") if item)),
        note,
    )


def _altitude_table(v: model.Inputs) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = []
    used = shaft_power.altitude_rule(v.altitude_rule, v.breathing)
    for rule in tables.rows("power/altitude_rules"):
        if rule["key"] != "none":
            mark = " (used here)" if rule["key"] == used else ""
            share = pto_power.altitude_factor(v.altitude or 0.0, rule["key"])
            left = left_by(v, rule["key"])
            rows.append((rule["label"] + mark, (share, "fraction"), (left, "power")))
    return model.Table(
        "What the altitude rules leave here",
        ("Rule", "Share of the power", "Left for the shaft"),
        tuple(rows),
        "power/S27; power/S28; power/S29; power/S30",
    )


def _from_engine(v: model.Inputs) -> model.Phrase:
    """What other readings of an engine power give at the shaft."""
    shown = []
    for key in ("gross", "unstated", "net"):
        entry = tables.by_key("power/engine_to_pto", "key")[key]
        ratio = pto_power.pto_ratio(key)[1]
        shown.append((entry["label"].split(":")[0].lower(), v.engine_power * ratio))
    said = "; ".join(f"{label} gives {{n{i}}}" for i, (label, _) in enumerate(shown))
    return model.Phrase(
        f"From the engine power, before the pump: {said}.",
        {f"n{i}": (value, "power") for i, (_, value) in enumerate(shown)},
    )


def _notes(v: model.Inputs, row: dict[str, str], found: model.Found) -> list[model.Words]:
    notes: list[model.Words] = []
    if "walking" in found and found.walking > found.left:
        notes.append(found.note("walk", walk=(shaft_power.WALK, "speed")))
    if v.pto_engine_rpm is not None and v.rated_rpm is not None:
        speed = shaft_power.shaft_rpm(v.tractor_shaft)
        turns = pto.engine_speed_ratio(v.pto_engine_rpm, speed)
        numbers = {
            "turns": quantities.number(turns, 3),
            "at_rated": quantities.number(v.rated_rpm / turns, 3),
            "speed": f"{speed:.0f}",
        }
        notes.append(found.note("speeds", **numbers))
    if v.pto_power is None:
        notes.append(_from_engine(v))
    if v.power_needed is None and not uses_shaft_figures(v) and row["size"] == "width":
        measured = implement_power.density(
            "rotary_cutter_measured", "heavy"
        ) / implement_power.density("rotary_cutter_measured")
        notes.append(found.note("custom", peak=quantities.number(measured, 2)))
    if "mower" in v.implement_kind or "cutter" in v.implement_kind:
        low, high = implement_power.saving_at_half_speed(v.ground_speed)
        saved = quantities.show_range(low, high, "fraction", figures=2)
        notes.append(found.note("half_speed", saved=saved))
    if row["size"] == "rating":
        shaft = implement_power.generator_shaft_power(v.generator_rating)
        notes.append(found.note("generator", p=(shaft, "power")))
    if row["size"] not in ("rating", "total") and v.power_needed is None:
        typical_need = need_at(v, "heavy")
        notes.append(found.note("heavy", p=(typical_need, "power")))
    return notes
