"""What to do about it."""

from __future__ import annotations

from calc import model, si, tables
from calc.mechanics import tire_load, tires
from calc.mechanics.tire_size import Designation
from calc.search import Remedies
from calc.subjects import tire_partners
from calc.subjects import tires as common

SEEPS = 12 * si.PSI
"""Below this a tire loses air at its rim more readily, tires/OM-13 [Pa]."""

# --- advice ----------------------------------------------------------------------------------


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Return what each part of the size means, sizes near it, remedies and cautions."""
    tire = tires.dimensions(v.tire)
    remedies.less("tire_mass", mends=("load",))
    if v.tire_mass is not None:
        index = _index_for(v.tire_mass)
        if index:
            remedies.do("index", ("load",), source="tires/S2", index=str(index))
    remedies.less("road_speed", mends=("speed",), source="tires/OM-5")
    shown = [_parts(v.tire), *_near(tire)]
    said = found.cautions("sidewall", "rim", "inflate")
    notes = _notes(v, found, tire)
    slow = "pressure_needed" in found and "rated_speed" in found
    pressure = found.note("tell_pressure_slow" if slow else "tell_pressure")
    if v.tire_mass is None and "rated" in found:
        pressure = found.note("tell_pressure_load")
    if "pressure_needed" in found and found.pressure_needed < SEEPS:
        said += found.cautions("seeps")
    says = {"load": _told_load(v, found), "pressure": pressure}
    return model.Advice(cautions=said, tables=shown, notes=notes, says=says)


def _told_load(v: model.Inputs, found: model.Found) -> model.Words:
    """What the tire carries, or what has to be read or said for that."""
    if "carries" not in found and "rated" in found:  # the pressure that it holds at is missing
        return found.note("tell_rated")
    if "carries" not in found:
        return found.note("tell_unread_ply" if v.tire.ply_rating else "tell_unread")
    if "load" in found.unchecked:
        return found.note("tell_speed" if v.road_speed is None else "tell_faster")
    speed = common.fastest(v.tire)
    if speed is not None and not common.sheet_speeds(v.tire):
        return found.note("tell_carries", carries=(found.carries, "mass"), speed=(speed, "speed"))
    slow = "rated_speed" in found and v.rated_load is None
    return found.note("tell_slow" if slow else "tell_plain")


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
        for other in near[: tire_partners.LISTED]
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


def _notes(v: model.Inputs, found: model.Found, tire: tires.Dimensions) -> list[model.Words]:
    notes: list[model.Words] = [found.note("basis", basis=common.describe(tire))]
    size = tire.designation
    rims = common.rims_of(size)
    if rims:
        notes.append(found.note("rims", rims=rims))
    if "row_pressure" in found and v.pressure is None and v.rated_load is None:
        notes.append(found.note("at_row"))
    if not size.tread and size.overall is not None:
        notes.append(found.note("tread"))
    return notes
