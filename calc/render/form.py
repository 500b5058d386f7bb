"""A worksheet as a form. Without a script it stays readable: it shows the default example."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

import htpy as h

from calc import machines, model, quantities
from calc.machines import vocabulary
from calc.model import sentences
from calc.search import read

NOT_SURE = "Not sure"


def form_html(sheet: model.Worksheet, typed: Mapping[str, str], system: str = "us") -> h.Element:
    """Return the form of a worksheet, filled in with its example and `typed`.

    The fields of its first question stand on top, in the order in which they are asked; the
    others are folded under their headings. The client rearranges them for another question.
    """
    known = read(sheet, typed, system, example=True).values
    asked = [sheet.field(name) for name in sheet.ask().fields]
    others = [item for item in sheet.fields if item not in asked]

    def rows(fields: Iterable[model.AnyField]) -> list[h.Element]:
        return [row_html(sheet, item, typed, known, system) for item in fields]

    groups: dict[str, list[model.AnyField]] = {}
    for item in sheet.fields:
        groups.setdefault(item.group, []).append(item)
    return h.form(".ys-form", action="#", autocomplete="off", novalidate=True)[
        h.div(".ys-rows")[
            # The client puts the choice of the question here; its place is kept for it.
            h.div(".ys-ask-row") if len(asks_data(sheet)) > 1 else None,
            [_pick(sheet, role) for role in machines.ROLES],
            h.div(".ys-asked")[rows(asked)],
            h.details(".ys-more", hidden=not others)[
                h.summary[
                    h.span(".ys-more-count")[f"{len(others)} more"],
                    h.small[" what is usual stands in where a field is blank"],
                ],
                [
                    h.fieldset(".ys-group", data_group=name, hidden=not _of_group(members, others))[
                        h.legend[name], rows(_of_group(members, others))
                    ]
                    for name, members in groups.items()
                ],
            ],
        ],
    ]


def _of_group(members: list[model.AnyField], others: list[model.AnyField]) -> list[model.AnyField]:
    """Return the members of a group that aren't asked on top."""
    return [item for item in members if item in others]


def asks_data(sheet: model.Worksheet) -> list[dict[str, Any]]:
    """Return the questions of a worksheet as the client takes them."""
    return [
        {"key": ask.key, "question": ask.question, "fields": list(ask.fields)}
        for ask in sheet.asks or (sheet.ask(),)
    ]


def _pick(sheet: model.Worksheet, role: str) -> h.Element | None:
    """Return the place of the list to pick a machine from, which needs a script to be of use.

    It holds the fields of this worksheet that such a machine fills, each blank until it does.
    """
    names = [item.name for item in sheet.fields if vocabulary.role(item.name) == role]
    if not names:
        return None
    return h.div(".ys-pick", data_role=role, data_fields=json.dumps(dict.fromkeys(names, "")))


def _units(item: model.AnyField) -> str | None:
    """The units of a bare number in this field, where one system's isn't the other's."""
    if not isinstance(item, model.Field):
        return None
    units = [item.shown_in(system) for system in quantities.SYSTEMS]
    return "|".join(units) if len(set(units)) > 1 else None


def _blank_words(item: model.Choice) -> str:
    """What a choice shows while nobody picked."""
    if item.needed:
        return "Choose"
    usual = item.shown(item.usual) if item.usual else NOT_SURE
    return usual if usual == NOT_SURE else f"Not said: {usual}"


def row_html(
    sheet: model.Worksheet,
    item: model.AnyField,
    typed: Mapping[str, str],
    known: Mapping[str, Any],
    system: str,
    within: str = "",
) -> h.Element:
    """Return the row of one field; `within` tells apart rows of one worksheet on one page."""
    name = f"{within or sheet.name}-{item.name}"
    value = typed.get(item.name, item.example)
    described = f"{name}-hint {name}-error"
    control: h.Element | h.VoidElement
    said = None
    if isinstance(item, model.Choice):
        picked = value.strip().lower()
        chosen = next(
            (o.value for o in item.options if picked in (o.value.lower(), o.label.lower())),
            "",
        )
        # An option that says just what a blank says is the blank.
        unsure = next((o.value for o in item.options if o.label == NOT_SURE), "")
        shown = {o.value: o.label for o in item.options if o.value != unsure}
        labels = {"": _blank_words(item), **shown}
        selected = chosen if chosen in shown else ""
        control = h.select(
            id=name, name=item.name, aria_describedby=described, data_unsure=unsure or None
        )[[h.option(value=v, selected=v == selected)[label] for v, label in labels.items()]]
        # A browser cuts off what is chosen; these words wrap over it, where a script keeps them.
        said = h.span(".ys-chosen", aria_hidden="true")[labels[selected]]
    else:
        control = h.input(
            id=name,
            name=item.name,
            type="text",
            value=value,
            placeholder=sentences.hint(item, known, system),
            data_stands_in=isinstance(item, model.Field) and item.typical is not None,
            data_units=_units(item),
            aria_describedby=described,
            autocapitalize="off",
            spellcheck="false",
            maxlength="400",
        )
    return h.div(".ys-row", data_field=item.name, data_group=item.group)[
        h.label(for_=name)[item.label],
        h.button(
            ".ys-help",
            type="button",
            aria_expanded="false",
            aria_controls=f"{name}-hint",
            aria_label=f"Where to find it: {item.label}",
        )["?"]
        if item.help
        else None,
        said,
        control,
        h.p(".ys-hint", id=f"{name}-hint")[item.help],
        h.p(".ys-error", id=f"{name}-error", hidden=True),
    ]
