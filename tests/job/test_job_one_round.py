"""Every mistake of a job is told in one round: references too, where what they are about could be read."""

from pathlib import Path

import pytest

from ferrule.document import Unreadable
from ferrule.job.load import load
from houses import EXAMPLES

HOUSE = EXAMPLES / "meter-led"


def told(folder: Path, *changes: tuple[str, str], house: str = "meter-led") -> list[str]:
    """What is said of the demo house after these changes of its text; the first of each text only."""
    text = (EXAMPLES / house / "job.yaml").read_text()
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    home = folder / "house"
    home.mkdir(exist_ok=True)
    if not (folder / "parts").exists():
        (folder / "parts").symlink_to(EXAMPLES / "parts")
    (home / "firm.yaml").write_text((EXAMPLES / "firm.yaml").read_text())
    (home / "job.yaml").write_text(text.replace("../firm.yaml", "firm.yaml"))
    with pytest.raises(Unreadable) as refused:
        load(home / "job.yaml")
    return [f"{each.found}; {each.hint}" for each in refused.value.problems]


REFERENCES = [
    ("input: INV1.PV1", "input: INV1.PV7"),
    ("    to: EM\n", "    to: EN\n"),
    ("run: R-cooker", "run: R-coker"),
    ("cable: battery-flex", "cable: batery-flex"),
    ("firm: ../firm.yaml", "firm: none.yaml"),
]
WRONG = [
    "'INV1.PV7'; INV1.PV2", "'EN'; ", "'batery-flex'; ", "'R-coker'; R-cooker",
]  # fmt: skip
NO_FIRM = "nothing to read (No such file or directory); "


def test_references_alone(tmp_path: Path) -> None:
    assert told(tmp_path, *REFERENCES) == [*WRONG, NO_FIRM]


@pytest.mark.parametrize(
    ("change", "found"),
    [
        (("rating: 32 A", "rating: 32 V"), "'32 V'; "),
        (("earth:\n  electrode", "earth:\n  elektrode"), "unknown key 'elektrode'; electrode"),
        (("architecture: meter-led", "architecture: meterled"), "'meterled'; meter-led"),
        (("rulebook: iec-2024\n", ""), "no value for 'rulebook'; "),
        (("voltage: 230 V", "voltage: 230 A"), "'230 A'; "),
        (("size: 16 mm²", "size: 17 mm²\n    size: 16 mm²"), "key 'size' again; "),
    ],
    ids=["unit", "key", "architecture", "missing", "supply", "key twice"],
)
def test_references_are_told_beside_a_slip_elsewhere(
    tmp_path: Path, change: tuple[str, str], found: str
) -> None:
    said = told(tmp_path, change, *REFERENCES)
    assert sorted(said) == sorted([found, *WRONG, NO_FIRM])


@pytest.mark.parametrize(
    ("change", "found"),
    [
        (("    run: R-cooker\n", "    rn: R-cooker\n"), ["unknown key 'rn'; run", "no value for 'run'; "]),
        (("loads: [{name: hob", "lods: [{name: hob"), ["unknown key 'lods'; loads"]),
        (("loads: [{name: hob and oven,", "loads: [{nam: hob and oven,"), ["unknown key 'nam'; name",
                                                                        "no value for 'name'; "]),
        (("kind: meter,", "kind: metr,"), ["'metr'; meter"]),
        (("part: example-hybrid-6k-single", "prt: example-hybrid-6k-single"),
         ["unknown key 'prt'; part", "no value for 'part'; "]),
        (("  - id: MB\n", "  - di: MB\n"), ["unknown key 'di'; ", "no value for 'id'; "]),
        (("name: L1,", "nme: L1,"), ["unknown key 'nme'; name", "no value for 'name'; "]),
        (("faces:", "face:"), ["unknown key 'face'; faces"]),
        (("runs:", "run:"), ["unknown key 'run'; runs", "no value for 'runs'; "]),
        (("boards:", "runs: []\nboards:"), ["key 'runs' again; "]),
    ],
    ids=["run", "loads", "load", "meter", "part", "board", "line", "faces", "runs", "runs twice"],
)  # fmt: skip
def test_nothing_is_missed_that_only_could_not_be_read(
    tmp_path: Path, change: tuple[str, str], found: list[str]
) -> None:
    assert sorted(told(tmp_path, change)) == sorted(found)


def test_an_inverter_with_a_mistyped_part_keeps_its_inputs(tmp_path: Path) -> None:
    assert told(tmp_path, ("part: example-hybrid-6k-single", "part: example-hybrid-6k-singel")) == [
        "'example-hybrid-6k-singel'; "
    ]


def test_a_part_file_with_mistakes_is_told_with_the_rest_and_not_missed(tmp_path: Path) -> None:
    parts = tmp_path / "parts"
    parts.mkdir()
    for file in (EXAMPLES / "parts").glob("*.yaml"):
        text = file.read_text()
        if file.stem == "example-hybrid-6k-single":
            text = text.replace("phases: ", "phasen: ")
        (parts / file.name).write_text(text)
    said = told(tmp_path, ("run: R-cooker", "run: R-coker"))
    assert said == ["'R-coker'; R-cooker", "no value for 'phases'; ", "unknown key 'phasen'; phases"]
