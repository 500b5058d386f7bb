"""An answer as a reply: plain text, and rich text for mail.

It starts with the answer in a sentence that can be said aloud. Then comes what else is broken or
couldn't be checked, what to do, whose numbers they were, the caution that fits, the shop and the
link.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import htpy as h

from calc.model import Answer
from calc.render import reply_sentences


def reply(
    answer: Answer, system: str = "us", link: str = "", sender: str = "", about: str = ""
) -> str:
    """Return the reply as plain text, for a mail or the command line.

    `about` names the machines that it is about, where they have names.
    """
    said = reply_sentences.said_of(answer, system)
    lines = [said.lead, *filter(None, [about]), *said.after]
    for title, listed in _lists(said):
        lines += [f"{title}:", *(f"- {item}" for item in listed)]
    lines += [line for line in (said.given, said.usual) if line]
    lines.append(f"Take care: {said.caution}")
    lines += filter(None, [link, sender])
    return "\n".join(lines)


def _lists(said: reply_sentences.Said) -> Iterator[tuple[str, Sequence[str]]]:
    found = [
        ("Also found", (*said.broken, *said.near)),
        ("Not settled either", said.unsettled),
        ("Not checked", said.unchecked),
        (said.todo_title, said.todo),
    ]
    return ((title, listed) for title, listed in found if listed)


def reply_html(
    answer: Answer, system: str = "us", link: str = "", sender: str = "", about: str = ""
) -> str:
    """Return the reply as HTML that a mail program takes from the clipboard."""
    said = reply_sentences.said_of(answer, system)
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
