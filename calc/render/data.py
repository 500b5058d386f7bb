"""An answer as plain data for JSON: base units, each named."""

from __future__ import annotations

import math
from typing import Any

from calc import quantities as q
from calc import sources
from calc.model import Answer, sentences, words


def data(answer: Answer, system: str = "us") -> dict[str, Any]:
    """Return the finding, outputs, checks, remedies, cautions and working of an answer."""
    return {
        "worksheet": answer.worksheet.name,
        "inputs": {**answer.worksheet.defaults(), **answer.typed},
        "finding": answer.finding,
        "headline": sentences.headline(answer, system),
        "settle": answer.settle.field.name if answer.settle else None,
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
                "sense": verdict.check.sense,
                "value": [_number(verdict.value_low), _number(verdict.value_high)],
                "limit": [_number(verdict.limit_low), _number(verdict.limit_high)],
                "margin": [_number(verdict.margin_low), _number(verdict.margin_high)],
                "unit": q.kind(verdict.check.kind).base,
                "sentence": sentences.check_sentence(verdict, system),
                "source": verdict.check.source,
            }
            for verdict in answer.verdicts
        ],
        "remedies": [
            {"text": words(remedy.text, system), "set": dict(remedy.set)}
            for remedy in answer.advice.remedies
        ],
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
            for citation in sentences.citations(answer)
            for found in [sources.find(citation)[0]]
        },
        "computed": answer.searched,
    }


def _number(value: float | None) -> float | None:
    return value if value is None or math.isfinite(value) else None
