"""What to ask the customer back: the few numbers that would settle an answer."""

from __future__ import annotations

from calc import links, model, quantities
from calc.model import Answer
from calc.render import concerns

TO_ASK = 3  # how many numbers are asked back at most
UNREAD = ("acceleration", "seconds")  # kinds that no plate and no tape tells


def wanted(answer: Answer) -> list[model.AnyField]:
    """Return the few fields that would settle an answer, in the order in which to ask for them."""
    if answer.finding != model.UNKNOWN and not answer.missing:
        return []
    names = [item.name for item in answer.missing] or _first_choice(answer)
    names += [item.field for item in concerns.counting(answer)]
    names += [item.field.name for item in answer.settles]
    names += _of_what_else_is_open(answer)
    names = names or _open_choices(answer)
    fields = [answer.worksheet.field(name) for name in dict.fromkeys(names)]
    return [item for item in fields if not _is_unread(item)][:TO_ASK]


def _is_unread(item: model.AnyField) -> bool:
    """Whether nobody reads an input off a machine: how hard it brakes, how soon somebody does."""
    return isinstance(item, model.Field) and item.kind in UNREAD


def _first_choice(answer: Answer) -> list[str]:
    """The choice that a question begins with, where nobody made it: what the manual says."""
    first = answer.ask.fields[:1]
    open_ = [item.field.name for item in answer.assumed if len(item.options) > 1]
    return [name for name in first if name in open_]


def _open_choices(answer: Answer) -> list[str]:
    """The choices of a question that nobody made, where no number would settle it."""
    open_ = [item.field.name for item in answer.assumed if len(item.options) > 1]
    return [name for name in answer.ask.fields if name in open_]


def _of_what_else_is_open(answer: Answer) -> list[str]:
    """The numbers of a question that nobody gave, where more of its checks than one are open.

    What settles the check that decides may leave another as open as it was.
    """
    own = [v for v in answer.verdicts if answer.asks_for(v.check.name)]
    if not any(v.finding == model.UNKNOWN and v is not answer.deciding for v in own):
        return []
    usual = {item.field.name for item in answer.assumed if item.typical is not None}
    return [name for name in answer.ask.fields if name in usual]


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
        listed = "; ".join(option.label for option in item.options)
        return f"{said} One of: {listed}." if len(item.options) <= 6 else said
    if isinstance(item, model.Field):
        unit = item.unit(system) or quantities.unit_for(item.kind, system).symbol
        return f"{said} The unit: {unit}." if unit else said
    return f"{said} Such as {item.such_as}." if item.such_as else said
