"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.mechanics import chances
from calc.model.pictures import Bar, Bars, Chart, Picture, Series
from calc.worksheets.resale.compute import ROUNDS, SEED, dollars, plan, repair_bill, share
from calc.worksheets.resale.fields import evidence

# --- picture ---------------------------------------------------------------------------------


def swings(v: model.Inputs) -> list[tuple[str, float, float]]:
    """Label and gain at both ends for each thing that may come out otherwise, widest first."""
    cost = repair_bill(v)
    auction = evidence("auction_fee", 0.01)[0]

    def gain(**changes: float) -> float:
        return plan(v.but(**changes)).gain()

    def fixed(amount: float) -> float:
        return plan(v.but(uplift_low=amount, uplift_likely=amount, uplift_high=amount)).gain()

    def points(value: float) -> tuple[float, float]:
        return max(0.01, value - 0.10), min(1.0, value + 0.10)

    low0, high0 = points(v.chance_as_is)
    low1, high1 = points(v.chance_repaired)
    scaled = cost * (1.0 + v.overrun / 3.0)

    def at_cost(amount: float) -> float:
        return float(plan(v).gain() + scaled - amount)

    found = [
        (
            f"Added price {dollars(v.uplift_low)} to {dollars(v.uplift_high)}",
            fixed(v.uplift_low),
            fixed(v.uplift_high),
        ),
        (
            f"Repair {dollars(cost)} to {dollars(cost * (1 + v.overrun))}",
            at_cost(cost * (1.0 + v.overrun)),
            at_cost(cost),
        ),
        (
            f"Chance repaired {share(low1)} to {share(high1)}",
            gain(chance_repaired=low1),
            gain(chance_repaired=high1),
        ),
        (
            f"Chance as it stands {share(low0)} to {share(high0)}",
            gain(chance_as_is=low0),
            gain(chance_as_is=high0),
        ),
        (
            "Price as it stands, 10 % either way",
            gain(as_is_price=0.9 * v.as_is_price),
            gain(as_is_price=1.1 * v.as_is_price),
        ),
        (
            "Fallback price, 10 % either way",
            gain(fallback=0.9 * v.fallback),
            gain(fallback=1.1 * v.fallback),
        ),
        (
            "Days repaired, half to double",
            gain(days_repaired=0.5 * v.days_repaired),
            gain(days_repaired=2.0 * v.days_repaired),
        ),
        (f"Selling fee 0 to {share(auction)}", gain(fee=0.0), gain(fee=auction)),
    ]
    return sorted(found, key=lambda item: abs(item[2] - item[1]), reverse=True)


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """What matters most, as a tornado, and how the gain spreads."""
    gain = outcome.output("gain_expected")
    found = swings(v)
    spread = chances.simulate(plan(v), SEED, ROUNDS)
    bars = Bars(
        "What matters most",
        model.phrase(
            "Expected gain of the repair as each thing alone moves from one end to the other; the "
            "line is at {gain}. What moves it most: {first}, then {second}.",
            gain=dollars(gain),
            first=found[0][0].lower(),
            second=found[1][0].lower(),
        ),
        "money",
        [
            Bar(
                label,
                max(one, other),
                min(one, other),
                "fill",
                f"{dollars(min(one, other))} to {dollars(max(one, other))}",
            )
            for label, one, other in found
        ],
        middle=gain,
    )
    shares = [k / 40 for k in range(41)]
    chart = Chart(
        "How the gain spreads",
        model.phrase(
            "Share of sales in which repairing leaves less than the amount below: half of them "
            "under {median}; you are better off in {share} of them.",
            median=dollars(spread.at(0.5)),
            share=share(spread.chance_of_gain),
        ),
        "Gain from repairing",
        "money",
        "Share of sales with less",
        "fraction",
        [
            Series("gain", [spread.at(part) for part in shares], shares, "accent thick"),
            Series("no gain, no loss", [0.0, 0.0], [0.0, 1.0], "soft dashed"),
        ],
    )
    return [bars, chart]
