"""Short ways to ask a worksheet and look at its answer."""

from calc import model


def margins(found: model.Answer) -> dict[str, float]:
    """The least margin of each check."""
    return {verdict.check.name: verdict.margin_low for verdict in found.verdicts}


def findings(found: model.Answer) -> dict[str, str]:
    """The finding of each check."""
    return {verdict.check.name: verdict.finding for verdict in found.verdicts}


def remedy(found: model.Answer, field: str) -> model.Remedy:
    """The first remedy that sets a field."""
    return next(item for item in found.advice.remedies if field in item.set)


def output(found: model.Answer, name: str) -> float:
    """The value of an output."""
    return next(item.value for item in found.outputs if item.name == name)


def blank(sheet: model.Worksheet) -> dict[str, str]:
    """Every field left blank or "not sure", where that is possible."""
    return {
        item.name: ""
        for item in sheet.fields
        if not (isinstance(item, model.Choice) and not item.unsure)
    }
