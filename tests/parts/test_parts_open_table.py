"""Modules from the open table: the file's form, what a part takes from it, and what stays unknown."""

from importlib import metadata
from pathlib import Path

import pytest

from ferrule.document import parse
from ferrule.fact import Unknown
from ferrule.parts import Module, open_table
from ferrule.parts.coefficient import Coefficient
from ferrule.parts.library import PartFile
from parts.table import HEAD, ROWS


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "example-cec-modules-2020-01-02.csv"
    path.write_text(HEAD + ROWS.format(technology="Mono-c-Si"), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("example", ["Example Works EX-60 Été 250/B", "Example Works EX-72 300"]),
        ("EX-72", ["Example Works EX-72 300"]),
        ("300 works", ["Example Works EX-72 300"]),
        ("été", ["Example Works EX-60 Été 250/B"]),
        ("Units", []),
        ("[0]", []),
        ("nobody", []),
    ],
)
def test_a_module_is_found_by_words_of_its_name(table: Path, text: str, names: list[str]) -> None:
    assert [entry.name for entry in open_table.find(text, table)] == names


def test_an_id_is_plain_letters_and_digits(table: Path) -> None:
    ids = [entry.id for entry in open_table.find("", table)]
    assert ids == ["example-works-ex-60-ete-250-b", "example-works-ex-72-300"]


def test_a_part_has_the_tables_figures_with_their_units(table: Path) -> None:
    entry, _ = open_table.find("", table)
    module = Module.model_validate(
        {
            key: Unknown(each["unknown"]) if isinstance(each, dict) else each
            for key, each in entry.part().items()
        }
    )
    assert module.technology == "mono"
    stated = (module.power_w, module.voc_v, module.isc_a, module.vmp_v, module.imp_a, module.noct_c)
    assert stated == (250.128, 37.9, 8.7, 30.504, 8.2, 45.5)
    assert module.voc_coefficient == Coefficient(-0.1251, "V/K")
    assert module.isc_coefficient == Coefficient(0.0044, "A/K")
    assert module.power_coefficient == Coefficient(-0.43, "%/K")


def test_a_part_says_where_it_comes_from(table: Path) -> None:
    entry, _ = open_table.find("", table)
    assert entry.part()["source"] == (
        "open module table of the California Energy Commission: example-cec-modules-2020-01-02.csv "
        f"(issue 3, 2/1/2020), as carried by pvlib {metadata.version('pvlib')}"
    )


def test_what_the_table_lacks_is_unknown_with_what_to_find_out(table: Path) -> None:
    entry, _ = open_table.find("", table)
    unknown = {key: value["unknown"] for key, value in entry.part().items() if isinstance(value, dict)}
    assert unknown == {
        "series_fuse_max": "maximum series fuse rating, from the module's label",
        "system_voltage_max": "maximum system voltage, from the module's label",
        "plugs": "family of the plugs on the module's leads, from its sheet: only plugs of one family mate",
        "connector_voltage_max": "rated voltage of the module's connectors",
        "length": "length of the module's long side, from its sheet",
        "width": "length of the module's short side, from its sheet",
        "mass": "mass of the module, from its sheet",
        "clamps": "where its frame may be clamped, from its manual",
        "bypass_diodes": "number of bypass diodes, from the module's sheet",
    }


@pytest.mark.parametrize(
    ("written", "technology"),
    [
        ("Mono-c-Si", "mono"),
        ("Multi-c-Si", "poly"),
        ("Thin Film", "thin-film"),
        ("CdTe", "thin-film"),
        ("CIGS", "thin-film"),
    ],
)
def test_the_tables_technologies(tmp_path: Path, written: str, technology: str) -> None:
    path = tmp_path / "table.csv"
    path.write_text(HEAD + ROWS.format(technology=written), encoding="utf-8")
    assert {entry.part()["technology"] for entry in open_table.find("", path)} == {technology}


def test_where_the_table_is_missing_it_is_said_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(open_table, "find_spec", lambda _name: None)
    with pytest.raises(open_table.TableMissing, match=r"pip install 'ferrule\[pv\]'"):
        open_table.find("any")


@pytest.fixture(scope="module")
def whole() -> list[open_table.Entry]:
    """The real table, as pvlib carries it."""
    return open_table.find("")


def test_the_real_table_has_the_modules_its_publisher_counts(whole: list[open_table.Entry]) -> None:
    """The table of 2019-03-05 has 21 535 modules, each name once."""
    assert len(whole) == 21_535
    assert len({entry.name for entry in whole}) == 21_535


@pytest.mark.parametrize("technology", ["mono", "poly", "thin-film"])
def test_a_module_of_the_real_table_makes_a_part_file_that_reads(
    whole: list[open_table.Entry], technology: str
) -> None:
    entry = next(entry for entry in whole if entry.part()["technology"] == technology)
    lines = [f"  {key}: {_flow(value)}" for key, value in entry.part().items()]
    module = parse("\n".join(["ferrule: 1", "part:", *lines]), PartFile).value.part
    assert isinstance(module, Module)
    assert module.technology == technology
    voc_v, vmp_v = module.voc_v, module.vmp_v
    assert not isinstance(voc_v, Unknown)
    assert not isinstance(vmp_v, Unknown)
    assert 0 < vmp_v < voc_v < 300
    assert isinstance(module.series_fuse_max_a, Unknown)
    assert isinstance(module.system_voltage_max_v, Unknown)


def _flow(value: object) -> str:
    if isinstance(value, dict):
        return f'{{unknown: "{value["unknown"]}"}}'
    return f'"{value}"'
