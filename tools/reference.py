"""Write the reference pages under docs/ from the code itself: `make docs`. A test keeps them current.

docs/job-file.md lists every key of the job, part and firm files; docs/questions.md every question, with the
constraints and the sources it uses in the demo houses; docs/calculators.md every calculator.
"""

import typing
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from ferrule.answering import answer
from ferrule.calculators import CALCULATORS, Field
from ferrule.checks import QUESTIONS
from ferrule.cli.calc import answered, example
from ferrule.cli.paint import Paint
from ferrule.fact import meaning
from ferrule.job.firm import Firm
from ferrule.job.job import Job
from ferrule.job.load import load
from ferrule.parts.library import PartFile
from ferrule.quantity import Unit

ROOT = Path(__file__).parent.parent
HOUSES = ("meter-led", "controller-led", "changeover-led")


def job_file() -> str:
    """The page on the files a person writes."""
    lines = [_JOB_FILE_HEAD]
    seen: set[type[BaseModel]] = set()
    for title, model in (("The job file", Job), ("A part file", PartFile), ("The firm's file", Firm)):
        lines += [f"## {title}", ""]
        lines += _records(model, seen)
    return "\n".join(lines).rstrip() + "\n"


def _records(model: type[BaseModel], seen: set[type[BaseModel]]) -> Iterator[str]:
    if model in seen:
        return
    seen.add(model)
    yield f"### {model.__name__}"
    yield ""
    yield (model.__doc__ or "").strip()
    yield ""
    yield "| key | what it takes | meaning |"
    yield "| --- | --- | --- |"
    inner: list[type[BaseModel]] = []
    for name, info in model.model_fields.items():
        yield f"| `{info.alias or name}` | {_takes(info)} | {_meaning(info)} |"
        inner += _models(info.annotation)
    yield ""
    for each in inner:
        yield from _records(each, seen)


def _meaning(info: FieldInfo) -> str:
    text = meaning(info)
    extra = info.json_schema_extra
    if isinstance(extra, dict) and "assumed" in extra:
        return f"left out, it is assumed: {text}"
    return text.replace("|", "\\|")


def _takes(info: FieldInfo) -> str:
    words = list(dict.fromkeys(_words(info.annotation, info.metadata)))
    if info.is_required():
        words.append("**required**")
    return ", ".join(words)


def _words(kind: Any, metadata: list[Any] | tuple[Any, ...] = ()) -> Iterator[str]:
    unit = next((m for m in metadata if isinstance(m, Unit)), None)
    if unit is not None:
        yield f"quantity in {unit.symbol}" if unit.symbol else "number"
        return
    origin, arguments = get_origin(kind), get_args(kind)
    if origin is typing.Annotated:
        yield from _words(arguments[0], arguments[1:])
    elif origin is Literal:
        yield " / ".join(f"`{each}`" for each in arguments)
    elif origin is list:
        yield f"list of {' or '.join(_words(arguments[0]))}"
    elif arguments:
        for each in arguments:
            yield from _words(each)
    elif isinstance(kind, type) and issubclass(kind, BaseModel):
        yield f"[{kind.__name__}](#{kind.__name__.lower()})"
    elif isinstance(kind, type):
        yield _PLAIN.get(kind.__name__, kind.__name__.lower())


_PLAIN = {
    "str": "text",
    "int": "whole number",
    "bool": "yes / no",
    "float": "number",
    "NoneType": "nothing",
    "Size": "conductor size",
}


def _models(kind: Any) -> Iterator[type[BaseModel]]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        yield kind
    for each in get_args(kind):
        yield from _models(each)


def questions() -> str:
    """The page on what is asked."""
    asked: dict[str, dict[str, None]] = {question.id: {} for question in QUESTIONS}
    sources: dict[str, dict[str, None]] = {question.id: {} for question in QUESTIONS}
    for house in HOUSES:
        for finding in answer(load(ROOT / "examples" / house / "job.yaml")).findings:
            for constraint in finding.constraints:
                asked[finding.id][constraint.name] = None
                sources[finding.id].update(dict.fromkeys(str(read.source) for read in constraint.reads))
    lines = [_QUESTIONS_HEAD]
    for question in QUESTIONS:
        lines += [f"## `{question.id}`", "", question.text, ""]
        if asked[question.id]:
            lines += [f"Constraints: {', '.join(f'`{name}`' for name in asked[question.id])}.", ""]
        if sources[question.id]:
            lines += ["Figures from:", "", *(f"- {source}" for source in sorted(sources[question.id])), ""]
    return "\n".join(lines).rstrip() + "\n"


def calculators() -> str:
    """The page on the calculators."""
    lines = [_CALCULATORS_HEAD]
    for calculator in CALCULATORS.values():
        outcome = calculator.work(calculator.example)
        lines += [f"## `{calculator.name}`", "", calculator.title, ""]
        lines += ["| input | takes | meaning |", "| --- | --- | --- |"]
        lines += [*(_input(each) for each in calculator.inputs), ""]
        lines += ["| result | unit | meaning |", "| --- | --- | --- |"]
        lines += [
            f"| `{each.key}` | {each.unit.symbol} | {each.about.meaning} |" for each in calculator.outputs
        ]
        lines += ["", f"By {calculator.source}.", "", "```", f"$ {example(calculator)}"]
        lines += [*answered(outcome, Paint()), "```", ""]
    return "\n".join(lines).rstrip() + "\n"


def _input(each: Field) -> str:
    takes = each.allowed() if each.required else f"{each.allowed()}; may be left out"
    return f"| `{each.key}` | {takes} | {each.about.meaning} |"


_JOB_FILE_HEAD = """# The files a person writes

A job file is YAML with `ferrule: 1` at its top. `ferrule new --architecture …` writes a commented
starter, `ferrule schema` the JSON Schema for an editor, and the demo houses under `examples/` are whole
jobs to copy.

- **Quantities** carry their unit: `30 m`, `98 ft`, `4 mm²`, `AWG 10`, `-10 °C`. A bare number does where
  only one unit is possible (degrees of an angle, per cent, counts, plain ratios).
- **Facts** may say where they come from, `{value: 4.2 kA, from: measured at the board}`; one that begins
  with "estimate" is listed among the assumptions. A fact nobody knows yet is `{unknown: "what to find
  out"}`, `unknown`, or left out, which all mean the same.
- **Decisions** left out (or `open`) are chosen; `none` says that there is to be none.
- **Terminals** are written `supply`, `MB`, `EM`, `S1`, `INV1.grid`, `INV1.backup`, `INV1.battery`,
  `INV1.PV1`, `CO.grid`, `CO.house`, `CO.inverter`.
- **Parts** are found by id: in `parts:` of the job, else in `parts/ID.yaml` beside the job or one folder
  up.

This page is made from the code by `make docs`.
"""

_QUESTIONS_HEAD = """# What is asked

Every question with the constraints it judged in the demo houses and the published figures it read there.
One finding answers one question about one subject. `ferrule explain JOB ID SUBJECT` shows the whole
working.

This page is made from the code by `make docs`.
"""

_CALCULATORS_HEAD = """# Calculators

Each works by itself, without a job: `ferrule calc NAME key=value …`, with `--json` for another program and
`ferrule calc --list` for all of them. Values carry their units, spelled as in a job file; a bare number does
where only one unit is possible. Those that read a rulebook take `edition`.

This page is made from the code by `make docs`.
"""

PAGES = {"job-file.md": job_file, "questions.md": questions, "calculators.md": calculators}

if __name__ == "__main__":
    for name, page in PAGES.items():
        (ROOT / "docs" / name).write_text(page())
