"""The sums."""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import chances, finance, resale, trade_in, used_value
from calc.worksheets.resale.fields import DAY, HOUR, MONTH, YEAR, evidence

ROUNDS, SEED = 2000, 1988
LIKELY, EVEN = (
    float(tables.by_key("money/resale_findings", "key")[key]["chance_from"])
    for key in ("pays", "even")
)
CUSTOM = "value/PRACTICE"


def repair_bill(v: model.Inputs) -> float:
    """What the repair costs when nothing runs over. [$]"""
    return resale.repair_cost(v.parts, v.hours / HOUR, v.shop_rate, v.parts_tax)


def ceiling(v: model.Inputs) -> float | None:
    """The price at which people buy new; None without the price of a new one. [$]"""
    if v.like_new_price is None:
        return None
    return arith.number(0.01 * evidence("ceiling")[0] * v.like_new_price)


def plan(v: model.Inputs) -> chances.Plan:
    """The choice at one set of values; no repair lifts the price over the ceiling."""
    cost = repair_bill(v)
    low, likely, high = sorted((v.uplift_low, v.uplift_likely, v.uplift_high))
    top = ceiling(v)
    if top is not None:
        room = arith.max(0.0, top - v.as_is_price)
        low, likely, high = (arith.min(end, room) for end in (low, likely, high))
    return chances.Plan(
        v.as_is_price,
        chances.Triangle(low, likely, high),
        chances.Triangle(cost, cost, cost * (1.0 + v.overrun)),
        v.days_as_is / DAY,
        v.days_repaired / DAY,
        v.chance_as_is,
        v.chance_repaired,
        arith.min(v.fallback, v.as_is_price),  # who gives up waiting gets no more than the price
        v.fee,
        resale.holding_cost(v.as_is_price, v.yearly_rate, v.storage),
        v.selling_costs,
    )


PAYMENT_ASKS = ("new_price", "loan_rate", "loan_months")


def tax_of(v: model.Inputs) -> tuple[float, bool]:
    """Tax rate on the machine bought, and whether the difference alone is taxed."""
    row = tables.by_key("money/trade_tax_rules", "key")[v.tax_rule]
    rate = float(row["rate_percent"]) / 100.0 if row["rate_percent"] else arith.number(v.sales_tax)
    return rate, row["credit"] == "yes"


def compute(v: model.Inputs, at: model.At) -> None:
    """Name what each way leaves, and check the repair and the trade-in."""
    known = plan(v)
    at.uplift, at.cost, at.daily = known.uplift.mean, known.cost.mean, known.daily
    at.as_is = resale.expected_net(known.as_is(), known.fallback, known.fee, known.daily)
    at.repaired = resale.expected_net(known.repaired(), known.fallback, known.fee, known.daily)
    at.gain_expected = known.gain()
    at.private = arith.max(at.as_is, at.repaired)
    at.break_even = arith.max(0.0, known.break_even())
    at.chance_pays = known.uplift.chance_above(at.break_even)
    at.tenths = arith.round(10.0 * at.chance_pays)
    at.spread = known.chance_repaired * (1.0 - known.fee) * known.uplift.deviation
    at.recovery = at.uplift / at.cost if at.cost else 0.0
    at.at_least("gain", "uplift", "break_even", "value/DERIVED", close_band=0.0)
    # At 3 in 4 it likely pays; between that and 1 in 2 it is about even.
    at.at_least("chance", "chance_pays", EVEN, CUSTOM, strict=LIKELY)
    _ceiling(v, at)
    _trade(v, at, known)
    _payments(v, at)
    _worth(v, at)
    at.month = at.daily * 365.0 / 12.0 + (at.ages if "ages" in at else 0.0)
    if at.showing:
        _show(v, at, known)


def _saves_at_most(v: model.Inputs, at: model.At, rate: float) -> None:
    """Name the tax that the offer saves on anything dearer; where nothing is, no price is asked."""
    if arith.perhaps(rate):
        at.saves_most = rate * v.trade_offer
        at.not_checked("tax_saved", "new_price", if_asked=True)


def _ceiling(v: model.Inputs, at: model.At) -> None:
    top = ceiling(v)
    if top is None:
        return
    at.ceiling = top
    at.asked = v.as_is_price + v.uplift_likely
    source = evidence("ceiling")[2]
    at.at_most("ceiling", "asked", "ceiling", source, grade=model.ADVICE, close_band=0.0)


def _trade(v: model.Inputs, at: model.At, known: chances.Plan) -> None:
    """The trade-in with the tax that it saves, against selling it as it stands, and against the
    better private sale where a repair is thought of."""
    if v.trade_offer is None:
        at.not_checked("trade", "trade_offer")
        at.not_checked("sale", "trade_offer", if_asked=True)
        at.not_checked("tax_saved", "trade_offer", if_asked=True)
        return
    rate, credit = tax_of(v)
    price = v.new_price if v.new_price is not None else 0.0
    at.tax_saved = trade_in.trade_tax_value(price, v.trade_offer, rate, credit)
    if credit:
        at.saves = at.tax_saved
    if v.new_price is None:
        _saves_at_most(v, at, rate if credit else 0.0)
    at.trade = v.trade_offer + at.tax_saved
    at.private_price = trade_in.private_price_that_equals_trade(
        v.trade_offer, at.tax_saved, v.selling_costs, known.fee, known.daily, known.days_as_is
    )
    at.at_least("trade", "trade", "private", "value/DERIVED", close_band=0.0)
    at.at_least("sale", "trade", "as_is", "value/DERIVED", close_band=0.0)
    at.at_least("repair", "repaired", "trade", "value/DERIVED", close_band=0.0)


def _payments(v: model.Inputs, at: model.At) -> None:
    """The payments on the machine that is bought, with the old one traded or sold."""
    blank = [name for name in PAYMENT_ASKS if v.values()[name] is None]
    for name in blank:
        at.not_checked("payments", name, if_asked=True)
    if blank:
        return
    rate, credit = tax_of(v)
    at.months = arith.max(1, arith.round(v.loan_months / MONTH))
    offer = v.trade_offer if v.trade_offer is not None else 0.0
    taxed = trade_in.tax_on_purchase(v.new_price, offer, rate, credit)
    price = v.new_price + taxed
    at.owed = arith.max(0.0, price - offer)
    payment = finance.payment(at.owed, v.loan_rate / 12.0, at.months)
    if offer <= 0.0:
        at.payment_plain = payment
    elif at.owed > 0.0:
        at.payment = payment
    else:
        at.back = offer - price
    at.owed_sold = arith.max(0.0, v.new_price * (1.0 + rate) - at.private)
    at.payment_sold = finance.payment(at.owed_sold, v.loan_rate / 12.0, at.months)


def by_hours(v: model.Inputs) -> bool:
    """Whether hours count: of a baler or a disk the price goes by age alone."""
    return float(tables.by_key("power/remaining_value", "key")[v.machine]["c3"]) > 0.0


def worth_asks(v: model.Inputs) -> tuple[str, ...]:
    """The fields without which there is no auction price."""
    return ("like_new_price", "age", *(("hour_meter",) if by_hours(v) else ()))


def _worth(v: model.Inputs, at: model.At) -> None:
    """The average auction price by age and hours, and what a month of age takes off it."""
    blank = [name for name in worth_asks(v) if v.values()[name] is None]
    for name in blank:
        at.not_checked("worth", name, if_asked=True)
    if blank:
        return
    years = v.age / YEAR
    use = used_value.hours_a_year((v.hour_meter or 0.0) / HOUR, years)
    at.share_left = used_value.remaining_value(v.machine, years, use)
    at.book_price = v.like_new_price * at.share_left
    low, high, _ = evidence("condition")
    # The spread runs from neglected to kept; an average machine stands in its middle.
    at.poor, at.kept = (
        arith.max(0.0, at.book_price + side * (low + high) / 4.0) for side in (-1, 1)
    )
    later = used_value.remaining_value(v.machine, years + 1.0, use)
    at.ages = v.like_new_price * (at.share_left - later) / 12.0


def _show(v: model.Inputs, at: model.At, known: chances.Plan) -> None:
    better = (v.chance_repaired - v.chance_as_is, "fraction")
    sooner = (known.days_repaired - known.days_as_is, "count")
    own = "value/DERIVED"
    at.step("daily", "h = V r / 365 + s", own, V="as_is_price", r="yearly_rate", s="storage")
    at.step(
        "cost",
        "C = (parts (1 + tax) + hours × rate) (1 + overrun / 3)",
        own,
        parts="parts",
        tax="parts_tax",
        hours="hours",
        rate="shop_rate",
        overrun="overrun",
    )
    low, likely, high = ((end, "money") for end in known.uplift)
    at.step(
        "uplift", "U = (low + likely + high) / 3", "value/V31", low=low, likely=likely, high=high
    )
    sale = {"f": "fee", "F": "fallback", "h": "daily", "S": "selling_costs"}
    as_is = {"p₀": "chance_as_is", "V": "as_is_price", "t₀": "days_as_is", **sale}
    at.step("as_is", "N₀ = p₀ V (1 − f) + (1 − p₀) F − S − h t₀", own, **as_is)
    repaired = {"p₁": "chance_repaired", "U": "uplift", "C": "cost", "t₁": "days_repaired", **sale}
    at.step("repaired", "N₁ = p₁ (V + U)(1 − f) + (1 − p₁) F − C − S − h t₁", own, **repaired)
    at.step(
        "break_even",
        "U* = (C + h (t₁ − t₀) − (p₁ − p₀)(V (1 − f) − F)) / (p₁ (1 − f))",
        own,
        **{"C": "cost", "h": "daily", "t₁ − t₀ in days": sooner, "p₁ − p₀": better},
    )
    if "payment" in at:
        rate = (v.loan_rate / 12.0, "fraction")
        at.step("payment", "A = P i / (1 − (1 + i)⁻ⁿ)", "value/V20", P="owed", i=rate, n="months")


def dollars(value: float) -> str:
    """Money to the whole dollar."""
    return f"-${-value:,.0f}" if arith.round(value) < 0 else f"${value:,.0f}"


def share(value: float) -> str:
    """A share in whole percent."""
    return f"{100 * value:.0f} %"
