"""`ferrule calc NAME key=value …`: one calculator of the trade by itself; `calc --list` names them."""

import argparse
import json
from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from typing import Any

from ferrule import display, export
from ferrule.calculators import CALCULATORS, BadInput, Calculator, Field, NoAnswer, Outcome, Result
from ferrule.cli.paint import Paint
from ferrule.cli.refused import Refused
from ferrule.display.numbers import Toward


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("name", nargs="?", metavar="NAME", help="the calculator, such as voltage-drop")
    parser.add_argument("given", nargs="*", metavar="KEY=VALUE", help="such as length='25 m'")
    parser.add_argument("--list", action="store_true", help="every calculator; with NAME, that one")
    parser.add_argument("--json", action="store_true", help="for another program instead of a person")


def run(given: argparse.Namespace) -> int:
    wanted = list(CALCULATORS.values()) if given.name is None else [_named(given.name)]
    if given.list:
        entries = [export.calculator(each) for each in wanted]
        if given.json:
            print(json.dumps(entries, ensure_ascii=False, indent=1))
        else:
            print("\n".join(_told(wanted, Paint.for_terminal())))
        return 0
    if given.name is None:
        raise Refused("which calculator? 'ferrule calc --list' names them")
    outcome = _worked(wanted[0], given.given)
    if given.json:
        print(json.dumps(export.calculation(outcome), ensure_ascii=False, indent=1))
    else:
        print("\n".join(answered(outcome, Paint.for_terminal())))
    return 0


def _named(name: str) -> Calculator:
    found = CALCULATORS.get(name)
    if found is None:
        near = get_close_matches(name, CALCULATORS, n=1, cutoff=0.4)
        hint = f"did you mean '{near[0]}'? " if near else ""
        raise Refused(f"there is no calculator '{name}'; {hint}'ferrule calc --list' names them")
    return found


def _worked(calculator: Calculator, pairs: Sequence[str]) -> Outcome:
    """The outcome of what was written. Raises `Refused` telling all that is wrong."""
    wrong = [f"'{pair[:60]}' is no KEY=VALUE" for pair in pairs if "=" not in pair]
    inputs: dict[str, str] = {}
    for pair in pairs:
        key, sign, text = pair.partition("=")
        key = key.strip().replace("-", "_")
        if sign and key in inputs:
            wrong.append(f"{key} is given twice")
        elif sign:
            inputs[key] = text
    try:
        outcome = calculator.work(inputs)
    except BadInput as bad:
        wrong += bad.lines
    except NoAnswer as error:
        wrong.append(str(error))
    if wrong:
        raise Refused("\n".join(f"{calculator.name}: {line}" for line in wrong))
    return outcome


def answered(outcome: Outcome, paint: Paint) -> Iterator[str]:
    """The results, then how they were worked out and from which figures."""
    shown = [(_label(result.field.key), _shown(result), result) for result in outcome.results]
    width, wide = (max(len(row[at]) for row in shown) for at in (0, 1))
    for label, value, result in shown:
        line = f"{label:<{width}}  {paint.strong(f'{value:<{wide}}')}  {result.field.about.meaning}"
        yield line.rstrip()
    taken = [
        f"{_label(each.key)} = {_value(each, each.default)}"
        for each in outcome.calculator.inputs
        if not each.required and each.default is not None and each.key not in outcome.given
    ]
    if taken:
        yield ""
        yield from paint.wrapped(f"Taken for granted: {', '.join(taken)}.", 0, 2)
    yield ""
    for line in display.working(outcome.steps):
        text = line.lstrip()
        yield from paint.wrapped(text, 2 + len(line) - len(text), 6)
    yield ""
    yield from paint.wrapped(f"By {outcome.calculator.source}.", 0, 2)
    if outcome.grade is not None:
        yield from paint.wrapped(f"The weakest figure in it: {_GRADES[outcome.grade.word]}.", 0, 2)
    yield paint.quiet("This advises. A licensed person decides, and local rules prevail.")


_GRADES = {
    "memory": "nobody here has seen it printed",
    "single": "seen in one source",
    "verified": "seen in two sources or more",
    "confirmed": "read by a person in his own copy",
}


def _shown(result: Result) -> str:
    return _value(result.field, result.value, result.field.about.toward)


def _value(each: Field, value: Any, toward: Toward = "nearest") -> str:
    return "none" if value is None else display.quantity(value, each.unit.symbol, toward=toward)


def _label(key: str) -> str:
    return key.replace("_", " ")


def _told(calculators: Sequence[Calculator], paint: Paint) -> Iterator[str]:
    """Each calculator with what it takes, what comes out, and a line to copy."""
    for calculator in calculators:
        yield paint.strong(calculator.name)
        yield from paint.wrapped(calculator.title, 2)
        for each in calculator.inputs:
            left_out = "" if each.required else ", may be left out"
            meaning = f": {each.about.meaning}" if each.about.meaning else ""
            yield from paint.wrapped(f"{each.key}{meaning} ({each.allowed()}{left_out})", 4, 8)
        gives = ", ".join(each.key for each in calculator.outputs)
        yield from paint.wrapped(f"gives {gives}; by {calculator.source}", 2, 4)
        yield from paint.wrapped(example(calculator), 2, 6)
        yield ""


def example(calculator: Calculator) -> str:
    """The calculator's example as a line of a shell."""
    pairs = (
        f"{key}='{text}'" if " " in text else f"{key}={text}" for key, text in calculator.example.items()
    )
    return f"ferrule calc {calculator.name} {' '.join(pairs)}"
