"""A message that was read, as JSON takes it, with the words of fields and asks."""

from __future__ import annotations

from typing import Any

from calc import links, model, worksheets
from calc.reading.found import Message, Question


def data(message: Message) -> dict[str, Any]:
    """Return a message as JSON takes it, with the words of fields and asks."""
    return {
        "text": message.text,
        "questions": [_question_data(each) for each in message.questions],
        "lost": [list(span) for span in message.lost],
    }


def _question_data(question: Question) -> dict[str, Any]:
    sheet = worksheets.load(question.worksheet)
    ask = sheet.ask(question.ask)
    return {
        "asked": bool(question.spans),
        "worksheet": question.worksheet,
        "ask": question.ask,
        "question": ask.question or sheet.question,
        "page": sheet.page,
        "link": link_to(question),
        "spans": [list(span) for span in question.spans],
        "filled": [
            {
                "name": each.name,
                "text": each.text,
                **_said(sheet.field(each.name), each.text),
                "spans": [list(span) for span in each.spans],
                "why": each.why,
                "options": _options(sheet.field(each.name)),
            }
            for each in question.filled
        ],
        "missing": [
            {
                "name": name,
                "label": sheet.field(name).label,
                "help": sheet.field(name).help,
                "options": _options(sheet.field(name)),
            }
            for name in question.missing
        ],
        "unclear": [
            {
                "spans": [list(span) for span in each.spans],
                "options": [
                    {"name": name, "text": text, **_said(sheet.field(name), text)}
                    for name, text in each.options
                ],
            }
            for each in question.unclear
        ],
    }


def _options(item: model.AnyField) -> list[dict[str, str]]:
    """Return the options of a choice; none for what is typed."""
    if not isinstance(item, model.Choice):
        return []
    return [{"text": option.value, "shown": option.label} for option in item.options]


def link_to(question: Question) -> str:
    """Return the part of an address that opens a question with what the message gives."""
    own = worksheets.on_page(worksheets.load(question.worksheet).page)
    sheet = question.worksheet if len(own) > 1 else ""
    return links.write(question.inputs, ask=question.ask, sheet=sheet)


def _said(item: model.AnyField, text: str) -> dict[str, str]:
    shown = item.shown(text) if isinstance(item, model.Choice) else text
    return {"label": item.label, "shown": shown}
