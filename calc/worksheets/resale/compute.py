"""The sums."""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import finance, resale
from calc.worksheets.resale.fields import CUSTOM, DAY, HOUR, MONTH, YEAR, _evidence

ROUNDS, SEED = 2000, 1988


def _cost(v: model.Inputs) -> float:
    return resale.repair_cost(v.parts, v.hours / HOUR, v.shop_rate, v.parts_tax)


def plan(v: model.Inputs) -> resale.Plan:
    """The choice at one set of values."""
    cost = _cost(v)
    low, likely, high = sorted((v.uplift_low, v.uplift_likely, v.uplift_high))
    return resale.Plan(
        v.as_is_price,
        resale.Triangle(low, likely, high),
        resale.Triangle(cost, cost, cost * (1.0 + v.overrun)),
        v.days_as_is / DAY,
        v.days_repaired / DAY,
        v.chance_as_is,
        v.chance_repaired,
        v.fallback,
        v.fee,
        resale.holding_cost(v.as_is_price, v.yearly_rate, v.storage),
    )


def _tax(v: model.Inputs) -> tuple[float, bool]:
    """Tax rate and whether the difference alone is taxed."""
    row = tables.by_key("money/trade_tax_rules", "key")[v.tax_rule]
    rate = float(row["rate_percent"]) / 100.0 if row["rate_percent"] else arith.number(v.sales_tax)
    return rate, row["credit"] == "yes"


def trade_worth(v: model.Inputs) -> float | None:
    """The trade-in and the tax it saves, or None without an offer. [$]"""
    if v.trade_offer is None:
        return None
    rate, credit = _tax(v)
    price = v.new_price if v.new_price is not None else 0.0
    return arith.number(v.trade_offer) + resale.trade_tax_value(price, v.trade_offer, rate, credit)


def book_price(v: model.Inputs) -> float | None:
    """Average auction price by age and hours, or None when a number is missing. [$]"""
    if v.like_new_price is None or v.age is None or v.hour_meter is None:
        return None
    years = v.age / YEAR
    use = resale.hours_a_year(v.hour_meter / HOUR, years)
    return arith.number(v.like_new_price) * resale.remaining_value(v.machine, years, use)


def _chance(known: resale.Plan) -> float:
    return known.uplift.chance_above(known.break_even())


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Give the checks and numbers at one set of values."""
    known = plan(v)
    uplift, cost = known.uplift, known.cost
    as_is = resale.expected_net(known.as_is(), known.fallback, known.fee, known.daily)
    repaired = resale.expected_net(known.repaired(), known.fallback, known.fee, known.daily)
    needed = known.break_even()
    chance = _chance(known)
    gain = repaired - as_is
    if work.on:
        _show(v, work, known, as_is, repaired, needed)
    checks = [
        model.at_least(
            "gain",
            "Added price on average",
            uplift.mean,
            needed,
            "money",
            "value/DERIVED",
            why="Money goes into the machine and does not come back.",
            close_band=0.0,
        ),
        # At 3 in 4 it likely pays; between that and 1 in 2 it is about even.
        model.at_least(
            "chance",
            "Chance that the repair pays",
            chance,
            0.5,
            "fraction",
            CUSTOM,
            why="More often than not the repair costs more than it brings.",
            close_band=0.5,
        ),
    ]
    if v.like_new_price is not None:
        share, _, source = _evidence("ceiling")
        checks.append(
            model.at_most(
                "ceiling",
                "Price once repaired",
                v.as_is_price + uplift.likely,
                0.01 * share * v.like_new_price,
                "money",
                source,
                why="Near that price people buy a new one.",
            )
        )
    outputs = [
        model.Output("as_is", "Sell as it stands, expected in hand", as_is, "money"),
        model.Output("repaired", "Repair and sell, expected in hand", repaired, "money"),
        model.Output("gain_expected", "Expected gain of the repair", gain, "money"),
        model.Output("break_even", "Added price at which it comes to the same", needed, "money"),
        model.Output(
            "chance_pays", "Chance that the added price is more than that", chance, "fraction"
        ),
        model.Output(
            "spread",
            "Spread of the gain (standard deviation), added price alone",
            known.chance_repaired * (1.0 - known.fee) * uplift.deviation,
            "money",
        ),
        model.Output("cost", "Repair, on average", cost.mean, "money", "with its overrun"),
        model.Output(
            "recovery",
            "Share of the repair that comes back",
            uplift.mean / cost.mean if cost.mean else 0.0,
            "fraction",
            "added price over cost",
        ),
        model.Output("daily", "Keeping it one more day", known.daily, "money"),
    ]
    outputs += _trade_outputs(v, known, as_is, repaired)
    book = book_price(v)
    if book is not None:
        outputs.append(
            model.Output(
                "book_price",
                "Average auction price by age and hours",
                book,
                "money",
                "average condition; compacts of hobby owners usually hold more",
            )
        )
    return model.Outcome(checks, outputs)


def _show(
    v: model.Inputs,
    work: model.Work,
    known: resale.Plan,
    as_is: float,
    repaired: float,
    needed: float,
) -> None:
    work.step(
        "Keeping it one more day",
        "h",
        "V r / 365 + s",
        (("V", known.value, "money"), ("r", v.yearly_rate, "fraction"), ("s", v.storage, "money")),
        known.daily,
        "money",
        "value/DERIVED",
    )
    work.step(
        "Repair on average",
        "C",
        "(parts (1 + tax) + hours × rate) (1 + overrun / 3)",
        (
            ("parts", v.parts, "money"),
            ("tax", v.parts_tax, "fraction"),
            ("hours", v.hours, "duration"),
            ("rate", v.shop_rate, "money_per_hour"),
            ("overrun", v.overrun, "fraction"),
        ),
        known.cost.mean,
        "money",
        "value/DERIVED",
    )
    work.step(
        "Added price on average",
        "U",
        "(low + likely + high) / 3",
        (
            ("low", known.uplift.low, "money"),
            ("likely", known.uplift.likely, "money"),
            ("high", known.uplift.high, "money"),
        ),
        known.uplift.mean,
        "money",
        "value/V31",
    )
    work.step(
        "Sell as it stands",
        "N₀",
        "p₀ V (1 − f) + (1 − p₀) F − h t₀",
        (
            ("p₀", known.chance_as_is, "fraction"),
            ("V", known.value, "money"),
            ("f", known.fee, "fraction"),
            ("F", known.fallback, "money"),
            ("h", known.daily, "money"),
            ("t₀ in days", known.days_as_is, "count"),
        ),
        as_is,
        "money",
        "value/DERIVED",
    )
    work.step(
        "Repair and sell",
        "N₁",
        "p₁ (V + U)(1 − f) + (1 − p₁) F − C − h t₁",
        (
            ("p₁", known.chance_repaired, "fraction"),
            ("U", known.uplift.mean, "money"),
            ("C", known.cost.mean, "money"),
            ("t₁ in days", known.days_repaired, "count"),
        ),
        repaired,
        "money",
        "value/DERIVED",
    )
    work.step(
        "Added price that breaks even",
        "U*",
        "(C + h (t₁ − t₀) − (p₁ − p₀)(V (1 − f) − F)) / (p₁ (1 − f))",
        (
            ("C", known.cost.mean, "money"),
            ("h", known.daily, "money"),
            ("t₁ − t₀ in days", known.days_repaired - known.days_as_is, "count"),
            ("p₁ − p₀", known.chance_repaired - known.chance_as_is, "fraction"),
        ),
        needed,
        "money",
        "value/DERIVED",
    )


def _trade_outputs(
    v: model.Inputs, known: resale.Plan, as_is: float, repaired: float
) -> list[model.Output]:
    worth = trade_worth(v)
    if worth is None:
        return []
    outputs = [
        model.Output("trade", "Trade in, with the tax it saves", worth, "money"),
        model.Output("tax_saved", "Tax saved by trading in", worth - v.trade_offer, "money"),
        model.Output(
            "private_price",
            "Private price that leaves as much as the trade-in",
            resale.private_price_that_equals_trade(
                v.trade_offer,
                worth - v.trade_offer,
                v.selling_costs,
                known.fee,
                known.daily,
                known.days_as_is,
            ),
            "money",
        ),
    ]
    if v.new_price is not None and v.loan_rate is not None and v.loan_months is not None:
        rate, _ = _tax(v)
        months = arith.max(1, arith.round(v.loan_months / MONTH))
        taxed = v.new_price * (1.0 + rate)
        for name, label, down in (
            ("payment_trade", "Monthly payment after trading in", worth),
            ("payment_sold", "Monthly payment after selling", arith.max(as_is, repaired)),
        ):
            owed = arith.max(0.0, taxed - down)
            outputs.append(
                model.Output(
                    name,
                    label,
                    finance.payment(owed, v.loan_rate / 12.0, months),
                    "money",
                    f"over {months} months",
                )
            )
    return outputs


# --- advice ----------------------------------------------------------------------------------


def dollars(value: float) -> str:
    """Money to the whole dollar."""
    return f"-${-value:,.0f}" if arith.round(value) < 0 else f"${value:,.0f}"


def _share(value: float) -> str:
    return f"{100 * value:.0f} %"
