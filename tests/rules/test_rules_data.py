"""The rulebooks themselves: everything loads, and tables run the way their physics runs."""

from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from ferrule import rules
from ferrule.quantity import Size
from ferrule.rules.entry import Figure, Series, Table
from ferrule.rules.reading import parse
from ferrule.rules.rulebook import Rulebook

IEC = rules.load("iec-2024")
NEC = rules.load("us-2023")
BOTH = pytest.mark.parametrize("book", [IEC, NEC], ids=["iec-2024", "us-2023"])
EACH = pytest.mark.parametrize("book", [*map(rules.load, rules.editions())], ids=rules.editions())

CAPACITIES = ["capacity_pvc_2", "capacity_pvc_3", "capacity_xlpe_2", "capacity_xlpe_3"]
IN_AIR = ["capacity_air_pvc", "capacity_air_xlpe"]


def table(book: Rulebook, name: str) -> Table:
    entry = book.entry(name)
    assert isinstance(entry, Table)
    return entry


def column(book: Rulebook, name: str, of: str | None = None) -> list[float]:
    """A table's column from its first row to its last, leaving out what is not printed."""
    whole = table(book, name)
    at = whole.columns.index(of) if of else 0
    return [float(value) for row in whole.cells if (value := row[at]) is not None]


METHODS = table(IEC, "capacity_pvc_2").columns
IN_AIR_METHODS = table(IEC, "capacity_air_pvc").columns


def rising(values: list[float]) -> bool:
    return all(low < high for low, high in pairwise(values))


def test_the_editions_are_known() -> None:
    assert rules.editions() == ["aunz-2024", "iec-2024", "uk-2022", "us-2023"]
    assert (IEC.family, NEC.family) == ("iec60364", "nec")
    with pytest.raises(
        rules.RulebookError,
        match="there is no rulebook 'mars-1'; there are aunz-2024, iec-2024, uk-2022, us-2023",
    ):
        rules.load("mars-1")


@pytest.mark.parametrize("edition", rules.editions())
def test_every_file_loads_with_its_sources_and_grades(edition: str) -> None:
    assert rules.problems(edition) == []


def heading(file: Path) -> Mapping[str, Any]:
    return parse(file.name, 0, file.read_text(encoding="utf-8"))


@EACH
def test_every_declared_source_is_used(book: Rulebook) -> None:
    folder = Path(rules.__file__).parent
    head = heading(folder / book.edition / "rulebook.yaml")
    volumes = [heading(folder / name / "volume.yaml") for name in head["includes"]]
    declared = [source for each in (head, *volumes) for source in each["sources"].values()]
    entries = [book.entry(name) for name in book.names()]
    read = [
        source
        for entry in entries
        for source in (
            (entry.low.source, entry.high.source) if isinstance(entry, Figure) else (entry.source,)
        )
    ]
    assert {source["document"] for source in declared} == {source.document for source in read}


def test_a_rulebook_is_read_once_and_confirmed_for_one_reader_only(tmp_path: Path) -> None:
    file = tmp_path / "confirmed.yaml"
    rules.confirm(file, "iec-2024", "battery_drop_should", by="A. Reader", page="p. 3", date="2026-11-25")
    confirmed = rules.load("iec-2024", rules.read_confirmed(file))
    assert confirmed.figure("battery_drop_should").grade.word == "confirmed"
    assert rules.load("iec-2024").figure("battery_drop_should").grade.word == "memory"
    assert rules.load("us-2023", rules.read_confirmed(file)) is rules.load("us-2023")


@pytest.mark.parametrize("name", [*CAPACITIES, *IN_AIR, "pv_cable_capacity"])
def test_a_thicker_conductor_carries_more(name: str) -> None:
    assert all(rising(column(IEC, name, of)) for of in table(IEC, name).columns)


def test_a_thicker_american_conductor_carries_more_and_resists_less() -> None:
    assert all(rising(column(NEC, "capacity_copper", of)) for of in ("60", "75", "90"))
    assert all(rising(column(NEC, "conductor_resistance", of)[::-1]) for of in ("cu", "cu_coated", "al"))
    assert rising(column(NEC, "conductor_area"))


@pytest.mark.parametrize("of", table(IEC, "conductor_resistance").columns)
def test_a_thicker_conductor_resists_less(of: str) -> None:
    assert rising(column(IEC, "conductor_resistance", of)[::-1])


@pytest.mark.parametrize(
    ("less", "more"),
    [
        *((f"{name}/A2", f"{name}/A1") for name in CAPACITIES),
        *((f"{name}/B2", f"{name}/B1") for name in CAPACITIES),
        *((f"{name}/A1", f"{name}/B1") for name in CAPACITIES),
        *((f"{name}/B1", f"{name}/C") for name in CAPACITIES),
        *((f"capacity_{i}_3/{m}", f"capacity_{i}_2/{m}") for i in ("pvc", "xlpe") for m in METHODS),
        *((f"capacity_pvc_{n}/{m}", f"capacity_xlpe_{n}/{m}") for n in "23" for m in METHODS),
        *((f"capacity_{i}_{n}/C", f"capacity_air_{i}/E_{n}") for i in ("pvc", "xlpe") for n in "23"),
        *((f"{name}/E_3", f"{name}/E_2") for name in IN_AIR),
        *((f"{name}/F_3_trefoil", f"{name}/F_3_flat") for name in IN_AIR),
        *((f"{name}/F_3_flat", f"{name}/G_3_vertical") for name in IN_AIR),
        *((f"{name}/G_3_vertical", f"{name}/G_3_horizontal") for name in IN_AIR),
        *((f"capacity_air_pvc/{m}", f"capacity_air_xlpe/{m}") for m in IN_AIR_METHODS),
        ("pv_cable_capacity/touching", "pv_cable_capacity/surface"),
        ("pv_cable_capacity/surface", "pv_cable_capacity/free"),
        ("pv_cable_temperature_factor/square_root", "pv_cable_temperature_factor/en50618"),
        ("conductor_resistance/cu_class2", "conductor_resistance/cu_class2_tinned"),
        ("conductor_resistance/cu_class5", "conductor_resistance/cu_class5_tinned"),
        ("conductor_resistance/cu_class2", "conductor_resistance/al_class2"),
        ("grouping_factor/bunched", "grouping_factor/wall"),
        ("grouping_factor/ceiling", "grouping_factor/wall"),
        ("grouping_factor/wall", "grouping_factor/ladder"),
        ("grouping_factor_ground/direct", "grouping_factor_ground/duct_single_core"),
        ("grouping_factor_ground/duct_single_core", "grouping_factor_ground/duct_multicore"),
        ("disconnection_time_ac/TT", "disconnection_time_ac/TN"),
        ("disconnection_time_dc/TT", "disconnection_time_dc/TN"),
        ("breaker_trip/no_trip", "breaker_trip/trip"),
        ("conventional_current/no_trip", "conventional_current/trip"),
        ("adiabatic_temperature/start", "adiabatic_temperature/final"),
        ("insulation_temperature/operating", "insulation_temperature/short_circuit"),
        ("voltage_drop_limit/lighting", "voltage_drop_limit/other"),
        ("adiabatic_k/al", "adiabatic_k/cu"),
        ("adiabatic_k/steel", "adiabatic_k/al"),
        *((f"lift_filter/{who}_far", f"lift_filter/{who}_close") for who in ("man", "woman")),
        *((f"lift_filter/woman_{reach}", f"lift_filter/man_{reach}") for reach in ("close", "far")),
        *((f"niosh_frequency/{d}_low", f"niosh_frequency/{d}_high") for d in ("short", "moderate", "long")),
        *((f"niosh_frequency/moderate_{v}", f"niosh_frequency/short_{v}") for v in ("low", "high")),
        *((f"niosh_frequency/long_{v}", f"niosh_frequency/moderate_{v}") for v in ("low", "high")),
        ("niosh_coupling/low", "niosh_coupling/high"),
    ],
)  # fmt: skip
def test_one_column_never_exceeds_another(less: str, more: str) -> None:
    (low_table, low), (high_table, high) = less.split("/"), more.split("/")
    first, second = table(IEC, low_table), table(IEC, high_table)
    compared = 0
    for row in first.rows:
        if row not in second.rows:
            continue
        one = first.cells[first.rows.index(row)][first.columns.index(low)]
        other = second.cells[second.rows.index(row)][second.columns.index(high)]
        if one is not None and other is not None:
            assert float(one) <= float(other), row
            compared += 1
    assert compared >= 2


@pytest.mark.parametrize(
    "name",
    ["air_temperature_factor", "ground_temperature_factor", "soil_resistivity_factor", "grouping_factor",
     "grouping_factor_ground", "pv_cable_temperature_factor", "disconnection_time_ac",
     "disconnection_time_dc", "niosh_frequency", "niosh_coupling", "lift_team"],
)  # fmt: skip
def test_a_factor_or_time_never_grows_along_its_rows(name: str) -> None:
    for of in table(IEC, name).columns:
        assert all(higher >= lower for higher, lower in pairwise(column(IEC, name, of)))


@BOTH
def test_the_cold_factor_falls_with_warmth_and_steps_to_the_colder_row(book: Rulebook) -> None:
    assert rising(column(book, "cold_voltage_factor")[::-1])
    at = [
        float(book.cell("cold_voltage_factor", coldest).value) for coldest in (30, 24, 20, 19, -5, -5.4, -40)
    ]
    assert at == [1.02, 1.02, 1.02, 1.04, 1.12, 1.14, 1.25]


def test_a_voltage_band_ends_at_its_row() -> None:
    times = {
        volts: IEC.cell("disconnection_time_ac", volts, "TN").value for volts in (60, 120, 230, 231, 400, 690)
    }
    assert times == {60: 0.8, 120: 0.8, 230: 0.4, 231: 0.2, 400: 0.2, 690: 0.1}


def test_k_and_its_temperatures_speak_of_the_same_conductors() -> None:
    assert table(IEC, "adiabatic_k").rows == table(IEC, "adiabatic_temperature").rows


@BOTH
def test_conductor_sizes_rise_and_have_a_row_in_every_table_that_is_read_by_size(book: Rulebook) -> None:
    sizes = [Size.parse(text) for text in book.series("conductor_sizes").words()]
    assert rising([size.area_mm2 for size in sizes])
    read_by_size = (
        ["conductor_resistance", "capacity_copper", "conductor_area"]
        if book is NEC
        else ["conductor_resistance", *CAPACITIES, *IN_AIR]
    )
    for name in read_by_size:
        assert {size.name for size in sizes} <= set(table(book, name).rows)


def test_pv_cable_sizes_have_a_capacity() -> None:
    sizes = [Size.parse(text) for text in IEC.series("pv_cable_sizes").words()]
    assert rising([size.area_mm2 for size in sizes])
    assert {size.name for size in sizes} <= set(table(IEC, "pv_cable_capacity").rows)


def test_a_small_american_conductor_may_not_have_a_device_beyond_its_own_capacity() -> None:
    limit = table(NEC, "small_conductor_limit")
    for size in ("14", "12", "10"):
        assert float(NEC.cell("small_conductor_limit", size).value) <= float(
            NEC.cell("capacity_copper", size, "60").value
        ), limit.title


@pytest.mark.parametrize("device", [15, 16, 20, 25, 60, 61, 100, 600])
def test_a_larger_device_never_has_a_thinner_grounding_conductor(device: int) -> None:
    gauge = float(NEC.cell("equipment_grounding", device).value)
    assert gauge >= float(NEC.cell("equipment_grounding", min(600, device + 1)).value)
    assert f"{gauge:g}" in table(NEC, "conductor_area").rows


@BOTH
def test_what_both_rulebooks_name_is_of_one_kind(book: Rulebook) -> None:
    other = NEC if book is IEC else IEC
    for name in set(book.names()) & set(other.names()):
        assert type(book.entry(name)) is type(other.entry(name)), name


@BOTH
def test_a_title_is_one_line_without_a_full_stop(book: Rulebook) -> None:
    for name in book.names():
        title = book.entry(name).title
        assert title[0].isupper(), name
        assert not title.endswith("."), name
        assert "\n" not in title, name


@BOTH
def test_rated_values_offered_can_be_bought_in_rising_order(book: Rulebook) -> None:
    for name in book.names():
        entry = book.entry(name)
        if isinstance(entry, Series) and entry.unit not in {"word", "size"}:
            assert rising(list(entry.numbers())), name
