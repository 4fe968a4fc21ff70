"""Whatever becomes of a job file: the check ends with one of its four codes, and never with a traceback.

What is unreadable is told with file, line and column.
"""

import contextlib
import io
import re
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ferrule.cli import main
from houses import EXAMPLES

TEXTS = {
    house: (EXAMPLES / house / "job.yaml").read_text()
    for house in ("meter-led", "controller-led", "changeover-led")
}
WORDS = sorted({word for text in TEXTS.values() for word in re.findall(r"[\w.°²/%+-]+", text)})
PLACE = re.compile(r".+:\d+:\d+: found .+; allowed: .+")


def check(text: str, *options: str) -> int:
    """The exit code of a check of that text, put where the demo houses are; the other files as they are."""
    with tempfile.TemporaryDirectory() as folder:
        house = Path(folder, "house")
        house.mkdir()
        Path(folder, "parts").symlink_to(EXAMPLES / "parts")
        Path(folder, "firm.yaml").symlink_to(EXAMPLES / "firm.yaml")
        file = house / "job.yaml"
        file.write_text(text, encoding="utf-8")
        out, err = io.StringIO(), io.StringIO()
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = main(["check", str(file), *options])
    assert code in {0, 1, 2, 3}
    if code == 2:
        assert out.getvalue() == ""
        *lines, last = err.getvalue().splitlines()
        assert all(PLACE.fullmatch(line) for line in lines)
        assert PLACE.fullmatch(last) or re.fullmatch(r"and \d+ more", last)
    else:
        assert err.getvalue() == ""
        assert out.getvalue()
    return code


@pytest.mark.parametrize("house", TEXTS)
def test_the_houses_themselves_read(house: str) -> None:
    assert check(TEXTS[house]) in {0, 3}


houses = st.sampled_from(sorted(TEXTS))


@settings(max_examples=30, deadline=None)
@given(house=houses, data=st.data())
def test_lines_left_out_doubled_or_moved(house: str, data: st.DataObject) -> None:
    lines = TEXTS[house].splitlines(keepends=True)
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(lines) - 1))
        kind = data.draw(st.sampled_from(["drop", "double", "move", "indent"]))
        if kind == "drop":
            del lines[at]
        elif kind == "double":
            lines.insert(at, lines[at])
        elif kind == "move":
            lines.insert(data.draw(st.integers(0, len(lines) - 1)), lines.pop(at))
        else:
            lines[at] = "  " + lines[at]
        if not lines:
            break
    check("".join(lines))


@settings(max_examples=50, deadline=None)
@given(house=houses, data=st.data())
def test_values_swapped_for_others_of_the_file(house: str, data: st.DataObject) -> None:
    text = TEXTS[house]
    spots = [match.span() for match in re.finditer(r"(?<=: )[^\n,}\]{\[#]+", text)]
    for start, end in sorted(
        data.draw(st.lists(st.sampled_from(spots), min_size=1, max_size=4)), reverse=True
    ):
        text = text[:start] + data.draw(st.sampled_from(WORDS)) + text[end:]
    check(text, *data.draw(st.sampled_from([(), ("--json",)])))


NUMBER = re.compile(r"(?<=[ :])-?\d+(\.\d+)?(?= ?(?:mm²|kVA|kA|kW|°C|Ω|A|V|m|W|%|°)\b)")
SIZES = ["0", "0.001", "1e-14", "0.7", "3", "60", "999", "4e3"]
ODD = ["-1", "1e9", "1e999", "nan", "½", "1,5", "--2"]


@settings(max_examples=50, deadline=None)
@given(house=houses, data=st.data())
def test_quantities_of_odd_size(house: str, data: st.DataObject) -> None:
    text = TEXTS[house]
    spots = [match.span() for match in NUMBER.finditer(text)]
    sizes = st.sampled_from(data.draw(st.sampled_from([SIZES, SIZES, [*SIZES, *ODD]])))
    for start, end in sorted(
        data.draw(st.lists(st.sampled_from(spots), min_size=1, max_size=3)), reverse=True
    ):
        text = text[:start] + data.draw(sizes) + text[end:]
    check(text, *data.draw(st.sampled_from([(), ("--json",)])))


NAMES = "id|kind|part|name|from|to|cable|run|face|input|module|modules|type|residual|role|place|firm"
FACT = re.compile(rf"(?<=[ {{])(?!(?:{NAMES}):)[a-z_]+: ([^\n,}}\]{{\[#]+|\{{value[^}}]*\}})")


@settings(max_examples=50, deadline=None)
@given(house=houses, data=st.data())
def test_facts_made_unknown(house: str, data: st.DataObject) -> None:
    """A value, whatever it was, replaced by what a survey would leave."""
    text = TEXTS[house]
    spots = [match.span(1) for match in FACT.finditer(text)]
    for start, end in sorted(
        data.draw(st.sets(st.sampled_from(spots), min_size=1, max_size=4)), reverse=True
    ):
        text = (
            text[:start]
            + data.draw(st.sampled_from(["unknown", '{unknown: "ask again"}', "open"]))
            + text[end:]
        )
    check(text, *data.draw(st.sampled_from([(), ("--json",)])))


@settings(max_examples=30, deadline=None)
@given(
    house=houses,
    place=st.integers(0, 6_000),
    removed=st.integers(0, 40),
    new=st.text(alphabet="\n\t :-[]{},&*!|>'\"%@`#?~\\0aé", max_size=6),
)
def test_garbled_text(house: str, place: int, removed: int, new: str) -> None:
    text = TEXTS[house]
    check(text[:place] + new + text[place + removed :])
