"""An answer as plain data for other programs."""

import math
from typing import TYPE_CHECKING, Any

from ferrule import __version__, display
from ferrule.answering import Answer
from ferrule.checks.question import Finding, Remedy
from ferrule.choose import Choice
from ferrule.choose.offers import BY_KIND, spelled
from ferrule.constraint import Constraint
from ferrule.working import Calculated, Given, Read, Step

if TYPE_CHECKING:
    from ferrule.calculators import Calculator, Field, Outcome


def answer(result: Answer) -> dict[str, Any]:
    """The whole answer; values unrounded, in their canonical units."""
    return {
        "job": result.loaded.job.name,
        "revision": result.loaded.revision,
        "rulebook": result.code.rulebook.edition,
        "rulebook_digest": result.code.rulebook.digest,
        "version": __version__,
        "cleared": result.cleared,
        "assumptions": [each._asdict() for each in result.assumptions],
        "choices": [choice(each) for each in result.choices],
        "findings": [finding(each) for each in result.findings],
    }


def finding(found: Finding) -> dict[str, Any]:
    governing = found.governed_by
    reads = [read for each in found.constraints for read in each.reads]
    return {
        "id": found.id,
        "subject": str(found.subject),
        "place": found.place,
        "verdict": found.verdict.word,
        "value": governing.value,
        "unit": governing.unit,
        "limit": governing.limit,
        "margin": governing.margin,
        "governed_by": governing.name,
        "constraints": constraints(found),
        "grade": found.grade.word if found.grade is not None else None,
        "source": list(dict.fromkeys(str(read.source) for read in reads)),
        "working": [step(each) for each in governing.steps],
        "remedy": [remedy(each) for each in found.remedies],
    }


def constraints(found: Finding) -> list[dict[str, Any]]:
    """What one missing fact holds up is told once, with the names of all that it holds up (`also`)."""
    told: list[dict[str, Any]] = []
    waiting: dict[tuple[str, ...], dict[str, Any]] = {}
    for each in found.constraints:
        if each.find_out in waiting:
            waiting[each.find_out]["also"].append(each.name)
            continue
        told.append(constraint(each))
        if each.find_out:
            waiting[each.find_out] = told[-1]
    return told


def constraint(each: Constraint) -> dict[str, Any]:
    return {
        "name": each.name,
        "verdict": each.verdict.word,
        "text": display.filled(each),
        "value": each.value,
        "limit": each.limit,
        "unit": each.unit,
        "margin": each.margin,
        "find_out": list(each.find_out),
        "also": [],
    }


def choice(made: Choice) -> dict[str, Any]:
    governed = made.governed_by
    return {
        "decides": made.decided.kind,
        "of": made.decided.owner,
        "value": spelled(made.decided.kind, made.value),
        "path": BY_KIND[made.decided.kind].path.format(owner=made.decided.owner),
        "governed_by": governed and f"{governed.question} {governed.subject} {governed.constraint.name}",
        "lacked": [
            {
                "value": spelled(made.decided.kind, each.value),
                "finding": each.question,
                "subject": str(each.subject),
                "constraint": each.constraint.name,
                "text": display.filled(each.constraint),
            }
            for each in made.lacked
        ],
        "carried": made.carried,
        "passes": made.passes,
    }


def remedy(item: Remedy) -> dict[str, Any]:
    return {"text": display.remedy(item), "path": item.path, "value": item.value}


def calculator(each: "Calculator") -> dict[str, Any]:
    """What a calculator takes and gives."""
    return {
        "name": each.name,
        "title": each.title,
        "inputs": [_input(field) for field in each.inputs],
        "outputs": [
            {"key": field.key, "unit": field.unit.symbol, "meaning": field.about.meaning}
            for field in each.outputs
        ],
        "source": each.source,
        "example": dict(each.example),
    }


def _input(field: "Field") -> dict[str, Any]:
    described: dict[str, Any] = {
        "key": field.key,
        "kind": field.kind,
        "unit": field.unit.symbol,
        "low": field.unit.low if math.isfinite(field.unit.low) else None,
        "high": field.unit.high if math.isfinite(field.unit.high) else None,
        "words": list(field.words),
        "allowed": field.allowed(),
        "required": field.required,
        "meaning": field.about.meaning,
    }
    return described if field.required else {**described, "default": _plain(field.default)}


def calculation(outcome: "Outcome") -> dict[str, Any]:
    """One calculation; values unrounded, in their canonical units."""
    units = {field.key: field.unit.symbol for field in outcome.calculator.inputs}
    return {
        "name": outcome.calculator.name,
        "inputs": {
            key: {"value": _plain(value), "unit": units[key]} for key, value in outcome.inputs.items()
        },
        "results": {
            each.field.key: {"value": _plain(each.value), "unit": each.field.unit.symbol}
            for each in outcome.results
        },
        "working": [step(each) for each in outcome.steps],
        "source": outcome.sources,
        "grade": outcome.grade.word if outcome.grade is not None else None,
    }


def step(each: Step) -> dict[str, Any]:
    if isinstance(each, Given):
        return {"given": each.name, "value": _plain(each.value), "origin": each.origin}
    if isinstance(each, Read):
        return {
            "table": each.table,
            "keys": list(each.keys),
            "value": each.value,
            "unit": each.unit,
            "source": str(each.source),
            "grade": each.grade.word,
        }
    return _calculated(each)


def _calculated(each: Calculated) -> dict[str, Any]:
    return {
        "calculated": each.function.__name__,
        "formula": getattr(each.function, "formula", ""),
        "inputs": {name: _plain(value) for name, value in each.inputs.items()},
        "value": _plain(each.value),
        "unit": display.result_unit(each.function),
    }


def _plain(value: Any) -> Any:
    return value if isinstance(value, int | float | str | bool | None) else str(value)
