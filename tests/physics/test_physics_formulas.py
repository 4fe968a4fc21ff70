"""What every public formula must keep: names, units, a text that is true, and no NaN."""

import ast
import inspect
import math
from collections.abc import Callable
from typing import Any, cast

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ferrule.physics.strings import longest_string_below
from ferrule.quantity import Unit, unit_of_name
from ferrule.working import Tables, Trace
from physics.formulas import WORDS, formula_of, public_functions, units_of, work_out

FUNCTIONS = public_functions()
each_function = pytest.mark.parametrize(
    "function", FUNCTIONS, ids=lambda f: f"{f.__module__[16:]}.{f.__name__}"
)


def _numbers(unit: Unit) -> st.SearchStrategy[Any]:
    low, high = max(unit.low, -1e6), min(unit.high, 1e6)
    if unit.whole:
        return st.integers(int(low), min(int(high), 1_000))
    ends = st.sampled_from([low, high, 0.0 if low <= 0 <= high else low])
    return ends | st.floats(low, high).map(lambda x: x if abs(x) >= 1e-15 else 0.0)


def _inputs(function: Callable[..., Any]) -> st.SearchStrategy[dict[str, Any]]:
    units = units_of(function)
    return st.fixed_dictionaries(
        {name: _numbers(units[name]) for name in inspect.signature(function).parameters}
    )


def test_the_room_has_its_subjects() -> None:
    subjects = {function.__module__.rpartition(".")[2] for function in FUNCTIONS}
    assert subjects >= {"conductor", "drop", "fault", "module", "strings", "battery", "electrode", "surge"}


@each_function
def test_is_called_by_keyword_only(function: Callable[..., Any]) -> None:
    kinds = {parameter.kind for parameter in inspect.signature(function).parameters.values()}
    assert kinds == {inspect.Parameter.KEYWORD_ONLY}


@each_function
def test_names_no_default(function: Callable[..., Any]) -> None:
    """A default would be a value nobody gave and no working shows."""
    defaults = [parameter.default for parameter in inspect.signature(function).parameters.values()]
    assert all(default is inspect.Parameter.empty for default in defaults)


@each_function
def test_every_parameter_and_the_result_have_a_unit(function: Callable[..., Any]) -> None:
    assert set(units_of(function)) == {*inspect.signature(function).parameters, "return"}


@each_function
def test_a_name_promises_the_unit_of_its_annotation(function: Callable[..., Any]) -> None:
    for name, unit in units_of(function).items():
        if name != "return":
            assert unit.symbol == (unit_of_name(name) or ""), name


@each_function
def test_has_a_docstring(function: Callable[..., Any]) -> None:
    assert len(inspect.getdoc(function) or "") > 20


@each_function
def test_formula_mentions_its_own_parameters_and_all_of_them(function: Callable[..., Any]) -> None:
    tree = ast.parse(formula_of(function), mode="eval")
    names = [node for node in ast.walk(tree) if isinstance(node, ast.Name)]
    bound = {name.id for name in names if isinstance(name.ctx, ast.Store)}
    mentioned = {name.id for name in names} - bound - set(WORDS)
    assert mentioned == set(inspect.signature(function).parameters)


@each_function
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_formula_is_what_the_function_does(function: Callable[..., Any], data: st.DataObject) -> None:
    """The text shown in a working, worked out as arithmetic, gives the function's own result; where one has
    no answer the other has none, and an answer is a finite number of the kind annotated.
    """
    inputs = data.draw(_inputs(function))
    try:
        by_text = work_out(function, inputs)
    except (ArithmeticError, ValueError):
        with pytest.raises((ArithmeticError, ValueError)):
            function(**inputs)
        return
    result = function(**inputs)
    assert result == pytest.approx(by_text, rel=1e-9, abs=1e-9)
    assert math.isfinite(result)
    assert isinstance(result, int if units_of(function)["return"].whole else float | int)


def test_a_trace_notes_a_count_as_a_count() -> None:
    trace = Trace(cast(Tables, None))
    count = trace.calculate(longest_string_below, limit_v=600.0, module_v=49.0)
    assert [type(step.value) for step in trace.steps] == [int]
    assert count == 12
