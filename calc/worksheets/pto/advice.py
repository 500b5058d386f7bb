"""What to do about it."""

from __future__ import annotations

from calc import model, quantities, tables
from calc.mechanics import pto, pto_power, typical
from calc.search import Solver
from calc.worksheets.pto.compute import (
    SIZE_FIELDS,
    SIZE_KINDS,
    _left,
    _row,
    _size,
    _uses_shaft_figures,
    rated_power,
)
from calc.worksheets.pto.fields import SHAFTS

# --- advice ------------------------------------------------------------------------------------


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for the widest implement and the tractor that would do; show what other rules give."""
    row = _row(v)
    if row is None:
        label = dict(typical.implement_kinds()).get(v.implement_kind, "It")
        return model.Advice(
            headline=f"{label}: nothing on it is driven from the PTO, so weight and grip decide.",
            cautions=_cautions(v, None),
            tables=[_altitude_table(v)],
        )
    remedies: list[model.Remedy] = []
    if outcome.margin(("power",)) < 0.0:
        remedies += _size_remedies(v, row, solve)
        remedies += _job_remedies(v, solve)
        remedies += _tractor_remedies(v, solve)
    if row["size"] == "rating" and outcome.margin(("starting", "power")) < 0.0:
        remedies += _generator_remedies(v, solve)
    if outcome.margin(("shaft",)) < 0.0:
        label = {option.value: option.label for option in SHAFTS}[v.tractor_shaft]
        remedies.append(
            model.Remedy(
                f"Ask for the implement with a gearbox for {label}; never run it off its speed.",
                {"implement_shaft": v.tractor_shaft},
                "hitch/S4",
            )
        )
    headline: model.Words = ""
    if outcome.margin() >= 1.0:
        # Every check has room to spare: say the power, not that the splines agree.
        headline = model.phrase(
            "{left} is left at the shaft, and it asks for {need}.",
            left=(outcome.output("left"), "power"),
            need=(outcome.output("need"), "power"),
        )
    tables_shown = [_demand_table(v, row), _altitude_table(v)]
    return model.Advice(remedies, _cautions(v, row), tables_shown, _notes(v, row), headline)


def _size_remedies(v: model.Inputs, row: dict[str, str], solve: Solver) -> list[model.Remedy]:
    """The largest implement that what is left can run, lighter as it gets narrower."""
    if row["size"] not in ("width", "opening", "throughput") or v.power_needed is not None:
        return []
    name, now = SIZE_FIELDS[row["size"]], _size(v)
    found = solve.largest(name, 0.2 * now, now, ("power",))
    if found is None:
        return []
    kind = SIZE_KINDS[row["size"]]
    if row["size"] == "width":
        inches = int(found / pto_power.INCH + 1e-6)
        text = "{size} is the widest that this power runs in this material."
        return [
            model.Remedy(
                model.phrase(text, size=(found, kind)), {name: f"{inches} in"}, "power/DERIVED"
            )
        ]
    texts = {
        "opening": "{size} is the largest opening that this power runs.",
        "throughput": "{size} is the most that this power puts through.",
    }
    unit = {"opening": "in", "throughput": "t/h"}[row["size"]]
    shown = quantities.kind(kind).unit(unit).from_base(found) * 0.999
    return [
        model.Remedy(
            model.phrase(texts[row["size"]], size=(found, kind)),
            {name: f"{shown:.4g} {unit}"},
            "power/DERIVED",
        )
    ]


def _job_remedies(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    """Lighter material, a gentler climb or a slower pace, where one of them is enough."""
    remedies = []
    if v.power_needed is None:
        for load in ("typical", "light"):
            lighter = pto_power.LOADS.index(load) < pto_power.LOADS.index(v.material)
            if lighter and solve.run(material=load).margin(("power",)) >= 0.0:
                remedies.append(
                    model.Remedy(
                        f"In {load} material this size stays within the power.",
                        {"material": load},
                        "power/DERIVED",
                    )
                )
                break
    gentle = solve.largest("slope", 0.0, v.slope, ("power",))
    if gentle is not None and gentle < v.slope:
        down = int(gentle * 1000) / 10
        remedies.append(
            model.Remedy(
                model.phrase("On climbs up to {s} it stays within the power.", s=(gentle, "slope")),
                {"slope": f"{down} %"},
                "power/DERIVED",
            )
        )
    slow = solve.largest("ground_speed", 0.25, v.ground_speed, ("power",))
    if slow is not None and slow < v.ground_speed and slow > 0.3:
        remedies.append(
            model.Remedy(
                model.phrase("At {v} or slower the climb takes little enough.", v=(slow, "speed")),
                {"ground_speed": f"{slow * 0.999:.3f} m/s"},
                "power/DERIVED",
            )
        )
    return remedies


def _tractor_remedies(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    """The PTO power that would be needed."""
    now = rated_power(v)
    wanted = solve.smallest("pto_power", now, 12 * now + 1e3, ("power",))
    if wanted is None:
        return []
    return [
        model.Remedy(
            model.phrase("A tractor with {p} at the PTO runs it here.", p=(wanted, "power")),
            {"pto_power": f"{wanted * 1.001 / 1000:.4g} kW"},
            "power/DERIVED",
        )
    ]


def _generator_remedies(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    found = solve.largest("generator_rating", 500.0, v.generator_rating, ("starting", "power"))
    if found is None:
        return []
    return [
        model.Remedy(
            model.phrase(
                "{p} is the largest generator that it carries and can start motors on.",
                p=(found, "power", "kW"),
            ),
            {"generator_rating": f"{found * 0.999 / 1000:.4g} kW"},
            "power/S23",
        )
    ]


def _cautions(v: model.Inputs, row: dict[str, str] | None) -> list[model.Caution]:
    cautions = [
        model.Caution(
            "The operator's manuals of tractor and implement come first. Enough power says nothing "
            "about weight: check lift and front axle too.",
            "power/PRACTICE",
        )
    ]
    if row is None:
        return cautions
    cautions.append(
        model.Caution(
            "Keep the master shield and every shaft guard on. Stop the engine and wait until the "
            "shaft stands still before going near it; a turning shaft winds in clothing faster "
            "than anyone can pull away.",
            "hitch/S5, clause 7.7.1",
        )
    )
    if row["size"] == "rating":
        cautions.append(
            model.Caution(
                "A generator that feeds a building needs a transfer switch put in by a licensed "
                "electrician: without it, current runs back into the line and can kill a lineman.",
                "power/PRACTICE",
            )
        )
    if v.slope >= 0.10:
        cautions.append(
            model.Caution(
                "Power is not what makes a slope safe. Follow the manual's limit, go up and down "
                "rather than across, and keep the belt on and the roll-over bar up.",
                "hitch/S7",
            )
        )
    return cautions


def _demand_table(v: model.Inputs, row: dict[str, str]) -> model.Table:
    """What every source in the tables gives for this implement at this size."""
    size = _size(v)
    rows: list[tuple[model.Cell, ...]] = []
    cited: list[str] = []
    kind = tables.by_key("power/power_density", "key").get(row["power_key"], {}).get("kind", "")
    for entry in tables.rows("power/power_density"):
        # A chipper's log and its rated opening are different sizes.
        if entry["kind"] != kind or (kind == "chipper" and entry["key"] != row["power_key"]):
            continue
        cited += [entry["light_source"], entry["source"], entry["heavy_source"]]
        cells: list[model.Cell] = [f"{entry['label']} ({entry['basis']})"]
        for load in pto_power.LOADS:
            cells.append(
                (pto_power.demand(entry["key"], size, load), "power") if entry[load] else "–"
            )
        rows.append(tuple(cells))
    if row["size"] == "rating":
        shaft = (pto_power.generator_shaft_power(size), "power")
        rows.append(("Rated load through an alternator of 85 %, at the shaft", shaft, shaft, shaft))
    if row["rotary_key"]:
        through = row["size"] == "throughput"
        usual = pto_power.rotary_power(
            row["rotary_key"], 0.0 if through else size, size if through else 0.0
        )
        spread = pto_power.rotary_spread(row["rotary_key"]) or 0.0
        found = tables.by_key("power/rotary_power", "key")[row["rotary_key"]]
        cited += [found["source"], found["also"]]
        label = found["label"]
        rows.append(
            (
                f"ASAE D497: {label.lower()}, shaft power without reserve",
                (usual * (1 - spread), "power"),
                (usual, "power"),
                (usual * (1 + spread), "power"),
            )
        )
    note = row["note"] or "The figures differ because they count different things; see the page."
    return model.Table(
        "What each source gives for this implement",
        ("Figures", "Light", "Typical", "Heavy"),
        tuple(rows),
        "; ".join(dict.fromkeys(item for item in cited if item)),
        note,
    )


def _altitude_table(v: model.Inputs) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = []
    for rule in tables.rows("power/altitude_rules"):
        if rule["key"] != "none":
            mark = " (used here)" if rule["key"] == v.altitude_rule else ""
            share = pto_power.altitude_factor(v.altitude, rule["key"])
            left = _left(v, rule["key"])
            rows.append((rule["label"] + mark, (share, "fraction"), (left, "power")))
    return model.Table(
        "What the altitude rules leave here",
        ("Rule", "Share of the power", "Left for the shaft"),
        tuple(rows),
        "power/S27; power/S28; power/S29; power/S30",
    )


def _notes(v: model.Inputs, row: dict[str, str]) -> list[model.Words]:
    notes: list[model.Words] = []
    if v.pto_engine_rpm is not None and v.rated_rpm is not None:
        speed = float(v.tractor_shaft.split("-")[1])
        turns = quantities.number(pto.engine_speed_ratio(v.pto_engine_rpm, speed), 3)
        at_rated = quantities.number(v.rated_rpm / (v.pto_engine_rpm / speed), 3)
        notes.append(
            f"The engine turns {turns} times for each turn of the shaft; at its rated speed the "
            f"shaft would turn {at_rated} rpm. A PTO power measured there isn't what you have at "
            f"{speed:.0f} rpm."
        )
    if v.pto_power is None:
        shown = []
        for key in ("gross", "unstated", "net"):
            entry = tables.by_key("power/engine_to_pto", "key")[key]
            ratio = pto_power.pto_ratio(key)[1]
            shown.append((entry["label"].split(":")[0].lower(), v.engine_power * ratio))
        said = "; ".join(f"{label} gives {{n{i}}}" for i, (label, _) in enumerate(shown))
        notes.append(
            model.Phrase(
                f"From the engine power, before the pump: {said}.",
                {f"n{i}": (value, "power") for i, (_, value) in enumerate(shown)},
            )
        )
    if v.power_needed is None and not _uses_shaft_figures(v) and row["size"] == "width":
        measured = pto_power.density("rotary_cutter_measured", "heavy") / pto_power.density(
            "rotary_cutter_measured"
        )
        notes.append(
            "These are figures for choosing a tractor: they hold a reserve and the driving on the "
            "level already, so only the climb is taken off. Thick patches still ask for more: one "
            f"measured cutter peaked at {quantities.number(measured, 2)} times its mean."
        )
    if "mower" in v.implement_kind or "cutter" in v.implement_kind:
        low, high = pto_power.saving_at_half_speed(v.ground_speed)
        saved = quantities.show_range(low, high, "fraction", figures=2)
        notes.append(
            f"Half the ground speed saves about {saved} of a mower's power, not half: the blades "
            "turn either way. That is a textbook form for disk mowers (from memory, text not seen)."
        )
    if row["size"] == "rating":
        shaft = pto_power.generator_shaft_power(v.generator_rating)
        notes.append(
            model.phrase(
                "Carrying the rated load alone takes {p} at the shaft, with an alternator of "
                "85 %; the rest of the rule starts motors.",
                p=(shaft, "power"),
            )
        )
    return notes
