"""How often neutral and earth are joined, in every arrangement, earthing system and switch position.

The expectations follow from what these documents say of the network's neutral and of the bond in island mode:
BS 7671:2018 regulations 551.4.3.2.1 and 826 with the IET's articles on them (all live conductors off the
network, a bond of one's own, no overlap); VDE-AR-E 2510-2:2021 with VDE 0100-551 (all poles where the house
is TN-S or TT, the PEN never); NRS 097-2-1 edition 3 clause 5.4 (a bond that closes in island mode and
opens on the network, no fixed strap); AS/NZS 3000:2018 clause 7.3.8.1 (the neutral runs through, the
network's bond is
the only one); NFPA 70 section 250.30 (neutral switched: bond at the source; neutral through: none).

U is the supplier's bond, R a relay or contact of the house, S a fixed strap behind the changeover, X the
generator's own: `UR` is two bonds.
"""

from itertools import product
from typing import Any, NamedTuple

import pytest

from arrangements import RUNS, WITH_CHANGEOVER, bonds, house
from ferrule.wiring.topology import Position

EARTHING = ("TN-S", "TN-C-S", "TN-C", "TT", "IT")
POSITIONS: tuple[Position, ...] = ("grid", "bypass", "transit", "island", "generator")


class Row(NamedTuple):
    """A way of making the bond, and the bonds closed in each position of `POSITIONS`."""

    how: dict[str, Any]
    expected: tuple[str, str, str, str, str]
    arrangements: tuple[str, ...] = tuple(RUNS)


OPENS_ALL = {"transfer": "all-live", "link": "fixed"}
LINES_ONLY = {"transfer": "lines", "link": "none"}

ROWS = {
    "neutral switched, relay in the inverter": Row(
        {"generator": OPENS_ALL},
        ("U", "U", "", "R", "X"),
    ),
    "neutral switched, contact in the changeover unit": Row(
        {"relay": "none", "contact": "automatic", "generator": OPENS_ALL},
        ("U", "U", "", "R", "X"),
        WITH_CHANGEOVER,
    ),
    "neutral switched, relay disabled, contact in the changeover unit": Row(
        {"setting": "disabled", "contact": "automatic", "generator": OPENS_ALL},
        ("U", "U", "", "R", "X"),
        WITH_CHANGEOVER,
    ),
    "neutral switched, no bond": Row(
        {"relay": "none", "generator": OPENS_ALL},
        ("U", "U", "", "", "X"),
    ),
    "neutral switched, relay disabled": Row(
        {"setting": "disabled", "generator": OPENS_ALL},
        ("U", "U", "", "", "X"),
    ),
    "neutral switched, fixed strap": Row(
        {"relay": "none", "strap": True, "generator": OPENS_ALL},
        ("SU", "SU", "S", "S", "SX"),
    ),
    "neutral through, relay disabled": Row(
        {"neutral": "through", "setting": "disabled", "generator": LINES_ONLY},
        ("U", "U", "U", "U", "U"),
    ),
    "neutral through, no bond": Row(
        {"neutral": "through", "relay": "none", "generator": LINES_ONLY},
        ("U", "U", "U", "U", "U"),
    ),
    "neutral through, generator keeps its bond": Row(
        {"neutral": "through", "relay": "none", "generator": {"transfer": "lines", "link": "fixed"}},
        # The generator's neutral runs through its switch as well, so its bond counts in every position.
        ("UX", "UX", "UX", "UX", "UX"),
    ),
    "neutral through, relay left enabled": Row(
        {"neutral": "through", "generator": LINES_ONLY},
        ("U", "U", "U", "RU", "U"),
    ),
    "neutral switched, two inverters with their relays": Row(
        {"inverters": 2, "generator": OPENS_ALL},
        ("U", "U", "", "RR", "X"),
    ),
    "neutral switched, three inverters with their relays": Row(
        {"inverters": 3, "generator": OPENS_ALL},
        ("U", "U", "", "RRR", "X"),
    ),
}

CASES = [
    pytest.param(row, arrangement, earthing, position, id=f"{name}-{arrangement}-{earthing}-{position}")
    for (name, row), earthing, position in product(ROWS.items(), EARTHING, POSITIONS)
    for arrangement in row.arrangements
    if position != "bypass" or arrangement in WITH_CHANGEOVER
]


@pytest.mark.parametrize(("row", "arrangement", "earthing", "position"), CASES)
def test_the_bonds_closed_in_each_position(
    row: Row, arrangement: str, earthing: str, position: Position
) -> None:
    """The sources in this module's head; an IT system has no bond of the supplier's."""
    expected = row.expected[POSITIONS.index(position)]
    if earthing == "IT":
        expected = expected.replace("U", "")
    found = bonds(house(arrangement, earthing=earthing, **row.how), position)
    assert set(found) == {expected}


@pytest.mark.parametrize(
    ("row", "to_island", "to_grid"),
    [
        ("neutral switched, relay in the inverter", [0, 1], [0, 1]),
        ("neutral switched, no bond", [0, 0], [0, 1]),
        ("neutral switched, fixed strap", [1, 1], [1, 2]),
        ("neutral through, relay disabled", [1, 1], [1, 1]),
        ("neutral through, relay left enabled", [1, 2], [1, 1]),
        ("neutral switched, two inverters with their relays", [0, 2], [0, 1]),
    ],
)
def test_on_the_way_between_the_positions(row: str, to_island: list[int], to_grid: list[int]) -> None:
    """NRS 097-2-1 clause 5.4: the bond closes after the isolator opened, and opens before it closes again.
    The wrong arrangements come to two bonds only when they arrive.
    """
    found = house("backup board", **ROWS[row].how)

    def count(position: Position) -> int:
        return len(bonds(found, position)[0])

    assert [count("transit"), count("island")] == to_island
    assert [count("transit"), count("grid")] == to_grid


@pytest.mark.parametrize("earthing", EARTHING)
def test_a_generator_beside_a_neutral_that_runs_through_must_lose_its_bond(earthing: str) -> None:
    """NFPA 70 section 250.30 and 702: not separately derived, so no bond at the generator."""
    kept = house("backup board", earthing=earthing, generator={"transfer": "lines", "link": "fixed"})
    lost = house("backup board", earthing=earthing, generator=LINES_ONLY)
    assert len(bonds(kept, "generator")[0]) == len(bonds(lost, "generator")[0]) + 1
