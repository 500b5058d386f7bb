"""An answer as plain text: for mail, for a message, for the command line."""

from __future__ import annotations

from calc import worksheet as ws
from calc.render import text
from calc.worksheet import Answer, words

SHORT = 320


def reply(answer: Answer, system: str = "us", link: str = "") -> str:
    """Return the reply that a dealer pastes into a mail: finding, reason, numbers, one remedy,
    one caution, the link."""
    lines = [f"{answer.worksheet.title}: {ws.FINDING_WORDS[answer.finding].lower()}."]
    said = text.headline(answer, system)
    if said:
        lines.append(said)
    settle = text.settle_sentence(answer, system)
    if settle:
        lines.append(settle)
    for verdict in _telling(answer):
        lines.append(f"- {text.check_sentence(verdict, system)}")
    if not answer.verdicts or len(answer.verdicts) < 2:
        lines += [
            f"- {output.label}: {text.output_text(output, system)}" for output in answer.outputs[:2]
        ]
    if answer.advice.remedies:
        lines.append(f"What would help: {words(answer.advice.remedies[0].text, system)}")
    if answer.advice.cautions:
        lines.append(f"Take care: {answer.advice.cautions[0].text}")
    if link:
        lines.append(link)
    return "\n".join(lines)


def _telling(answer: Answer) -> list[ws.Verdict]:
    """The two checks, after the deciding one, that say most: the tightest with a number."""
    rest = [v for v in answer.verdicts if v is not answer.deciding and v.check.sense != "fits"]
    return rest[:2]


def short(answer: Answer, system: str = "us", link: str = "") -> str:
    """Return the reply for a text message, under 320 characters with its link where that fits."""
    room = SHORT - 1 - (len(link) + 1 if link and len(link) < 200 else 0)
    parts = [f"{ws.FINDING_WORDS[answer.finding]}.", text.headline(answer, system)]
    if answer.advice.remedies:
        parts.append(words(answer.advice.remedies[0].text, system))
    if answer.advice.cautions:
        parts.append(answer.advice.cautions[0].text)
    said = parts[0]
    for part in parts[1:]:
        if part and len(said) + 1 + len(part) <= room:
            said = f"{said} {part}"
    if link and len(link) < 200:
        said = f"{said} {link}"
    return said
