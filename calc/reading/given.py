"""What a message gives: facts with the fields that they may fill, and what could not be placed."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

from calc import tables
from calc.reading.amounts import Amount
from calc.reading.words import Said

DRIVEN_BY_RATING = "generator"  # the power beside it is what it gives
SUBJECTS = {
    "implement_kind": "implement",
    "generic": "implement",
    "tractor_kind": "tractor",
    "cab_kind": "cab",
}
# Choices that say nothing of a machine by themselves.
NOT_FIELDS = frozenset(["subject", "word", "generic", "cue"])
UNSAID = 6  # the cost of a field that nothing but the kind of an amount speaks for


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that a message gives.

    `fields` are the fields that it may fill; a worksheet takes the first of them that it has.
    `number` and `units` are of an amount: its text without a unit, and the unit for each kind
    (empty for a bare number). For all else `text` is what the field takes.
    """

    fields: tuple[str, ...]
    first: int
    last: int
    text: str = ""
    amount: Amount | None = None
    why: str = ""
    others: tuple[str, ...] = ()  # what else the same words may mean, for a choice
    cost: float = 0.0


@dataclass(slots=True)
class Given:
    """All that a message gives, and what in it could not be placed."""

    facts: list[Fact] = field(default_factory=list)
    loose: list[Amount] = field(default_factory=list)
    apart: list[Amount] = field(default_factory=list)  # of something that no page asks for
    doubtful: list[Fact] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Cue:
    """A row of the table of cues: an amount of `kind` beside `phrase` is of one of `fields`.

    Without fields it only keeps a shorter phrase from being one: "lift a" is no lift capacity.
    """

    phrase: str
    subject: str
    kind: str
    fields: tuple[str, ...]
    side: str
    bare: bool
    among: frozenset[str]  # one of these stands in the message, where there are any


@cache
def cues() -> dict[str, tuple[Cue, ...]]:
    """Return the cues by their phrase; those without one, which go by the subject, under ""."""
    found: dict[str, tuple[Cue, ...]] = {}
    for row in tables.rows("words/cues"):
        fields = tuple(row["fields"].split())
        bare, among = row["bare"] == "yes", frozenset(filter(None, row["among"].split("/")))
        cue = Cue(row["phrase"], row["subject"], row["kind"], fields, row["side"], bare, among)
        found[cue.phrase] = (*found.get(cue.phrase, ()), cue)
    return found


def subject_of(said: Said) -> str:
    """Return what a phrase speaks of: "tractor", "implement", "towed" ..., or nothing."""
    for sense in said.senses:
        if sense.sense == "subject":
            return sense.value
        if sense.value == DRIVEN_BY_RATING:
            return sense.value
        if sense.sense in SUBJECTS:
            return SUBJECTS[sense.sense]
    return ""
