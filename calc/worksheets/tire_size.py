"""Tire size: what the writing on a sidewall means, and what the tire measures and carries."""

from __future__ import annotations

from calc import tables, vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import ground, liquid_ballast, tire_load, tires
from calc.mechanics.tire_size import Designation
from calc.picture import Dimension, Disc, Item, Label, Line, Scene, Shape
from calc.worksheets import _tires as common


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _additions() -> list[ws.Option]:
    rows = tables.rows("pressure_additions")
    return [ws.Option(row["key"], _upper(row["label"])) for row in rows]


FIELDS: tuple[ws.AnyField, ...] = (
    ws.Entry(
        "tire", "Tire size", "Everything on the sidewall, as it stands there.",
        vocabulary.read_tire_size, default="320/85 R 24 122A8 R-1W", essential=True,
        group="Tire", example="26x12.00-12 NHS",
    ),
    ws.Field(
        "tire_mass", "Load on this tire", "mass", "20 lb", "15,000 lb",
        "Half of what the axle weighs on a scale.", default="2,200 lb", optional=True,
        essential=True, group="Tire",
    ),
    ws.Field(
        "road_speed", "Fastest speed with that load", "speed", "0.5 mph", "45 mph",
        "What the tractor really does on the road.", default="16 mph", optional=True,
        essential=True, group="Tire",
    ),
    ws.Field(
        "pressure", "Pressure in it", "pressure", "5 psi", "110 psi",
        "Cold, from a gauge made for low pressure.", optional=True, group="Pressure",
    ),
    ws.Field(
        "rated_pressure", "Pressure at which its rating holds", "pressure", "5 psi", "110 psi",
        "On the sidewall beside the largest load, or in its load table.", optional=True,
        group="Pressure",
    ),
    ws.Field(
        "rated_load", "Largest load on the sidewall", "mass", "50 lb", "15,000 lb",
        "Where it is printed. It replaces the load of the load index.", optional=True,
        group="Pressure",
    ),
    ws.Choice(
        "work", "Work it does",
        (ws.Option("plain", "Plain: nothing to add"), *_additions()),
        "What the load chart's pressure must be raised for.", default="plain", group="Pressure",
    ),
)  # fmt: skip


def review(known: ws.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    used, rated = known.get("pressure"), known.get("rated_pressure")
    if used is not None and rated is not None and used.high > rated.low:
        return {"pressure": "The pressure is above the one at which the rating holds; never pass "
                            "the sidewall's maximum."}  # fmt: skip
    return {}


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks and outputs at one set of values."""
    checks: list[ws.Check] = []
    outputs: list[ws.Output] = []
    tire = common.dimensions(v.tire)
    if tire is None:
        return ws.Outcome(checks, outputs)
    _lengths(tire, outputs, work)
    rated = common.rating(tire)
    if v.rated_load is not None:
        rated = tire_load.Rating(
            v.rated_load, rated.speed if rated is not None else None, "tires/derived"
        )
    if rated is not None:
        _load(v, tire, rated, checks, outputs, work)
    if v.pressure is not None and v.tire_mass is not None:
        _ground(v, outputs, work)
    volume = liquid_ballast.fill_volume(tire)
    outputs.append(
        ws.Output(
            "liquid", "Liquid at 75 % fill", volume.value, "volume", low=volume.low,
            high=volume.high,
        )
    )  # fmt: skip
    return ws.Outcome(checks, outputs)


def _lengths(tire: tires.Dimensions, outputs: list[ws.Output], work: ws.Work) -> None:
    for name, label, value, error in (
        ("overall_diameter", "Overall diameter", tire.overall_diameter, tire.diameter_error),
        ("section_width", "Section width", tire.section_width, tires.MAKER_SPREAD),
        ("loaded_radius", "Loaded radius", tire.static_loaded_radius, tire.loaded_radius_error),
        ("rolling", "One turn rolls", tire.rolling_circumference, tire.circumference_error),
    ):
        outputs.append(
            ws.Output(
                name, label, value, "length", low=value * (1 - error), high=value * (1 + error)
            )
        )
    if not work.on:
        return
    h, rim = tire.section_height, tire.rim_diameter
    work.step(
        "Overall diameter", "OD", "rim + 2 h", (("rim", rim, "length"), ("h", h, "length")),
        tire.overall_diameter, "length", tire.source,
    )  # fmt: skip
    work.step(
        "Loaded radius", "SLR", "OD / 2 − 0.18 h",
        (("OD", tire.overall_diameter, "length"), ("h", h, "length")),
        tire.static_loaded_radius, "length", "tires/WEB-6",
    )  # fmt: skip
    factor = tire.rolling_circumference / (3.141592653589793 * tire.overall_diameter)
    work.step(
        "One turn rolls", "RC", "k π OD",
        (("k", factor, "count"), ("OD", tire.overall_diameter, "length")),
        tire.rolling_circumference, "length", tire.circumference_source,
    )  # fmt: skip


def _load(
    v: ws.Inputs,
    tire: tires.Dimensions,
    rated: tire_load.Rating,
    checks: list[ws.Check],
    outputs: list[ws.Output],
    work: ws.Work,
) -> None:
    carries = rated.load
    outputs.append(ws.Output("rated", "Load of its rating", rated.load, "mass"))
    if rated.speed is not None:
        outputs.append(ws.Output("rated_speed", "Speed of its rating", rated.speed, "speed"))
    if v.pressure is not None and v.rated_pressure is not None:
        pressure = min(v.pressure, v.rated_pressure)
        carries = tire_load.load_at_pressure(carries, pressure, v.rated_pressure)
        outputs.append(ws.Output("at_pressure", "Load at that pressure", carries, "mass"))
        work.step(
            "Load at that pressure", "L", "L rated × (p / p rated)^0.585",
            (("L rated", rated.load, "mass"), ("p", v.pressure, "pressure"),
             ("p rated", v.rated_pressure, "pressure")),
            carries, "mass", "tires/pressure-memory",
        )  # fmt: skip
    if v.tire_mass is not None:
        checks.append(
            ws.at_most(
                "load", "Load on this tire", v.tire_mass, carries, "mass", rated.source,
                why="An overloaded tire runs hot and fails.",
            )
        )  # fmt: skip
        if v.rated_pressure is not None and v.tire_mass <= rated.load:
            _pressure_needed(v, rated, outputs, work)
    if v.road_speed is not None and rated.speed is not None:
        checks.append(
            ws.at_most(
                "speed", "Speed against its symbol", v.road_speed, rated.speed, "speed",
                "tires/ISO4251-memory", why="Above its symbol a tire carries less, or nothing.",
            )
        )  # fmt: skip


def _pressure_needed(
    v: ws.Inputs, rated: tire_load.Rating, outputs: list[ws.Output], work: ws.Work
) -> None:
    least = tire_load.pressure_for_load(v.tire_mass, rated.load, v.rated_pressure)
    added = () if v.work == "plain" else (v.work,)
    setting = tire_load.pressure_with_additions(least, added, v.rated_pressure)
    outputs.append(
        ws.Output(
            "pressure_needed", "Pressure that load and work need", setting, "pressure",
            "never less than the manual's least, never above the sidewall's maximum",
        )
    )  # fmt: skip
    work.step(
        "Pressure that the load needs", "p", "p rated × (L / L rated)^(1 / 0.585)",
        (("p rated", v.rated_pressure, "pressure"), ("L", v.tire_mass, "mass"),
         ("L rated", rated.load, "mass")),
        least, "pressure", "tires/pressure-memory",
    )  # fmt: skip


def _ground(v: ws.Inputs, outputs: list[ws.Output], work: ws.Work) -> None:
    low, high = ground.contact_pressure_band(v.pressure)
    area = ground.contact_area(v.tire_mass, low)
    outputs.append(
        ws.Output(
            "contact_area", "Contact area on soft ground", area, "area_small",
            low=ground.contact_area(v.tire_mass, high), high=area,
        )
    )  # fmt: skip
    outputs.append(
        ws.Output(
            "ground_stress", "Largest stress 10 cm down", ground.peak_stress(v.pressure), "pressure"
        )
    )
    work.step(
        "Contact area", "A", "m g / p",
        (("m", v.tire_mass, "mass"), ("p", v.pressure, "pressure")), area, "area_small", "tires/S9",
    )  # fmt: skip


# --- advice ----------------------------------------------------------------------------------


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Return what each part of the size means, sizes near it, remedies and cautions."""
    tire = common.dimensions(v.tire)
    if tire is None:
        return ws.Advice(
            cautions=_cautions(), headline="Type the size as it stands on the sidewall."
        )
    remedies: list[ws.Remedy] = []
    load = outcome.check("load")
    if load is not None and load.margin < 0:
        index = _index_for(v.tire_mass)
        remedies.append(
            ws.Remedy(
                ws.phrase("Take {m} off this tire" + (f", or fit load index {index} or more."
                          if index else "."), m=(load.value - load.limit, "mass")),
                set={"tire_mass": f"{load.limit - 0.01:.2f} kg"} if load.limit > 10 else {},
            )
        )  # fmt: skip
    speed = outcome.check("speed")
    if speed is not None and speed.margin < 0:
        remedies.append(
            ws.Remedy(
                ws.phrase("Keep to {v}.", v=(speed.limit, "speed")),
                set={"road_speed": f"{speed.limit - 0.001:.4f} m/s"}, source="tires/OM-5",
            )
        )  # fmt: skip
    headline: ws.Words = ""
    if not outcome.checks:
        headline = ws.phrase(
            "{size} is about {od} across and {w} wide, and rolls {rc} in one turn.",
            size=tire.designation.size, od=(tire.overall_diameter, "length"),
            w=(tire.section_width, "length"), rc=(tire.rolling_circumference, "length"),
        )  # fmt: skip
    shown = [_parts(v.tire), *_near(tire)]
    return ws.Advice(remedies, _cautions(), shown, _notes(tire), headline)


def _index_for(load: float) -> int | None:
    for row in tables.rows("load_index"):
        if float(row["load_kg"]) >= load:
            return int(row["index"])
    return None


def _parts(found: Designation) -> ws.Table:
    rows: list[tuple[ws.Cell, ...]] = []
    if found.overall is not None:
        rows.append((f"{found.overall:g}", "nominal overall diameter in inches: a name; real tires "
                     "are up to 6 % smaller"))  # fmt: skip
    unit = "millimeters" if found.form == "metric" else "inches"
    if found.flexion:
        more = {"IF": "about 20 %", "VF": "about 40 %"}[found.flexion]
        rows.append((found.flexion, f"carries {more} more at the same pressure; may need its own "
                     "rim"))  # fmt: skip
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
            (service.text, ws.phrase("load index and speed symbol: {m} at {v}",
                                     m=(load, "mass"), v=(speed, "speed")))
        )  # fmt: skip
        if service.dual_load_index:
            dual = tire_load.load_of_index(service.dual_load_index)
            rows.append((f"/{service.dual_load_index}",
                         ws.phrase("load index as a dual: {m}", m=(dual, "mass"))))  # fmt: skip
    if found.ply_rating:
        rows.append((f"{found.ply_rating}PR", "ply rating: a strength class, not a count of plies"))
    if found.tread:
        row = tables.by_key("tread_codes", "code")[found.tread]
        note = f"; {row['note']}" if row["note"] else ""
        rows.append((found.tread, f"tread: {row['use']}{note}"))
    for word in found.words:
        rows.append((word, tables.by_key("tire_suffixes", "mark")[word]["meaning"]))
    return ws.Table("What each part says", ("Part", "Meaning"), tuple(rows))


def _near(tire: tires.Dimensions) -> list[ws.Table]:
    """List the sizes whose rolling circumference is nearest, whatever they are called."""
    near = sorted(
        (other for other in tires.every_tire()
         if other.designation.size != tire.designation.size
         and other.tread_class != "steer"
         and abs(other.rolling_circumference / tire.rolling_circumference - 1) <= 0.03),
        key=lambda other: abs(other.rolling_circumference - tire.rolling_circumference),
    )  # fmt: skip
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
        ws.Table(
            "Sizes that roll nearly as far", ("Size", "One turn", "Diameter", "Width"), rows,
            "tires/derived",
            "Near in rolling, not the same tire: rim, width and load differ. Sizes that charts "
            "call equal differ by up to 2 % in diameter.",
        )
    ]  # fmt: skip


def _notes(tire: tires.Dimensions) -> list[ws.Words]:
    notes: list[ws.Words] = [
        f"{common.describe(tire)}. Another maker's tire of the same size may differ by up to 3 % "
        "in diameter and in width."
    ]
    found = tire.designation
    rims = tables.by_key("tire_rims", "size")
    key = f"{found.width_text}/{found.aspect:g}" if found.aspect is not None else found.width_text
    if key in rims and found.form in ("decimal", "metric"):
        notes.append(f"Rims that the standard allows for {key}: {rims[key]['rims']}.")
    return notes


def _cautions() -> list[ws.Caution]:
    return [
        ws.Caution(
            "The sidewall, the tire maker's data book and the operator's manual come before any "
            "table here."
        ),
        ws.Caution(
            "Never mount a tire on a rim of another code: 16 and 16.1, or 16.5, don't "
            "interchange. Mounting is work for a tire shop.", "tires/OM-15",
        ),
    ]  # fmt: skip


def picture(v: ws.Inputs, outcome: ws.Outcome) -> Scene | None:
    """Return the tire from the side and from the front, to scale."""
    tire = common.dimensions(v.tire)
    if tire is None:
        return None
    radius, height = tire.overall_diameter / 2, tire.static_loaded_radius
    top, half = height + radius, tire.section_width / 2
    x = radius + 0.25 * tire.overall_diameter + half
    lip = (radius - tire.rim_diameter / 2) * 0.35
    front = [
        (x - half + lip, top), (x + half - lip, top), (x + half, top - lip), (x + half, lip),
        (x + half - lip, 0.0), (x - half + lip, 0.0), (x - half, lip), (x - half, top - lip),
    ]  # fmt: skip
    items: list[Item] = [
        Line([(-radius - 0.1, 0.0), (x + half + 0.1, 0.0)], "ground"),
        common.outline(0.0, tire, "fill"),
        Line(common.outline_points(0.0, tire), "ink"),
        Disc((0.0, height), tire.rim_diameter / 2, "soft", hole=True),
        Disc((0.0, height), 0.015, "ink"),
        Shape(front, "fill"),
        Line([*front, front[0]], "ink"),
        Dimension((-radius, top + 0.06), (radius, top + 0.06),
                  ws.phrase("{d}", d=(tire.overall_diameter, "length"))),
        Dimension((0.0, 0.0), (0.0, height),
                  ws.phrase("{r} loaded", r=(height, "length"))),
        Dimension((x - half, top + 0.06), (x + half, top + 0.06),
                  ws.phrase("{w}", w=(tire.section_width, "length"))),
        Label((0.0, height), f"rim {tire.designation.rim:g} in", style="soft", dy=-1.0),
    ]  # fmt: skip
    return Scene(
        f"{tire.designation.size}, to scale",
        ws.phrase(
            "Standing under load: {d} across, {w} wide, axle {r} above the ground",
            d=(tire.overall_diameter, "length"), w=(tire.section_width, "length"),
            r=(height, "length"),
        ),
        items,
    )  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="tire-size",
    title="Tire size",
    question="What does the size on my tire mean?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="tires/size",
    example="a radial drive tire of a compact.",
)
