"""What to do about it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc import model, tables
from calc.mechanics import chances, trade_in, used_value
from calc.search import Remedies
from calc.subjects.blank import still
from calc.worksheets.resale.compute import (
    PAYMENT_ASKS,
    ROUNDS,
    SEED,
    dollars,
    plan,
    share,
    tax_of,
    worth_asks,
)
from calc.worksheets.resale.fields import DAY, evidence

AS_IS, REPAIR, TRADE = "as_is", "repaired", "trade"
SHARES = ((1, 10), (1, 4), (1, 2), (3, 4), (9, 10))
CENT = 0.01
REPAIRING = ("gain", "chance")
SALVAGE_AT = (10.0, 300.0)  # years, and hours a year, of the printed share; power/S47


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Say which way leaves most, what would change it, and how the gain spreads."""
    _offer_remedies(v, found, remedies)
    return model.Advice(
        cautions=found.cautions("fault", "average", "tax"),
        tables=_tables(v, found),
        notes=_notes(v, found),
        says={
            "repair": _not_repaired(v, found),
            "worth": _ask(v, found, "ask_worth", worth_asks(v)),
            **_payments(v, found),
        },
    )


def _ask(v: model.Inputs, found: model.Found, note: str, names: Sequence[str]) -> model.Words:
    """Which of these fields are still to be said; nothing where all of them are given."""
    missing = still(v, found, names)
    return found.note(note, missing=missing) if missing else ""


def _payments(v: model.Inputs, found: model.Found) -> dict[str, model.Words]:
    """Of the payments: that the offer is enough, or which numbers they want."""
    if "back" in found:
        return {"payments": found.note("tell_covered", back=(found.back, "money"))}
    if asked := _ask(v, found, "ask_payments", PAYMENT_ASKS):
        return {"payments": asked}
    if "payment_plain" not in found:
        return {}
    # A rule with a rate of its own leaves no usual tax in it: where nothing is taxed, none.
    rule = tables.by_key("money/trade_tax_rules", "key")[v.tax_rule]
    usual = not rule["rate_percent"] and "sales_tax" in found.assumed
    said = found.note(
        "tell_payments_taxed" if usual else "tell_payments",
        payment=(found.payment_plain, "money"),
        months=(found.months, "count"),
    )
    return {"payments": said}


def _ways(found: model.Found) -> list[tuple[str, float]]:
    """Each way and what it leaves, the best first."""
    names = [name for name in (AS_IS, REPAIR, TRADE) if name in found]
    ways = [(name, float(getattr(found, name))) for name in names]
    return sorted(ways, key=lambda way: way[1], reverse=True)


def _not_repaired(v: model.Inputs, found: model.Found) -> model.Words:
    """Which way is better than repairing, and by how much."""
    (best, most), *_ = _ways(found)
    behind = most - found.repaired
    if best == TRADE:
        return found.note("trade_best", behind=(behind, "money"))
    if best == AS_IS:
        return found.note("as_is_best", behind=(behind, "money"))
    return found.note("gamble")


def _offer_remedies(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    remedies.less("parts", mends=REPAIRING, step=1.0, end=0.0)
    remedies.less("shop_rate", mends=REPAIRING, step=1.0, most=10.0)
    remedies.more(
        "uplift_likely",
        mends=REPAIRING,
        step=1.0,
        also={
            "uplift_low": lambda likely: min(v.uplift_low, likely),
            "uplift_high": lambda likely: max(v.uplift_high, likely),
        },
    )
    # Who says nothing of a repair sells it as it stands.
    repairs = not {"parts", "hours", "uplift_likely"} <= found.assumed
    key, check = ("trade_offer", "trade") if repairs else ("as_is_offer", "sale")
    verdict = next((each for each in found.verdicts if each.check.name == check), None)
    if verdict is not None:  # the offer that leaves as much at the most, in whole dollars
        fair = trade_in.offer_that_equals(
            verdict.limit_high, v.new_price or 0.0, _credited(v, found)
        )
        mends = ("trade", "sale") if repairs else ("sale",)
        offer = (math.ceil(fair - CENT), "money")
        remedies.do(key, mends=mends, source="value/DERIVED", offer=offer)
    if found.finding("ceiling") in (model.OVER, model.UNKNOWN) and "ceiling" in found:
        remedies.do("ceiling", mends=REPAIRING, source="value/V9")


def _credited(v: model.Inputs, found: model.Found) -> float:
    """The tax rate on the difference; nothing while rate or rule is open."""
    rate, credit = tax_of(v)
    own = tables.by_key("money/trade_tax_rules", "key")[v.tax_rule]["rate_percent"]
    open_ = {"tax_rule"} if own else {"tax_rule", "sales_tax"}
    return rate if credit and not open_ & found.assumed else 0.0


def _tables(v: model.Inputs, found: model.Found) -> list[model.Table]:
    known = plan(v)
    spread = chances.simulate(known, SEED, ROUNDS)
    rows: list[tuple[model.Cell, ...]] = [
        (
            "Sell as it stands",
            dollars(known.value),
            share(known.chance_as_is),
            f"{known.days_as_is:.0f}",
            dollars(v.selling_costs),
            dollars(found.as_is),
        ),
        (
            "Repair and sell",
            dollars(known.value + known.uplift.mean),
            share(known.chance_repaired),
            f"{known.days_repaired:.0f}",
            dollars(known.cost.mean + v.selling_costs),
            dollars(found.repaired),
        ),
    ]
    if "trade" in found:
        with_tax = f"{dollars(found.trade)} with the tax saved"
        rows.append(("Trade in", dollars(v.trade_offer), "100 %", "0", "–", with_tax))
    return [
        model.Table(
            "The ways side by side",
            ("Way", "Price", "Chance", "Days", "Spent first", "Expected in hand"),
            tuple(rows),
            "value/DERIVED",
            "With the middle of what you gave, or where the deciding number is worst.",
        ),
        model.Table(
            "How the gain from repairing spreads",
            ("Out of so many sales", "it leaves at most"),
            tuple((f"{few} in {many}", dollars(spread.at(few / many))) for few, many in SHARES),
            "value/V29",
            f"Played {ROUNDS:,} times with the seed {SEED}, so that the figures come out the same "
            f"everywhere: mean {dollars(spread.mean)}, standard deviation "
            f"{dollars(spread.deviation)}, better off in {share(spread.chance_of_gain)} of them. "
            "The buyer's luck is the same with and without the repair.",
        ),
    ]


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    large = (evidence("auction_repairs")[0], "money")
    notes: list[model.Words] = [found.note("auction", large=large), found.note("faster")]
    if "ceiling" in found:
        notes.append(found.note("ceiling"))
    if max(v.days_as_is, v.days_repaired) > 183 * DAY:
        notes.append(found.note("long"))
    if "book_price" in found:
        part = share(v.as_is_price / found.book_price) if found.book_price else "0 %"
        notes.append(found.note("book", part=part))
        if v.machine.startswith("tractor"):
            ours = used_value.remaining_value(v.machine, *SALVAGE_AT)
            theirs = (evidence("salvage", 0.01)[0], "fraction")
            notes.append(found.note("salvage", ours=(ours, "fraction"), theirs=theirs))
    if "trade" in found:
        row = tables.by_key("money/trade_tax_rules", "key")[v.tax_rule]
        notes.append(found.note("tax", place=row["place"], rule=row["rule"]))
    return notes
