"""Houses made up by chance, the same for the same seed: more and fewer things, other sizes, unkind names."""

from random import Random
from typing import Any

from ferrule.answering import Answer
from ferrule.checks import QUESTIONS
from ferrule.choose import choose, turning_on
from ferrule.clauses import bind
from ferrule.design import Design, House
from ferrule.rules import load as load_rulebook
from ferrule.rules import read_confirmed
from ferrule.wiring.recipes import topology
from houses import REMOVED, loaded

HOUSES = ("meter-led", "controller-led", "changeover-led")

_NAMES = (
    "stove",
    "lights in the room over the stable with the long name that nobody says",
    "x" * 300,
    "#strong[bold] $x$ <b>&amp;</b> ]]>",
    "בית שלום",
    "well\tpump\nand more",
    "Ωµ²→",
    "中文 🏠",
    "i",
)


def generated(seed: int) -> Answer:
    """The house of a seed, with what it leaves open chosen, and no question asked."""
    chance = Random(seed)
    house = chance.choice(HOUSES)
    edits: dict[str, Any] = {"name": _name(chance)}
    for change in (_roof, _circuits, _walls, _holes, _gaps):
        edits |= change(chance, house)
    given = loaded(edits, house)
    code = bind(load_rulebook(given.job.rulebook, read_confirmed(given.confirmed)))
    design = Design(House(given.job, topology(given.job)))
    turning = turning_on(design, QUESTIONS)
    design, choices = choose(design, code, given.firm, QUESTIONS, turning)
    return Answer(given, code, design, choices, ())


def _name(chance: Random) -> str:
    return chance.choice(_NAMES)


def _mm(chance: Random, low: int, high: int) -> str:
    return f"{chance.randint(low, high)} mm"


def _roof(chance: Random, house: str) -> dict[str, Any]:
    """Blocks of another shape, on other rails, and strings that fit them or do not."""
    faces = {"meter-led": 2, "controller-led": 2, "changeover-led": 2}[house]
    found: dict[str, Any] = {}
    for face in range(faces):
        blocks = [
            {
                "id": f"{'ABC'[at]}{face}",
                "rows": chance.randint(1, 5),
                "columns": chance.randint(1, 24),
                "orientation": chance.choice(["portrait", "landscape"]),
                "left": _mm(chance, 0, 3000),
                "bottom": _mm(chance, 0, 3000),
                "low_rail": _mm(chance, 100, 400),
                "high_rail": _mm(chance, 500, 1400),
            }
            for at in range(chance.choice([1, 1, 2, 3]))
        ]
        found[f"faces.{face}.blocks"] = blocks
    for string in range({"meter-led": 2, "controller-led": 5, "changeover-led": 2}[house]):
        if chance.random() < 0.7:
            found[f"strings.{string}.modules"] = chance.randint(1, 24)
    return found


def _circuits(chance: Random, house: str) -> dict[str, Any]:
    """More circuits on the main board, with whatever people call what they feed."""
    found: dict[str, Any] = {}
    for at in range(chance.choice([0, 1, 4, 9, 25])):
        phases = chance.choice([["L1"], ["L1", "L2", "L3"]]) if house != "meter-led" else ["L1"]
        fed = f"{_name(chance)} {at}"
        found[f"runs.+{at}"] = {
            "id": f"R-more-{at}",
            "from": "MB",
            "to": fed,
            "cable": "pvc-multicore",
            "size": "2.5 mm²",
            "neutral": "2.5 mm²",
            "protective": chance.choice(["2.5 mm²", "4 mm²"]),
            "stretches": [
                {"length": f"{chance.randint(1, 80)} m", "method": "C", "ambient": "25 °C", "circuits": 1}
            ],
        }
        found[f"boards.MB.circuits.+{at}"] = {
            "id": f"C-{'long-name-' * chance.choice([0, 0, 5])}{at}",
            "run": f"R-more-{at}",
            "phases": phases,
            "device": {"curve": "B", "rating": "16 A", "direction": "one"},
            "loads": [{"name": fed, "kind": "sockets", "power": "2 kW"}],
        }
    return found


def _walls(chance: Random, house: str) -> dict[str, Any]:
    """A wall of another size, with the devices anywhere on it and other things in their way."""
    width_mm, height_mm = chance.randint(1500, 12000), chance.randint(1800, 5000)
    wall = "places.0.walls.0"
    found: dict[str, Any] = {
        "places.0.headroom": "5 m",
        f"{wall}.width": f"{width_mm} mm",
        f"{wall}.height": f"{height_mm} mm",
        f"{wall}.things": [
            {
                "name": _name(chance),
                "kind": chance.choice(["appliance", "pipe", "store", "other"]),
                "depth": _mm(chance, 0, 600),
                **_spot(chance, width_mm, height_mm),
            }
            for _ in range(chance.choice([0, 1, 3, 12, 30]))
        ],
        f"{wall}.openings": [
            {"kind": chance.choice(["door", "window", "vent"]), **_spot(chance, width_mm, height_mm)}
            for _ in range(chance.choice([0, 1, 2, 4]))
        ],
    }
    marked = chance.randint(0, 3)
    found[f"{wall}.services"] = "marked" if marked else "clear"
    found[f"{wall}.keep_clear"] = [_spot(chance, width_mm, height_mm) for _ in range(marked)]
    for device in _HUNG[house]:
        found[f"devices.{device}.at.left"] = _mm(chance, 0, width_mm)
        found[f"devices.{device}.at.bottom"] = _mm(chance, 0, height_mm)
    return found


def _spot(chance: Random, width_mm: int, height_mm: int) -> dict[str, str]:
    """Anywhere on a wall."""
    left, right = sorted(chance.sample(range(width_mm), 2))
    bottom, top = sorted(chance.sample(range(height_mm), 2))
    sides = {"left": left, "bottom": bottom, "width": right - left, "height": top - bottom}
    return {side: f"{mm} mm" for side, mm in sides.items()}


_HUNG = {
    "meter-led": ("INV1", "BAT"),
    "controller-led": ("INV1", "INV2", "BAT"),
    "changeover-led": ("INV1", "BAT", "CO"),
}
_HYBRID = {
    "meter-led": "example-hybrid-6k-single",
    "controller-led": "example-hybrid-10k-three",
    "changeover-led": "example-hybrid-10k-three",
}


def _holes(chance: Random, house: str) -> dict[str, Any]:
    """Another pattern of holes, near each other or far apart."""
    count, high = chance.randint(1, 9), chance.choice([60, 300, 900])
    holes = [
        {"x": f"{x} mm", "y": f"{y} mm"}
        for x, y in {(chance.randint(0, high), chance.randint(80, 80 + high)) for _ in range(count)}
    ]
    return {f"parts.{_HYBRID[house]}.body.mounting.holes": sorted(holes, key=str)}


_FACTS = (
    "places.0.walls.0.width",
    "places.0.walls.0.things",
    "places.0.walls.0.services",
    "places.0.walls.0.material",
    "faces.0.mount",
    "faces.0.blocks",
    "faces.1.roof.spacing",
    "devices.INV1.at.left",
    "runs.R-S1.stretches.0.length",
    "earth.conductor_length",
)


def _gaps(chance: Random, _house: str) -> dict[str, Any]:
    """What nobody has found out yet."""
    return {path: REMOVED for path in _FACTS if chance.random() < 0.08}
