"""Repair before selling: sell as is, repair and sell, or trade in."""

import math
from collections.abc import Mapping
from functools import cache
from typing import Any

from calc import tables
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import finance, resale
from calc.picture import Bar, Bars, Chart, Picture, Series
from calc.quantities import Reading

DAY, HOUR, MONTH, YEAR = 86_400.0, 3_600.0, 2_629_746.0, 31_556_952.0
CUSTOM = "value/PRACTICE"
ROUNDS, SEED = 2000, 1988
SALE, REPAIR, KEEPING, TRADE = "The sale", "The repair", "Keeping it", "Trade-in"
BOOK = "Price by age and hours"


def _custom(low: float, high: float, of: str) -> ws.Typical:
    return ws.Typical(low, high, CUSTOM, of)


@cache
def _evidence(key: str, factor: float = 1.0) -> tuple[float, float, str]:
    """Low, high and source of a row of `resale_evidence`, times a factor."""
    row = tables.by_key("resale_evidence", "key")[key]
    low, high = float(row["low"]), float(row["high"] or row["low"])
    return factor * low, factor * high, row["source"]


def _shown(key: str, factor: float, of: str) -> ws.Typical:
    return ws.Typical(*_evidence(key, factor), of)


def _fallback_typical(known: Mapping[str, Any]) -> ws.Typical:
    price = known.get("as_is_price")
    low, high = (price.low, price.high) if isinstance(price, Reading) else (8_000.0, 18_000.0)
    return _custom(0.75 * low, 0.92 * high, "wholesale or auction, after its costs")


NOW_OR_LATER = "2026"  # rows that ended before this year are only in the table


def _places() -> tuple[ws.Option, ...]:
    """The general rules, and the rules of states that hold now or later."""
    options = []
    for row in tables.rows("trade_tax_rules"):
        if row["to"] and row["to"] < NOW_OR_LATER:
            continue
        when = f"until {row['to']}" if row["to"] else f"from {row['from']}"
        rate = f" ({row['rate_percent']} % {when})" if row["from"] and row["rate_percent"] else ""
        options.append(ws.Option(row["key"], row["place"] + rate, row["rule"]))
    return tuple(options)


FIELDS: tuple[ws.AnyField, ...] = (
    ws.Field(
        "as_is_price", "Price as it stands", "money", "$100", "$300,000",
        "What the same machine in the same state brings, fault disclosed. Look at sold ones, not "
        "asked prices.",
        default="$14,000", typical=_custom(8_000, 18_000, "used compact tractors"),
        essential=True, group=SALE,
    ),
    ws.Field(
        "uplift_low", "Added price after the repair, at worst", "money", "$0", "$50,000",
        "If the buyer hardly cares.",
        default="$300", typical=_custom(0, 300, "small repairs"), essential=True, group=SALE,
    ),
    ws.Field(
        "uplift_likely", "Added price, most likely", "money", "$0", "$50,000",
        "The difference between sold machines with and without this fault.",
        default="$900", typical=_custom(300, 1_000, "small repairs"), essential=True, group=SALE,
    ),
    ws.Field(
        "uplift_high", "Added price, at best", "money", "$0", "$50,000",
        "If the fault scares people off.",
        default="$1,600", typical=_custom(1_000, 3_000, "small repairs"), essential=True,
        group=SALE,
    ),
    ws.Field(
        "chance_as_is", "Chance to sell as it stands", "fraction", "1 %", "100 %",
        "That somebody pays that price before you give up waiting.",
        default="80 %", typical=_custom(0.6, 0.9, "machines with a fault"), group=SALE,
    ),
    ws.Field(
        "chance_repaired", "Chance to sell repaired", "fraction", "1 %", "100 %",
        "The same, once it is repaired. Usually a little better.",
        default="88 %", typical=_custom(0.75, 0.95, "machines that are ready to work"),
        group=SALE,
    ),
    ws.Field(
        "fallback", "What it brings if nobody pays the price", "money", "$0", "$300,000",
        "Auction or wholesale, after commission and freight.",
        default="$12,500", typical=_fallback_typical, group=SALE,
    ),
    ws.Field(
        "fee", "Selling fee", "fraction", "0 %", "40 %",
        "Share of the price that goes to the site or the auctioneer.",
        default="0 %", typical=_shown("private_fee", 0.01, "private sales; an auction takes more"),
        group=SALE,
    ),
    ws.Field(
        "parts", "Parts", "money", "$0", "$50,000",
        "From the parts counter, with freight, before tax.",
        default="$380", typical=_custom(100, 800, "small repairs"), essential=True, group=REPAIR,
    ),
    ws.Field(
        "hours", "Labor", "duration", "0 h", "200 h",
        "Shop hours, or yours.",
        default="3.5 h", typical=_custom(1 * HOUR, 6 * HOUR, "small repairs"), essential=True,
        group=REPAIR, unit_us="h", unit_metric="h",
    ),
    ws.Field(
        "shop_rate", "Rate for labor", "money_per_hour", "0 $/h", "400 $/h",
        "The shop's door rate, or what an hour of yours is worth.",
        default="95 $/h", typical=_shown("shop_rate", 1.0, "repair shops"),
        group=REPAIR,
    ),
    ws.Field(
        "parts_tax", "Sales tax on parts", "fraction", "0 %", "15 %",
        "Yours, where the parts are bought.",
        default="0 %", typical=_custom(0.0, 0.08, "sales tax"), group=REPAIR,
    ),
    ws.Field(
        "overrun", "How far the repair may run over", "fraction", "0 %", "300 %",
        "Repairs seldom cost less than the quote.",
        default="25 %", typical=_custom(0.10, 0.40, "repairs that start with a look inside"),
        group=REPAIR,
    ),
    ws.Field(
        "days_as_is", "Days to sell as it stands", "duration", "0 days", "730 days",
        "From the first advertisement.",
        default="60 days", typical=_custom(30 * DAY, 90 * DAY, "machines with a fault"),
        group=KEEPING, unit_us="days", unit_metric="days",
    ),
    ws.Field(
        "days_repaired", "Days to sell repaired, shop time included", "duration",
        "0 days", "730 days",
        "From today: the repair itself counts.",
        default="50 days", typical=_shown("days", DAY, "dealers' aims"),
        group=KEEPING, unit_us="days", unit_metric="days",
    ),
    ws.Field(
        "yearly_rate", "Interest a year", "fraction", "0 %", "40 %",
        "What the money costs you, or would earn elsewhere.",
        default="9 %", typical=_custom(0.05, 0.10, "loans on machines"), group=KEEPING,
    ),
    ws.Field(
        "storage", "Storage and insurance a day", "money", "$0", "$200",
        "Rent, insurance, the place it takes.",
        default="$1", typical=_custom(0.5, 2.0, "a machine under a roof"), group=KEEPING,
    ),
    ws.Choice(
        "machine", "Kind of machine",
        tuple(ws.Option(row["key"], row["name"]) for row in tables.rows("remaining_value")),
        "Only for the price by age and hours.",
        default="tractor_small", group=BOOK,
    ),
    ws.Field(
        "like_new_price", "Price of the same machine new", "money", "$0", "$500,000",
        "Today's price of an equivalent new one, even if you paid less.",
        optional=True, group=BOOK,
    ),
    ws.Field(
        "age", "Age", "duration", "1 years", "60 years",
        "From the year it was first sold.",
        optional=True, group=BOOK, unit_us="years", unit_metric="years",
    ),
    ws.Field(
        "hour_meter", "Hour meter", "duration", "0 h", "30,000 h",
        "Hours in all.",
        optional=True, group=BOOK, unit_us="h", unit_metric="h",
    ),
    ws.Field(
        "trade_offer", "Trade-in offered", "money", "$0", "$300,000",
        "For the old machine as it stands. Leave blank when you aren't buying.",
        default="$12,000", optional=True, essential=True, group=TRADE,
    ),
    ws.Field(
        "new_price", "Price of the machine you buy", "money", "$0", "$500,000",
        "Before tax and before the trade-in.",
        default="$30,000", optional=True, essential=True, group=TRADE,
    ),
    ws.Field(
        "sales_tax", "Sales tax on it", "fraction", "0 %", "15 %",
        "State and local together. Farm use may be exempt: ask.",
        default="6 %", typical=_custom(0.0, 0.08, "sales tax"), group=TRADE,
    ),
    ws.Choice(
        "tax_rule", "How a trade-in is taxed", _places(),
        "Tables made for cars don't carry over to tractors: check yours.",
        default="difference", unsure=("difference", "full"), group=TRADE,
    ),
    ws.Field(
        "selling_costs", "Fixed costs of a private sale", "money", "$0", "$10,000",
        "Advertisements, cleaning, fuel for showing it.",
        default="$300", typical=_custom(50, 400, "private sales"), group=TRADE,
    ),
    ws.Field(
        "loan_rate", "Loan on the new machine, interest a year", "fraction", "0 %", "40 %",
        "The rate on the offer. 0 % offers often cost you a cash discount.",
        optional=True, group=TRADE,
    ),
    ws.Field(
        "loan_months", "Loan on the new machine, months", "duration", "1 months", "240 months",
        "Number of monthly payments.",
        optional=True, group=TRADE, unit_us="months", unit_metric="months",
    ),
)  # fmt: skip


def review(known: Mapping[str, Any]) -> dict[str, str]:
    """Refuse three added prices that aren't in order."""
    named = [known.get(f"uplift_{end}") for end in ("low", "likely", "high")]
    readings = [reading for reading in named if isinstance(reading, Reading)]
    if len(readings) == 3:
        low, likely, high = readings
        if low.low > likely.high:
            return {"uplift_low": "The worst added price is more than the most likely one."}
        if likely.low > high.high:
            return {"uplift_high": "The best added price is less than the most likely one."}
    return {}


def _cost(v: ws.Inputs) -> float:
    return resale.repair_cost(v.parts, v.hours / HOUR, v.shop_rate, v.parts_tax)


def plan(v: ws.Inputs) -> resale.Plan:
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


def _tax(v: ws.Inputs) -> tuple[float, bool]:
    """Tax rate and whether the difference alone is taxed."""
    row = tables.by_key("trade_tax_rules", "key")[v.tax_rule]
    rate = float(row["rate_percent"]) / 100.0 if row["rate_percent"] else float(v.sales_tax)
    return rate, row["credit"] == "yes"


def trade_worth(v: ws.Inputs) -> float | None:
    """The trade-in and the tax it saves, or None without an offer. [$]"""
    if v.trade_offer is None:
        return None
    rate, credit = _tax(v)
    price = v.new_price if v.new_price is not None else 0.0
    return float(v.trade_offer) + resale.trade_tax_value(price, v.trade_offer, rate, credit)


def book_price(v: ws.Inputs) -> float | None:
    """Average auction price by age and hours, or None when a number is missing. [$]"""
    if v.like_new_price is None or v.age is None or v.hour_meter is None:
        return None
    years = v.age / YEAR
    use = resale.hours_a_year(v.hour_meter / HOUR, years)
    return float(v.like_new_price) * resale.remaining_value(v.machine, years, use)


def _chance(known: resale.Plan) -> float:
    return known.uplift.chance_above(known.break_even())


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
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
        ws.at_least(
            "gain", "Added price on average", uplift.mean,
            needed, "money", "value/DERIVED",
            why="Money goes into the machine and does not come back.", close_band=0.0,
        ),
        # At 3 in 4 it likely pays; between that and 1 in 2 it is about even.
        ws.at_least(
            "chance", "Chance that the repair pays", chance, 0.5, "fraction", CUSTOM,
            why="More often than not the repair costs more than it brings.", close_band=0.5,
        ),
    ]  # fmt: skip
    if v.like_new_price is not None:
        share, _, source = _evidence("ceiling")
        checks.append(
            ws.at_most(
                "ceiling", "Price once repaired",
                v.as_is_price + uplift.likely, 0.01 * share * v.like_new_price, "money", source,
                why="Near that price people buy a new one.",
            )
        )  # fmt: skip
    outputs = [
        ws.Output("as_is", "Sell as it stands, expected in hand", as_is, "money"),
        ws.Output("repaired", "Repair and sell, expected in hand", repaired, "money"),
        ws.Output("gain_expected", "Expected gain of the repair", gain, "money"),
        ws.Output("break_even", "Added price at which it comes to the same", needed, "money"),
        ws.Output("chance_pays", "Chance that the added price is more than that", chance,
                  "fraction"),
        ws.Output("spread", "Spread of the gain (standard deviation), added price alone",
                  known.chance_repaired * (1.0 - known.fee) * uplift.deviation, "money"),
        ws.Output("cost", "Repair, on average", cost.mean, "money", "with its overrun"),
        ws.Output("recovery", "Share of the repair that comes back", uplift.mean / cost.mean
                  if cost.mean else 0.0, "fraction", "added price over cost"),
        ws.Output("daily", "Keeping it one more day", known.daily, "money"),
    ]  # fmt: skip
    outputs += _trade_outputs(v, known, as_is, repaired)
    book = book_price(v)
    if book is not None:
        outputs.append(
            ws.Output(
                "book_price", "Average auction price by age and hours", book, "money",
                "average condition; compacts of hobby owners usually hold more",
            )
        )  # fmt: skip
    return ws.Outcome(checks, outputs)


def _show(
    v: ws.Inputs,
    work: ws.Work,
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
        "Added price that breaks even", "U*",
        "(C + h (t₁ − t₀) − (p₁ − p₀)(V (1 − f) − F)) / (p₁ (1 − f))",
        (("C", known.cost.mean, "money"), ("h", known.daily, "money"),
         ("t₁ − t₀ in days", known.days_repaired - known.days_as_is, "count"),
         ("p₁ − p₀", known.chance_repaired - known.chance_as_is, "fraction")),
        needed, "money", "value/DERIVED",
    )  # fmt: skip


def _trade_outputs(
    v: ws.Inputs, known: resale.Plan, as_is: float, repaired: float
) -> list[ws.Output]:
    worth = trade_worth(v)
    if worth is None:
        return []
    outputs = [
        ws.Output("trade", "Trade in, with the tax it saves", worth, "money"),
        ws.Output("tax_saved", "Tax saved by trading in", worth - v.trade_offer, "money"),
        ws.Output(
            "private_price", "Private price that leaves as much as the trade-in",
            resale.private_price_that_equals_trade(
                v.trade_offer, worth - v.trade_offer, v.selling_costs, known.fee, known.daily,
                known.days_as_is,
            ),
            "money",
        ),
    ]  # fmt: skip
    if v.new_price is not None and v.loan_rate is not None and v.loan_months is not None:
        rate, _ = _tax(v)
        months = max(1, round(v.loan_months / MONTH))
        taxed = v.new_price * (1.0 + rate)
        for name, label, down in (
            ("payment_trade", "Monthly payment after trading in", worth),
            ("payment_sold", "Monthly payment after selling", max(as_is, repaired)),
        ):
            owed = max(0.0, taxed - down)
            outputs.append(
                ws.Output(
                    name, label, finance.payment(owed, v.loan_rate / 12.0, months), "money",
                    f"over {months} months",
                )
            )  # fmt: skip
    return outputs


# --- advice ----------------------------------------------------------------------------------


def dollars(value: float) -> str:
    """Money to the whole dollar."""
    return f"-${-value:,.0f}" if round(value) < 0 else f"${value:,.0f}"


def _share(value: float) -> str:
    return f"{100 * value:.0f} %"


def _ways(v: ws.Inputs, outcome: ws.Outcome) -> list[tuple[str, float]]:
    ways = [
        ("sell it as it stands", outcome.output("as_is")),
        ("repair it and sell", outcome.output("repaired")),
    ]
    worth = trade_worth(v)
    if worth is not None:
        ways.append(("trade it in", worth))
    return sorted(ways, key=lambda way: way[1], reverse=True)


def _headline(v: ws.Inputs, outcome: ws.Outcome, ranged: bool) -> str:
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


def _remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    remedies = []
    if outcome.margin(REPAIR_CHECKS) < 0:
        most = solve.largest("parts", 0.0, v.parts, REPAIR_CHECKS)
        if most is not None:
            parts = math.floor(most)
            cost = solve.run(parts=float(parts)).output("cost")
            remedies.append(
                ws.Remedy(
                    f"The repair comes out even if the parts cost {dollars(parts)} or less, "
                    f"{dollars(cost)} with labor and overrun.",
                    {"parts": f"${parts}"},
                )
            )
        rate = solve.largest("shop_rate", 0.0, v.shop_rate, REPAIR_CHECKS)
        if rate is not None and rate >= 10.0:
            remedies.append(
                ws.Remedy(
                    f"Or if the labor costs {dollars(math.floor(rate))} an hour or less: your own "
                    "time, if the work is within your skill.",
                    {"shop_rate": f"{math.floor(rate)} $/h"},
                )
            )
        top = v.uplift_high + 20_000.0
        least = solve.smallest(
            "uplift_likely", v.uplift_likely, top, REPAIR_CHECKS,
            uplift_low=lambda likely: min(v.uplift_low, likely),
            uplift_high=lambda likely: max(v.uplift_high, likely),
        )  # fmt: skip
        if least is not None:
            likely = math.ceil(least)
            remedies.append(
                ws.Remedy(
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
            "uplift_likely", 0.0, v.uplift_likely, ("ceiling",),
            uplift_low=lambda likely: min(v.uplift_low, likely),
        )  # fmt: skip
        if room is not None:
            likely = math.floor(room)
            remedies.append(
                ws.Remedy(
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
    v: ws.Inputs, outcome: ws.Outcome, spread: resale.Spread, ranged: bool
) -> list[ws.Table]:
    known = plan(v)
    rows: list[tuple[ws.Cell, ...]] = [
        (
            "Sell as it stands", dollars(known.value), _share(known.chance_as_is),
            f"{known.days_as_is:.0f}", "–", dollars(outcome.output("as_is")),
        ),
        (
            "Repair and sell", dollars(known.value + known.uplift.mean),
            _share(known.chance_repaired), f"{known.days_repaired:.0f}",
            dollars(known.cost.mean), dollars(outcome.output("repaired")),
        ),
    ]  # fmt: skip
    worth = trade_worth(v)
    if worth is not None:
        rows.append(
            ("Trade in", dollars(v.trade_offer), "100 %", "0", "–",
             f"{dollars(worth)} with the tax saved")
        )  # fmt: skip
    ways = ws.Table(
        "The ways side by side",
        ("Way", "Price", "Chance", "Days", "Spent first", "Expected in hand"),
        tuple(rows),
        "value/DERIVED",
        "At the least favorable of what you gave." if ranged else "",
    )
    shares = ((1, 10), (1, 4), (1, 2), (3, 4), (9, 10))
    spread_table = ws.Table(
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
    ws.Caution("A fault that can hurt somebody is repaired or told in writing before anybody else "
               "drives it: brakes, steering, roll-over frame, PTO guards, safety switches.",
               "value/PRACTICE"),
    ws.Caution("Expected gain is an average over many sales, and you have one machine: the spread "
               "tells how far a single sale may go the other way.", "value/DERIVED"),
    ws.Caution("Tax rules are those of the year in which they were read, and this is no tax "
               "advice: check yours, and ask about the farm-use exemption.", "value/V19"),
)  # fmt: skip


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Give the result in a sentence, remedies, the ways side by side and the spread."""
    spread = resale.simulate(plan(v), SEED, ROUNDS)
    large = dollars(_evidence("auction_repairs")[0])
    notes: list[ws.Words] = [
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
        row = tables.by_key("trade_tax_rules", "key")[v.tax_rule]
        notes.append(
            f"{row['place']}: {row['rule']} Trading in saves {dollars(worth - v.trade_offer)} of "
            "tax here; a private sale must bring "
            f"{dollars(outcome.output('private_price'))} to leave as much."
        )
    return ws.Advice(
        _remedies(v, outcome, solve),
        CAUTIONS,
        _tables(v, outcome, spread, solve.ranged),
        notes,
        _headline(v, outcome, solve.ranged),
    )


# --- picture ---------------------------------------------------------------------------------


def swings(v: ws.Inputs) -> list[tuple[str, float, float]]:
    """Label and gain at both ends for each thing that may come out otherwise, widest first."""
    cost = _cost(v)
    auction = _evidence("auction_fee", 0.01)[0]

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
        (f"Added price {dollars(v.uplift_low)} to {dollars(v.uplift_high)}",
         fixed(v.uplift_low), fixed(v.uplift_high)),
        (f"Repair {dollars(cost)} to {dollars(cost * (1 + v.overrun))}",
         at_cost(cost * (1.0 + v.overrun)), at_cost(cost)),
        (f"Chance repaired {_share(low1)} to {_share(high1)}",
         gain(chance_repaired=low1), gain(chance_repaired=high1)),
        (f"Chance as it stands {_share(low0)} to {_share(high0)}",
         gain(chance_as_is=low0), gain(chance_as_is=high0)),
        ("Price as it stands, 10 % either way",
         gain(as_is_price=0.9 * v.as_is_price), gain(as_is_price=1.1 * v.as_is_price)),
        ("Fallback price, 10 % either way",
         gain(fallback=0.9 * v.fallback), gain(fallback=1.1 * v.fallback)),
        ("Days repaired, half to double",
         gain(days_repaired=0.5 * v.days_repaired), gain(days_repaired=2.0 * v.days_repaired)),
        (f"Selling fee 0 to {_share(auction)}", gain(fee=0.0), gain(fee=auction)),
    ]  # fmt: skip
    return sorted(found, key=lambda item: abs(item[2] - item[1]), reverse=True)


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """What matters most, as a tornado, and how the gain spreads."""
    gain = outcome.output("gain_expected")
    found = swings(v)
    spread = resale.simulate(plan(v), SEED, ROUNDS)
    bars = Bars(
        "What matters most",
        ws.phrase(
            "Expected gain of the repair as each thing alone moves from one end to the other; the "
            "line is at {gain}. What moves it most: {first}, then {second}.",
            gain=dollars(gain), first=found[0][0].lower(), second=found[1][0].lower(),
        ),
        "money",
        [
            Bar(label, max(one, other), min(one, other), "fill",
                f"{dollars(min(one, other))} to {dollars(max(one, other))}")
            for label, one, other in found
        ],
        middle=gain,
    )  # fmt: skip
    shares = [k / 40 for k in range(41)]
    chart = Chart(
        "How the gain spreads",
        ws.phrase(
            "Share of sales in which repairing leaves less than the amount below: half of them "
            "under {median}; you are better off in {share} of them.",
            median=dollars(spread.at(0.5)), share=_share(spread.chance_of_gain),
        ),
        "Gain from repairing", "money", "Share of sales with less", "fraction",
        [
            Series("gain", [spread.at(share) for share in shares], shares, "accent thick"),
            Series("no gain, no loss", [0.0, 0.0], [0.0, 1.0], "soft dashed"),
        ],
    )  # fmt: skip
    return [bars, chart]


WORKSHEET = ws.Worksheet(
    name="resale",
    title="Repair before selling",
    question="Should I fix it before I sell it, or trade it in?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="sell/repair-before-selling",
    example="A compact worth $14,000 with a small fault: parts for $380 and 3.5 hours of labor.",
)
