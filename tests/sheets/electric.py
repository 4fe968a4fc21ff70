"""Houses that nobody drew before: demo houses with parts taken away, multiplied and renamed, by a seed."""

from random import Random
from typing import Any

from ferrule.answering import Answer
from ferrule.checks import QUESTIONS
from ferrule.choose import Choice, choose, turning_on
from ferrule.clauses import bind
from ferrule.design import Design, House
from ferrule.job.load import Loaded
from ferrule.rules import load as load_rulebook
from ferrule.rules import read_confirmed
from ferrule.wiring.recipes import topology
from houses import REMOVED, loaded
from sheets.hostile import HOSTILE

_HOUSES = ("meter-led", "controller-led", "changeover-led")
_NAMES = [name for name in HOSTILE if name.strip() and name.isprintable()]


def house(seed: int) -> Answer:
    """The answered house of a seed; the same seed gives the same house."""
    random = Random(seed)
    name = random.choice(_HOUSES)
    edits: dict[str, Any] = {}
    _circuits(random, edits, name)
    _inverters(random, edits, name)
    if random.random() < 0.4:
        edits["name"] = random.choice(_NAMES)
    if random.random() < 0.4:
        _take_battery(edits)
    if random.random() < 0.4:
        _generator(random, edits, name)
    if random.random() < 0.4:
        _forget(random, edits)
    if random.random() < 0.4:
        _second_meter(edits, name)
    return _answer(loaded(edits, name), chosen=seed % 10 == 0)


def _answer(read: Loaded, *, chosen: bool) -> Answer:
    """The answer as drawings need it: without findings; mostly with nothing chosen, for that takes long."""
    code = bind(load_rulebook(read.job.rulebook, read_confirmed(read.confirmed)))
    design = Design(House(read.job, topology(read.job)))
    choices: tuple[Choice, ...] = ()
    if chosen:
        design, choices = choose(design, code, read.firm, QUESTIONS, turning_on(design, QUESTIONS))
    return Answer(read, code, design, choices, ())


def _named(random: Random) -> str:
    """A load's name, now and then one that somebody means harm by."""
    if random.random() < 0.3:
        return random.choice(_NAMES)
    return random.choice(
        ["oven", "sockets in the long corridor upstairs, north side", "heat pump", "Süd-Wärmepumpe"]
    )


def _circuits(random: Random, edits: dict[str, Any], name: str) -> None:
    """Up to twelve more circuits on one board."""
    board = random.choice(["MB", "GB"] if name == "controller-led" else ["MB", "BB"])
    lines = ["L1"] if name == "meter-led" else ["L1", "L2", "L3"]
    for at in range(random.randint(0, 12)):
        length = random.choice(["12 m", "unknown"])
        run = {
            "id": f"R-x{at}", "from": board, "to": f"{_named(random)[:200]} {at}", "cable": "pvc-multicore",
            "stretches": [{"length": length, "method": "C", "ambient": "25 °C", "circuits": 1}],
        }  # fmt: skip
        circuit: dict[str, Any] = {
            "id": f"C-x{at}" + "y" * random.choice([0, 0, 40]), "run": run["id"],
            "phases": [*lines] if random.random() < 0.3 else [random.choice(lines)],
            "device": {"curve": random.choice("BC"), "direction": "one"},
            "loads": [{"name": _named(random), "kind": "resistive", "power": "2 kW"}],
        }  # fmt: skip
        if random.random() < 0.3:
            circuit["device"]["kind"] = "fuse-gG"
            del circuit["device"]["curve"]
        if random.random() < 0.7:
            circuit["device"]["rating"] = "16 A"
        if random.random() < 0.5:
            circuit["rcd"] = random.choice(
                [
                    "none",
                    {
                        "type": "A",
                        "residual": "30 mA",
                        "rating": "40 A",
                        "direction": "one",
                        "all_poles": True,
                    },
                ]
            )
        edits[f"runs.+{at}"] = run
        edits[f"boards.{board}.circuits.+{at}"] = circuit


def _inverters(random: Random, edits: dict[str, Any], name: str) -> None:
    """One or two more inverters beside those there are, with a string each."""
    part = {"meter-led": "example-hybrid-6k-single"}.get(name, "example-hybrid-10k-three")
    board = "GB" if name == "controller-led" else "MB"
    have = 2 if name == "controller-led" else 1
    for number in range(have + 1, have + 1 + random.randint(0, 3 - have)):
        inverter, string = f"INV{number}", f"S9{number}"
        edits[f"devices.+{number}"] = {"id": inverter, "kind": "inverter", "part": part}
        stretch = {"length": "9 m", "method": "C", "ambient": "30 °C", "circuits": 1}
        edits[f"runs.+i{number}"] = {
            "id": f"R-i{number}", "from": board, "to": f"{inverter}.grid", "cable": "pvc-multicore",
            "stretches": [{**stretch}],
        }  # fmt: skip
        edits[f"boards.{board}.circuits.+i{number}"] = {
            "id": f"C-i{number}", "run": f"R-i{number}", "device": {"curve": "B", "direction": "both"},
            "phases": ["L1"] if name == "meter-led" else ["L1", "L2", "L3"],
        }  # fmt: skip
        if name != "controller-led" and random.random() < 0.6:
            to = "CO.inverter" if name == "changeover-led" else "BB"
            edits[f"runs.+b{number}"] = {
                "id": f"R-b{number}", "from": f"{inverter}.backup", "to": to, "cable": "pvc-multicore",
                "stretches": [{**stretch}],
            }  # fmt: skip
        for at in range(random.randint(0, 2)):
            module, face = (
                ("example-mono-410", "garage-west") if name == "controller-led"
                else ("example-mono-430", {"meter-led": "west", "changeover-led": "house"}[name])
            )  # fmt: skip
            own = f"{string}{at}"
            edits[f"strings.+{own}"] = {
                "id": own, "module": module, "modules": 6, "face": face, "input": f"{inverter}.PV{at + 1}",
            }  # fmt: skip
            edits[f"runs.+{own}"] = {
                "id": f"R-{own}", "from": own, "to": f"{inverter}.PV{at + 1}", "cable": "pv-single",
                "stretches": [{"length": "9 m", "method": "F", "ambient": "60 °C", "circuits": 1}],
            }  # fmt: skip


def _take_battery(edits: dict[str, Any]) -> None:
    edits["devices.BAT"] = edits["runs.R-battery"] = edits["buses.CAN"] = REMOVED
    edits["earth.leads.E-BAT"] = REMOVED


def _generator(random: Random, edits: dict[str, Any], name: str) -> None:
    edits["devices.+gen"] = {"id": "GEN", "kind": "generator", "part": "example-generator-8k"}
    if random.random() < 0.6:
        edits["devices.+gen"]["transfer"] = random.choice(["all-live", "lines"])
    edits["runs.+gen"] = {
        "id": "R-gen", "from": "GEN", "to": random.choice(["MB", "BB"]) if name != "controller-led" else "MB",
        "cable": "pvc-multicore", "stretches": [{"length": "8 m"}],
    }  # fmt: skip


def _forget(random: Random, edits: dict[str, Any]) -> None:
    """Facts that nobody found out."""
    for path in (
        "supply.main_fuse",
        "supply.earthing",
        "site.coldest",
        "earth.electrode",
        "earth.conductor_length",
    ):
        if random.random() < 0.5:
            edits[path] = "unknown"


def _second_meter(edits: dict[str, Any], name: str) -> None:
    """A second meter on the way to the boards."""
    first = "R-tails" if name == "controller-led" else "R-main"
    edits["devices.+m"] = {"id": "EM2", "kind": "meter", "part": "example-meter-direct"}
    edits["runs.+m"] = {
        "id": "R-second", "from": "EM2", "to": "MB", "cable": "pvc-multicore",
        "stretches": [{"length": "1 m"}],
    }  # fmt: skip
    edits[f"runs.{first}.to"] = "EM2"
