"""An answer as a reply: plain text, rich text for mail, and short text for a message.

Each has the finding, the reason, two numbers, one remedy, one caution and the link.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

import htpy as h

from calc import model
from calc.model import Answer, sentences, words

SHORT = 320  # a short text has fewer characters than this

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


@dataclass(frozen=True, slots=True)
class _Parts:
    """What a reply says, in sentences."""

    finding: str
    reason: tuple[str, ...]
    numbers: tuple[str, ...]
    remedy: str
    caution: str


def _parts(answer: Answer, system: str) -> _Parts:
    reason = [sentences.lead(answer, system), sentences.settle_sentence(answer, system)]
    numbers = [sentences.check_sentence(verdict, system) for verdict in _telling(answer)]
    numbers += [
        f"{output.label}: {sentences.output_text(output, system)}"
        for output in answer.outputs[: 2 - len(numbers)]
    ]
    # Where all that was asked about is well, what would help elsewhere is no part of the reply.
    well = answer.finding == model.WITHIN
    remedies = [r for r in answer.advice.remedies if not well or answer.concerns(r)]
    cautions = answer.advice.cautions
    return _Parts(
        f"{answer.worksheet.title}: {model.FINDING_WORDS[answer.finding].lower()}.",
        tuple(filter(None, reason)),
        tuple(numbers),
        words(remedies[0].text, system) if remedies else "",
        cautions[0].text if cautions else LEAST_CAUTION,
    )


def _telling(answer: Answer) -> list[model.Verdict]:
    """The two checks, after the deciding one, that say most: the tightest with a number."""
    rest = [v for v in answer.verdicts if v is not answer.deciding and v.check.sense != "fits"]
    return rest[:2]


def reply(
    answer: Answer, system: str = "us", link: str = "", sender: str = "", about: str = ""
) -> str:
    """Return the reply as plain text, for a mail or the command line.

    `about` names the machines that it is about, where they have names.
    """
    parts = _parts(answer, system)
    lines = [
        *filter(None, [about]),
        parts.finding,
        *parts.reason,
        *(f"- {number}" for number in parts.numbers),
    ]
    if parts.remedy:
        lines.append(f"What would help: {parts.remedy}")
    lines.append(f"Take care: {parts.caution}")
    lines += filter(None, [link, sender])
    return "\n".join(lines)


def reply_html(
    answer: Answer, system: str = "us", link: str = "", sender: str = "", about: str = ""
) -> str:
    """Return the reply as HTML that a mail program takes from the clipboard."""
    parts = _parts(answer, system)
    return str(
        h.div[
            h.p[about] if about else None,
            h.p[h.strong[parts.finding], [[" ", sentence] for sentence in parts.reason]],
            h.ul[[h.li[number] for number in parts.numbers]] if parts.numbers else None,
            h.p[h.strong["What would help: "], parts.remedy] if parts.remedy else None,
            h.p[h.strong["Take care: "], parts.caution],
            h.p[h.a(href=link)["See it worked out, with every check"]] if link else None,
            h.p[sender] if sender else None,
        ]
    )


def fits_short(answer: Answer, link: str) -> bool:
    """Whether a link leaves room for the finding in a short text."""
    return len(f"{model.FINDING_WORDS[answer.finding]}. {link}") < SHORT


def short(answer: Answer, system: str = "us", link: str = "") -> str:
    """Return the reply as text for a message, always under 320 characters, the link included.

    A link that is too long for any message is left out, and the text says so. What is left of
    the room goes to the reason first, then to two numbers, a caution and a remedy, each in its
    longest form that fits.
    """
    tail = link
    if link and not fits_short(answer, link):
        tail = "(The link is too long for a message.)"
    finding = f"{model.FINDING_WORDS[answer.finding]}."
    best, best_worth = "", (-1, 0, 0, 0, 0, 0, 0)
    reasons, *others = _forms(answer, system)
    for reason, *forms in itertools.product(reasons, *others):
        said = " ".join(filter(None, [finding, reason, *forms, tail if tail != link else ""]))
        said = " ".join(said.translate(_PLAIN).encode("ascii", "ignore").decode().split())
        if tail and tail == link:
            said = f"{said} {link}"
        numbers, remedy, caution = (bool(form) for form in forms)
        whole = bool(reason) and not reason.endswith("...")
        worth = (whole, bool(reason), numbers, caution, remedy, len(reason), len(said))
        if len(said) < SHORT and worth > best_worth:
            best, best_worth = said, worth
    return best


def _forms(answer: Answer, system: str) -> Iterator[list[str]]:
    """Return reason, numbers, remedy and caution, each in forms from the longest to none."""
    parts = _parts(answer, system)
    deciding = answer.deciding
    reasons = [parts.reason[0]] if parts.reason else []
    # A reason with a value and its limit has its two numbers in it.
    numbered = deciding is not None and deciding.check.sense != "fits"
    if deciding is not None and numbered and not answer.advice.headline:
        value, limit = (
            sentences.value_text(deciding, system),
            sentences.limit_text(deciding, system),
        )
        for title in (deciding.check.title, deciding.check.title.partition(",")[0]):
            reasons.append(f"{title}: {value}, limit {limit}.")
        reasons.append(f"{deciding.check.title.partition(',')[0]}...")
    else:
        reasons += [cut for reason in parts.reason[:1] for cut in _cut(reason)]
    yield [*reasons, ""]
    yield [""] if numbered else [" ".join(f"{n.rstrip('.')}." for n in parts.numbers), ""]
    settle = answer.settle and f"Find out first: {answer.settle.field.label.rstrip('?')}."
    remedy = [parts.remedy, *_cut(parts.remedy)] if parts.remedy else []
    yield [*(f"{settle or ''} {form}" for form in remedy), settle or "", ""]
    yield [parts.caution, *_cut(parts.caution), LEAST_CAUTION, ""]


def _cut(sentences: str) -> Iterator[str]:
    """Return shorter forms of a text: its first sentence, and that one up to a break in it.

    What is cut in the middle of a list or a thought ends with dots, so that nobody takes it for
    the whole.
    """
    first = sentences.partition(". ")[0].rstrip(".")
    if f"{first}." != sentences:
        yield f"{first}."
    clause, found, _ = first.partition("; ")
    if found:
        yield f"{clause}."
    head, found, _ = first.rpartition(", ")
    while found:
        if len(head) > 24:
            yield f"{head}..."
        head, found, _ = head.rpartition(", ")
