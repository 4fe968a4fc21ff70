"""`ferrule wall`."""

import json
from pathlib import Path

from cli.command import Ferrule
from ferrule.job.starter import starter
from houses import EXAMPLES

HOUSE = EXAMPLES / "meter-led" / "job.yaml"


def test_a_person_reads_where_to_mark_out(ferrule: Ferrule) -> None:
    ended = ferrule("wall", HOUSE)
    assert (ended.code, ended.err) == (0, "")
    assert "U-north, in utility: 5000 mm wide, 2400 mm high" in ended.out
    assert "     900    1360    1250    1800   INV1" in ended.out
    assert "left 250 to main board, right 440 to backup board" in ended.out


def test_a_program_reads_rectangles_and_gaps(ferrule: Ferrule) -> None:
    (wall,) = json.loads(ferrule("wall", HOUSE, "--json").out)
    inverter = next(item for item in wall["items"] if item["name"] == "INV1")
    assert inverter["rectangle_mm"] == {"left_mm": 900, "bottom_mm": 1250, "right_mm": 1360, "top_mm": 1800}
    assert all(900 <= x <= 1360 and 1250 <= y <= 1800 for x, y in inverter["holes_mm"])
    assert inverter["free"]["below"] == {"mm": 1250, "to": "the floor"}


def test_hidden_services_are_on_it(ferrule: Ferrule) -> None:
    walls = json.loads(ferrule("wall", EXAMPLES / "changeover-led" / "job.yaml", "--json").out)
    assert "keep clear" in {item["name"] for item in walls[0]["items"]}


def test_what_was_not_measured_is_asked_for(ferrule: Ferrule, tmp_path: Path) -> None:
    file = tmp_path / "job.yaml"
    file.write_text(starter("meter-led"), encoding="utf-8")
    ended = ferrule("wall", file)
    assert ended.code == 3
    assert "find out: doors, windows and vents in the wall" in ended.out


def _moved(tmp_path: Path, old: str, new: str) -> Path:
    text = HOUSE.read_text(encoding="utf-8")
    assert old in text
    text = text.replace(old, new).replace("firm: ../firm.yaml", f"firm: {EXAMPLES / 'firm.yaml'}")
    file = tmp_path / "job.yaml"
    file.write_text(text, encoding="utf-8")
    (tmp_path / "parts").symlink_to(EXAMPLES / "parts")
    return file


def test_an_overlap_is_told_in_words_and_ends_with_1(ferrule: Ferrule, tmp_path: Path) -> None:
    """The main board reaches 650 mm; the inverter is hung from 620 mm on."""
    ended = ferrule(
        "wall", _moved(tmp_path, "left: 900 mm, bottom: 1250 mm", "left: 620 mm, bottom: 1250 mm")
    )
    assert ended.code == 1
    assert "INV1: overlap of 30 mm with main board" in ended.out


def test_beyond_the_end_of_the_wall_nothing_is_free(ferrule: Ferrule, tmp_path: Path) -> None:
    """The inverter is 460 mm wide, the wall 5000 mm."""
    file = _moved(tmp_path, "left: 900 mm, bottom: 1250 mm", "left: 4590 mm, bottom: 2050 mm")
    ended = ferrule("wall", file)
    assert ended.code == 1
    assert "INV1: overlap of 200 mm with the end of the wall" in ended.out
    assert "-" not in ended.out.split("INV1", 1)[1].split("holes", 1)[0]
