"""The sources that an answer rests on."""

from __future__ import annotations

from calc.model import Answer


def citations(answer: Answer) -> list[str]:
    """Every source that an answer rests on, without places, in order of appearance."""
    cited: dict[str, None] = {}

    def add(citation: str) -> None:
        for part in citation.split(";"):
            if part.strip():
                cited.setdefault(part.partition(",")[0].strip())

    for verdict in answer.verdicts:
        add(verdict.check.source)
    for step in answer.working:
        add(step.source)
    for assumed in answer.assumed:
        if assumed.typical:
            add(assumed.typical.source)
    for remedy in answer.advice.remedies:
        add(remedy.source)
    for caution in answer.advice.cautions:
        add(caution.source)
    for table in answer.advice.tables:
        add(table.source)
    return list(cited)
