"""`ferrule steps` and `ferrule isolation`: by moment, by place, in two languages."""

import json
from pathlib import Path

import yaml

from cli.command import Ferrule
from houses import EXAMPLES

HOUSE = EXAMPLES / "meter-led" / "job.yaml"


def without_order(folder: Path) -> Path:
    """The house with an inverter whose sheet tells no order of starting."""
    (folder / "parts").symlink_to(EXAMPLES / "parts")
    written = yaml.safe_load(HOUSE.read_text())
    written["firm"] = str(EXAMPLES / "firm.yaml")
    part = yaml.safe_load((EXAMPLES / "parts" / "example-hybrid-6k-single.yaml").read_text())["part"]
    del part["start_order"]
    written["parts"] = [part]
    file = folder / "job.yaml"
    file.write_text(yaml.safe_dump(written, allow_unicode=True, sort_keys=False))
    return file


def test_by_moment_in_the_order_of_the_day(ferrule: Ferrule) -> None:
    ended = ferrule("steps", HOUSE)
    assert (ended.code, ended.err) == (0, "")
    heads = [
        "Safety",
        "Delivery",
        "Isolate, lock, prove dead",
        "Earth first",
        "Strings",
        "Energise",
        "Hand over",
    ]
    lines = ended.out.splitlines()
    at = [lines.index(head) for head in heads]
    assert at == sorted(at)
    assert "Local rules" in ended.out


def test_at_one_place_only_what_is_done_there(ferrule: Ferrule) -> None:
    roof = json.loads(ferrule("steps", HOUSE, "--place", "roof", "--json").out)
    every = json.loads(ferrule("steps", HOUSE, "--json").out)
    assert roof == [step for step in every if step["place"] == "roof"]
    assert 0 < len(roof) < len(every)
    assert "Energise" not in ferrule("steps", HOUSE, "--place", "roof").out


def test_in_the_other_language(ferrule: Ferrule) -> None:
    ended = ferrule("steps", HOUSE, "--language", "de")
    assert "Erde zuerst" in ended.out
    assert "Earth first" not in ended.out
    ids = [[s["id"] for s in json.loads(ferrule("steps", HOUSE, "--json", "--language", each).out)]
           for each in ("en", "de")]  # fmt: skip
    assert ids[0] == ids[1]


def test_what_is_blocked_says_what_to_find_out(ferrule: Ferrule, tmp_path: Path) -> None:
    file = without_order(tmp_path)
    ended = ferrule("steps", file)
    assert ended.code == 3
    flat = " ".join(ended.out.split())
    assert "blocked, find out first: order of starting, from the manual" in flat
    plain = {step["id"]: step for step in json.loads(ferrule("steps", file, "--json").out)}
    assert plain["run/INV1"]["find_out"] == ["order of starting, from the manual"]
    assert plain["state/house"]["find_out"] == []
    assert plain["state/house"]["waits_for"] == ["order of starting, from the manual"]


def test_the_isolation_record_of_a_place(ferrule: Ferrule) -> None:
    ended = ferrule("isolation", HOUSE, "--place", "battery")
    assert (ended.code, ended.err) == (0, "")
    assert "battery  battery/BAT" in ended.out
    assert "isolator beside battery BAT" in ended.out
    assert "capacitors of INV1: wait 300 s, then measure" in ended.out
    assert "board/MB" not in ended.out
    german = ferrule("isolation", HOUSE, "--place", "battery", "--language", "de").out
    assert "Kondensatoren von INV1: 300 s warten, dann messen" in german


def test_the_supplier_is_booked_where_the_crew_can_open_nothing(ferrule: Ferrule) -> None:
    records = {each["area"]: each for each in json.loads(ferrule("isolation", HOUSE, "--json").out)}
    assert records["board/MB"]["book_supplier"]
    assert not records["board/BB"]["book_supplier"]
    assert records["inverter/INV1"]["prove"] == ["tester-before", "pairs", "tester-after"]
    assert [point["who"] for point in records["board/MB"]["points"]].count("supplier") == 1


def test_a_job_that_is_not_cleared_says_so_at_its_head(ferrule: Ferrule) -> None:
    faulty = ferrule("steps", EXAMPLES / "meter-led" / "faulty.yaml").out.splitlines()
    assert faulty[1].startswith("Not cleared to build")
    assert "Not cleared" not in ferrule("steps", HOUSE).out
