"""Prices of a repair: what a machine brings once it is mended, against what it brings now."""

from __future__ import annotations

from dataclasses import replace

from calc import tables
from calc.reading.amounts import Amount
from calc.reading.given import Fact, Given
from calc.reading.words import NUMBER, Token, words_at

_NOW = frozenset(["worth", "now", "is"])
_MENDED = frozenset(["fixed", "repaired", "mended", "fixing", "painted", "running", "working"])
_JOINS = frozenset(tables.small_words("before mended"))
REACH = 3  # words between a price and what says that it is the mended machine's
LEAST_PRICE = 1000.0  # below it a number beside "fixed" may be what the repair costs


def place_repaired(tokens: list[Token], given: Given) -> None:
    """Take "12000 fixed" beside "9000 as is" for what the repair adds.

    Without a price as it stands it says nothing of what is asked, and stays loose.
    """
    prices = [f for f in given.facts if f.fields[0] == "as_is_price" and f.amount]
    now = [f for f in prices if f.amount and (len(prices) < 2 or not is_mended(tokens, f.amount))]
    others = [f for f in given.facts if f.fields == ("parts",) or (f in prices and f not in now)]
    for amount in (*given.loose, *[f.amount for f in others if f.amount]):
        if not (_is_price(amount) and is_mended(tokens, amount)):
            continue
        if len(now) == 1 and now[0].amount and amount.value > now[0].amount.value:
            added = amount.value - now[0].amount.value
            text = f"{added:g}"
            kinds = {"money": "$"}
            difference = replace(amount, number=text, kinds=kinds, value=added)
            why = f"repaired it brings that, {text} more than as it stands"
            given.loose = [a for a in given.loose if a != amount]
            given.facts = [f for f in given.facts if f.amount != amount]
            fact = Fact(("uplift_likely",), amount.first, amount.last, "", difference, why)
            given.facts.append(fact)


_SHORT = frozenset(["k", "grand", "thousand"])
_BID = frozenset(["offered", "offers", "offer", "asking", "get", "gets", "worth", "pay", "bring"])
_BID_BEHIND = frozenset(["private", "privately", "myself", "selling", "cash", "trade", "fixed"])
MOST_SHORT = 100.0  # of a price in thousands


def in_thousands(tokens: list[Token], amounts: list[Amount]) -> list[Amount]:
    """Return the amounts with the 13 of "11 grand on trade, 13 myself" as 13000 dollars."""
    if not any(_SHORT & set(words_at(tokens, a.last - 1, a.last + 1)) for a in amounts):
        return amounts
    return [_of_thousands(tokens, amount) for amount in amounts]


def _of_thousands(tokens: list[Token], amount: Amount) -> Amount:
    beside = _BID & set(words_at(tokens, amount.first - 1, amount.first))
    behind = words_at(tokens, amount.last, amount.last + 2)
    beside |= _BID_BEHIND & set(behind[1:] if behind[:1] == ["on"] else behind[:1])
    if amount.kinds or amount.spelled or amount.value >= MOST_SHORT or not beside:
        return amount
    value = 1000 * amount.value
    return replace(amount, number=f"{value:g}", value=value, kinds={"money": "$"})


_SOLD = frozenset(["tractor", "machine", "mower", "baler"])


def place_own(tokens: list[Token], amounts: list[Amount], given: Given) -> None:
    """Take "my $9,000 tractor" for what it brings as it stands."""
    for amount in amounts:
        mine = amount.first > 0 and tokens[amount.first - 1].text == "my"
        behind = set(words_at(tokens, amount.last, amount.last + 2))
        if mine and "money" in amount.kinds and behind & _SOLD and _is_price(amount):
            given.loose = [each for each in given.loose if each != amount]
            given.facts = [fact for fact in given.facts if fact.amount != amount]
            why = "it stands between “my” and the machine"
            fact = Fact(("as_is_price",), amount.first, amount.last, "", amount, why)
            given.facts.append(fact)


def _is_price(amount: Amount) -> bool:
    money = "money" in amount.kinds or not amount.kinds
    return money and amount.value >= LEAST_PRICE and not amount.spelled


def is_mended(tokens: list[Token], amount: Amount) -> bool:
    """Whether "fixed" or "after the repair" stands beside a price, only small words between."""
    now = set(words_at(tokens, amount.first - 1, amount.first)) & _NOW
    if now and any(token.kind == NUMBER for token in tokens[amount.last + 1 : amount.last + 2]):
        return False  # "worth 6800, fixed 8800"
    if words_at(tokens, amount.last, amount.last + 2) == ["instead", "of"]:
        return True  # "sells for 16000 instead of 13000"
    for reach in (tokens[amount.last :][:REACH], tokens[: amount.first][-1 : -REACH - 1 : -1]):
        texts = [token.text for token in reach]
        for text in texts:
            if text in _MENDED:
                return True
            if text not in _JOINS and text != "repair":
                break
            if text == "repair" and "after" in texts:
                return True
    return False


def is_no_worth(tokens: list[Token], amount: Amount) -> bool:
    """Whether what stands behind "worth" is no price as it stands: "12000 fixed", "2100 more"."""
    behind = set(words_at(tokens, amount.last, amount.last + 1))
    return bool(behind & {"more", "extra"}) or is_mended(tokens, amount)


def is_paid_down(tokens: list[Token], amount: Amount) -> bool:
    """Whether an amount is a down payment, for which no page has a field: "5000 down"."""
    behind = words_at(tokens, amount.last, amount.last + 2)
    if "fraction" in amount.kinds and _LENT & {token.text for token in tokens}:
        return behind[:1] == ["down"]
    money = "money" in amount.kinds or (not amount.kinds and amount.value >= LEAST_DOWN)
    put = words_at(tokens, amount.last, amount.last + 3)[-2:] == ["put", "down"]
    hill = _SLOPES & {token.text for token in tokens}  # "pulling 6000 down a 6% grade"
    return money and (put or (behind[:1] == ["down"] and behind[1:] != ["to"] and not hill))


_SLOPES = frozenset(tables.small_words("slopes"))
_LENT = frozenset(["payment", "payments", "monthly", "finance", "financing", "loan", "interest"])
LEAST_DOWN = 100.0


_AT = ("at", "@", "x")
_MONEY = frozenset(["money", "money_per_hour"])


def place_rate(tokens: list[Token], given: Given) -> None:
    """Take "6 hours labor at $110" for what an hour of the shop costs."""
    for amount in list(given.loose):
        worked_so_long = amount.kinds.get("duration") == "h"
        if (
            worked_so_long
            and tokens[amount.last : amount.last + 1]
            and tokens[amount.last].text in _AT
        ):
            priced = [
                a for a in given.loose if a.first == amount.last + 1 and _MONEY & a.kinds.keys()
            ]
            if priced:
                given.loose.remove(amount)
                why = "it stands before its rate"
                fact = Fact(("hours",), amount.first, amount.last, "", amount, why)
                given.facts.append(fact)
    worked = [f for f in given.facts if f.fields == ("hours",) and f.amount]
    for amount in list(given.loose):
        near = any(f.last <= amount.first <= f.last + REACH for f in worked)
        at = tokens[amount.first - 1].text in _AT if amount.first else False
        if near and at and not _MONEY.isdisjoint(amount.kinds):
            hourly = replace(amount, kinds={"money_per_hour": "$/h"})
            given.loose.remove(amount)
            why = "it stands behind the hours"
            given.facts.append(Fact(("shop_rate",), amount.first, amount.last, "", hourly, why))
            return


_MONTH = (["month"], ["mo"])
_STORED = frozenset(["storage", "store", "storing", "stored"])
DAYS_A_MONTH = 365.25 / 12


def place_storage(tokens: list[Token], amounts: list[Amount], given: Given) -> None:
    """Take "75 a month storage" for what a day of it costs."""
    placed = [fact.amount for fact in given.facts]
    for amount in (each for each in amounts if each not in placed):
        money = "money" in amount.kinds or not amount.kinds
        behind = words_at(tokens, amount.last, amount.last + 5)
        before = words_at(tokens, amount.first - 4, amount.first)
        monthly = behind[:1] in (["a"], ["per"], ["each"], ["/"]) and behind[1:2] in _MONTH
        stored = _STORED & {*before, *behind}
        if money and not amount.spelled and monthly and stored:
            day = amount.value / DAYS_A_MONTH
            each = replace(amount, number=f"{day:.2f}", kinds={"money": "$"}, value=day)
            given.loose = [each for each in given.loose if each != amount]
            why = f"{amount.number} a month is that a day"
            given.facts.append(Fact(("storage",), amount.first, amount.last, "", each, why))
