"""Files made to break the reader: refused early, in words, and never by another error than `Unreadable`."""

import os
import tracemalloc
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from document.toy import SAMPLE, Toy
from ferrule.document import Unreadable, parse, read, tree
from ferrule.document.tree import MAX_BYTES, MAX_DEPTH, MAX_EVENTS, MAX_SCALAR

HEAD = "ferrule: 1\nname: A\nsite: {place: B}\n"


@pytest.fixture(params=["CSafeLoader", "SafeLoader"])
def taken(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many events were taken from each of PyYAML's parsers; the slow one is held to fewer."""
    parser: Any = getattr(yaml, request.param)
    if parser is yaml.SafeLoader:
        monkeypatch.setattr(tree, "MAX_EVENTS", 2_000)
    count = [0]

    class Counting(parser):  # type: ignore[misc]
        def get_event(self) -> Any:
            count[0] += 1
            return super().get_event()

    monkeypatch.setattr(tree, "_Events", Counting)
    return count


BILLION_LAUGHS = "a: &a [x, x]\n" + "".join(
    f"{after}: &{after} [{', '.join([f'*{before}'] * 9)}]\n"
    for before, after in zip("abcdefgh", "bcdefghi", strict=True)
)

#: the text, what is found first, and how many events that may take at most
HOSTILE: dict[str, tuple[str, str, int]] = {
    "lists in each other": ("a: " + "[" * 900, "one more level", 2 * MAX_DEPTH + 10),
    "lists by dashes": ("- " * 100_000, "one more level", 2 * MAX_DEPTH + 10),
    "keys in each other": ("{a: " * 100_000, "one more level", 2 * MAX_DEPTH + 10),
    "keys as keys": ("? " * 100_000, "a list, mapping or alias as a key", 2 * MAX_DEPTH + 10),
    "many values": ("[" + "a, " * 150_000 + "]", "one value more", MAX_EVENTS + 1),
    "many keys": ("".join(f"k{n}: 1\n" for n in range(60_000)), "one value more", MAX_EVENTS + 1),
    "a long text": (f"a: {'x' * 1_900_000}", "a text of 1,900,000 characters", 10),
    "a long key": (f"? {'x' * 1_900_000}\n: 1", "a text of 1,900,000 characters", 10),
    "a long escape": (f'a: "{"x" * MAX_SCALAR}\\u0041"', "a text of 10,001 characters", 10),
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_file_without_end_is_refused_at_its_first_value_too_many(kind: str, taken: list[int]) -> None:
    text, found, most = HOSTILE[kind]
    with pytest.raises(Unreadable) as refused:
        parse(text, Toy)
    assert refused.value.problems[0].found == found
    assert taken[0] <= most


def test_aliases_that_explode_are_never_followed(taken: list[int]) -> None:
    with pytest.raises(Unreadable) as refused:
        parse(BILLION_LAUGHS, Toy)
    assert refused.value.problems[0].found == "no value for 'ferrule'"
    assert sum("anchor or alias" in problem.found for problem in refused.value.problems) == 8 * 9 + 9
    assert taken[0] < 200


def test_a_large_file_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "large.yaml"
    path.write_bytes(b"#" * 10_000_000)
    tracemalloc.start()
    with pytest.raises(Unreadable, match=r"large\.yaml:1:1: found a larger file; allowed"):
        read(path, Toy)
    assert tracemalloc.get_traced_memory()[1] < 2 * MAX_BYTES
    tracemalloc.stop()


def test_as_many_problems_as_a_file_can_hold_are_put_into_words_for_the_first_only() -> None:
    with pytest.raises(Unreadable) as refused:
        parse(HEAD + "devices:\n" + "  - {kind: invertor}\n" * 20_000, Toy)
    assert len(refused.value.problems) == 1_000
    assert len(str(refused.value).splitlines()) == 101


@pytest.mark.parametrize("name", ["", "missing.yaml", "a\0b", "x" * 5000, "pipe"])
def test_what_is_no_file_is_said(tmp_path: Path, name: str) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(Unreadable) as refused:
        read(f"{tmp_path}/{name}", Toy)
    (problem,) = refused.value.problems
    assert problem.found.startswith("nothing to read (")
    assert (problem.line, problem.column, problem.allowed) == (1, 1, "a file")


def refusal(given: str | bytes) -> Unreadable | None:
    try:
        parse(given, Toy)
    except Unreadable as refused:
        return refused
    return None


def holds(given: str | bytes) -> None:
    """Either the text reads, or every problem has a place in it and is said in plain words."""
    refused = refusal(given)
    if refused is None:
        return
    lines = len(given.splitlines()) + 1
    assert refused.problems
    assert all(1 <= problem.line <= lines and problem.column >= 1 for problem in refused.problems)
    assert not any(jargon in str(refused) for jargon in ("Input should", "pydantic", "Traceback"))


BYTES = SAMPLE.encode()
PLACES = st.integers(0, len(BYTES) - 1)


@settings(max_examples=300, deadline=None)
@given(changes=st.lists(st.tuples(PLACES, st.binary(max_size=4)), min_size=1, max_size=4))
def test_changed_bytes_read_or_are_refused(changes: list[tuple[int, bytes]]) -> None:
    given = BYTES
    for place, new in changes:
        given = given[:place] + new + given[place + 1 :]
    holds(given)


@settings(max_examples=300, deadline=None)
@given(
    place=st.integers(0, len(SAMPLE)),
    new=st.text(alphabet="\n\t :-[]{},&*!|>'\"%@`#?~\\0aé", min_size=1, max_size=6),
)
def test_marks_of_yaml_put_anywhere_read_or_are_refused(place: int, new: str) -> None:
    holds(SAMPLE[:place] + new + SAMPLE[place:])


@settings(max_examples=60, deadline=None)
@given(place=st.integers(0, len(SAMPLE)), new=st.text(alphabet="\n\t :-[]{},&*!|>'\"%@\\0aUx1", max_size=6))
@example(place=0, new="\\U00110000")
def test_the_parser_in_python_is_held_to_the_same(place: int, new: str) -> None:
    with patch.object(tree, "_Events", yaml.SafeLoader):
        holds(SAMPLE[:place] + new + SAMPLE[place:])
        holds(f'"{new}"')


@settings(max_examples=100, deadline=None)
@given(start=PLACES, end=PLACES)
def test_a_piece_of_a_file_reads_or_is_refused(start: int, end: int) -> None:
    holds(BYTES[:end])
    holds(BYTES[:start] + BYTES[end:])


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_lines_left_out_doubled_or_moved_read_or_are_refused(data: st.DataObject) -> None:
    lines = SAMPLE.splitlines(keepends=True)
    order = data.draw(st.lists(st.sampled_from(range(len(lines))), max_size=len(lines)))
    holds("".join(lines[each] for each in sorted(order)))
    holds("".join(lines[each] for each in order))


@settings(max_examples=200, deadline=None)
@given(st.text() | st.binary())
def test_any_text_at_all_is_refused(given: str | bytes) -> None:
    with pytest.raises(Unreadable):
        parse(given, Toy)
    holds(given)
