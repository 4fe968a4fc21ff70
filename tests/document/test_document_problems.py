"""A file with mistakes: each in plain words, with its line and column, all at once."""

from datetime import date
from typing import Annotated

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import Field

from document.toy import Toy
from ferrule.document import Record, Unreadable, parse
from ferrule.document.words import MAX_PROBLEMS
from ferrule.quantity import Unit

HEAD = "ferrule: 1\nname: A\nsite: {place: B}\n"
RUN = "runs:\n  - {id: R, from: A, to: B, "

LENGTH = Unit("m", 0, 10_000).allowed()
CURRENT = Unit("A", 0, 1_000_000).allowed()


def said(text: str | bytes) -> list[str]:
    with pytest.raises(Unreadable) as refused:
        parse(text, Toy, "f")
    return str(refused.value).splitlines()


#: what follows HEAD, with ▲ before each mistake -> what is found and allowed there
BODIES: dict[str, list[str]] = {
    # keys
    "▲circits: 3": [
        "unknown key 'circits'; allowed: circuits, ferrule, name, site, devices, runs, loads; "
        "did you mean 'circuits'?"
    ],
    "▲Zz: 3": ["unknown key 'Zz'; allowed: ferrule, name, site, devices, runs, loads, circuits"],
    # nothing behind a mistyped key must not hide it
    "▲circits:": [
        "unknown key 'circits'; allowed: circuits, ferrule, name, site, devices, runs, loads; "
        "did you mean 'circuits'?"
    ],
    "devices:\n  - {id: D, kind: battery, ▲paks: unknown, packs: , battery: {place: C, ▲hight: ,"
    " altitude: ~}}": [
        "unknown key 'paks'; allowed: packs, id, kind, battery, place_coldest; did you mean 'packs'?",
        "unknown key 'hight'; allowed: place, altitude, coldest, building",
    ],
    "circuits: 1\n▲circuits: 1": ["key 'circuits' again; allowed: each key once (first on line 4)"],
    "? ▲[a]\n: b": ["a list, mapping or alias as a key; allowed: a word as a key"],
    "▲<<: {circuits: 1}": ["a merge key '<<'; allowed: each value written out where it belongs"],
    # kinds
    "devices:\n  - {id: D, kind: ▲invertor}": [
        "'invertor'; allowed: inverter, battery, stack; did you mean 'inverter'?"
    ],
    "devices:\n  - ▲{id: D}": ["no value for 'kind'; allowed: kind: inverter, battery, stack"],
    "devices:\n  - {id: D, kind: ▲}": ["no value for 'kind'; allowed: kind: inverter, battery, stack"],
    "devices:\n  - {kind: ▲[a]}": ["a list of 1; allowed: inverter, battery, stack"],
    "devices:\n  - ▲D": ["'D'; allowed: keys and values (kind: inverter, battery, stack)"],
    "devices:\n  -▲": ["nothing; allowed: keys and values (kind: inverter, battery, stack)"],
    "devices:\n  - {id: D, kind: battery, battery: {place: C, altitude: ▲3}, ▲paks: 2}": [
        f"'3'; allowed: {Unit('m', -430, 6000).allowed()}",
        "unknown key 'paks'; allowed: packs, id, kind, battery, place_coldest; did you mean 'packs'?",
    ],
    "devices:\n  - {id: D, kind: battery, packs: ▲two}": ["'two'; allowed: a whole number"],
    "devices:\n  - {id: D, kind: battery, packs: ▲0}": ["'0'; allowed: not below 1"],
    "devices:\n  - {id: D, kind: battery, packs: ▲33}": ["'33'; allowed: not above 32"],
    "devices:\n  - {id: D, kind: inverter, phases: ▲2}": ["'2'; allowed: 1, 3"],
    "devices: ▲{id: D}": ["keys and values (id); allowed: a list"],
    # quantities
    RUN + "lengths: [▲3 mile]}": [f"'3 mile'; allowed: {LENGTH}"],
    RUN + "lengths: [▲-3 m]}": ["'-3 m'; allowed: a number not below 0 and not above 10,000 m"],
    RUN + "lengths: ▲3 m}": ["'3 m'; allowed: a list: [3 m]"],
    RUN + "rcd: {type: A, rating: 40 A, ▲5 A}}": [
        "'5 A' after a comma; allowed: a point in a number: 9.5, not 9,5"
    ],
    RUN + "lengths: [▲3]}": [f"'3'; allowed: {LENGTH}"],
    RUN + "lengths: [▲[3 m]]}": [f"a list of 1; allowed: {LENGTH}"],
    RUN + "lengths: [▲.inf]}": [f"'.inf'; allowed: {LENGTH}"],
    RUN + "lengths: [▲.nan]}": [f"'.nan'; allowed: {LENGTH}"],
    RUN + "lengths: [▲1e999 m]}": [f"'1e999 m'; allowed: {LENGTH}"],
    RUN + "lengths: ▲[]}": ["a list of 0; allowed: at least 1 of them"],
    "loads:\n  C1: ▲3 a": [f"'3 a'; allowed: {CURRENT}; did you mean 'A'?"],
    # facts and decisions
    "circuits: ▲{value: 3, form: map}": [
        "keys and values (value, form); allowed: value, with from and note as texts, "
        "or unknown alone; did you mean 'from'?"
    ],
    "circuits: ▲{value: 3, from: [map]}": [
        "keys and values (value, from); allowed: value, with from and note as texts, or unknown alone"
    ],
    "circuits: ▲{unknown: ask, note: soon}": [
        "keys and values (unknown, note); allowed: value, with from and note as texts, or unknown alone"
    ],
    "circuits: ▲open": ["'open'; allowed: a whole number"],
    RUN + "size: ▲10}": [
        "'10'; allowed: a conductor size such as '4 mm²', 'AWG 10', '1/0 AWG' or '250 kcmil'"
    ],
    "runs:\n  - {id: R, from: A, to: ▲{unknown: where}}": ["unknown; allowed: a text"],
    "runs:\n  - {id: R, from: A, to: ▲unknown}": ["no value for 'to'; allowed: to: a text (where it ends)"],
    # records
    "runs:\n  - ▲{id: R, from: A}": ["no value for 'to'; allowed: to: a text (where it ends)"],
    "runs:\n  - ▲{id: R, from: A, to: A}": ["keys and values (id, from, to); allowed: two different ends"],
    RUN + "buried: ▲ja}": ["'ja'; allowed: yes or no"],
    RUN + "rcd: ▲nome}": ["'nome'; allowed: keys and values (type, rating), or none; did you mean 'none'?"],
    RUN + "rcd: {type: ▲AA, rating: 40 A}}": ["'AA'; allowed: A, B; did you mean 'A'?"],
    RUN + "rcd: ▲{type: A, ▲ratings: 40 A}}": [
        f"no value for 'rating'; allowed: rating: {CURRENT}",
        "unknown key 'ratings'; allowed: rating, type; did you mean 'rating'?",
    ],
    "loads: ▲3": ["'3'; allowed: keys and values"],
    # what is not plain YAML
    "circuits: ▲&a 3": ["an anchor or alias 'a'; allowed: each value written out where it belongs"],
    "circuits: ▲*a": ["an anchor or alias 'a'; allowed: each value written out where it belongs"],
    "circuits: ▲!!int 3": ["a tag 'tag:yaml.org,2002:int'; allowed: values without a tag"],
    "circuits: ▲!!python/object/apply:os.system [ls]": [
        "a tag 'tag:yaml.org,2002:python/object/apply:os.system'; allowed: values without a tag",
    ],
    'loads: {▲"C\\a": 1 A}': ["an escaped unprintable character; allowed: printable text"],
    "▲---\nname: B": ["a second document; allowed: one document in a file"],
    "loads: {C1: 3 A\n▲": [
        "a slip in the YAML (did not find expected ',' or '}' while parsing a flow mapping from "
        "line 4); allowed: lines of 'key: value' or '- item', indented alike"
    ],
    "circuits: a▲: b": [
        "a slip in the YAML (mapping values are not allowed in this context); "
        "allowed: lines of 'key: value' or '- item', indented alike"
    ],
    "loads:\n▲\tC1: 3 A": ["a tab; allowed: spaces to indent"],
}


@pytest.mark.parametrize("body", BODIES)
def test_a_mistake_is_said_in_words_at_its_place(body: str) -> None:
    before = (HEAD + body).split("▲")[:-1]
    spots = ["".join(before[: end + 1]).split("\n") for end in range(len(before))]
    places = [f"f:{len(lines)}:{len(lines[-1]) + 1}" for lines in spots]
    expected = [f"{place}: found {words}" for place, words in zip(places, BODIES[body], strict=True)]
    assert said((HEAD + body).replace("▲", "")) == expected


#: whole files -> what is said
FILES: dict[str | bytes, list[str]] = {
    "": ["f:1:1: found nothing; allowed: keys and values, ferrule: 1 first"],
    "# a comment\n": ["f:2:1: found nothing; allowed: keys and values, ferrule: 1 first"],
    "\n- ferrule: 1": ["f:2:1: found no keys; allowed: keys and values, ferrule: 1 first"],
    "ferrule": ["f:1:1: found no keys; allowed: keys and values, ferrule: 1 first"],
    "{unknown: all of it}": ["f:1:1: found no keys; allowed: keys and values, ferrule: 1 first"],
    "name: A\nsite: {place: B}": ["f:1:1: found no value for 'ferrule'; allowed: ferrule: 1"],
    HEAD.replace("1", "2"): ["f:1:10: found '2'; allowed: 1"],
    HEAD.replace("1", "01"): ["f:1:10: found '01'; allowed: 1; did you mean '1'?"],
    b"ferrule: 1\nname: caf\xe9": [
        "f:2:10: found a byte that is not UTF-8 (0xe9); allowed: printable text in UTF-8"
    ],
    HEAD.encode("utf-16"): ["f:1:1: found a byte that is not UTF-8 (0xff); allowed: printable text in UTF-8"],
    "a: 1\r\nb: \x00": ["f:2:4: found an unprintable character (U+0000); allowed: printable text in UTF-8"],
    "a: \x1b[31m": ["f:1:4: found an unprintable character (U+001B); allowed: printable text in UTF-8"],
    "a: b\u2028c": ["f:1:5: found an unprintable character (U+2028); allowed: printable text in UTF-8"],
    "a: b\u200b": ["f:1:5: found an unprintable character (U+200B); allowed: printable text in UTF-8"],
    "a: \u202eb": ["f:1:4: found an unprintable character (U+202E); allowed: printable text in UTF-8"],
    "a: \ud800": ["f:1:4: found an unprintable character (U+D800); allowed: printable text in UTF-8"],
}


@pytest.mark.parametrize("text", FILES)
def test_a_file_that_is_no_such_file_is_refused_in_words(text: str | bytes) -> None:
    assert said(text) == FILES[text]


def test_all_mistakes_are_said_at_once_in_the_order_of_the_file() -> None:
    text = "name: A\nname: B\nsite: {altitude: 3 A}\ndevices:\n  - {kind: stack}\ncircuits: few\n"
    assert said(text) == [
        "f:1:1: found no value for 'ferrule'; allowed: ferrule: 1",
        "f:2:1: found key 'name' again; allowed: each key once (first on line 1)",
        "f:3:7: found no value for 'place'; allowed: place: a text",
        f"f:3:18: found '3 A'; allowed: {Unit('m', -430, 6000).allowed()}",
        "f:5:5: found no value for 'id'; allowed: id: a text",
        "f:6:11: found 'few'; allowed: a whole number",
    ]


def test_long_values_are_cut_and_long_lists_of_problems_end() -> None:
    assert said(f"{HEAD}circuits: {'x' * 300}") == [f"f:4:11: found '{'x' * 59}…'; allowed: a whole number"]
    lines = said(HEAD + "loads:\n" + "".join(f"  C{n}: x\n" for n in range(MAX_PROBLEMS + 100)))
    assert lines[0] == f"f:5:7: found 'x'; allowed: {CURRENT}"
    assert lines[100:] == [f"and {MAX_PROBLEMS - 100} more"]


class Every(Record):
    """A field of every kind that a file's record may have."""

    whole: int = 0
    share: float = 0.0
    above: Annotated[float, Field(gt=0, lt=1)] = 0.5
    flag: bool = False
    day: date = date(2026, 1, 1)
    word: Annotated[str, Field(min_length=2, max_length=3, pattern="^[a-z]+$")] = "ab"
    texts: tuple[str, ...] = ()
    few: Annotated[tuple[int, ...], Field(max_length=1)] = ()
    table: dict[str, int] = {}
    inner: Toy | None = None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("whole: 1.5", "found '1.5'; allowed: a whole number"),
        ("whole: " + "9" * 5000, f"found '{'9' * 59}…'; allowed: a whole number"),
        ("share: few", "found 'few'; allowed: a number"),
        ("share: nan", "found 'nan'; allowed: a number"),
        ("above: 0", "found '0'; allowed: more than 0.0"),
        ("above: 1", "found '1'; allowed: less than 1.0"),
        ("flag: 3", "found '3'; allowed: yes or no"),
        ("day: 31.3.2026", "found '31.3.2026'; allowed: a date such as 2026-03-31"),
        ("day: []", "found a list of 0; allowed: a date such as 2026-03-31"),
        ("word: a", "found 'a'; allowed: at least 2 characters"),
        ("word: abcd", "found 'abcd'; allowed: at most 3 characters"),
        ("word: a1", "found 'a1'; allowed: a text of the form ^[a-z]+$"),
        ("word: {a: b}", "found keys and values (a); allowed: a text"),
        ("texts: a", "found 'a'; allowed: a list"),
        ("few: [1, 2]", "found a list of 2; allowed: at most 1 of them"),
        ("table: [a]", "found a list of 1; allowed: keys and values"),
        ("table: {a: b}", "found 'b'; allowed: a whole number"),
        (
            "inner: a",
            "found 'a'; allowed: keys and values (ferrule, name, site, devices, runs, loads, circuits)",
        ),
    ],
)
def test_every_kind_of_field_has_its_words(text: str, expected: str) -> None:
    with pytest.raises(Unreadable) as refused:
        parse(text, Every, "f")
    assert [str(each).split(": ", 1)[1] for each in refused.value.problems] == [expected]


@settings(max_examples=150, deadline=None)
@given(
    key=st.sampled_from([field.alias or "" for field in Every.model_fields.values()]),
    value=st.sampled_from(
        ["x", "'1'", "[]", "[[]]", "{}", "{a: {}}", "{unknown: x}", "[~]", "{a: ~}", "'\u00e9'"]
    ),
)
def test_no_jargon_leaks(key: str, value: str) -> None:
    try:
        parse(f"{key}: {value}", Every)
    except Unreadable as refused:
        text = str(refused)
        assert "; allowed: " in text
        assert not any(word in text for word in ("Input", "pydantic", "http", "valid", "None", "type="))
