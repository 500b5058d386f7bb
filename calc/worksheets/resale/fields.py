"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from calc import model, tables
from calc.mechanics import used_value
from calc.quantities import Reading

DAY, HOUR, MONTH, YEAR = 86_400.0, 3_600.0, 2_629_746.0, 31_556_952.0
CUSTOM = "value/PRACTICE"
SALE, REPAIR, KEEPING, TRADE = "The sale", "The repair", "Keeping it", "Trade-in"
BOOK = "Price by age and hours"


def _custom(low: float, high: float, of: str) -> model.Typical:
    return model.Typical(low, high, CUSTOM, of)


SMALL, SMALLEST_LARGE = "small repairs", 1_000.0  # [$] that it most likely adds


def _of(likely: Reading | None) -> str:
    large = likely is not None and likely.high > SMALLEST_LARGE
    return "repairs that most likely add so much" if large else SMALL


def _usual_worst(known: model.KnownSoFar) -> model.Typical:
    """From nothing to three tenths of what is most likely; of a small repair to $300."""
    likely = known.get("uplift_likely")
    return _custom(0, max(300.0, 0.3 * likely.high if likely else 0.0), _of(likely))


def _usual_best(known: model.KnownSoFar) -> model.Typical:
    """What is most likely, up to half as much again; of a small repair $1,000 to $3,000."""
    likely = known.get("uplift_likely")
    low, high = (likely.low, 1.5 * likely.high) if likely else (0.0, 0.0)
    return _custom(max(1_000.0, low), max(3_000.0, high), _of(likely))


@cache
def evidence(key: str, factor: float = 1.0) -> tuple[float, float, str]:
    """Low, high and source of a row of `resale_evidence`, times a factor."""
    row = tables.by_key("money/resale_evidence", "key")[key]
    low, high = float(row["low"]), float(row["high"] or row["low"])
    return factor * low, factor * high, row["source"]


def _shown(key: str, factor: float, of: str) -> model.Typical:
    return model.Typical(*evidence(key, factor), of)


WHOLESALE = (0.75, 0.92)  # what a dealer or an auction leaves, as a share of a private price


def _reading(known: Mapping[str, Any], name: str) -> Reading | None:
    found = known.get(name)
    return found if isinstance(found, Reading) else None


def _book(machine: str, new: float, age: float, meter: float) -> float:
    years = age / YEAR
    use = used_value.hours_a_year(meter / HOUR, years)
    return float(new * used_value.remaining_value(machine, years, use))


def _price_typical(known: Mapping[str, Any]) -> model.Typical:
    """A private price by age and hours, or by the trade-in offered, or of compacts at large."""
    new, age, meter = (_reading(known, name) for name in ("like_new_price", "age", "hour_meter"))
    machine = known.get("machine") or "tractor_small"
    if new and age and meter:
        low = _book(machine, new.low, age.high, meter.high)
        high = _book(machine, new.high, age.low, meter.low)
        return _custom(low, high / WHOLESALE[0], "machines of this age and these hours")
    offer = _reading(known, "trade_offer")
    if offer and offer.low > 0:
        low, high = offer.low / WHOLESALE[1], offer.high / WHOLESALE[0]
        return _custom(low, high, "machines for which so much is offered in trade")
    return _custom(8_000, 18_000, "used compact tractors")


def _chance_repaired(known: Mapping[str, Any]) -> model.Typical:
    """A repair makes a machine sell no worse: from the chance as it stands up."""
    before = _reading(known, "chance_as_is")
    if before:
        return _custom(before.low, min(1.0, before.high + 0.15), "machines that are ready to work")
    return _custom(0.80, 0.92, "machines that are ready to work")


def _fallback_typical(known: Mapping[str, Any]) -> model.Typical:
    price = known.get("as_is_price")
    low, high = (price.low, price.high) if isinstance(price, Reading) else (8_000.0, 18_000.0)
    return _custom(WHOLESALE[0] * low, WHOLESALE[1] * high, "wholesale or auction, after its costs")


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


def _untaxed(given: model.KnownSoFar) -> str:
    """Nothing is taxed by any rule where somebody says that the tax is nothing."""
    tax = given.get("sales_tax")
    return "exempt" if isinstance(tax, Reading) and tax.high == 0.0 else ""


FIELDS: tuple[model.AnyField, ...] = (
    model.Field(
        "as_is_price",
        "money",
        "$100",
        "$300,000",
        example="$14,000",
        typical=_price_typical,
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_low",
        "money",
        "$0",
        "$50,000",
        example="$300",
        typical=_usual_worst,
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_likely",
        "money",
        "$0",
        "$50,000",
        example="$900",
        typical=_custom(300, 1_000, SMALL),
        essential=True,
        group=SALE,
    ),
    model.Field(
        "uplift_high",
        "money",
        "$0",
        "$50,000",
        example="$1,600",
        typical=_usual_best,
        essential=True,
        group=SALE,
    ),
    model.Field(
        "chance_as_is",
        "fraction",
        "1 %",
        "100 %",
        example="80 %",
        typical=_custom(0.65, 0.80, "machines with a fault"),
        group=SALE,
    ),
    model.Field(
        "chance_repaired",
        "fraction",
        "1 %",
        "100 %",
        example="88 %",
        typical=_chance_repaired,
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
        example="2.5 h",
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
        example="133 $/h",
        typical=_shown("shop_rate", 1.0, "dealers' shops today"),
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
    model.Field("like_new_price", "money", "$100", "$500,000", optional=True, group=BOOK),
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
        "tax_rule",
        _places(),
        example="difference",
        unsure=("difference", "full"),
        told=_untaxed,
        group=TRADE,
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

OUTPUTS = (
    model.Shown("as_is", "money"),
    model.Shown("repaired", "money"),
    model.Shown("trade", "money"),
    model.Shown("gain_expected", "money"),
    model.Shown("break_even", "money"),
    model.Shown("chance_pays", "fraction"),
    model.Shown("spread", "money"),
    model.Shown("cost", "money"),
    model.Shown("recovery", "fraction"),
    model.Shown("daily", "money"),
    model.Shown("month", "money"),
    model.Shown("tax_saved", "money"),
    model.Shown("private_price", "money"),
    model.Shown("payment", "money"),
    model.Shown("payment_sold", "money"),
    model.Shown("payment_plain", "money", hidden=True),
    model.Shown("book_price", "money"),
    *(
        model.Shown(name, "money", hidden=True)
        for name in (
            "uplift",
            "saves_most",
            "private",
            "ceiling",
            "asked",
            "owed",
            "owed_sold",
            "ages",
            "saves",
            "back",
        )
    ),
    *(model.Shown(name, "money", hidden=True) for name in ("poor", "kept")),
    *(model.Shown(name, "count", hidden=True) for name in ("tenths", "months")),
    *(model.Shown(name, "fraction", hidden=True) for name in ("share_left",)),
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
