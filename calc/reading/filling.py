"""A question filled with what its message gives: every fact that its worksheet has a field for."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from calc import worksheets
from calc.machines import Machine
from calc.machines.lists import reaching_shaft
from calc.reading import asked, leftover
from calc.reading.amounts import Amount
from calc.reading.found import Filled, Question
from calc.reading.given import UNSAID, Fact, Given
from calc.reading.taking import text_for
from calc.reading.unclear import unclear
from calc.reading.words import Token, place_of


def question(
    found: asked.Asked,
    given: Given,
    tokens: list[Token],
    machines: Mapping[str, Filled],
    system: str,
) -> Question:
    """Return a question with every fact that its worksheet has a field for."""
    sheet = worksheets.load(found.worksheet)
    names = {item.name: item for item in sheet.fields}
    filled = {name: each for name, each in machines.items() if name in names}
    own = sheet.ask(found.ask).fields
    told = any(f.fields == ("pto_power",) for f in given.facts)  # and is not reckoned then
    facts = given.facts if told else [_at_shaft(f, names) for f in given.facts]
    for fact in sorted(facts, key=lambda each: each.cost):
        place = place_of(tokens, fact.first, fact.last)
        # "see 400 ft" is what the ask wants seen
        for name in sorted(fact.fields, key=lambda name: name not in own):
            text = text_for(names[name], fact, system) if name in names else None
            if text is not None and (name not in filled or filled[name].text == text):
                earlier = filled[name].spans if name in filled else ()
                filled[name] = Filled(name, text, (*earlier, place), fact.why, fact.others)
                break
            if text is not None and name in machines:
                filled[name] = Filled(name, text, (place,), fact.why, fact.others)
                break
    spans = tuple(place_of(tokens, place, place + 1) for place in found.places)
    of_ask = _OF_ASK.get((found.worksheet, found.ask), {})
    loose = []
    # What the words place in a field that this worksheet lacks is as loose to it; but a mass
    # that is a machine's own is nothing else's.
    elsewhere = [
        f.amount
        for f in given.facts
        if f.amount
        and names.keys().isdisjoint(f.fields)
        and ("mass" not in f.amount.kinds or f.cost >= UNSAID)
    ]
    free = [*given.loose, *(elsewhere if of_ask else [])]
    for amount in free:
        name = _of_ask(of_ask, amount, [each for each in free if each is not amount])
        fact = Fact((name,), amount.first, amount.last, amount=amount)
        text = text_for(names[name], fact, system) if name and name not in filled else None
        if text is not None:
            place = place_of(tokens, amount.first, amount.last)
            filled[name] = Filled(name, text, (place,), "the question is about it")
        elif amount in given.loose:
            loose.append(amount)
    doubtful = unclear(sheet, found.ask, replace(given, loose=loose), filled, tokens, system)
    return Question(found.worksheet, found.ask, spans, tuple(filled.values()), doubtful)


# What a question is about is told by its words alone where one amount of the kind stands loose:
# what is paid for by the month is the price, and its months are those of the loan.
_LOAN = {"money": "new_price", "duration": "loan_months", "fraction": "loan_rate"}
_TIRE = {"mass": "tire_mass", "pressure": "pressure", "speed": "road_speed"}
_ACRES = {"speed": "ground_speed", "length": "working_width"}
_OF_ASK = {
    ("pairing", "across"): {"mass": "tractor_mass"},
    ("resale", "payments"): _LOAN,
    **{("road-towing", ask): {"speed": "road_speed"} for ask in ("stops", "heaviest", "fastest")},
    ("road", "emblem"): {"speed": "top_speed"},
    ("road", "symbol"): {"speed": "top_speed"},
    ("road", "width"): {"length": "transport_width"},
    ("resale", "month"): {"money": "as_is_price", "fraction": "yearly_rate"},
    ("tires", "liquid"): {"fraction": "fill"},
    ("lawn", "ruts"): {"mass": "tractor_mass"},
    ("lawn", "pressure"): {"mass": "tractor_mass"},
    ("resale", "tax"): {"money": "new_price", "fraction": "sales_tax"},
    ("resale", "trade"): {"fraction": "sales_tax"},
    ("closing", "pull"): {"speed": "road_speed", "distance": "entrance_sight"},
    ("closing", "caught"): {"speed": "road_speed", "distance": "sight_distance"},
    ("closing", "seen"): {"speed": "road_speed"},
    ("rail-crossing", "clear"): {"speed": "crossing_speed", "length": "combination_length"},
    ("tire-size", "pressure"): _TIRE,
    ("tire-size", "load"): _TIRE,
    ("drive", "climbs"): {"slope": "slope"},
    ("drive", "loader"): {"duration": "hours_per_year"},
    ("drive", "fuel"): {"duration": "hours_per_year"},
    ("drive", "worth"): {"duration": "hours_per_year"},
    ("resale", "worth"): {"duration": "age"},
    ("lamp-wiring", "wire"): {"length": "run"},
    ("lamp-wiring", "thick"): {"length": "run"},
    ("lamp-wiring", "fuse"): {"length": "run"},
    ("driveline", "bolt"): {"torque": "clutch_torque", "power": "pto_power"},
    ("driveline", "joints"): {"power": "pto_power"},
    ("lawn", "tool"): {"speed": "ground_speed"},
    ("lawn", "time"): _ACRES,
    ("lawn", "rate"): _ACRES,
    ("cab", "can"): {"temperature": "outside_temperature"},
    ("cab", "size"): {"temperature": "outside_temperature"},
    ("cab", "left"): {"temperature": "outside_temperature"},
}
# Below it a loose number may be a payment, a fee or a down payment, the air inside [F], or a
# length of what pulls out.
LEAST = {"money": 1000.0, "temperature": 80.0, "distance": 100.0}


def _of_ask(fields: Mapping[str, str], amount: Amount, others: Sequence[Amount]) -> str:
    """Return the field of a question that a loose amount is of, "" where another may be it."""
    for kind, name in fields.items():
        bare = kind == "money" and not amount.kinds and not leftover.may_be_year(amount)
        fits = kind in amount.kinds or bare
        rival = any(kind in each.kinds or (kind == "money" and not each.kinds) for each in others)
        large = amount.value >= LEAST.get(kind, 0.0)
        if fits and large and not rival:
            return name
    return ""


def _at_shaft(fact: Fact, names: Collection[str]) -> Fact:
    """Return what reaches the PTO of an engine's power, for a worksheet that asks for that alone.

    "35 hp" of a tractor is its engine's as a rule.
    """
    asks = "pto_power" in names and "engine_power" not in names
    if not asks or fact.fields != ("engine_power",) or fact.amount is None:
        return fact
    symbol = fact.amount.kinds.get("power", "")
    number = reaching_shaft(fact.amount.text(symbol), symbol)
    amount = replace(fact.amount, number=number, hedged=False)
    why = f"{fact.why}; so much reaches the PTO"
    return replace(fact, fields=("pto_power",), amount=amount, why=why)


def named_machines(
    text: str, tokens: list[Token], machines: Sequence[Machine]
) -> dict[str, Filled]:
    """Return what the machines that are named in a message give."""
    found: dict[str, Filled] = {}
    plain_text = " ".join(text.lower().split())
    for machine in sorted(machines, key=lambda each: -len(each.name)):
        name = " ".join(machine.name.lower().split())
        if len(name) < 4 or name not in plain_text:
            continue
        start = text.lower().find(name)
        spans = ((start, start + len(name)),) if start >= 0 else ()
        for field_name, value in machine.inputs.items():
            found.setdefault(field_name, Filled(field_name, value, spans, f"“{machine.name}”"))
    return found
