"""The wiring down to the terminal: what a conductor is, where it lands, which lead it runs in."""

from typing import Literal, NamedTuple

from ferrule.parts.terminals import Serves

Role = Literal[
    "ac",
    "bridge",
    "pv",
    "battery",
    "bus",
    "contact",
    "transformer",
    "patch",
    "plug",
    "earthing",
    "bonding",
    "earth-lead",
]


class Terminal(NamedTuple):
    """One place where a conductor lands: `INV1.grid L1`, `MB.C-light N`, `supply PE`.

    `device` is a device, a board, a string, a load or another thing of the job; `port` is empty where it has
    no ports. Of several alike side by side, `set` is the how manyeth.
    """

    device: str
    port: str
    pole: str
    set: int = 1

    def __str__(self) -> str:
        place = f"{self.device}.{self.port}" if self.port else self.device
        return f"{place} {self.pole}" + (f" ({self.set})" if self.set > 1 else "")


class Core(NamedTuple):
    """One conductor of a lead; an end is None where the core ends there unused, cut back and insulated."""

    lead: str
    name: str
    serves: Serves
    start: Terminal | None
    end: Terminal | None

    @property
    def ends(self) -> tuple[Terminal, ...]:
        """The terminals on which it lands."""
        return tuple(end for end in (self.start, self.end) if end is not None)

    def __str__(self) -> str:
        return f"{self.lead} {self.name}"


class Lead(NamedTuple):
    """A cable, a pair of leads or a single conductor, with all its cores.

    `of` is the id in the job of what it is made for (a run, a bus, a bond …), `part` the id of its cable's
    part, empty where it is a plain conductor or comes with a device. `asks` says what must be found out
    before anybody can tell how it is wired.
    """

    id: str
    role: Role
    of: str
    part: str
    cores: tuple[Core, ...]
    asks: tuple[str, ...] = ()

    @property
    def places(self) -> tuple[str, str]:
        """The things that it joins, from its start to its end."""
        starts = [core.start.device for core in self.cores if core.start]
        ends = [core.end.device for core in self.cores if core.end]
        return (starts or [""])[0], (ends or [""])[0]
