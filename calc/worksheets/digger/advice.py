"""What to do about it."""

from __future__ import annotations

from calc import model, si, tables
from calc.mechanics import auger
from calc.search import Remedies
from calc.worksheets.digger.compute import RATED_SPEED, soil_row

CAUTIONS = ("away", "winds", "lines", "stuck", "enlarge", "by_hand")
HALF_INCH = 0.5


def _reach(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    step = {"step": HALF_INCH, "source": "value/DERIVED"}
    if "clearance" in found.over:
        remedies.less("auger_length", mends=("clearance",), key="shorter", **step)
        # The raised gearbox stands at z_A + L (z_l + y - z_A) / a: nearer lifts it farther.
        remedies.less("yoke_distance", mends=("clearance",), **step)
    if "depth" in found.over:
        remedies.more("auger_length", mends=("depth",), key="longer", **step)
        remedies.less("depth_wanted", mends=("depth",), **step)
    if "angle" in found.over:
        remedies.less("auger_length", mends=("angle",), key="lower", **step)


def _power(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    # Where the maker's own limit says no, a power that may do is no reason to buy another auger.
    if "power" in found.over or ("power" in found.broken and "auger" not in found.over):
        if v.feed == "steady":
            remedies.choose("feed", "gentle", mends=("power",), source="power/PRACTICE")
        remedies.less(
            "auger_diameter", mends=("power",), stock=auger.sold_augers(), source="value/P7"
        )
    if "auger" in found.broken:
        remedies.less(
            "auger_diameter",
            mends=("auger",),
            stock=auger.sold_augers(),
            key="allowed",
            source="value/P6c",
        )
    if found.broken & {"maker_least", "maker_most"}:
        remedies.do("other_digger", ("maker_least", "maker_most"), source="value/P6c")
    if "protection" in found.broken:
        remedies.choose("bolt_as_manual", "yes", mends=("protection",), source="value/P6b")
    if "speed" in found.broken:
        remedies.less("pto_speed", mends=("speed",), end=RATED_SPEED, step=10.0)
    if "soil" in found.broken and soil_row(v)["diggable"] == "no":
        remedies.choose("soil", "clay", mends=("soil",))


def _setup_table(v: model.Inputs) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = [
        ("Take the top link off; pin the boom to the top-link bracket",),
        ("Swing the drawbar aside or take it off",),
        ("Sway chains or blocks tight",),
    ]
    rules = tables.by_key("digger/digger_rules", "key")
    if v.link_spread is not None:
        outside = float(rules["pins_outside"]["value"]) * si.INCH
        inside = float(rules["pins_inside"]["value"]) * si.INCH
        if v.link_spread >= outside:
            rows.append(("Links as wide as yours: lower pins on the outside of the yoke legs",))
        elif v.link_spread <= inside:
            rows.append(("Links as narrow as yours: lower pins on the inside of the yoke legs",))
        else:
            rows.append(("Your links are between the manual's two cases: try the yoke both ways",))
    rows += [
        ("Bushings on Category 1 pins in Category 2 balls",),
        (
            model.phrase(
                "Set the point about {start} behind the gearbox center, then start slowly",
                start=(float(rules["start"]["value"]) * si.INCH, "length"),
            ),
        ),
        ("Shear bolt of the grade and size in the manual, and spares in the toolbox",),
    ]
    return model.Table("Before the first hole", ("Step",), tuple(rows), "value/P6a", checklist=True)


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    row = soil_row(v)
    notes: list[model.Words] = [f"{row['name']}: {row['note']}"]
    if v.pto_speed < RATED_SPEED:
        notes.append(found.note("slow"))
    powers = tables.by_key("digger/digger_power", "key")
    rules = tables.by_key("digger/digger_rules", "key")
    notes.append(
        found.note(
            "maker",
            low=(float(powers["tractor_low"]["hp"]) * si.HP, "power"),
            high=(float(powers["tractor_high"]["hp"]) * si.HP, "power"),
            speed=(float(rules["engine_speed"]["value"]), "rotation"),
        )
    )
    if "bolt_torque" in found:
        notes.append(found.note("bolt"))
    return notes


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Offer what helps, and the steps before the first hole."""
    if "coupler" in found.broken:
        remedies.choose("quick_coupler", "none", mends=("coupler",))
    _reach(v, found, remedies)
    _power(v, found, remedies)
    says = {"works": found.note("tell_works")}
    if "sold" not in found:
        says["size"] = found.note("tell_none", least=(auger.sold_augers()[0], "length"))
    return model.Advice(
        (), found.cautions(*CAUTIONS), [_setup_table(v)], _notes(v, found), says=says
    )
