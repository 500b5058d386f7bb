"""What to do about it."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import tire_load, tires
from calc.mechanics.tire_size import Designation
from calc.search import Solver
from calc.subjects import tires as common

# --- advice ----------------------------------------------------------------------------------


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Return what each part of the size means, sizes near it, remedies and cautions."""
    tire = common.dimensions(v.tire)
    if tire is None:
        return model.Advice(
            cautions=_cautions(), headline="Type the size as it stands on the sidewall."
        )
    remedies: list[model.Remedy] = []
    load = outcome.check("load")
    if load is not None and load.margin < 0:
        index = _index_for(v.tire_mass)
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Take {m} off this tire"
                    + (f", or fit load index {index} or more." if index else "."),
                    m=(load.value - load.limit, "mass"),
                ),
                set={"tire_mass": f"{load.limit - 0.01:.2f} kg"} if load.limit > 10 else {},
            )
        )
    speed = outcome.check("speed")
    if speed is not None and speed.margin < 0:
        remedies.append(
            model.Remedy(
                model.phrase("Keep to {v}.", v=(speed.limit, "speed")),
                set={"road_speed": f"{speed.limit - 0.001:.4f} m/s"},
                source="tires/OM-5",
            )
        )
    headline: model.Words = ""
    if not outcome.checks:
        headline = model.phrase(
            "{size} is about {od} across and {w} wide, and rolls {rc} in one turn.",
            size=tire.designation.size,
            od=(tire.overall_diameter, "length"),
            w=(tire.section_width, "length"),
            rc=(tire.rolling_circumference, "length"),
        )
    shown = [_parts(v.tire), *_near(tire)]
    return model.Advice(remedies, _cautions(), shown, _notes(tire), headline)


def _index_for(load: float) -> int | None:
    for row in tables.rows("tires/load_index"):
        if float(row["load_kg"]) >= load:
            return int(row["index"])
    return None


def _parts(found: Designation) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = []
    if found.overall is not None:
        rows.append(
            (
                f"{found.overall:g}",
                "nominal overall diameter in inches: a name; turf tires are up to 6 % smaller, "
                "bar treads near it",
            )
        )
    unit = "millimeters" if found.form == "metric" else "inches"
    if found.flexion:
        more = {"IF": "about 20 %", "VF": "about 40 %"}[found.flexion]
        rows.append(
            (found.flexion, f"carries {more} more at the same pressure; may need its own rim")
        )
    nominal = "nominal width" if found.form in ("whole", "wide") else "section width"
    rows.append((found.width_text, f"{nominal} in {unit}"))
    if found.low:
        rows.append((found.low, "low section: lower than the plain size of that width"))
    if found.aspect is not None:
        rows.append((f"/{found.aspect:g}", "height of the section in percent of its width"))
    if found.older:
        rows.append((f"/{found.older}", "the older code of the same tire"))
    marks = {"R": "radial", "-": "bias", "D": "bias", "B": "bias belted"}
    rows.append((found.mark, f"construction: {marks[found.mark]}"))
    rows.append((f"{found.rim:g}", "rim diameter code in inches; codes never mix"))
    for service in found.services:
        load = tire_load.load_of_index(service.load_index)
        speed = tire_load.speed_of_symbol(service.speed_symbol)
        rows.append(
            (
                service.text,
                model.phrase(
                    "load index and speed symbol: {m} at {v}", m=(load, "mass"), v=(speed, "speed")
                ),
            )
        )
        if service.dual_load_index:
            dual = tire_load.load_of_index(service.dual_load_index)
            rows.append(
                (
                    f"/{service.dual_load_index}",
                    model.phrase("load index as a dual: {m}", m=(dual, "mass")),
                )
            )
    if found.ply_rating:
        rows.append((f"{found.ply_rating}PR", "ply rating: a strength class, not a count of plies"))
    if found.tread:
        row = tables.by_key("tires/tread_codes", "code")[found.tread]
        note = f"; {row['note']}" if row["note"] else ""
        rows.append((found.tread, f"tread: {row['use']}{note}"))
    for word in found.words:
        rows.append((word, tables.by_key("tires/tire_suffixes", "mark")[word]["meaning"]))
    return model.Table("What each part says", ("Part", "Meaning"), tuple(rows))


def _near(tire: tires.Dimensions) -> list[model.Table]:
    """List the sizes whose rolling circumference is nearest, whatever they are called."""
    near = sorted(
        (
            other
            for other in tires.every_tire()
            if other.designation.size != tire.designation.size
            and other.tread_class != "steer"
            and abs(other.rolling_circumference / tire.rolling_circumference - 1) <= 0.03
        ),
        key=lambda other: abs(other.rolling_circumference - tire.rolling_circumference),
    )
    if not near:
        return []
    rows = tuple(
        (
            other.designation.size,
            f"{common.signed(other.rolling_circumference / tire.rolling_circumference - 1)} %",
            (other.overall_diameter, "length"),
            (other.section_width, "length"),
        )
        for other in near[: common.LISTED]
    )
    return [
        model.Table(
            "Sizes that roll nearly as far",
            ("Size", "One turn", "Diameter", "Width"),
            rows,
            "tires/derived",
            "Near in rolling, not the same tire: rim, width and load differ. Sizes that charts "
            "call equal differ by up to 2 % in diameter.",
        )
    ]


def _notes(tire: tires.Dimensions) -> list[model.Words]:
    notes: list[model.Words] = [
        f"{common.describe(tire)}. Another maker's tire of the same size may differ by up to 3 % "
        "in diameter and in width."
    ]
    found = tire.designation
    rims = tables.by_key("tires/tire_rims", "size")
    key = f"{found.width_text}/{found.aspect:g}" if found.aspect is not None else found.width_text
    if key in rims and found.form in ("decimal", "metric"):
        notes.append(f"Rims that the standard allows for {key}: {rims[key]['rims']}.")
    return notes


def _cautions() -> list[model.Caution]:
    return [
        model.Caution(
            "The sidewall, the tire maker's data book and the operator's manual come before any "
            "table here."
        ),
        model.Caution(
            "Never mount a tire on a rim of another code: 16 and 16.1, or 16.5, don't "
            "interchange. Mounting is work for a tire shop.",
            "tires/OM-15",
        ),
    ]
