"""Short ways to ask a worksheet and look at its answer."""

from calc import model, search, worksheets


def answer(name: str, **typed: str) -> model.Answer:
    """A page's example with some fields typed anew."""
    return search.answer(worksheets.load(name), typed, example=True)


def given(name: str, ask: str = "", **typed: str) -> model.Answer:
    """What a caller gave, and nothing of the example."""
    return search.answer(worksheets.load(name), typed, ask=ask)


def margins(found: model.Answer) -> dict[str, float]:
    """The least margin of each check."""
    return {verdict.check.name: verdict.margin_low for verdict in found.verdicts}


def findings(found: model.Answer) -> dict[str, str]:
    """The finding of each check."""
    return {verdict.check.name: verdict.finding for verdict in found.verdicts}


def finding(found: model.Answer, check: str) -> str:
    """The finding of one check, "" where it wasn't made."""
    return findings(found).get(check, "")


def verdict(found: model.Answer, check: str) -> model.Verdict:
    """What one check found."""
    return next(each for each in found.verdicts if each.check.name == check)


def margin(found: model.Answer, check: str) -> float:
    """The least margin of one check."""
    return margins(found)[check]


def middle(found: model.Answer, check: str) -> float:
    """The margin of one check in the middle of the ranges."""
    return next(v.check.margin for v in found.verdicts if v.check.name == check)


def remedy(found: model.Answer, field: str) -> model.Remedy:
    """The first remedy that sets a field."""
    return next(item for item in found.advice.remedies if field in item.set)


def output(found: model.Answer, name: str) -> float:
    """The value of an output."""
    return next(item.value for item in found.outputs if item.name == name)


def output_of(found: model.Answer, name: str) -> model.Output:
    """An output with its range."""
    return next(item for item in found.outputs if item.name == name)


def table(found: model.Answer, words: str) -> model.Table:
    """The first table whose title has these words."""
    return next(item for item in found.advice.tables if words in item.title)


def blank(sheet: model.Worksheet) -> dict[str, str]:
    """Every field left blank or "not sure", where that is possible."""
    return {
        item.name: ""
        for item in sheet.fields
        if not (isinstance(item, model.Choice) and not item.unsure)
    }
