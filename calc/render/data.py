"""An answer as plain data for JSON: base units, each named."""

from __future__ import annotations

import math
from typing import Any

from calc import quantities as q
from calc import sources
from calc.model import Answer, check_text, cited, figures, leading, words


def data(answer: Answer, system: str = "us") -> dict[str, Any]:
    """Return the finding, outputs, checks, remedies, cautions and working of an answer."""
    return {
        "worksheet": answer.worksheet.name,
        "ask": answer.ask.key,
        "given": dict(answer.given),
        "example": answer.is_example,
        "missing": [item.name for item in answer.missing],
        "finding": answer.finding,
        "lead": leading.lead(answer, system),
        "settle": [item.field.name for item in answer.settles],
        "odds": {"pass_all": answer.odds.pass_all, "tried": answer.odds.tried}
        if answer.odds
        else None,
        "not_checked": [
            {"name": item.name, "title": item.title, "field": item.field, "governs": item.governs}
            for item in answer.unchecked
        ],
        "outputs": [
            {
                "name": output.name,
                "label": output.label,
                "value": _number(output.value),
                "low": _number(output.low),
                "high": _number(output.high),
                "unit": q.kind(output.kind).base,
            }
            for output in answer.outputs
        ],
        "checks": [
            {
                "name": verdict.check.name,
                "title": verdict.check.title,
                "finding": verdict.finding,
                "grade": verdict.check.grade,
                "sense": verdict.check.sense,
                "value": [_number(verdict.value_low), _number(verdict.value_high)],
                "limit": [_number(verdict.limit_low), _number(verdict.limit_high)],
                "margin": [_number(verdict.margin_low), _number(verdict.margin_high)],
                "unit": q.kind(verdict.check.kind).base,
                "sentence": check_text.check_sentence(verdict, system),
                "source": verdict.check.source,
            }
            for verdict in answer.verdicts
        ],
        "remedies": [
            {
                "text": words(remedy.text, system),
                "set": dict(remedy.set),
                "mends": list(remedy.mends),
                "mends_all": remedy.whole,
            }
            for remedy in answer.advice.remedies
        ],
        "tables": [
            {
                "title": table.title,
                "columns": list(table.columns),
                "rows": [[figures.cell_text(c, system) for c in row] for row in table.rows],
            }
            for table in answer.advice.tables
        ],
        "notes": [words(note, system) for note in answer.advice.notes],
        "cautions": [caution.text for caution in answer.advice.cautions],
        "assumed": [
            {
                "field": item.field.name,
                "low": _number(item.typical.low) if item.typical else None,
                "high": _number(item.typical.high) if item.typical else None,
                "options": list(item.options),
                "source": item.typical.source if item.typical else "",
            }
            for item in answer.assumed
        ],
        "working": [
            {
                "label": step.label,
                "symbol": step.symbol,
                "formula": step.formula,
                "numbers": {name: _number(value) for name, value, _ in step.numbers},
                "value": _number(step.value),
                "unit": q.kind(step.kind).base,
                "source": step.source,
            }
            for step in answer.working
        ],
        "sources": {
            citation: {"title": found.title, "year": found.year, "status": found.status}
            for citation in cited.citations(answer)
            for found in [sources.find(citation)[0]]
        },
        "computed": answer.searched,
    }


def _number(value: float | None) -> float | None:
    return value if value is None or math.isfinite(value) else None
