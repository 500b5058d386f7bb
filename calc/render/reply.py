"""An answer as a reply: plain text, rich text for mail, short text for a message; and what to ask
back.

Each starts with the answer in a sentence that can be said aloud. Then comes what else is broken
or couldn't be checked, what to do, whose numbers they were, the caution that fits, the shop and
the link.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import htpy as h

from calc import links, model, quantities
from calc.model import Answer, sentences, words
from calc.render import parts

SHORT = 320  # a short text has fewer characters than this
OPEN_SHOWN = 4  # of what can't be told yet, so many are listed
USUAL_SHOWN = 8  # of what nobody gave, so many are named; the link has them all
OTHERS_NAMED = 3  # of the checks that are open and weren't asked about, so many are named
TO_ASK = 3  # how many numbers are asked back at most

# A message in plain characters costs half as much to send as one with any other in it.
_PLAIN = str.maketrans(
    {
        "“": '"',
        "”": '"',
        "\u2018": "'",
        "’": "'",
        "–": "-",
        "—": "-",
        "\u2212": "-",
        "×": "x",
        "·": "-",
        "…": "...",
        "°": " deg",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "²": "2",
        "³": "3",
        "±": "+/-",
        "≤": "<=",
        "≥": ">=",
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
    }
)
LEAST_CAUTION = "The manuals come first."
EXAMPLE_MARK = "(An example.)"
# Words that say nothing of what a caution is about, by their first letters.
_EMPTY = frozenset(
    [
        "about",
        "above",
        "after",
        "befor",
        "being",
        "below",
        "both",
        "could",
        "every",
        "first",
        "from",
        "have",
        "into",
        "keep",
        "less",
        "more",
        "most",
        "much",
        "never",
        "nothi",
        "only",
        "other",
        "over",
        "same",
        "than",
        "that",
        "their",
        "them",
        "then",
        "there",
        "these",
        "they",
        "this",
        "those",
        "tract",
        "under",
        "until",
        "what",
        "when",
        "where",
        "which",
        "while",
        "with",
        "your",
    ]
)


@dataclass(frozen=True, slots=True)
class _Said:
    """What a reply says, in sentences."""

    lead: str
    after: tuple[str, ...]  # what would settle it, and whose example it is
    broken: tuple[str, ...]
    unsettled: tuple[str, ...]
    unchecked: tuple[str, ...]
    todo_title: str
    todo: tuple[str, ...]
    given: str
    usual: str
    caution: str


def _said(answer: Answer, system: str) -> _Said:
    lead = sentences.lead(answer, system)
    after = [_example(answer), sentences.settle_sentence(answer, system)]
    title, todo = _todo(answer, system)
    return _Said(
        lead,
        tuple(filter(None, after)),
        tuple(_broken(answer, system, lead)),
        tuple(_unsettled(answer, system)),
        tuple(_unchecked(answer)),
        title,
        tuple(todo),
        _given(answer, system),
        _usual(answer, system),
        _caution(answer, lead),
    )


# --- what is said -------------------------------------------------------------------------------


def _example(answer: Answer) -> str:
    if not answer.is_example:
        return ""
    about = answer.worksheet.example
    if answer.given:
        return f"What you didn't give is the page's example, not your machine: {about}"
    return f"This is an example, not your machine: {about}"


def _is_broken(verdict: model.Verdict) -> bool:
    return verdict.finding == model.OVER


def _broken(answer: Answer, system: str, lead: str) -> list[str]:
    """Everything that is broken and that the leading sentence doesn't say, worst first.

    Then the dangers that are met only just: beside what is broken nobody would look for them.
    """
    said = []
    for verdict in sorted(filter(_is_broken, answer.verdicts), key=model.rank):
        heading = verdict.check.heading(model.OVER)
        if verdict.check.sense == "fits":
            # A sentence with something filled in names what is missing; the heading doesn't.
            told_by = verdict.check.sentence
            named = isinstance(told_by, model.Phrase) and "{" in told_by.template
            found = heading
            if named or not verdict.check.broken:
                found = sentences.check_sentence(verdict, system)
            told = found.rstrip(".") in lead or (not named and model.in_sentence(heading) in lead)
        else:
            value = sentences.value_text(verdict, system)
            found = f"{heading}: {value}, {sentences.limit_text(verdict, system)}"
            told = verdict is answer.deciding and _tells(lead, value)
        if not told and f"{found.rstrip('.')}." not in said:
            said.append(f"{found.rstrip('.')}.")
    return [*said, *_only_just(answer, system, lead)]


def _only_just(answer: Answer, system: str, lead: str) -> list[str]:
    """Dangers that are met only just, or that can't be told beside what is broken for sure."""
    states = {model.CLOSE: "Only just met"}
    if answer.finding == model.OVER:
        states[model.UNKNOWN] = "Can't be told yet"
    said = []
    for verdict in sorted(answer.verdicts, key=model.rank):
        counts = verdict.check.grade == model.DANGER and verdict is not answer.deciding
        if not counts or verdict.finding not in states:
            continue
        title = model.in_sentence(verdict.check.title)
        if verdict.check.sense != "fits":
            value = sentences.value_text(verdict, system)
            if _tells(lead, value):
                continue
            title = f"{title}, {value} where {sentences.limit_text(verdict, system)} is right"
        said.append(f"{states[verdict.finding]}: {title}.")
    return said


def _tells(lead: str, value: str) -> bool:
    return re.search(rf"(?<![\d.,]){re.escape(value)}(?![\d])", lead) is not None


def _unsettled(answer: Answer, system: str) -> list[str]:
    """What may be broken too, while it can't be told; of money only what was asked about."""
    if answer.finding != model.UNKNOWN:
        return []
    bearing = _in_question(answer) if _compares(answer) else answer.verdicts
    open_ = [
        v
        for v in sorted(bearing, key=model.rank)
        if v.finding == model.UNKNOWN and v is not answer.deciding
    ]
    said = [
        f"{verdict.check.title}."
        if verdict.check.sense == "fits"
        else f"{verdict.check.title}: {sentences.value_text(verdict, system)}, "
        f"{sentences.limit_text(verdict, system)}."
        for verdict in open_[:OPEN_SHOWN]
    ]
    more = len(open_) - len(said)
    return [*said, f"And {more} more."] if more else said


def _counting(answer: Answer) -> list[model.Unchecked]:
    """What could not be checked and bears on the question."""
    asked = answer.ask.checks
    return [u for u in answer.unchecked if u.governs and (not asked or u.name in asked)]


def _compares(answer: Answer) -> bool:
    """Whether the page compares money: its questions are each of their own."""
    return "findings" in answer.worksheet.words


def _unchecked(answer: Answer) -> list[str]:
    """What could not be checked, and where its number is read; the question's own first.

    A page that compares money has its other questions open, and nobody is hurt by that.
    """
    own = _counting(answer)
    rest = [u for u in answer.unchecked if u.governs and u not in own]
    others = [] if _compares(answer) else rest
    waiting: dict[str, list[model.Unchecked]] = {}
    for item in own:
        waiting.setdefault(item.field, []).append(item)
    said = [sentences.unchecked_sentence(answer, *items) for items in waiting.values()]
    titles = list(dict.fromkeys(model.in_sentence(item.title) for item in others))
    if titles:
        named = titles[:OTHERS_NAMED] if len(titles) > OTHERS_NAMED + 1 else titles
        more = [f"{len(titles) - len(named)} more"] if len(named) < len(titles) else []
        said.append(f"Besides what was asked: {quantities.joined([*named, *more])}.")
    return said


def _todo(answer: Answer, system: str) -> tuple[str, list[str]]:
    """What to do: ways that each mend all of it, else a list that together mends what it can."""
    # Where all that was asked about is well, what would help elsewhere is no part of the reply.
    well = answer.finding in (model.WITHIN, model.CLOSE)
    remedies = [r for r in answer.advice.remedies if not well or answer.concerns(r)]
    counted = {verdict.check.name for verdict in _in_question(answer)}
    remedies = [r for r in remedies if not r.mends or counted & set(r.mends)]
    if not remedies:
        return "", []
    whole = [remedy for remedy in remedies if remedy.whole]
    if whole:
        title = "What to do" if len(whole) == 1 else "What to do, any one of these"
        return title, [_remedy(remedy, system) for remedy in whole[:3]]
    chosen, left = _cover(answer)
    if not chosen:
        return "What would help", [_remedy(remedy, system) for remedy in remedies[:3]]
    chosen.sort(key=lambda remedy: not any(map(_is_broken, _mended(answer, remedy))))
    told, mended = [], set[str]()
    for remedy in chosen:
        # What an earlier one mends already is no reason for this one.
        new = tuple(name for name in remedy.mends if name not in mended)
        told.append(
            f"{_remedy(remedy, system)} {_what_for(answer, replace(remedy, mends=new))}".strip()
        )
        mended |= set(remedy.mends)
    if left:
        titles = [verdict.check.heading(model.OVER) for verdict in left]
        told.append(f"Nothing here mends: {'; '.join(titles)}.")
    return "What to do, all of it" if len(chosen) > 1 else "What to do", told


def _mended(answer: Answer, remedy: model.Remedy) -> list[model.Verdict]:
    return [verdict for verdict in answer.verdicts if verdict.check.name in remedy.mends]


def _what_for(answer: Answer, remedy: model.Remedy) -> str:
    """What a remedy mends; or what it is for where nobody knows whether that is in order."""
    mended = _mended(answer, remedy)
    if answer.finding != model.OVER or not mended or any(map(_is_broken, mended)):
        return sentences.mends(answer, remedy)
    titles = [model.in_sentence(verdict.check.title) for verdict in mended]
    return f"Unless in order already: {quantities.joined(titles)}."


def _in_question(answer: Answer) -> list[model.Verdict]:
    """The checks that a reply says what to do about: the question's own, dangers, and what is
    broken beside it. What another question leaves open is not what was asked."""
    own = model.counting(answer.verdicts, answer.ask.checks)
    return [v for v in answer.verdicts if v in own or _is_broken(v)]


def _cover(answer: Answer) -> tuple[list[model.Remedy], list[model.Verdict]]:
    """Choose remedies until each check that one of them mends is mended; and say what is left.

    What was asked about and is broken for certain comes first, mended by what is made for it: who
    asks of a chain is told of a stronger one, and of a lighter load for what else is open.
    """
    limits = [v for v in _in_question(answer) if v.margin_low < 0 and v.check.grade != model.ADVICE]
    open_ = {verdict.check.name for verdict in limits}
    rest, chosen = list(answer.advice.remedies), []
    asked = {v.check.name for v in limits if v.check.name in answer.ask.checks and _is_broken(v)}
    if asked:
        sure = {verdict.check.name for verdict in limits if _is_broken(verdict)}

        def made_for(remedy: model.Remedy) -> tuple[int, int, int]:
            mended = set(remedy.mends)
            return len(asked & mended), len(sure & mended), -len(mended - sure)

        own = max(rest, key=made_for)
        if asked & set(own.mends):
            chosen.append(own)
            rest.remove(own)
            open_ -= set(own.mends)
    while open_ and rest:
        best = max(rest, key=lambda remedy: len(open_ & set(remedy.mends)))
        if not open_ & set(best.mends):
            break
        chosen.append(best)
        rest.remove(best)
        open_ -= set(best.mends)
    return chosen, [v for v in limits if v.check.name in open_ and _is_broken(v)]


def _remedy(remedy: model.Remedy, system: str) -> str:
    return " ".join(filter(None, [words(remedy.text, system), parts.said(remedy)]))


def _given(answer: Answer, system: str) -> str:
    """What somebody gave, as it was understood."""
    listed = [
        f"{answer.worksheet.field(name).label.rstrip('?')}: "
        f"{sentences.field_text(answer, name, system)}"
        for name in answer.given
    ]
    return f"You gave: {'; '.join(listed)}." if listed else ""


def _usual(answer: Answer, system: str) -> str:
    """What nobody gave and what was taken for it, the fields of the question first."""
    first = (*answer.ask.fields, *(item.field.name for item in answer.settles))
    ordered = sorted(answer.assumed, key=lambda item: item.field.name not in first)
    if not ordered:
        return ""
    told = [
        f"{item.field.label.rstrip('?')}: any of its options."
        if len(item.options) > 1
        else sentences.assumed_sentence(item, system)
        for item in ordered[:USUAL_SHOWN]
    ]
    more = len(ordered) - len(told)
    rest = f" And {more} more, named on the page." if more else ""
    return f"Nobody gave these, so what is usual was taken. {' '.join(told)}{rest}"


def _stems(text: str) -> set[str]:
    return {word[:5] for word in re.findall(r"[a-z]{4,}", text.lower())} - _EMPTY


def _caution(answer: Answer, lead: str) -> str:
    """The caution that has most in common with what was found; the first where none has."""
    cautions = answer.advice.cautions
    if not cautions:
        return LEAST_CAUTION
    broken = [v.check for v in answer.verdicts if _is_broken(v)]
    said, found = _stems(lead), _stems(" ".join(f"{c.heading(model.OVER)} {c.why}" for c in broken))

    def fitting(caution: model.Caution) -> tuple[int, int]:
        about = _stems(caution.text)
        return len(about & said), len(about & found)

    return max(cautions, key=fitting).text


# --- plain and rich -----------------------------------------------------------------------------


def reply(
    answer: Answer, system: str = "us", link: str = "", sender: str = "", about: str = ""
) -> str:
    """Return the reply as plain text, for a mail or the command line.

    `about` names the machines that it is about, where they have names.
    """
    said = _said(answer, system)
    lines = [said.lead, *filter(None, [about]), *said.after]
    for title, listed in _lists(said):
        lines += [f"{title}:", *(f"- {item}" for item in listed)]
    lines += [line for line in (said.given, said.usual) if line]
    lines.append(f"Take care: {said.caution}")
    lines += filter(None, [link, sender])
    return "\n".join(lines)


def _lists(said: _Said) -> Iterator[tuple[str, Sequence[str]]]:
    found = [
        ("Also found", said.broken),
        ("Not settled either", said.unsettled),
        ("Not checked", said.unchecked),
        (said.todo_title, said.todo),
    ]
    return ((title, listed) for title, listed in found if listed)


def reply_html(
    answer: Answer, system: str = "us", link: str = "", sender: str = "", about: str = ""
) -> str:
    """Return the reply as HTML that a mail program takes from the clipboard."""
    said = _said(answer, system)
    lists = [
        [h.p[h.strong[f"{title}:"]], h.ul[[h.li[item] for item in listed]]]
        for title, listed in _lists(said)
    ]
    return str(
        h.div[
            h.p[h.strong[said.lead]],
            h.p[about] if about else None,
            [h.p[sentence] for sentence in said.after],
            lists,
            [h.p[line] for line in (said.given, said.usual) if line],
            h.p[h.strong["Take care: "], said.caution],
            h.p[h.a(href=link)["See it worked out, with every check"]] if link else None,
            h.p[sender] if sender else None,
        ]
    )


# --- short --------------------------------------------------------------------------------------


def shop_name(sender: str) -> str:
    """The shop's name out of the line that closes a reply."""
    return sender.partition(" · ")[0]


def plain(text: str) -> str:
    """Return a text in the characters that a message carries cheaply."""
    return " ".join(text.translate(_PLAIN).encode("ascii", "ignore").decode().split())


def _finding(answer: Answer) -> str:
    return f"{answer.worksheet.finding_words(answer.finding)}."


def fits_short(answer: Answer, link: str, sender: str = "") -> bool:
    """Whether a link leaves room for the finding and the shop's name in a short text."""
    mark = EXAMPLE_MARK if answer.is_example else ""
    least = plain(f"{_finding(answer)} {mark} {shop_name(sender)}")
    return len(f"{least} {link}") < SHORT


def short(answer: Answer, system: str = "us", link: str = "", sender: str = "") -> str:
    """Return the reply as text for a message, always under 320 characters, the link included.

    A link that is too long for any message is left out, and the text says so. What is left of
    the room goes to the leading sentence first, then to a caution, what else is broken and what
    to do, each in its longest form that fits.
    """
    name = plain(shop_name(sender))
    linked = bool(link) and fits_short(answer, link, sender)
    tail = ["(The link is too long for a message.)"] if link and not linked else []
    mark = [EXAMPLE_MARK] if answer.is_example else []
    closing = [*mark, *tail, *filter(None, [name]), *([link] if linked else [])]
    best, best_worth = "", (-1, 0, False, False, False, 0, 0)
    leads, *others = _forms(answer, system)
    for lead, *forms in itertools.product(leads, *others):
        said = " ".join([plain(" ".join(filter(None, [lead, *forms]))), *closing])
        caution, broken, todo = (bool(form) for form in forms)
        whole = 0 if lead.endswith("...") or lead == _finding(answer) else 1
        worth = (whole, len(lead), caution, broken, todo, sum(map(len, forms)), len(said))
        if len(said) < SHORT and worth > best_worth:
            best, best_worth = said, worth
    return best


def _forms(answer: Answer, system: str) -> Iterator[list[str]]:
    """Return lead, caution, broken and what to do, each in forms from the longest to none."""
    said = _said(answer, system)
    yield [*([said.lead, *_cut(said.lead)] if said.lead else []), _finding(answer)]
    yield [said.caution, *_cut(said.caution), LEAST_CAUTION, ""]
    headings = [item.partition(":")[0].rstrip(".") for item in said.broken]
    counts = range(len(headings), 0, -1)
    yield [*(_also(headings, count) for count in counts), ""]
    settle = f"Find out first: {answer.settle.field.label.rstrip('?')}." if answer.settle else ""
    todo = [form for item in said.todo[:1] for form in (item, *_cut(item))]
    yield [*(f"{settle} {form}".strip() for form in todo), settle, ""]


def _also(headings: list[str], count: int) -> str:
    """The first headings of what else is broken, and how many more there are."""
    more = len(headings) - count
    rest = f"; {more} more" if more else ""
    return f"Also: {'; '.join(headings[:count])}{rest}."


def _cut(text: str) -> Iterator[str]:
    """Return shorter forms of a text: its first sentence, and that one up to a break in it.

    What is cut in the middle of a list or a thought ends with dots, so that nobody takes it for
    the whole.
    """
    first = text.partition(". ")[0].rstrip(".")
    if f"{first}." != text:
        yield f"{first}."
    clause, found, _ = first.partition("; ")
    if found:
        yield f"{clause}..."
    head, found, _ = first.rpartition(", ")
    while found:
        if len(head) > 24:
            yield f"{head}..."
        head, found, _ = head.rpartition(", ")


# --- ask back -----------------------------------------------------------------------------------


def wanted(answer: Answer) -> list[model.AnyField]:
    """Return the few fields that would settle an answer, in the order in which to ask for them."""
    if answer.finding != model.UNKNOWN and not answer.missing:
        return []
    names = [item.name for item in answer.missing]
    names += [item.field for item in _counting(answer)]
    names += [item.field.name for item in answer.settles]
    return [answer.worksheet.field(name) for name in dict.fromkeys(names)][:TO_ASK]


def ask_back(answer: Answer, system: str = "us", link: str = "", sender: str = "") -> str:
    """Return a text that asks the customer for the numbers that settle it; "" when it is settled.

    `link` is the address of the page; the text carries one in which just those numbers are asked
    for and all that was given stands already.
    """
    fields = wanted(answer)
    if not fields:
        return ""
    count = "this one number" if len(fields) == 1 else f"these {len(fields)} numbers"
    if any(not isinstance(item, model.Field) for item in fields):
        count = "one thing" if len(fields) == 1 else f"these {len(fields)} things"
    lines = [f"{answer.ask.question} To answer that I need {count} from you:"]
    lines += [f"- {item.label.rstrip('?')}: {_where(item, system)}" for item in fields]
    if link:
        page, _, fragment = link.partition("#")
        filled = links.write(
            answer.given,
            ask=answer.ask.key,
            units=system,
            sheet=links.read(fragment).sheet,
            wanted=[item.name for item in fields],
        )
        lines.append(f"Fill in just that here: {page}#{filled}")
    lines += filter(None, [sender])
    return "\n".join(lines)


def _where(item: model.AnyField, system: str) -> str:
    """Where an input is read, and what an answer looks like."""
    said = item.help
    if isinstance(item, model.Choice):
        listed = ", ".join(option.label for option in item.options)
        return f"{said} One of: {listed}." if len(item.options) <= 6 else said
    if isinstance(item, model.Field):
        unit = item.unit(system) or quantities.unit_for(item.kind, system).symbol
        return f"{said} The unit: {unit}." if unit else said
    return f"{said} Such as {item.such_as}." if item.such_as else said
