"""What to do about it."""

from __future__ import annotations

from calc import model
from calc.mechanics import auger, ballast, implement_power, typical
from calc.search import Remedies
from calc.subjects import hung, hung_remedies, shaft_power
from calc.subjects.standing import stand
from calc.worksheets.pairing import checks as pairing
from calc.worksheets.pairing import hooking
from calc.worksheets.pairing.fields import FRONT_RULES

BOTH_ENDS = ("both_rear", "both_front", "both")


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Offer a stock width, weights in front, the tractor that would do, and parts that fit."""
    hung_remedies.offer(v, remedies)
    _smaller(v, remedies)
    remedies.more("pto_power", mends=("power", "class", "pull"), step=1.0, another=True)
    remedies.more("tractor_mass", mends=("grip",), step=50.0, another=True)
    remedies.choose("driven", "four", mends=("grip",))
    remedies.choose("quick_coupler", "none", mends=("coupler",), source="hitch/H19")
    if hooking.takes_either(v):
        remedies.do("other_pins", ("pins", "top_pin", "span"), source="hitch/PRACTICE")
    remedies.do("one_off", BOTH_ENDS, source="hitch/PRACTICE")
    remedies.more("power_limit", mends=("driveline",), step=5.0, another=True)
    remedies.do("lighter_duty", ("duty",), source="hitch/PRACTICE")
    remedies.more("tail_height", mends=("tail_seen",), end=3.3)
    flat = hung_remedies.FLAT
    if v.slope is not None and v.slope > flat:
        remedies.less("slope", mends=("slope", "climb"), end=flat, step=1.0, plainly=True)
    if v.cross_slope is not None:
        remedies.less("cross_slope", mends=("cross",), end=flat, step=1.0, plainly=True)
        if pairing.raises_a_load(v):
            remedies.do("along", ("cross",), source="hitch/PRACTICE")
    _counter(v, remedies)
    cautions = ["manuals", "rest"]
    how = hung.hangs(v)
    if how == "hitch":
        cautions.append("sway")
    lifted = pairing.raises_a_load(v) or (how == "hitch" and v.loader == "on")
    if lifted or v.cross_slope is not None:
        cautions.append("across")
    elif how != "subframe":
        cautions.append("not_across")
    if how != "subframe" and v.slope is None:
        cautions.append("level")
    if how == "towed":
        cautions.append("towing")
    if implement_power.kind_row(v.implement_kind) is not None:
        cautions.append("shaft")
    if v.loader_payload is not None:
        cautions.append("loader")
    notes = {"hitching": "no_sides", "duty": "no_rating"}
    if how != "front":
        notes["in_front"] = "not_front"
    if how != "hitch":
        notes["hitching"] = notes["lift"] = "not_hung"
    if not pairing.takes_power(v):
        notes["power"] = "no_shaft"
    says: dict[str, model.Words] = {ask: found.note(name) for ask, name in notes.items()}
    says["hydraulics"] = _oil_side(v, found)
    return model.Advice(cautions=found.cautions(*cautions), notes=_notes(v, found), says=says)


def _oil_side(v: model.Inputs, found: model.Found) -> model.Words:
    """Which side's flow and outlets are still to be told."""
    if v.remotes_needed:
        return found.note("no_outlets", remotes=(v.remotes_needed, "count"))
    told = v.implement_flow is not None or v.remotes is not None
    return found.note("not_asked" if told else "no_flow")


def _smaller(v: model.Inputs, remedies: Remedies) -> None:
    """Offer a smaller opening or auger, of those that are sold."""
    row = implement_power.kind_row(v.implement_kind)
    if row is not None and row["size"] == "opening":
        stock = typical.stock("chipper_openings")
        power = ("power", "class")
        remedies.less("working_width", mends=power, stock=stock, key="opening")
    elif row is not None and row["size"] == "auger":
        remedies.less("auger_diameter", mends=("power",), stock=auger.sold_augers())


def _counter(v: model.Inputs, remedies: Remedies) -> None:
    """Offer what a counter sells or orders for outlets, flow, shafts and clearance."""
    remedies.do("outlets", ("remotes",), source="hitch/PRACTICE")
    remedies.do("less_flow", ("flow",), source="hitch/PRACTICE")
    remedies.do("carried_higher", ("clearance",), source="hitch/PRACTICE")
    if "shaft" not in remedies.broken:
        return
    if not shaft_power.mid_driven(v.implement_kind):
        remedies.choose("implement_shaft", v.shaft, mends=("shaft",), source="hitch/S4")
    elif v.implement_kind == "mid_mower":
        remedies.do("mower_behind", ("shaft",), source="hitch/PRACTICE")


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    """What the other rules and the other materials would ask for."""
    notes: list[model.Words] = []
    if "power_walking" in found and found.power_walking > found.power_left:
        notes.append(found.note("walk", walk=(shaft_power.WALK, "speed")))
    if hung.hangs(v) in ("hitch", "towed"):
        stands, mass = stand(v), hung.behind_axle(v)[0]
        added = mass + stands.weights
        others = [
            (
                option.label,
                ballast.front_load_required(stands.own, stands.own_front, added, option.value),
            )
            for option in FRONT_RULES
            if option.value != v.front_rule
        ]
        said = "; ".join(
            f"{label.lower()} asks for {{n{i}}}" for i, (label, _) in enumerate(others)
        )
        numbers = {f"n{i}": (value, "mass") for i, (_, value) in enumerate(others)}
        notes.append(model.Phrase(f"Other rules for the front axle: {said}.", numbers))
    if v.tire_liquid != "none":
        notes.append(found.note("liquid"))
    bands = [pairing.demand(v, load) for load in implement_power.LOADS]
    asked = [(band.high, "power") for band in bands if band is not None]
    if asked and v.power_needed is None:
        ends = dict(zip(("low", "usual", "high"), asked, strict=True))
        notes.append(found.note("power", **ends))
    return notes
