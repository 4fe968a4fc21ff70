"""The catalogue of texts: what the papers ask for is there, and what is there is asked for."""

import re
from pathlib import Path

import ferrule.sheets
from ferrule.sheets.pack import CHAPTERS
from ferrule.sheets.texts import catalogue, say

_ASKED = re.compile(r'say\(\s*"([a-z_.]+)"')


def test_every_text_is_used_and_every_text_used_is_there() -> None:
    code = "".join(file.read_text() for file in Path(ferrule.sheets.__file__).parent.glob("*.py"))
    #: whose ids are put together
    families = (
        "beside.", "chapter.", "cuts.", "difference.", "findings.", "goods.", "group.", "kind.", "order.",
        "pocket.", "ruling.", "safety.", "van.", "wall_side.",
    )  # fmt: skip
    asked = set(_ASKED.findall(code))
    known = set(catalogue("en"))
    assert asked <= known
    assert {each for each in known - asked if not each.startswith(families)} == set()


def test_every_chapter_has_a_title() -> None:
    assert all(say(f"chapter.{chapter}") for chapter in CHAPTERS)


def test_what_is_put_in_stays_as_it_is() -> None:
    assert say("pack.foot", revision="{0.__class__} {x}") == "revision {0.__class__} {x}"
