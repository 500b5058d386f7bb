"""What the columns of a dealer's lists may be."""

from __future__ import annotations

from calc import machines, model, quantities
from calc.render import parts
from calc.render.tables import TableView

NAMES = {"tractor": "a tractor", "implement": "an implement"}


def _columns(role: str) -> TableView:
    rows = [("name", "Name", "What your people call it; needed")]
    rows += [
        ("stock_number", "Stock number", "your own; shown beside the machine"),
        ("price", "Price", "as you write it; shown beside the machine"),
        ("note", "Note", "for yourself; shown nowhere"),
    ]
    rows += [(name, item.label, _holds(item)) for name, item in machines.fields(role).items()]
    return TableView(
        f"The columns of {NAMES[role]}", ("Column", "Label", "What a cell holds"), tuple(rows)
    )


def _holds(item: model.AnyField) -> str:
    if isinstance(item, model.Choice):
        listed = quantities.joined([option.value for option in item.options], "or")
        return f"one of {listed}"
    if isinstance(item, model.Field):
        kind = quantities.kind(item.kind)
        if not kind.accepted:
            return f"a number, {item.limits_text()}"
        return f"a number with its unit ({kind.accepted}), {item.limits_text()}"
    return f"such as {item.example}"


def _remedies() -> TableView:
    """Return every remedy that a part can be attached to, by its key."""
    rows = tuple((key, said) for key, said in sorted(parts.keys().items()))
    return TableView("Remedies by name", ("Name for shop.toml", "What it says"), rows)


TABLES = {
    "remedy-keys": _remedies,
    "tractor-columns": lambda: _columns("tractor"),
    "implement-columns": lambda: _columns("implement"),
}
