"""Houses for tests: a demo house with a few things changed, written as a person would write them."""

import tempfile
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from ferrule.answering import Answer, answer
from ferrule.checks.question import Finding
from ferrule.constraint import Constraint
from ferrule.job.load import Loaded, load

EXAMPLES = Path(__file__).parent.parent / "examples"
REMOVED = object()


@cache
def _read(path: Path) -> Any:
    """A file as plain data; take a copy before changing it."""
    return yaml.load(path.read_text(), Loader=yaml.CSafeLoader)


def loaded(edits: dict[str, Any] | None = None, house: str = "meter-led", *, firm: bool = False) -> Loaded:
    """A demo house, its parts inlined, with values set by path.

    A path goes by keys, ids and positions: `supply.earthing`, `runs.R-inverter.size`,
    `parts.example-lfp-10k.voltage_high`, `runs.R-inverter.stretches.0.length`. `REMOVED` takes a key away; a
    value for `runs.+` adds an item, for `runs.+2` another. `firm` lets choices follow what the demo's firm
    carries.
    """
    job = deepcopy(_read(EXAMPLES / house / "job.yaml"))
    _inline_parts(job)
    named_firm = job.pop("firm")
    if firm:
        job["firm"] = str(EXAMPLES / house / named_firm)
    for path, value in (edits or {}).items():
        _set(job, path.split("."), value)
    _inline_parts(job)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "job.yaml"
        file.write_text(yaml.dump(job, Dumper=yaml.CSafeDumper, allow_unicode=True, sort_keys=False))
        return load(file)


def _inline_parts(job: dict[str, Any]) -> None:
    """Take in the parts that a job names and has not inlined yet."""
    named = set(_words(job)) | set(_read(EXAMPLES / "firm.yaml")["anchors"])
    inline = {part["id"] for part in job.get("parts", [])}
    files = [file for file in sorted((EXAMPLES / "parts").glob("*.yaml")) if file.stem in named - inline]
    job["parts"] = [*job.get("parts", []), *(deepcopy(_read(f)["part"]) for f in files)]


def _words(value: Any) -> Iterator[str]:
    """Every word in a job: a part is named by one of them."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for each in value.values() if isinstance(value, dict) else value:
            yield from _words(each)


def answered(edits: dict[str, Any] | None = None, house: str = "meter-led", *, firm: bool = False) -> Answer:
    return answer(loaded(edits, house, firm=firm))


def finding(result: Answer, question: str, subject: str) -> Finding:
    """The one finding of that question and subject; fails the test if there is none."""
    found = [f for f in result.findings if (f.id, str(f.subject)) == (question, subject)]
    assert found, (
        f"no {question} {subject}; there are {sorted((f.id, str(f.subject)) for f in result.findings)}"
    )
    assert len(found) == 1
    return found[0]


def constraint(found: Finding, name: str) -> Constraint:
    """The constraint of that name."""
    return next(c for c in found.constraints if c.name == name)


def _set(node: Any, path: list[str], value: Any) -> None:
    *way, last = path
    for part in way:
        node = _child(node, part)
    if last.startswith("+"):
        node.append(value)
    elif isinstance(node, list):
        at = node.index(_child(node, last))
        if value is REMOVED:
            del node[at]
        else:
            node[at] = value
    elif value is REMOVED:
        del node[last]
    else:
        node[last] = value


def _child(node: Any, part: str) -> Any:
    if isinstance(node, list):
        return node[int(part)] if part.isdigit() else next(item for item in node if item["id"] == part)
    return node.setdefault(part, {})
