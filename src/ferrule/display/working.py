"""The working of a number, line by line: what was given, which cell was read, what was calculated."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from ferrule.display.numbers import quantity, word
from ferrule.quantity import bare_name
from ferrule.working import Calculated, Given, Read, Step

_DIGITS = 4  # one more than a sentence has, so that a reader can check the sum


def working(steps: tuple[Step, ...]) -> Iterator[str]:
    """One line for each step of a working."""
    for step in steps:
        if isinstance(step, Given):
            origin = f"  ({step.origin})" if step.origin else ""
            yield f"{_plain(step.name)} = {word(step.name, step.value, _DIGITS)}{origin}"
        elif isinstance(step, Read):
            keys = f" [{', '.join(step.keys)}]" if step.keys else ""
            shown = quantity(step.value, step.unit, _DIGITS)
            yield f"{_plain(step.table)}{keys} = {shown}  ({step.source}; {step.grade.word})"
        else:
            yield from _calculated(step)


def _calculated(step: Calculated) -> Iterator[str]:
    """The formula once with the names and once with the numbers in their places."""
    name, expression = _plain(step.function.__name__), str(getattr(step.function, "formula", ""))
    result = quantity(step.value, result_unit(step.function), _DIGITS)
    yield f"{name} = {_with_names(expression)}"
    yield f"{' ' * len(name)} = {_with_numbers(expression, step.inputs)} = {result}"


def result_unit(function: Any) -> str:
    """The unit in which an annotated function answers."""
    metadata = getattr(function.__annotations__.get("return"), "__metadata__", ())
    return next((each.symbol for each in metadata if hasattr(each, "symbol")), "")


_NAME = re.compile(r"[A-Za-z_][A-Za-z_0-9]*")
_SIGNS = (("**", "^"), ("*", "×"), ("-", "−"))


def _with_names(expression: str) -> str:
    return _signs(_NAME.sub(lambda match: _plain(match.group()), expression))


def _with_numbers(expression: str, inputs: Mapping[str, Any]) -> str:
    def replaced(match: re.Match[str]) -> str:
        name = match.group()
        if name not in inputs:
            return name
        shown = word(name, inputs[name], _DIGITS)
        return f"({shown})" if shown.startswith("−") else shown

    return _NAME.sub(replaced, _signs(expression))


def _signs(text: str) -> str:
    for written, sign in _SIGNS:
        text = text.replace(written, sign)
    return text


def _plain(name: str) -> str:
    return bare_name(name).replace("_", " ")
