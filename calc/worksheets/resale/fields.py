"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from calc import model, tables
from calc.quantities import Reading

DAY, HOUR, MONTH, YEAR = 86_400.0, 3_600.0, 2_629_746.0, 31_556_952.0
CUSTOM = "value/PRACTICE"
SALE, REPAIR, KEEPING, TRADE = "The sale", "The repair", "Keeping it", "Trade-in"
BOOK = "Price by age and hours"


def _custom(low: float, high: float, of: str) -> model.Typical:
    return model.Typical(low, high, CUSTOM, of)


@cache
def _evidence(key: str, factor: float = 1.0) -> tuple[float, float, str]:
    """Low, high and source of a row of `resale_evidence`, times a factor."""
    row = tables.by_key("money/resale_evidence", "key")[key]
    low, high = float(row["low"]), float(row["high"] or row["low"])
    return factor * low, factor * high, row["source"]


def _shown(key: str, factor: float, of: str) -> model.Typical:
    return model.Typical(*_evidence(key, factor), of)


def _fallback_typical(known: Mapping[str, Any]) -> model.Typical:
    price = known.get("as_is_price")
    low, high = (price.low, price.high) if isinstance(price, Reading) else (8_000.0, 18_000.0)
    return _custom(0.75 * low, 0.92 * high, "wholesale or auction, after its costs")


NOW_OR_LATER = "2026"  # rows that ended before this year are only in the table


def _places() -> tuple[model.Option, ...]:
    """The general rules, and the rules of states that hold now or later."""
    options = []
    for row in tables.rows("money/trade_tax_rules"):
        if row["to"] and row["to"] < NOW_OR_LATER:
            continue
        when = f"until {row['to']}" if row["to"] else f"from {row['from']}"
        rate = f" ({row['rate_percent']} % {when})" if row["from"] and row["rate_percent"] else ""
        options.append(model.Option(row["key"], row["place"] + rate, row["rule"]))
    return tuple(options)


FIELDS: tuple[model.AnyField, ...] = (
    model.Field(
        "as_is_price",
        "Price as it stands",
        "money",
        "$100",
        "$300,000",
        "What the same machine in the same state brings, fault disclosed. Look at sold ones, not "
        "asked prices.",
        default="$14,000",
        typical=_custom(8_000, 18_000, "used compact tractors"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_low",
        "Added price after the repair, at worst",
        "money",
        "$0",
        "$50,000",
        "If the buyer hardly cares.",
        default="$300",
        typical=_custom(0, 300, "small repairs"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_likely",
        "Added price, most likely",
        "money",
        "$0",
        "$50,000",
        "The difference between sold machines with and without this fault.",
        default="$900",
        typical=_custom(300, 1_000, "small repairs"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_high",
        "Added price, at best",
        "money",
        "$0",
        "$50,000",
        "If the fault scares people off.",
        default="$1,600",
        typical=_custom(1_000, 3_000, "small repairs"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "chance_as_is",
        "Chance to sell as it stands",
        "fraction",
        "1 %",
        "100 %",
        "That somebody pays that price before you give up waiting.",
        default="80 %",
        typical=_custom(0.6, 0.9, "machines with a fault"),
        group=SALE,
    ),
    model.Field(
        "chance_repaired",
        "Chance to sell repaired",
        "fraction",
        "1 %",
        "100 %",
        "The same, once it is repaired. Usually a little better.",
        default="88 %",
        typical=_custom(0.75, 0.95, "machines that are ready to work"),
        group=SALE,
    ),
    model.Field(
        "fallback",
        "What it brings if nobody pays the price",
        "money",
        "$0",
        "$300,000",
        "Auction or wholesale, after commission and freight.",
        default="$12,500",
        typical=_fallback_typical,
        group=SALE,
    ),
    model.Field(
        "fee",
        "Selling fee",
        "fraction",
        "0 %",
        "40 %",
        "Share of the price that goes to the site or the auctioneer.",
        default="0 %",
        typical=_shown("private_fee", 0.01, "private sales; an auction takes more"),
        group=SALE,
    ),
    model.Field(
        "parts",
        "Parts",
        "money",
        "$0",
        "$50,000",
        "From the parts counter, with freight, before tax.",
        default="$380",
        typical=_custom(100, 800, "small repairs"),
        essential=True,
        group=REPAIR,
    ),
    model.Field(
        "hours",
        "Labor",
        "duration",
        "0 h",
        "200 h",
        "Shop hours, or yours.",
        default="3.5 h",
        typical=_custom(1 * HOUR, 6 * HOUR, "small repairs"),
        essential=True,
        group=REPAIR,
        unit_us="h",
        unit_metric="h",
    ),
    model.Field(
        "shop_rate",
        "Rate for labor",
        "money_per_hour",
        "0 $/h",
        "400 $/h",
        "The shop's door rate, or what an hour of yours is worth.",
        default="95 $/h",
        typical=_shown("shop_rate", 1.0, "repair shops"),
        group=REPAIR,
    ),
    model.Field(
        "parts_tax",
        "Sales tax on parts",
        "fraction",
        "0 %",
        "15 %",
        "Yours, where the parts are bought.",
        default="0 %",
        typical=_custom(0.0, 0.08, "sales tax"),
        group=REPAIR,
    ),
    model.Field(
        "overrun",
        "How far the repair may run over",
        "fraction",
        "0 %",
        "300 %",
        "Repairs seldom cost less than the quote.",
        default="25 %",
        typical=_custom(0.10, 0.40, "repairs that start with a look inside"),
        group=REPAIR,
    ),
    model.Field(
        "days_as_is",
        "Days to sell as it stands",
        "duration",
        "0 days",
        "730 days",
        "From the first advertisement.",
        default="60 days",
        typical=_custom(30 * DAY, 90 * DAY, "machines with a fault"),
        group=KEEPING,
        unit_us="days",
        unit_metric="days",
    ),
    model.Field(
        "days_repaired",
        "Days to sell repaired, shop time included",
        "duration",
        "0 days",
        "730 days",
        "From today: the repair itself counts.",
        default="50 days",
        typical=_shown("days", DAY, "dealers' aims"),
        group=KEEPING,
        unit_us="days",
        unit_metric="days",
    ),
    model.Field(
        "yearly_rate",
        "Interest a year",
        "fraction",
        "0 %",
        "40 %",
        "What the money costs you, or would earn elsewhere.",
        default="9 %",
        typical=_custom(0.05, 0.10, "loans on machines"),
        group=KEEPING,
    ),
    model.Field(
        "storage",
        "Storage and insurance a day",
        "money",
        "$0",
        "$200",
        "Rent, insurance, the place it takes.",
        default="$1",
        typical=_custom(0.5, 2.0, "a machine under a roof"),
        group=KEEPING,
    ),
    model.Choice(
        "machine",
        "Kind of machine",
        tuple(
            model.Option(row["key"], row["name"]) for row in tables.rows("power/remaining_value")
        ),
        "Only for the price by age and hours.",
        default="tractor_small",
        group=BOOK,
    ),
    model.Field(
        "like_new_price",
        "Price of the same machine new",
        "money",
        "$0",
        "$500,000",
        "Today's price of an equivalent new one, even if you paid less.",
        optional=True,
        group=BOOK,
    ),
    model.Field(
        "age",
        "Age",
        "duration",
        "1 years",
        "60 years",
        "From the year it was first sold.",
        optional=True,
        group=BOOK,
        unit_us="years",
        unit_metric="years",
    ),
    model.Field(
        "hour_meter",
        "Hour meter",
        "duration",
        "0 h",
        "30,000 h",
        "Hours in all.",
        optional=True,
        group=BOOK,
        unit_us="h",
        unit_metric="h",
    ),
    model.Field(
        "trade_offer",
        "Trade-in offered",
        "money",
        "$0",
        "$300,000",
        "For the old machine as it stands. Leave blank when you aren't buying.",
        default="$12,000",
        optional=True,
        essential=True,
        group=TRADE,
    ),
    model.Field(
        "new_price",
        "Price of the machine you buy",
        "money",
        "$0",
        "$500,000",
        "Before tax and before the trade-in.",
        default="$30,000",
        optional=True,
        essential=True,
        group=TRADE,
    ),
    model.Field(
        "sales_tax",
        "Sales tax on it",
        "fraction",
        "0 %",
        "15 %",
        "State and local together. Farm use may be exempt: ask.",
        default="6 %",
        typical=_custom(0.0, 0.08, "sales tax"),
        group=TRADE,
    ),
    model.Choice(
        "tax_rule",
        "How a trade-in is taxed",
        _places(),
        "Tables made for cars don't carry over to tractors: check yours.",
        default="difference",
        unsure=("difference", "full"),
        group=TRADE,
    ),
    model.Field(
        "selling_costs",
        "Fixed costs of a private sale",
        "money",
        "$0",
        "$10,000",
        "Advertisements, cleaning, fuel for showing it.",
        default="$300",
        typical=_custom(50, 400, "private sales"),
        group=TRADE,
    ),
    model.Field(
        "loan_rate",
        "Loan on the new machine, interest a year",
        "fraction",
        "0 %",
        "40 %",
        "The rate on the offer. 0 % offers often cost you a cash discount.",
        optional=True,
        group=TRADE,
    ),
    model.Field(
        "loan_months",
        "Loan on the new machine, months",
        "duration",
        "1 months",
        "240 months",
        "Number of monthly payments.",
        optional=True,
        group=TRADE,
        unit_us="months",
        unit_metric="months",
    ),
)


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
