"""What to do about it."""

from __future__ import annotations

from calc import model, quantities
from calc.mechanics import hitch, pto_power
from calc.search import Solver
from calc.worksheets.hitch.compute import _ball_sleeve, _coupler_sleeve, _span, _tractor_category
from calc.worksheets.hitch.fields import COUPLERS

OFTEN_SWINGING = ("rotary_cutter", "rotary_cutter_light", "flail_mower")


# --- advice ------------------------------------------------------------------------------------


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Return the sleeves to fit, what else would go on, and what the measurements mean."""
    remedies: list[model.Remedy] = []
    if v.quick_coupler == "u_frame":
        remedies += _coupler_remedies(outcome, solve)
    remedies += _span_remedies(v, outcome)
    remedies += _category_remedies(v, outcome, solve)
    sleeves = _sleeve_remedies(v, outcome, solve) if v.sleeves == "none" else []
    # What is broken comes first; where nothing is, the sleeves are the thing to do.
    remedies = [*remedies, *sleeves] if outcome.margin() < 0.0 else [*sleeves, *remedies]
    return model.Advice(remedies, _cautions(v), _tables(v), _notes(v))


PIN_CHECKS = ("lower_pins", "top_pin", "slot_lower", "slot_upper")


def _sleeve_remedies(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    fitted = solve.run(sleeves="fitted")
    parts = []
    for check in outcome.checks:
        after = fitted.check(check.name)
        if check.name in PIN_CHECKS and check.margin == 0.0 and after and after.margin > 0.0:
            place = "lower" if check.name in ("lower_pins", "slot_lower") else "upper"
            row = _coupler_sleeve(v, place) if "slot" in check.name else _ball_sleeve(v, place)
            which = "each lower pin" if place == "lower" else "the top pin"
            if row:
                sizes = f"{row['inside_in']} in inside and {row['outside_in']} in outside"
                parts.append(f"{sizes} on {which}")
    if not parts:
        return []
    text = f"Fit sleeves: {'; '.join(parts)}."
    return [model.Remedy(text, {"sleeves": "fitted"}, "hitch/PRACTICE; hitch/H19")]


def _span_remedies(v: model.Inputs, outcome: model.Outcome) -> list[model.Remedy]:
    check = outcome.check("span")
    if check is None or check.margin > 0.0:
        return []
    span = _span(v)
    if check.sense == "between":
        gap = hitch.reach_gap(v.links_narrowest, v.links_widest, span)
        said = (
            "The links would have to open {gap} wider, to {span}."
            if gap > 0
            else "The links would have to close {gap} further, to {span}."
        )
        text = model.phrase(said, gap=(abs(gap), "length"), span=(span, "length"))
        return [model.Remedy(text, source="hitch/DERIVED")]
    said = (
        "Turn the stabilizers and measure between the inner faces of the balls: they must reach "
        "{span}. Put the narrowest and widest setting in above to settle it."
    )
    return [model.Remedy(model.phrase(said, span=(span, "length")), source="hitch/DERIVED")]


def _coupler_remedies(outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    remedies = []
    broken = [check.name for check in outcome.checks if check.margin < 0]
    if broken and solve.run(quick_coupler="none").margin() >= 0.0:
        remedies.append(
            model.Remedy(
                "Take the coupler off for this implement; on the plain hitch it goes on.",
                {"quick_coupler": "none"},
                "hitch/DERIVED",
            )
        )
    if "conflict" in broken and solve.run(top_link="fixed").margin(("conflict",)) >= 0.0:
        remedies.append(
            model.Remedy(
                "Or ask the implement's maker for the adapter that holds its top pin still for a "
                "coupler.",
                {"top_link": "fixed"},
                "hitch/PRACTICE",
            )
        )
    if "hook_span" in broken:
        fitting = [
            key
            for key in COUPLERS
            if solve.run(coupler_category=key).margin(("hook_span", "coupler_on_tractor")) >= 0.0
        ]
        remedies += [
            model.Remedy(
                f"A Category {key} coupler has its hooks where these pins are.",
                {"coupler_category": key},
                "hitch/DERIVED",
            )
            for key in fitting
        ]
    if "hook_height" in broken and solve.run(mast_hole="yes").margin(("hook_height",)) >= 0.0:
        remedies.append(
            model.Remedy(
                "Ask the implement's maker for a coupler bracket that puts a hole at the hook's "
                "height; don't drill the mast.",
                {"mast_hole": "yes"},
                "hitch/PRACTICE",
            )
        )
    return remedies


def _category_remedies(
    v: model.Inputs, outcome: model.Outcome, solve: Solver
) -> list[model.Remedy]:
    """Which categories of implement would go on this hitch, when this one doesn't."""
    broken = [check.name for check in outcome.checks if check.margin < 0]
    names = (*PIN_CHECKS, "span", "hook_span")
    if not set(names) & set(broken):
        return []
    remedies = []
    blank = {"lower_pin": None, "upper_pin": None, "implement_span": None}
    going = []
    for key in hitch.CATEGORIES:
        if key != v.implement_category and hitch.has_size("upper_pin", hitch.pin_number(key)):
            tried = solve.run(implement_category=key, sleeves="fitted", **blank)
            if tried.margin(names) >= 0.0:
                going.append(key)
    if going:
        best = hitch.pin_number(_tractor_category(v))
        key = best if best in going else going[-1]
        said = quantities.joined([f"Category {item}" for item in going], "or")
        remedies.append(
            model.Remedy(
                f"It takes {said} implements; many frames take a second set of pins.",
                {
                    "implement_category": key,
                    "sleeves": "fitted",
                    "lower_pin": "",
                    "upper_pin": "",
                    "implement_span": "",
                },
                "hitch/DERIVED",
            )
        )
    return remedies


def _cautions(v: model.Inputs) -> list[model.Caution]:
    cautions = [
        model.Caution(
            "Hitch with the engine off and the implement on the ground, and never stand between "
            "tractor and implement while somebody works the hitch.",
            "hitch/PRACTICE",
        ),
        model.Caution(
            "Every pin gets its linch pin. Pins that go in say nothing about the weight: check "
            "lift and front axle as well, and follow both operator's manuals.",
            "hitch/PRACTICE",
        ),
    ]
    if v.quick_coupler == "u_frame":
        cautions.append(
            model.Caution(
                "See both lower latches closed before lifting. No standard promises that every "
                "coupler takes every implement.",
                "hitch/S2",
            )
        )
        if pto_power.kind_row(v.implement_kind):
            cautions.append(
                model.Caution(
                    "The coupler moves the implement back: measure the drive shaft again at its "
                    "shortest and longest before running it.",
                    "hitch/PRACTICE",
                )
            )
    return cautions


def _measured(v: model.Inputs) -> list[tuple[str, float, str]]:
    """What was measured on the implement: its name, the size, and the item of the tables."""
    found = []
    if v.lower_pin is not None:
        found.append(("Lower pin", float(v.lower_pin), "lower_pin"))
    if v.upper_pin is not None:
        found.append(("Top pin", float(v.upper_pin), "upper_pin"))
    if v.implement_span is not None:
        found.append(("Span between shoulders", _span(v), "shoulder_span"))
    return found


def _tables(v: model.Inputs) -> list[model.Table]:
    measured = _measured(v)
    if not measured:
        return []
    rows: list[tuple[model.Cell, ...]] = []
    for label, value, item in measured:
        known = [key for key in "01234" if hitch.has_size(item, key)]
        nearest = min(known, key=lambda key: abs(hitch.size(item, key) - value))
        nominal = hitch.size(item, nearest)
        rows.append(
            (
                label,
                (value, "length"),
                f"Category {nearest}",
                (nominal, "length"),
                (value - nominal, "length"),
            )
        )
    return [
        model.Table(
            "What was measured, and the nearest size of the tables",
            ("Part", "Measured", "Nearest", "Its size", "Off by"),
            tuple(rows),
            "hitch/H1; hitch/W3",
        )
    ]


def _notes(v: model.Inputs) -> list[model.Words]:
    notes: list[model.Words] = []
    sizes = {item: value for _, value, item in _measured(v)}
    if sizes:
        found = hitch.identify(
            sizes.get("lower_pin"), sizes.get("upper_pin"), sizes.get("shoulder_span")
        )
        if found:
            names = quantities.joined([f"Category {item.name}" for item in found], "or")
            more = " The span between the lower pins settles which." if len(found) > 1 else ""
            notes.append(f"By its measurements the implement is {names}.{more}")
        else:
            notes.append(
                "The measurements together agree with no single category: it may have stepped pins "
                "for two, or a span of its own. The checks above use the sizes as measured."
            )
    if v.ball_hole is not None:
        number = hitch.bore_category(v.ball_hole)
        notes.append(
            f"A lower ball with that hole is Category {number}; what is measured counts more than "
            "what is picked."
            if number
            else "No category has that hole in its lower balls: measure across the hole."
        )
    if v.pto_power is not None:
        meant = [f"Category {key}" for key in hitch.categories_for_power(v.pto_power)]
        notes.append(
            f"By its power the tractor is meant for {quantities.joined(meant, 'or')}. Power only "
            "suggests; pins and span decide."
            if meant
            else "No category is meant for that power in the edition of 1994; go by pins and span."
        )
    coupled = v.quick_coupler == "u_frame"
    if coupled and v.top_link == "fixed" and v.implement_kind in OFTEN_SWINGING:
        notes.append(
            "Many cutters and flail mowers have a top link that swings. If this one does, say so "
            "above: then the hook doesn't take it without an adapter."
        )
    if coupled and v.coupler_slots == "wide":
        notes.append(
            "Why sleeves: the slots are cut for one size, that of Category 3 pins. The sleeve "
            "brings a smaller pin up to it, keeps it centered in the hook, and takes the wear "
            "instead of the pin."
        )
    return notes
