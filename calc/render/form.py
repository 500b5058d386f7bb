"""A worksheet as a form. Without a script it stays readable: it shows the default example."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import htpy as h

from calc import machines, model
from calc.machines import vocabulary
from calc.model import sentences
from calc.search import read


def form_html(sheet: model.Worksheet, typed: Mapping[str, str], system: str = "us") -> h.Element:
    """Return the form of a worksheet, filled in with its example and `typed`."""
    known = read(sheet, typed, system, example=True).values
    essential = [item for item in sheet.fields if item.essential]
    others = [item for item in sheet.fields if not item.essential]
    return h.form(".ys-form", action="#", autocomplete="off", novalidate=True)[
        [_pick(sheet, role) for role in machines.ROLES],
        _groups(sheet, essential, typed, known, system),
        h.details(".ys-more")[
            h.summary["More numbers, if you know them"],
            h.p(".ys-note")[
                "Blank means not known: the range shown in the empty field is used, and the answer "
                "says so."
            ],
            _groups(sheet, others, typed, known, system),
        ]
        if others
        else None,
    ]


def _pick(sheet: model.Worksheet, role: str) -> h.Element | None:
    """Return the place of the list to pick a machine from, which needs a script to be of use.

    It holds the fields of this worksheet that such a machine fills, each blank until it does.
    """
    names = [item.name for item in sheet.fields if vocabulary.role(item.name) == role]
    if not names:
        return None
    return h.div(
        ".ys-pick", data_role=role, data_fields=json.dumps(dict.fromkeys(names, "")), hidden=True
    )


def _groups(
    sheet: model.Worksheet,
    fields: list[model.AnyField],
    typed: Mapping[str, str],
    known: Mapping[str, Any],
    system: str,
) -> list[h.Element]:
    groups: dict[str, list[model.AnyField]] = {}
    for item in fields:
        groups.setdefault(item.group, []).append(item)
    return [
        h.fieldset(".ys-group")[
            h.legend[name], [_field(sheet, item, typed, known, system) for item in members]
        ]
        for name, members in groups.items()
    ]


def _field(
    sheet: model.Worksheet,
    item: model.AnyField,
    typed: Mapping[str, str],
    known: Mapping[str, Any],
    system: str,
) -> h.Element:
    name = f"{sheet.name}-{item.name}"
    value = typed.get(item.name, item.example)
    described = f"{name}-hint {name}-error"
    control: h.Element | h.VoidElement
    if isinstance(item, model.Choice):
        picked = value.strip().lower()
        chosen = next(
            (o.value for o in item.options if picked in (o.value.lower(), o.label.lower())),
            "",
        )
        control = h.select(id=name, name=item.name, aria_describedby=described)[
            h.option(value="", selected=not chosen)["Not sure"],
            [
                h.option(value=option.value, selected=option.value == chosen)[option.label]
                for option in item.options
            ],
        ]
    else:
        control = h.input(
            id=name,
            name=item.name,
            type="text",
            value=value,
            placeholder=sentences.hint(item, known, system),
            data_stands_in=isinstance(item, model.Field) and item.typical is not None,
            aria_describedby=described,
            autocapitalize="off",
            spellcheck="false",
            maxlength="400",
        )
    return h.div(".ys-field", data_field=item.name)[
        h.label(for_=name)[item.label],
        control,
        h.p(".ys-hint", id=f"{name}-hint")[item.help],
        h.p(".ys-error", id=f"{name}-error", hidden=True),
    ]
