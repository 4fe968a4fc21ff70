"""Whether the buses of a job join ports that exist, in one piece and without a ring, no address twice."""

from collections.abc import Iterable, Iterator

from ferrule.document import Document, Path, Problem
from ferrule.fact import Unknown
from ferrule.job.bus import Bus
from ferrule.job.job import Job
from ferrule.parts import Part
from ferrule.parts.port import Contact, Port


def ports(job: Job) -> dict[str, Port]:
    """Every bus port of the house by its name, such as `INV1.BUS`."""
    return {
        f"{device}.{port.id}": port for device, part in _parts(job) for port in getattr(part, "ports", ())
    }


def contacts(job: Job) -> dict[str, Contact]:
    """Every contact of the house by its name, such as `CO.ISLAND`."""
    return {
        f"{device}.{each.id}": each for device, part in _parts(job) for each in getattr(part, "contacts", ())
    }


def _parts(job: Job) -> Iterator[tuple[str, Part | None]]:
    """The part of each device; None where it is not there."""
    parts = {part.id: part for part in job.parts}
    return ((device.id, parts.get(device.part)) for device in job.devices)


def problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Every slip in the buses and signal contacts of a job."""
    yield from _contacts(document, job)
    if isinstance(job.buses, Unknown):
        return
    yield from document.repeated((("buses", at, "id"), bus.id) for at, bus in enumerate(job.buses))
    yield from _once(
        document,
        [
            (("buses", at, "nodes", n, "port"), node.port)
            for at, bus in enumerate(job.buses)
            for n, node in enumerate(bus.nodes)
        ],
        "port",
    )
    there, unread = ports(job), _without_part(job)
    for at, bus in enumerate(job.buses):
        yield from _nodes(document, ("buses", at), bus, there, unread)
        yield from _bus(document, ("buses", at), bus)


def _without_part(job: Job) -> set[str]:
    """The devices whose part is not there: nobody knows their ports and contacts."""
    return {device for device, part in _parts(job) if part is None}


def _nodes(
    document: Document[Job], path: Path, bus: Bus, there: dict[str, Port], unread: set[str]
) -> Iterator[Problem]:
    fitting = [name for name, port in there.items() if port.kind == bus.kind]
    for n, node in enumerate(bus.nodes):
        if node.port not in fitting and node.port.partition(".")[0] not in unread:
            allowed = f"a port of kind {bus.kind} that the part of a device has"
            yield document.mistyped((*path, "nodes", n, "port"), node.port, allowed, fitting)
        port = there.get(node.port)
        marks = [each for each in (port.plus, port.minus) if not isinstance(each, Unknown)] if port else []
        if len(marks) == 2 and not isinstance(node.first_core, Unknown) and node.first_core not in marks:
            where = (*path, "nodes", n, "first_core")
            yield document.mistyped(where, node.first_core, f"a terminal of {node.port}", marks)


def _bus(document: Document[Job], path: Path, bus: Bus) -> Iterator[Problem]:
    nodes = [node.port for node in bus.nodes]
    named: list[tuple[Path, str]] = [
        ((*path, name, at), port)
        for name in ("screen", "terminators", "bias")
        if isinstance(listed := getattr(bus, name), list)
        for at, port in enumerate(listed)
    ]
    if isinstance(bus.client, str):
        named.append(((*path, "client"), bus.client))
    for at, link in enumerate(bus.links):
        named += [((*path, "links", at, "from"), link.start), ((*path, "links", at, "to"), link.end)]
    for where, port in named:
        if port not in nodes:
            yield document.mistyped(where, port, f"a port among the nodes of bus '{bus.id}'", nodes)
    yield from _once(
        document,
        [
            ((*path, "nodes", n, "address"), str(node.address))
            for n, node in enumerate(bus.nodes)
            if not isinstance(node.address, Unknown)
        ],
        "address",
    )
    if all(port in nodes for _, port in named):
        yield from _in_one_piece(document, path, bus)


def _in_one_piece(document: Document[Job], path: Path, bus: Bus) -> Iterator[Problem]:
    """A ring has no ends to terminate; a port that no cable reaches is not on the bus."""
    group = {node.port: node.port for node in bus.nodes}

    def leader(port: str) -> str:
        while group[port] != port:
            port = group[port]
        return port

    for at, link in enumerate(bus.links):
        start, end = leader(link.start), leader(link.end)
        if start == end:
            yield document.problem(
                (*path, "links", at), f"a cable closing a ring from '{link.start}' to '{link.end}'",
                f"a line: leave out the cable of bus '{bus.id}' that closes the ring",
            )  # fmt: skip
        group[start] = end
    first = leader(bus.nodes[0].port)
    for n, node in enumerate(bus.nodes):
        if leader(node.port) != first:
            yield document.problem(
                (*path, "nodes", n), f"'{node.port}' that no cable joins to '{bus.nodes[0].port}'",
                f"links that join all nodes of bus '{bus.id}'",
            )  # fmt: skip


def _contacts(document: Document[Job], job: Job) -> Iterator[Problem]:
    yield from document.repeated((("contacts", at, "id"), each.id) for at, each in enumerate(job.contacts))
    there, unread = contacts(job), _without_part(job)
    devices = {device.id for device in job.devices} - unread
    for at, each in enumerate(job.contacts):
        inputs = [name for name, contact in there.items() if contact.kind == "input"]
        outputs = [name for name, contact in there.items() if contact.kind == "output"]
        if each.end not in inputs and each.end.partition(".")[0] not in unread:
            yield document.mistyped(("contacts", at, "to"), each.end, "an input of a device", inputs)
        device, dot, _ = each.start.partition(".")
        port = bool(dot) and " " not in each.start and device not in unread  # no button in words
        if each.start not in outputs and (device in devices or port):
            yield document.mistyped(
                ("contacts", at, "from"), each.start, "an output of a device, or a button in words", outputs
            )


def _once(document: Document[Job], found: Iterable[tuple[Path, str]], what: str) -> Iterator[Problem]:
    """A problem for each that an earlier path has already."""
    first: dict[str, Path] = {}
    for path, each in found:
        if first.setdefault(each, path) != path:
            line = document.at(first[each])[0]
            yield document.problem(path, f"{what} '{each}' again", f"one of its own (first on line {line})")
