"""The room's public functions, and a way to work out a formula's text as arithmetic."""

import importlib
import inspect
import math
import pkgutil
from collections.abc import Callable, Mapping
from typing import Any, get_args, get_type_hints

import ferrule.physics
from ferrule.quantity import Unit


def _phasor(size: float, angle_deg: float) -> complex:
    return complex(size * math.cos(math.radians(angle_deg)), size * math.sin(math.radians(angle_deg)))


#: what a formula may call beside its own parameters
WORDS: Mapping[str, Any] = {
    "abs": abs, "acos": math.acos, "ceil": math.ceil, "degrees": math.degrees, "exp": math.exp,
    "floor": math.floor, "ln": math.log, "log10": math.log10, "max": max, "min": min, "phasor": _phasor,
    "pi": math.pi, "range": range, "sqrt": math.sqrt, "sum": sum,
}  # fmt: skip


def public_functions() -> list[Callable[..., Any]]:
    """Every function of `ferrule.physics` that other rooms may call."""
    found: list[Callable[..., Any]] = []
    for module_info in pkgutil.iter_modules(ferrule.physics.__path__, "ferrule.physics."):
        module = importlib.import_module(module_info.name)
        found += [
            function
            for name, function in inspect.getmembers(module, inspect.isfunction)
            if not name.startswith("_") and function.__module__ == module.__name__
        ]
    return found


def units_of(function: Callable[..., Any]) -> dict[str, Unit]:
    """The unit of each parameter, and of the result under `return`, as annotated."""
    hints = get_type_hints(function, include_extras=True)
    return {name: unit for name, hint in hints.items() for unit in get_args(hint) if isinstance(unit, Unit)}


def formula_of(function: Callable[..., Any]) -> str:
    """The formula's text."""
    text = function.formula  # type: ignore[attr-defined]
    assert isinstance(text, str)
    return text


def work_out(function: Callable[..., Any], inputs: Mapping[str, Any]) -> Any:
    """The value of the formula's own text with these numbers in the places of its names."""
    return eval(formula_of(function), {"__builtins__": {}, **WORDS, **inputs})
