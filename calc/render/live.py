"""What the browser calls: a request in, a response out, both JSON. It never raises."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from typing import Any

from calc import model, quantities, search, worksheets
from calc.errors import YardstickError
from calc.model import leading, sentences
from calc.render import parts
from calc.render.answer import answer_html, first_html, odds_html, sight_html
from calc.render.asking_back import ask_back, wanted
from calc.render.brief import brief_html, outline
from calc.render.depth import effects_html
from calc.render.reply import reply, reply_html
from calc.render.text_message import fits_short, short

LONGEST_REQUEST = 200_000


def respond(request: str) -> str:
    """Answer one request.

    Parameters
    ----------
    request
        JSON with "kind": "read" and the "text" of a message, with the "machines" that it may
        name and the worksheets that it is to fill "also";
        or with "worksheet", "inputs" (the texts given, by field name), "example" (true while the
        page shows its untouched example, the texts of another one that it shows), "ask" (which
        question leads), "units" ("us" or "metric"),
        "stage" ("exact" for how it stands at the middle values, "full" for the whole answer, and
        what adds to it: "odds" for how the machines that fit divide, "effects" for what errors of
        measuring do, "replies" for what is sent),
        "entry" where it is one of several questions on a page (the answer is then a few lines),
        and for the replies "link" (to this page, filled in),
        "short_link" (a shorter one to the same), "about" (a line that names the
        machines) and "sender" (a line about who replies).

    Returns
    -------
    str
        JSON with "ok", and either "html" and the rest of the answer, or "errors".
    """
    try:
        asked = json.loads(request)
        if asked.get("kind") == "read":
            return json.dumps(_read(asked))
        return json.dumps(_respond(asked))
    except YardstickError as error:
        return json.dumps({"ok": False, "errors": {"": str(error)}, "hints": {}})
    except Exception as error:
        return json.dumps(
            {
                "ok": False,
                "errors": {"": f"Something went wrong in the sums ({type(error).__name__})."},
                "hints": {},
                "fault": repr(error),
            }
        )


def _respond(asked: dict[str, Any]) -> dict[str, Any]:
    sheet = worksheets.load(str(asked["worksheet"]))
    typed = {str(name): str(value) for name, value in asked.get("inputs", {}).items()}
    system = "metric" if asked.get("units") == "metric" else "us"
    stage = str(asked.get("stage"))
    stage = stage if stage in ("exact", "odds", "effects", "replies") else "full"
    if sum(len(name) + len(value) for name, value in typed.items()) > LONGEST_REQUEST:
        raise search.BadInputs({"": "That is far too much text for one form."})
    response: dict[str, Any] = {
        "worksheet": sheet.name,
        "title": sheet.title,
        "stage": stage,
    }
    names = {item.name for item in sheet.fields}
    strange = [name for name in typed if name not in names]
    errors: dict[str, str] = {}
    if strange:
        listed = quantities.joined([f"“{quantities.shorten(name)}”" for name in strange[:5]])
        more = f" and {len(strange) - 5} more" if len(strange) > 5 else ""
        errors[""] = f"Left out, because this page has no such field: {listed}{more}."
        typed = {name: value for name, value in typed.items() if name in names}
    parts.stock(asked.get("parts"))
    known = search.read(sheet, typed, system, example=_example(asked.get("example"), names))
    response["hints"] = hints(sheet, known.values, system)
    ask = str(asked.get("ask") or "")
    ask = ask if ask in {item.key for item in sheet.asks} else ""
    try:
        found = _answer(sheet, known, ask, full=stage != "exact")
    except search.BadInputs as bad:
        return {**response, "ok": False, "errors": {**errors, **bad.errors}}
    response |= {"ok": True, "errors": errors}
    if stage == "odds":
        return {**response, "odds": odds_html(found)}
    if stage == "effects":
        box = search.box_of(found.worksheet, known)
        return {**response, "effects": effects_html(found, box, system)}
    return {
        **response,
        "final": found.final,
        "finding": found.finding,
        "finding_words": sheet.finding_words(found.finding),
        "lead": leading.lead(found, system),
        "example": found.is_example,
        **(_replies if stage == "replies" else _shown)(found, system, asked),
    }


def _example(asked: Any, names: Collection[str]) -> bool | dict[str, str]:
    """Return whether the page's example is shown, or what another one has for these fields."""
    if not isinstance(asked, dict):
        return asked is True
    return {name: str(text) for name, text in asked.items() if name in names}


# What was answered last, with what it was asked: odds, effects and replies are of the same answer.
_last: list[tuple[tuple[Any, ...], model.Answer]] = []
KEPT = 4  # a page may hold as many questions


def _answer(sheet: model.Worksheet, known: search.Known, ask: str, *, full: bool) -> model.Answer:
    """Return the answer to what was read; a whole one that was given before stays what it was."""
    if not full:
        return search.answer_known(sheet, known, full=False, ask=ask)
    asked = (sheet.name, known.given, known.example, known.errors, known.system, ask)
    for one, kept in _last:
        if one == asked:
            return kept
    found = search.answer_known(sheet, known, ask=ask)
    _last[:] = [(asked, found), *_last[: KEPT - 1]]
    return found


def _shown(found: model.Answer, system: str, asked: dict[str, Any]) -> dict[str, Any]:
    """Return the answer as it is shown: a few lines, the whole of it, or how it stands so far."""
    if asked.get("entry"):
        inputs = {str(name): str(text) for name, text in asked.get("inputs", {}).items() if text}
        known = {item.name for item in found.worksheet.fields}
        given = {name: text for name, text in inputs.items() if name in known}
        return {"html": brief_html(found, system), "outline": outline(found, given, system)}
    return {
        "sight": sight_html(found, system),
        "html": answer_html(found, system) if found.final else first_html(found, system),
        "asks_back": bool(found.final and wanted(found)),
    }


def _read(asked: dict[str, Any]) -> dict[str, Any]:
    """Read a message: "text", "units", and the "machines" that it may name."""
    from calc import reading
    from calc.machines import Machine

    machines = [
        Machine(str(each["name"]), str(each["role"]), dict(each["inputs"]))
        for each in asked.get("machines", [])
    ]
    system = "metric" if asked.get("units") == "metric" else "us"
    also = [str(name) for name in asked.get("also", [])]
    message = reading.read(str(asked["text"]), machines=machines, system=system, also=also)
    return {"ok": True, "kind": "read", **reading.data(message)}


def _replies(found: model.Answer, system: str, asked: dict[str, Any]) -> dict[str, Any]:
    """Return every kind of reply."""
    given = {name: str(asked.get(name) or "") for name in ("link", "sender", "about")}
    short_link = str(asked.get("short_link") or given["link"])
    return {
        "reply": reply(found, system, **given),
        "reply_html": reply_html(found, system, **given),
        "short": short(found, system, short_link, given["sender"]),
        "short_has_link": bool(short_link) and fits_short(found, short_link, given["sender"]),
        "ask_back": ask_back(found, system, given["link"], given["sender"]),
    }


def hints(sheet: model.Worksheet, known: Mapping[str, Any], system: str) -> dict[str, str]:
    """Return what stands in each field when it is empty."""
    return {
        item.name: sentences.hint(item, known, system)
        for item in sheet.fields
        if not isinstance(item, model.Choice)
    }
