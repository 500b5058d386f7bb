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
        "money",
        "$100",
        "$300,000",
        example="$14,000",
        typical=_custom(8_000, 18_000, "used compact tractors"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_low",
        "money",
        "$0",
        "$50,000",
        example="$300",
        typical=_custom(0, 300, "small repairs"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_likely",
        "money",
        "$0",
        "$50,000",
        example="$900",
        typical=_custom(300, 1_000, "small repairs"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_high",
        "money",
        "$0",
        "$50,000",
        example="$1,600",
        typical=_custom(1_000, 3_000, "small repairs"),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "chance_as_is",
        "fraction",
        "1 %",
        "100 %",
        example="80 %",
        typical=_custom(0.6, 0.9, "machines with a fault"),
        group=SALE,
    ),
    model.Field(
        "chance_repaired",
        "fraction",
        "1 %",
        "100 %",
        example="88 %",
        typical=_custom(0.75, 0.95, "machines that are ready to work"),
        group=SALE,
    ),
    model.Field(
        "fallback",
        "money",
        "$0",
        "$300,000",
        example="$12,500",
        typical=_fallback_typical,
        group=SALE,
    ),
    model.Field(
        "fee",
        "fraction",
        "0 %",
        "40 %",
        example="0 %",
        typical=_shown("private_fee", 0.01, "private sales; an auction takes more"),
        group=SALE,
    ),
    model.Field(
        "parts",
        "money",
        "$0",
        "$50,000",
        example="$380",
        typical=_custom(100, 800, "small repairs"),
        essential=True,
        group=REPAIR,
    ),
    model.Field(
        "hours",
        "duration",
        "0 h",
        "200 h",
        example="3.5 h",
        typical=_custom(1 * HOUR, 6 * HOUR, "small repairs"),
        essential=True,
        group=REPAIR,
        unit_us="h",
        unit_metric="h",
    ),
    model.Field(
        "shop_rate",
        "money_per_hour",
        "0 $/h",
        "400 $/h",
        example="95 $/h",
        typical=_shown("shop_rate", 1.0, "repair shops"),
        group=REPAIR,
    ),
    model.Field(
        "parts_tax",
        "fraction",
        "0 %",
        "15 %",
        example="0 %",
        typical=_custom(0.0, 0.08, "sales tax"),
        group=REPAIR,
    ),
    model.Field(
        "overrun",
        "fraction",
        "0 %",
        "300 %",
        example="25 %",
        typical=_custom(0.10, 0.40, "repairs that start with a look inside"),
        group=REPAIR,
    ),
    model.Field(
        "days_as_is",
        "duration",
        "0 days",
        "730 days",
        example="60 days",
        typical=_custom(30 * DAY, 90 * DAY, "machines with a fault"),
        group=KEEPING,
        unit_us="days",
        unit_metric="days",
    ),
    model.Field(
        "days_repaired",
        "duration",
        "0 days",
        "730 days",
        example="50 days",
        typical=_shown("days", DAY, "dealers' aims"),
        group=KEEPING,
        unit_us="days",
        unit_metric="days",
    ),
    model.Field(
        "yearly_rate",
        "fraction",
        "0 %",
        "40 %",
        example="9 %",
        typical=_custom(0.05, 0.10, "loans on machines"),
        group=KEEPING,
    ),
    model.Field(
        "storage",
        "money",
        "$0",
        "$200",
        example="$1",
        typical=_custom(0.5, 2.0, "a machine under a roof"),
        group=KEEPING,
    ),
    model.Choice(
        "machine",
        tuple(
            model.Option(row["key"], row["name"]) for row in tables.rows("power/remaining_value")
        ),
        example="tractor_small",
        group=BOOK,
        usual="tractor_small",
    ),
    model.Field("like_new_price", "money", "$0", "$500,000", optional=True, group=BOOK),
    model.Field(
        "age",
        "duration",
        "1 years",
        "60 years",
        optional=True,
        group=BOOK,
        unit_us="years",
        unit_metric="years",
    ),
    model.Field(
        "hour_meter",
        "duration",
        "0 h",
        "30,000 h",
        optional=True,
        group=BOOK,
        unit_us="h",
        unit_metric="h",
    ),
    model.Field(
        "trade_offer",
        "money",
        "$0",
        "$300,000",
        example="$12,000",
        optional=True,
        essential=True,
        group=TRADE,
    ),
    model.Field(
        "new_price",
        "money",
        "$0",
        "$500,000",
        example="$30,000",
        optional=True,
        essential=True,
        group=TRADE,
    ),
    model.Field(
        "sales_tax",
        "fraction",
        "0 %",
        "15 %",
        example="6 %",
        typical=_custom(0.0, 0.08, "sales tax"),
        group=TRADE,
    ),
    model.Choice(
        "tax_rule", _places(), example="difference", unsure=("difference", "full"), group=TRADE
    ),
    model.Field(
        "selling_costs",
        "money",
        "$0",
        "$10,000",
        example="$300",
        typical=_custom(50, 400, "private sales"),
        group=TRADE,
    ),
    model.Field("loan_rate", "fraction", "0 %", "40 %", optional=True, group=TRADE),
    model.Field(
        "loan_months",
        "duration",
        "1 months",
        "240 months",
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
