"""What a reply says, in sentences, before it becomes plain, rich or short text."""

from __future__ import annotations

import re
from dataclasses import dataclass

from calc import model, quantities
from calc.model import Answer, check_text, leading, sentences
from calc.render import concerns, fitting_caution, to_do

OPEN_SHOWN = 4  # of what can't be told yet, so many are listed
OPEN_NAMED = 4  # of the choices that nobody made, so many are named
USUAL_SHOWN = 6  # of what nobody gave, so many are named; the link has them all
OTHERS_NAMED = 3  # of the checks that are open and weren't asked about, so many are named


@dataclass(frozen=True, slots=True)
class Said:
    """The sentences of a reply, by what each is for."""

    lead: str
    after: tuple[str, ...]  # what would settle it, and whose example it is
    broken: tuple[str, ...]
    near: tuple[str, ...]  # dangers that are met only just, or can't be told beside what is broken
    unsettled: tuple[str, ...]
    unchecked: tuple[str, ...]
    todo_title: str
    todo: tuple[str, ...]
    given: str
    usual: str
    caution: str


def said_of(answer: Answer, system: str) -> Said:
    """Return what a reply says of an answer, in the units of a system."""
    lead = leading.lead(answer, system)
    find = (sentences.settle_sentence(answer, system), sentences.then_sentence(answer))
    where = [f"{sentences.quoted(item)}: {item.help}" for item in answer.missing]
    after = [_example(answer), *where, *find]
    title, todo = to_do.what_to_do(answer, system)
    return Said(
        lead,
        tuple(filter(None, after)),
        tuple(_broken(answer, system, lead)),
        tuple(_only_just(answer, system, lead)),
        tuple(_unsettled(answer, system)),
        tuple(_unchecked(answer)),
        title,
        tuple(todo),
        _given(answer, system),
        _usual(answer, system),
        fitting_caution.choose(answer, lead),
    )


def _example(answer: Answer) -> str:
    if not answer.is_example:
        return ""
    sheet = answer.worksheet
    pages = answer.example == sheet.examples()
    about = f": {sheet.example}" if pages else "."
    if answer.given:
        whose = "the page's example" if pages else "an example"
        return f"What you didn't give is {whose}, not your machine{about}"
    return f"This is an example, not your machine{about}"


def _broken(answer: Answer, system: str, lead: str) -> list[str]:
    """Everything that is broken and that the leading sentence doesn't say, worst first."""
    told_whole = lead.casefold()
    said = []
    broken = [v for v in answer.verdicts if concerns.is_broken(v) and concerns.told(answer, v)]
    for verdict in sorted(broken, key=model.rank):
        heading = verdict.check.heading(model.OVER)
        if verdict.check.sense == "fits":
            # A sentence with something filled in names what is missing; the heading doesn't.
            told_by = verdict.check.sentence
            named = isinstance(told_by, model.Phrase) and "{" in told_by.template
            sentence = check_text.check_sentence(verdict, system)
            found = sentence if named or not verdict.check.broken else heading
            told = any(text.rstrip(".").casefold() in told_whole for text in (found, sentence))
            told = told or (not named and heading.casefold() in told_whole)
        else:
            value = check_text.value_text(verdict, system)
            found = f"{heading}: {value}, {check_text.limit_text(verdict, system)}"
            whole = _tells(lead, check_text.bare_limit(verdict, system))
            told = (whole or verdict is answer.deciding) and _tells(lead, value)
        told = told or (verdict is answer.deciding and _has_own_sentence(answer, verdict, lead))
        if not told and f"{found.rstrip('.')}." not in said:
            said.append(f"{found.rstrip('.')}.")
    return said


def _has_own_sentence(answer: Answer, verdict: model.Verdict, lead: str) -> bool:
    """Whether the answer leads with what the question says of this very check where it breaks."""
    name, ask = verdict.check.name, answer.ask
    own = ask.broken.get(name) or (ask.says.get(model.OVER, "") if name == ask.lead else "")
    return bool(own) and max(re.split(r"\{[^}]*\}", own), key=len) in lead


def _only_just(answer: Answer, system: str, lead: str) -> list[str]:
    """Dangers that are met only just, or that can't be told beside what is broken for sure.

    Beside what is broken nobody would look for them.
    """
    states = {model.CLOSE: "Only just met"}
    if answer.finding == model.OVER:
        states[model.UNKNOWN] = "Can't be told yet"
    said = []
    for verdict in sorted(answer.verdicts, key=model.rank):
        beside = leading.is_beside(verdict, answer.ask)
        if verdict is answer.deciding or (beside and answer.ask.alone):
            continue
        if verdict.check.grade != model.DANGER or verdict.finding not in states:
            continue
        title = model.in_sentence(verdict.check.title)
        if verdict.check.sense != "fits":
            value = check_text.value_text(verdict, system)
            if _tells(lead, value):
                continue
            title = f"{title}, {value} where {check_text.needed(verdict, system)}"
        said.append(f"{states[verdict.finding]}: {title}.")
    return said


def _tells(lead: str, value: str) -> bool:
    return re.search(rf"(?<![\d.,]){re.escape(value)}(?![\d])", lead) is not None


def _unsettled(answer: Answer, system: str) -> list[str]:
    """What may be broken too, while it can't be told: what was asked about, and dangers."""
    if answer.finding != model.UNKNOWN:
        return []
    bearing = concerns.in_question(answer)
    open_ = [
        v
        for v in sorted(bearing, key=model.rank)
        if v.finding == model.UNKNOWN and v is not answer.deciding
    ]
    said = [
        f"{verdict.check.title}."
        if verdict.check.sense == "fits"
        else f"{verdict.check.title}: {check_text.value_text(verdict, system)}, "
        f"{check_text.limit_text(verdict, system)}."
        for verdict in open_[:OPEN_SHOWN]
    ]
    more = len(open_) - len(said)
    return [*said, f"And {more} more."] if more else said


def _unchecked(answer: Answer) -> list[str]:
    """What could not be checked, and where its number is read; the question's own first.

    What only compares has its other questions open, and nobody is hurt by that.
    """
    own = concerns.counting(answer)
    own += [u for u in answer.unchecked if u.meant and u not in own]
    rest = [u for u in answer.unchecked if u.governs and u not in own]
    aside = answer.worksheet.compares_money or answer.finding == model.COMPARED
    others = [] if aside else rest
    waiting: dict[str, list[model.Unchecked]] = {}
    for item in own:
        waiting.setdefault(item.field, []).append(item)
    said = []
    for name, items in waiting.items():
        sentence = sentences.unchecked_sentence(answer, *items)
        settled = answer.settle and answer.settle.field.name == name
        help_ = f" {answer.worksheet.field(name).help}"  # said already, beside what would settle it
        said.append(sentence.removesuffix(help_) if settled else sentence)
    titles = list(dict.fromkeys(model.in_sentence(item.title) for item in others))
    if titles:
        named = titles[:OTHERS_NAMED] if len(titles) > OTHERS_NAMED + 1 else titles
        more = [f"{len(titles) - len(named)} more"] if len(named) < len(titles) else []
        said.append(f"Besides what was asked: {quantities.joined([*named, *more])}.")
    return said


def _given(answer: Answer, system: str) -> str:
    """What somebody gave, as it was understood."""
    listed = [
        f"{answer.worksheet.field(name).label.rstrip('?')}: "
        f"{sentences.given_text(answer, name, system)}"
        for name in answer.given
    ]
    return f"You gave: {'; '.join(listed)}." if listed else ""


def _usual(answer: Answer, system: str) -> str:
    """What nobody gave and what was taken for it, the fields of the question first."""
    first = (*answer.ask.fields, *(item.field.name for item in answer.settles))
    # What a check waits for is asked for, and nobody is told what stood in for it.
    aside = _of_nothing(answer) | {item.field for item in answer.unchecked}
    bearing = [item for item in answer.assumed if item.field.name not in aside]
    ordered = sorted(bearing, key=lambda item: item.field.name not in first)
    if not ordered or answer.missing:  # nothing was worked out with it
        return ""
    moving = answer.bearing() | {item.field.name for item in answer.settles}
    listed = [item for item in ordered if item.field.name in moving]
    if answer.finding == model.COMPARED or answer.worksheet.compares_money:
        # A page that compares has other questions too, whose inputs bear on nothing here.
        listed = [item for item in listed if item.field.name in first]
    open_ = [item for item in listed if len(item.options) > 1]
    taken = [item for item in listed if len(item.options) <= 1 and not _says_nothing(item)]
    told = [sentences.assumed_sentence(item, system) for item in taken[:USUAL_SHOWN]]
    if told:
        told.insert(0, "Nobody gave these, so what is usual was taken.")
    if open_:
        named = quantities.joined([sentences.quoted(item.field) for item in open_[:OPEN_NAMED]])
        told.append(f"Not said, so the answer allows for every choice of {named}.")
    more = len(ordered) - min(len(taken), USUAL_SHOWN) - min(len(open_), OPEN_NAMED)
    if more and told:  # what moves nothing that was asked isn't worth a sentence of its own
        told.append(f"And {more} more, named on the page.")
    return " ".join(told)


def _of_nothing(answer: Answer) -> set[str]:
    """The fields of an implement where nothing hangs on the hitch: nothing has no mass."""
    kind = "implement_kind"
    stands_in = {item.field.name: item.options for item in answer.assumed}.get(kind, ())
    if stands_in != _BARE and answer.given.get(kind) not in _BARE:
        return set()
    fields = answer.worksheet.fields
    group = answer.worksheet.field(kind).group
    return {item.name for item in fields if item.group == group} - {kind}


_BARE = ("none",)


def _says_nothing(item: model.Assumed) -> bool:
    """Whether what stands in is only that nobody knows it: "not sure", "not looked yet"."""
    if item.typical is not None or not isinstance(item.field, model.Choice):
        return False
    return all(item.field.shown(option).startswith("Not ") for option in item.options)
