"""What to do about it."""

from __future__ import annotations

import math

from calc import model, tables
from calc.mechanics import resale
from calc.search import Solver
from calc.worksheets.resale.compute import (
    ROUNDS,
    SEED,
    _share,
    book_price,
    dollars,
    plan,
    trade_worth,
)
from calc.worksheets.resale.fields import DAY, _evidence


def _ways(v: model.Inputs, outcome: model.Outcome) -> list[tuple[str, float]]:
    ways = [
        ("sell it as it stands", outcome.output("as_is")),
        ("repair it and sell", outcome.output("repaired")),
    ]
    worth = trade_worth(v)
    if worth is not None:
        ways.append(("trade it in", worth))
    return sorted(ways, key=lambda way: way[1], reverse=True)


def _headline(v: model.Inputs, outcome: model.Outcome, ranged: bool) -> str:
    gain = outcome.output("gain_expected")
    chance = outcome.output("chance_pays")
    first, second = _ways(v, outcome)[:2]
    side = "better" if gain >= 0 else "worse"
    means = (
        f"on average repairing leaves you {dollars(abs(gain))} {side} off, and the chance that the "
        f"added price covers it is {_share(chance)}"
    )
    if ranged:
        return (
            f"At the least favorable of what you gave, {means}. The numbers below say how far that "
            "ranges."
        )
    if gain > 0 and chance >= 0.75:
        said = "The repair likely pays"
    elif gain > 0 and chance >= 0.5:
        said = "The repair is about even"
    else:
        said = "Sell it as it stands, disclose the fault and show the repair quote"
    return (
        f"{said}: {means}. Of the ways compared, to {first[0]} leaves most, {dollars(first[1])}; "
        f"to {second[0]} leaves {dollars(second[1])}."
    )


REPAIR_CHECKS = ("gain", "chance")


def _remedies(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    remedies = []
    if outcome.margin(REPAIR_CHECKS) < 0:
        most = solve.largest("parts", 0.0, v.parts, REPAIR_CHECKS)
        if most is not None:
            parts = math.floor(most)
            cost = solve.run(parts=float(parts)).output("cost")
            remedies.append(
                model.Remedy(
                    f"The repair comes out even if the parts cost {dollars(parts)} or less, "
                    f"{dollars(cost)} with labor and overrun.",
                    {"parts": f"${parts}"},
                )
            )
        rate = solve.largest("shop_rate", 0.0, v.shop_rate, REPAIR_CHECKS)
        if rate is not None and rate >= 10.0:
            remedies.append(
                model.Remedy(
                    f"Or if the labor costs {dollars(math.floor(rate))} an hour or less: your own "
                    "time, if the work is within your skill.",
                    {"shop_rate": f"{math.floor(rate)} $/h"},
                )
            )
        top = v.uplift_high + 20_000.0
        least = solve.smallest(
            "uplift_likely",
            v.uplift_likely,
            top,
            REPAIR_CHECKS,
            uplift_low=lambda likely: min(v.uplift_low, likely),
            uplift_high=lambda likely: max(v.uplift_high, likely),
        )
        if least is not None:
            likely = math.ceil(least)
            remedies.append(
                model.Remedy(
                    f"Or if the likely added price is {dollars(likely)} or more: look at what "
                    "sold machines without the fault brought.",
                    {
                        "uplift_likely": f"${likely}",
                        "uplift_high": f"${max(v.uplift_high, likely):.0f}",
                    },
                )
            )
    if outcome.check("ceiling") and outcome.margin(("ceiling",)) < 0:
        room = solve.largest(
            "uplift_likely",
            0.0,
            v.uplift_likely,
            ("ceiling",),
            uplift_low=lambda likely: min(v.uplift_low, likely),
        )
        if room is not None:
            likely = math.floor(room)
            remedies.append(
                model.Remedy(
                    f"Count on no more than {dollars(likely)} of added price: above it people "
                    "buy new.",
                    {
                        "uplift_likely": f"${likely}",
                        "uplift_low": f"${min(v.uplift_low, likely):.0f}",
                        "uplift_high": f"${likely}",
                    },
                    "value/V9",
                )
            )
    return remedies


def _tables(
    v: model.Inputs, outcome: model.Outcome, spread: resale.Spread, ranged: bool
) -> list[model.Table]:
    known = plan(v)
    rows: list[tuple[model.Cell, ...]] = [
        (
            "Sell as it stands",
            dollars(known.value),
            _share(known.chance_as_is),
            f"{known.days_as_is:.0f}",
            "–",
            dollars(outcome.output("as_is")),
        ),
        (
            "Repair and sell",
            dollars(known.value + known.uplift.mean),
            _share(known.chance_repaired),
            f"{known.days_repaired:.0f}",
            dollars(known.cost.mean),
            dollars(outcome.output("repaired")),
        ),
    ]
    worth = trade_worth(v)
    if worth is not None:
        rows.append(
            (
                "Trade in",
                dollars(v.trade_offer),
                "100 %",
                "0",
                "–",
                f"{dollars(worth)} with the tax saved",
            )
        )
    ways = model.Table(
        "The ways side by side",
        ("Way", "Price", "Chance", "Days", "Spent first", "Expected in hand"),
        tuple(rows),
        "value/DERIVED",
        "At the least favorable of what you gave." if ranged else "",
    )
    shares = ((1, 10), (1, 4), (1, 2), (3, 4), (9, 10))
    spread_table = model.Table(
        "How the gain from repairing spreads",
        ("Out of so many sales", "it leaves at most"),
        tuple((f"{few} in {many}", dollars(spread.at(few / many))) for few, many in shares),
        "value/V29",
        f"Played {ROUNDS:,} times with the seed {SEED}, so that the figures come out the same "
        f"everywhere: mean {dollars(spread.mean)}, standard deviation "
        f"{dollars(spread.deviation)}, better off in {_share(spread.chance_of_gain)} of them. The "
        "buyer's luck is the same with and without the repair.",
    )
    return [ways, spread_table]


CAUTIONS = (
    model.Caution(
        "A fault that can hurt somebody is repaired or told in writing before anybody else "
        "drives it: brakes, steering, roll-over frame, PTO guards, safety switches.",
        "value/PRACTICE",
    ),
    model.Caution(
        "Expected gain is an average over many sales, and you have one machine: the spread "
        "tells how far a single sale may go the other way.",
        "value/DERIVED",
    ),
    model.Caution(
        "Tax rules are those of the year in which they were read, and this is no tax "
        "advice: check yours, and ask about the farm-use exemption.",
        "value/V19",
    ),
)


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Give the result in a sentence, remedies, the ways side by side and the spread."""
    spread = resale.simulate(plan(v), SEED, ROUNDS)
    large = dollars(_evidence("auction_repairs")[0])
    notes: list[model.Words] = [
        f"Before an auction, repairs of {large} and more are often not recovered: tell the bidders "
        "instead. Cleaning, belts, fluids and records are worth it nearly always."
    ]
    gain_day = outcome.output("daily")
    notes.append(
        f"A faster sale is worth {dollars(gain_day)} a day and no more. A better chance to sell "
        "usually counts for more than speed."
    )
    if max(v.days_as_is, v.days_repaired) > 183 * DAY:
        notes.append(
            "Over about half a year, discount each amount instead of charging interest by the "
            "day, never both."
        )
    book = book_price(v)
    if book:
        notes.append(
            f"By age and hours such a machine brings about {dollars(book)} at auction on average, "
            f"in average condition; your price is {_share(v.as_is_price / book)} of that."
        )
    worth = trade_worth(v)
    if worth is not None:
        row = tables.by_key("money/trade_tax_rules", "key")[v.tax_rule]
        notes.append(
            f"{row['place']}: {row['rule']} Trading in saves {dollars(worth - v.trade_offer)} of "
            "tax here; a private sale must bring "
            f"{dollars(outcome.output('private_price'))} to leave as much."
        )
    return model.Advice(
        _remedies(v, outcome, solve),
        CAUTIONS,
        _tables(v, outcome, spread, solve.ranged),
        notes,
        _headline(v, outcome, solve.ranged),
    )
