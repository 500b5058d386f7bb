"""A reply of ours that comes back under what a customer writes.

Nothing in it is the customer's word, but what stands behind "You gave". The names of its
parts are those of `calc.render.reply`; a test reads every reply back.
"""

from __future__ import annotations

import re

_QUOTE = re.compile(r"[ \t]*(?:>[ \t]?)*")
_HEAD = re.compile(r"^(?:From|Sent|To|Date|Subject):|\bwrote:$|^-+ ?Original")
_GIVEN = "You gave: "
_CAUTION = "Take care: "  # in every reply
_ASKING = ("Could you tell me", "To answer that I need")
_PARTS = (
    _CAUTION,
    "Nobody gave these",
    "Not said, so",
    "What would settle",
    "Then: ",
    "Not settled either:",
    "Not checked:",
    "Also found:",
    "What to do",
    "What would help",
    "Of machines that fit",
    "This is an example",
    "What you didn't give",
)


def without_reply(text: str) -> str:
    """Return a text of the same length without what a reply of ours in it says by itself.

    What it gave back and what it asked for stay: an answer may stand in or under that.
    """
    if _CAUTION not in text:
        return text
    lines = text.splitlines(keepends=True)
    bodies = [_QUOTE.sub("", line, count=1).strip() for line in lines]
    quoted = [line.lstrip().startswith(">") for line in lines]
    first = next((i for i, body in enumerate(bodies) if body.startswith(_PARTS)), len(lines))
    head = max(
        (i for i, body in enumerate(bodies[:first]) if _HEAD.search(body)), default=first - 2
    )
    stays = listed = False
    kept = []
    for place, (line, body) in enumerate(zip(lines, bodies, strict=True)):
        ours = quoted[place] if any(quoted) else head < place < first
        if body.startswith(_PARTS):
            ours, stays, listed = True, False, True
        elif body.startswith(_GIVEN) or any(said in body for said in _ASKING):
            ours, stays, listed = False, True, False
        elif body.endswith("?") and ours and place != first - 1:
            ours, stays = False, False
        elif stays:
            ours = False
        elif listed and body.startswith("- "):
            ours = True
        elif not quoted[place]:
            listed = False
        kept.append(re.sub(r"\S", " ", line) if ours else line)
    return "".join(kept)
