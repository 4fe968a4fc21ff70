"""Houses of many shapes: what is planned has no fault, and no conductor of it can be missing unseen."""

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

import houses
from ferrule.checks.wired import Wired, wired
from ferrule.design import Design, House
from ferrule.wiring.proof import faults, faults_of_metal
from ferrule.wiring.recipes import topology

LINES = ["L1", "L2", "L3"]
RCD = {"type": "A", "residual": "30 mA", "rating": "16 A", "direction": "both", "all_poles": True}
FUSE = {"rating": "20 A", "voltage_max": "1000 V", "breaking_capacity": "10 kA", "poles": "both"}
SURGE = {"type": "2", "voltage_max": "1000 V", "nominal": "20 kA", "places": "inverter"}
EARTHINGS: list[dict[str, Any]] = [
    *({"supply.earthing": each} for each in ("TN-S", "TN-C", "TT", "IT")),
    *({"supply.earthing": "TN-C-S", "supply.pen_split": each} for each in ("supply", "board")),
]
CIRCUITS = {
    "meter-led": {"MB": ["C-cooker", "C-sockets", "C-upstairs"], "BB": ["C-fridge", "C-light"]},
    "controller-led": {"MB": ["C-kitchen", "C-hob", "C-light"], "GB": ["C-charger"]},
    "changeover-led": {"MB": ["C-stove", "C-sockets"], "BB": ["C-heating", "C-cold", "C-light", "C-pump"]},
}
FEEDERS = {
    "meter-led": ["MB.circuits.C-inverter"],
    "controller-led": [
        "MB.circuits.C-SC", "MB.circuits.C-garage", "GB.circuits.C-INV1", "GB.circuits.C-INV2",
    ],
    "changeover-led": ["MB.circuits.C-INV1", "MB.circuits.C-changeover"],
}  # fmt: skip
INPUTS = {
    "meter-led": {"INV1": {"PV1": ["S1"], "PV2": ["S2"]}},
    "controller-led": {"INV1": {"PV1": ["S1", "S2", "S3"]}, "INV2": {"PV1": ["S4"], "PV2": ["S5"]}},
    "changeover-led": {"INV1": {"PV1": ["S1"], "PV2": ["S2"]}},
}


def run(name: str, start: str, end: str) -> dict[str, Any]:
    stretch = {"length": "4 m", "method": "C", "ambient": "25 °C", "circuits": 1}
    size = dict.fromkeys(("size", "neutral", "protective"), "4 mm²")
    return {"id": name, "from": start, "to": end, "cable": "pvc-multicore", "stretches": [stretch], **size}


@st.composite
def shapes(draw: st.DrawFn) -> tuple[str, dict[str, Any]]:
    """A demo house with another supply, other circuits, packs, inverters, strings, and a generator."""
    house = draw(st.sampled_from(sorted(CIRCUITS)))
    edits: dict[str, Any] = dict(draw(st.sampled_from(EARTHINGS)))
    pen = edits["supply.earthing"] == "TN-C" or edits.get("supply.pen_split") == "board"
    for board, circuits in CIRCUITS[house].items():
        for circuit in circuits:
            at = f"boards.{board}.circuits.{circuit}"
            edits[f"{at}.rcd"] = draw(st.sampled_from(["none", RCD]))
            if house != "meter-led":
                edits[f"{at}.phases"] = draw(st.lists(st.sampled_from(LINES), min_size=1, unique=True))
    edits |= {f"boards.{feeder}.rcd": "none" for feeder in FEEDERS[house]}
    edits |= {"devices.BAT.packs": draw(st.integers(1, 3)), "devices.BAT.pack_lead_size": "10 mm²"}
    for inverter, inputs in INPUTS[house].items():
        gear = []
        for name, strings in inputs.items():
            edits |= dict.fromkeys(
                (f"strings.{s}.fuse" for s in strings), draw(st.sampled_from(["none", FUSE]))
            )
            surge = draw(st.sampled_from(["none", SURGE]))
            gear.append({"id": name, "isolator": "built-in", "surge": surge, "leads": "0.5 m"})
        edits[f"devices.{inverter}.inputs"] = gear
    to_inverter = "R-inverter" if house == "meter-led" else "R-INV1"
    studs = sum(gear["surge"] != "none" for gear in edits["devices.INV1.inputs"])
    edits[f"runs.{to_inverter}.second_protective"] = studs < 2 and draw(st.booleans())  # its stud holds two
    if house == "controller-led" and draw(st.booleans()):
        edits |= third_inverter()
    if house == "changeover-led" and draw(st.booleans()):
        edits["devices.+"] = {
            "id": "GEN", "kind": "generator", "part": "example-generator-8k",
            "transfer": draw(st.sampled_from(["all-live", "lines"])),
        }  # fmt: skip
        edits["runs.+"] = run("R-GEN", "GEN", "MB")
    if house != "controller-led" and pen:  # no core of the tails earths the meter any more
        edits["earth.leads.+"] = {"id": "E-EM", "to": "EM", "at": "MB", "size": "10 mm²", "length": "1 m"}
    return house, edits


def third_inverter() -> dict[str, Any]:
    """One more in the garage, at the end of the bus."""
    power = {"distance": "50 mm", "voltage": "400 V"}
    return {
        "devices.+": {
            "id": "INV3", "kind": "inverter", "part": "example-hybrid-10k-three", "link": "disabled",
        },
        "runs.+": run("R-INV3", "GB", "INV3.grid"),
        "boards.GB.circuits.+": {
            "id": "C-INV3", "run": "R-INV3", "phases": LINES, "rcd": "none",
            "device": {"curve": "B", "direction": "both"},
        },
        "buses.RS.nodes.+": {"port": "INV3.BUS", "address": 3, "first_core": "A"},
        "buses.RS.links.+": {"from": "INV2.BUS", "to": "INV3.BUS", "length": "3 m", "power": power},
    }  # fmt: skip


def planned(house: str, edits: dict[str, Any]) -> Wired:
    """The wiring of a job before anything is chosen; each value of its own, as a person writes it."""
    job = houses.loaded({path: json.loads(json.dumps(value)) for path, value in edits.items()}, house).job
    return wired(Design(House(job, topology(job))))


@settings(max_examples=100, deadline=None)
@given(shapes(), st.data())
def test_what_is_planned_has_no_fault_and_nothing_of_it_can_be_missing_or_swapped(
    shape: tuple[str, dict[str, Any]], data: st.DataObject
) -> None:
    """A conductor that is missing is seen against the plan; two ends swapped, by the metal alone."""
    house = planned(*shape)
    assert not any(lead.asks for lead in house.leads.values())
    _each_run_carries_what_it_must(house)
    cores = [core for lead in house.leads.values() for core in lead.cores]
    assert list(faults(house.plan, cores)) == []
    for at, core in enumerate(cores):
        first = next(faults(house.plan, [*cores[:at], *cores[at + 1 :]]))
        assert (first.rule, dict(first.words)["core"]) == ("missing", str(core))
    named = [at for at, core in enumerate(cores) if core.end and core.name not in {"PE2", "PEN"}]
    one = data.draw(st.sampled_from(named))
    other = data.draw(st.sampled_from([at for at in named if cores[at].name != cores[one].name]))
    swapped = list(cores)
    swapped[one] = cores[one]._replace(end=cores[other].end)
    swapped[other] = cores[other]._replace(end=cores[one].end)
    assert {"wrong_pole", "wrong_side"} & {fault.rule for fault in faults_of_metal(house.plan, swapped)}


def _each_run_carries_what_it_must(house: Wired) -> None:
    """Counted from the job alone: lines with neutral and earth or with a PEN; the two poles of a string."""
    job = house.plan.job
    lines = {c.run: len(c.phases) for board in job.boards for c in board.circuits}
    direct = {string.id for string in job.strings} | {"BAT"}
    for each in job.runs:
        names = [core.name for core in house.leads[each.id].cores]
        if each.start in direct:
            assert names == ["plus", "minus"]
            continue
        rest = [name for name in names if name not in LINES]
        assert rest in (["N", "PE"], ["PEN"], ["N", "PE", "PE2"])
        assert ("PE2" in rest) == each.second_protective
        assert len(names) - len(rest) == lines.get(each.id, len(job.supply.live))
