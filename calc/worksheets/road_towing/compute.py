"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import braking, sight
from calc.worksheets.road_towing.fields import _RULES

MPH, FOOT, KMH = sight.MPH, sight.FOOT, braking.KMH


def _own(v: model.Inputs) -> float:
    """The tractor's own braking: as tested, else the minimum of its class."""
    if v.own_deceleration is not None:
        return arith.number(v.own_deceleration)
    return float(braking.approval_class(v.top_speed)["deceleration"])


def _combined(v: model.Inputs) -> float:
    """Braking of the combination on the slope. A load with its own brakes brakes itself."""
    unbraked = v.towed_mass if v.trailer_brakes == "none" else 0.0
    return braking.towing_deceleration(_own(v), v.tractor_mass, unbraked, v.grade)


def _ratio_rule(v: model.Inputs) -> str:
    if v.trailer_brakes == "none":
        return str(v.ratio_rule)
    return "braked-40" if braking.rule_covers("braked-40", v.road_speed) else "braked-50"


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks of mass, speed, stopping and chain."""
    rule = _ratio_rule(v)
    limit = braking.mass_limit(rule, v.tractor_mass)
    source = _RULES[rule]["source"]
    left = _combined(v)
    delay = v.reaction_time
    stop = braking.stopping_distance(v.road_speed, left, delay)
    alone_left = braking.towing_deceleration(_own(v), v.tractor_mass, 0.0, v.grade)
    alone = braking.stopping_distance(v.road_speed, alone_left, delay)
    checks = [
        model.at_most(
            "ratio",
            "Towed mass against the tractor",
            v.towed_mass,
            limit,
            "mass",
            source,
            why="The load pushes the tractor instead of stopping with it.",
        ),
        model.fits(
            "holds",
            "Braking left on the downgrade",
            1.0 if left > 0 else -1.0,
            "The brakes overcome the slope"
            if left > 0
            else "On this slope the load pushes harder than the brakes can hold: it does not stop",
            "road/EU2-memory; road/CALC-1",
            why="It would run away.",
        ),
    ]
    top = _RULES[rule]["speed_to_kmh"]
    if top:
        checks.append(
            model.at_most(
                "rule_speed",
                "Speed that the mass rule is for",
                v.road_speed,
                arith.number(top) * KMH + 0.25 * KMH,
                "speed",
                source,
                why="The rule says nothing for a faster trip.",
            )
        )
    if left > 0:
        checks.append(
            model.at_most(
                "room",
                "Stopping within the room you have",
                stop,
                v.room,
                "distance",
                "road/EU-2; road/EU2-memory",
                why="You can't stop for what stands beyond the bend.",
            )
        )
    if v.manual_limit is not None:
        checks.append(
            model.at_most(
                "manual",
                "Limit in the manual or on the decal",
                v.towed_mass,
                v.manual_limit,
                "mass",
                "road/MAN-2",
                why="The maker's limit comes before any rule of thumb.",
            )
        )
    if v.chain_rating is not None:
        checks.append(
            model.at_least(
                "chain",
                "Safety chain",
                v.chain_rating,
                v.towed_mass,
                "mass",
                "road/MAN-2; road/STD-4",
                close_band=0.0,
                why="It breaks when the drawbar pin does.",
            )
        )
    outputs = [
        model.Output("ratio_now", "Towed mass to tractor", v.towed_mass / v.tractor_mass, "count"),
        model.Output("limit", "Most you may tow by this rule", limit, "mass"),
        model.Output("alone", "Stop of the tractor alone", alone, "distance", "driver included"),
    ]
    if left > 0:
        outputs += [
            model.Output("stop", "Stop with this load", stop, "distance", "driver included"),
            model.Output("longer", "Longer than alone", stop - alone, "distance"),
        ]
    outputs.append(
        model.Output("left", "Braking left with the load on the slope", left, "acceleration")
    )
    if work.on:
        _steps(v, work, left, stop, limit, source)
    return model.Outcome(checks, outputs)


def _steps(
    v: model.Inputs, work: model.Work, left: float, stop: float, limit: float, source: str
) -> None:
    work.step(
        "Most you may tow",
        "m",
        "ratio × tractor",
        (("tractor", v.tractor_mass, "mass"),),
        limit,
        "mass",
        source,
    )
    unbraked = v.towed_mass if v.trailer_brakes == "none" else 0.0
    work.step(
        "Braking of the combination",
        "d",
        "d₀ m_t / (m_t + m_u) + g sin(slope)",
        (
            ("d₀", _own(v), "acceleration"),
            ("m_t", v.tractor_mass, "mass"),
            ("m_u", unbraked, "mass"),
            ("slope", v.grade, "slope"),
        ),
        left,
        "acceleration",
        "road/EU2-memory; road/CALC-1",
    )
    if left > 0:
        work.step(
            "Stop",
            "s",
            "v (tᵣ + 0.54 s) + v² / (2 d)",
            (
                ("v", v.road_speed, "speed"),
                ("tᵣ", v.reaction_time, "seconds"),
                ("d", left, "acceleration"),
            ),
            stop,
            "distance",
            "road/EU-2; road/CALC-1",
        )
