"""`ferrule array`."""

import json

from cli.command import Ferrule
from houses import EXAMPLES

HOUSE = EXAMPLES / "meter-led" / "job.yaml"


def test_a_person_reads_where_hooks_go_and_what_it_takes(ferrule: Ferrule) -> None:
    ended = ferrule("array", HOUSE)
    assert (ended.code, ended.err) == (0, "")
    assert "south, example-hook-rail" in ended.out
    assert "hooks at 1200, 2000, 2800, 3600, 4400, 5200, 6000, 6800, 7600 mm" in ended.out
    assert "    36  hooks" in ended.out


def test_a_program_reads_the_same(ferrule: Ferrule) -> None:
    south, west = json.loads(ferrule("array", HOUSE, "--json").out)
    assert south["blocks"][0]["parts"]["hooks"] == 36
    assert west["blocks"][0]["rails"][0]["hooks_mm"] == [1200, 2000, 2800, 3600, 4400, 5200]


def test_a_face_that_fails_says_so_above_its_list(ferrule: Ferrule) -> None:
    ended = ferrule("array", EXAMPLES / "meter-led" / "faulty.yaml")
    assert ended.code == 1
    assert "  stop: face.blocks; buy and build nothing for it yet" in ended.out
