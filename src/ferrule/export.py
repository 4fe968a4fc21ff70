"""An answer as plain data for other programs."""

from typing import Any

from ferrule import __version__, display
from ferrule.answer import Answer
from ferrule.checks.question import Finding, Remedy
from ferrule.choose import Choice
from ferrule.choose.offers import BY_KIND, spelled
from ferrule.constraint import Constraint
from ferrule.working import Calculated, Given, Read, Step


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
        "constraints": [constraint(each) for each in found.constraints],
        "grade": found.grade.word if found.grade is not None else None,
        "source": list(dict.fromkeys(str(read.source) for read in reads)),
        "working": [step(each) for each in governing.steps],
        "remedy": [remedy(each) for each in found.remedies],
    }


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
