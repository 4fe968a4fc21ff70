"""Small houses for questions of neutral and earth: an arrangement of devices, its runs, and nothing else."""

from collections.abc import Iterable
from typing import Any

from ferrule.job.job import Job
from ferrule.wiring.recipes import topology
from ferrule.wiring.topology import Position, Topology

#: how power reaches the house, by arrangement: runs from and to; `*` stands for each inverter
RUNS: dict[str, list[tuple[str, str]]] = {
    # meter-led: the backup port feeds a board of its own
    "backup board": [("supply", "EM"), ("EM", "MB"), ("MB", "*.grid"), ("*.backup", "BB")],
    # controller-led: the inverters hang on a board of their own and feed the backup board together
    "cascade": [("supply", "MB"), ("MB", "GB"), ("GB", "*.grid"), ("*.backup", "BB")],
    # changeover-led: everything behind the unit, the inverter by its backup port
    "whole house": [
        ("supply", "EM"), ("EM", "MB"), ("MB", "CO.grid"), ("MB", "*.grid"), ("*.backup", "IB"),
        ("IB", "CO.inverter"), ("CO.house", "BB"),
    ],
    # changeover-led: the unit between the main board and a board of chosen circuits
    "chosen circuits": [
        ("supply", "MB"), ("MB", "*.grid"), ("MB", "CO.grid"), ("*.backup", "IB"), ("IB", "CO.inverter"),
        ("CO.house", "BB"),
    ],
    # changeover-led: inverters that land on the unit by their grid ports
    "grid ports": [
        ("supply", "MB"), ("MB", "CO.grid"), ("*.grid", "IB"), ("IB", "CO.inverter"), ("CO.house", "BB"),
    ],
}  # fmt: skip
WITH_CHANGEOVER = ("whole house", "chosen circuits", "grid ports")


def job(
    arrangement: str = "backup board",
    *,
    earthing: str | None = "TN-S",
    neutral: str | None = "switched",
    relay: str | None = "automatic",
    setting: str | None = "enabled",
    contact: str | None = "none",
    strap: bool = False,
    inverters: int = 1,
    bypass: bool | None = True,
    generator: dict[str, str] | None = None,
    generator_at: str = "MB",
) -> Job:
    """A house of this arrangement.

    `relay` is the link in each inverter and `setting` its country setting, `contact` the link in the
    changeover unit, `strap` one in the board behind the changeover; `generator` says its `link` and what its
    `transfer` switch opens. What is None is left out of the job.
    """
    names = [f"INV{at + 1}" for at in range(inverters)]
    unit = arrangement in WITH_CHANGEOVER
    runs = list(_each_inverter(RUNS[arrangement], names))
    devices: list[dict[str, Any]] = [
        _known({"id": name, "kind": "inverter", "part": "inverter", "link": setting}) for name in names
    ]
    parts: list[dict[str, Any]] = [
        {
            "id": "inverter", "kind": "inverter", "name": "n", "source": "s", "phases": "1", "trackers": [],
            "grid": {}, "backup": _known({"neutral": neutral, "link": relay}),
        },
        {
            "id": "cable", "kind": "cable", "name": "n", "source": "s", "insulation": "pvc",
            "strands": "class2", "build": "multicore",
        },
    ]  # fmt: skip
    if ("supply", "EM") in runs:
        devices.append({"id": "EM", "kind": "meter", "part": "meter"})
        parts.append({"id": "meter", "kind": "meter", "name": "n", "source": "s"})
    if unit:
        devices.append({"id": "CO", "kind": "changeover", "part": "unit"})
        parts.append(
            _known({
                "id": "unit", "kind": "changeover", "name": "n", "source": "s", "phases": "1",
                "neutral": neutral, "link": contact, "bypass": bypass,
            })
        )  # fmt: skip
    if generator is not None:
        transfer = {"transfer": generator["transfer"]} if "transfer" in generator else {}
        devices.append({"id": "GEN", "kind": "generator", "part": "set", **transfer})
        link = {"link": generator["link"]} if "link" in generator else {}
        parts.append({"id": "set", "kind": "generator", "name": "n", "source": "s", **link})
        runs.append(("GEN", generator_at))
    boards = sorted({end for run in runs for end in run if end in {"MB", "GB", "BB", "IB"}})
    return Job.model_validate({
        "ferrule": "1", "name": "n", "rulebook": "iec-2024", "architecture": "meter-led",
        "site": {"place": "p"},
        "supply": _known({"live": [{"name": "L1", "voltage": "230 V"}], "earthing": earthing}),
        "devices": devices,
        "runs": [
            {"id": f"R{at}", "from": start, "to": end, "cable": "cable", "stretches": [{}]}
            for at, (start, end) in enumerate(runs)
        ],
        "boards": [{"id": board, "strap": strap and board == "BB", "circuits": []} for board in boards],
        "parts": parts,
    })  # fmt: skip


def _each_inverter(runs: Iterable[tuple[str, str]], names: list[str]) -> Iterable[tuple[str, str]]:
    for start, end in runs:
        if "*" in start + end:
            yield from ((start.replace("*", name), end.replace("*", name)) for name in names)
        else:
            yield start, end


def _known(fields: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}


def house(arrangement: str = "backup board", **how: Any) -> Topology:
    """The topology of such a house."""
    return topology(job(arrangement, **how))


#: U the supplier's bond, R a relay or contact, S a strap, X the generator's own
_LETTERS = {"supply": "U", "contact": "R", "strap": "S"}


def bonds(found: Topology, position: Position) -> list[str]:
    """The closed bonds of each part that is fed by itself, as letters in order."""
    return [
        "".join(
            sorted(
                "X" if bond.at == "GEN" else _LETTERS[bond.by.partition("/")[0]]
                for bond in found.closed_bonds(zone, position)
            )
        )
        for zone in found.zones(position)
    ]
