"""Whether everything a job refers to exists, is of the right kind, and joins up without a ring."""

from collections.abc import Iterator

from ferrule.document import Document, Path, Problem
from ferrule.fact import Open, Unknown
from ferrule.job import buses, fixings, roofs, walls
from ferrule.job.devices import AdapterDevice, InverterDevice
from ferrule.job.job import Job
from ferrule.parts import Inverter, Meter
from ferrule.rules import editions

#: the ports of each kind of device that a run may end on, apart from an inverter's own inputs
PORTS = {
    "inverter": ("grid", "backup", "battery"),
    "changeover": ("grid", "house", "inverter"),
    "battery": (),
    "meter": (),
    "generator": (),
    "controller": (),
}


def problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Every reference of a job that leads nowhere, repeated ids and rings; `job` has its parts inlined."""
    inverters = {part.id for part in job.parts if isinstance(part, Inverter)}
    without_part = {
        device.id for device in job.devices if device.kind == "inverter" and device.part not in inverters
    }  # nobody knows their inputs
    document = document._replace(lost=document.lost | without_part)
    return document.certain(_problems(document, job))


def _problems(document: Document[Job], job: Job) -> Iterator[Problem]:
    if job.rulebook not in editions():
        yield document.mistyped(("rulebook",), job.rulebook, "one of the rulebooks", editions())
    yield from _architecture(document, job)
    yield from _repeated(document, job)
    yield from _parts(document, job)
    yield from _terminals(document, job)
    yield from _adapters(document, job)
    yield from _sides(document, job)
    yield from _inputs(document, job)
    yield from _circuits(document, job)
    yield from _lines(document, job)
    yield from _transformers(document, job)
    yield from _bonding(document, job)
    yield from _leads(document, job)
    yield from _rings(document, job)
    yield from walls.problems(document, job)
    yield from fixings.problems(document, job)
    yield from roofs.problems(document, job)
    yield from buses.problems(document, job)


def _architecture(document: Document[Job], job: Job) -> Iterator[Problem]:
    """The device that leads must be there: a meter, a controller or a changeover unit."""
    leader = job.architecture.removesuffix("-led")
    kinds = {device.kind for device in job.devices}
    if leader not in kinds and document.lost.isdisjoint({"architecture", "devices"}):
        yield document.problem(
            ("architecture",), f"'{job.architecture}' and no {leader} among the devices",
            f"an architecture whose device is there, or a device of kind {leader}",
        )  # fmt: skip


def _adapters(document: Document[Job], job: Job) -> Iterator[Problem]:
    """A plug that goes into no device of the house would land nowhere, and nobody would be told."""
    others = [device.id for device in job.devices if device.kind != "adapter"]
    for at, adapter in enumerate(job.devices):
        if not isinstance(adapter, AdapterDevice) or isinstance(adapter.into, Unknown):
            continue
        device, dot, port = adapter.into.partition(".")
        if device not in others or not dot or not port:
            yield document.mistyped(
                ("devices", at, "into"), adapter.into, "a port, such as INV1.ACC, of another device", others
            )


def _repeated(document: Document[Job], job: Job) -> Iterator[Problem]:
    ends: list[tuple[Path, str]] = [
        ((name, at, "id"), item.id)
        for name in ("strings", "devices", "boards")
        for at, item in enumerate(getattr(job, name))
    ]
    yield from document.repeated([*ends, (("supply",), "supply")])
    for path, each in ends:
        if not each or "." in each:
            yield document.problem(
                path, f"'{each}'", "an id without a dot, which stands before a port: INV1.grid"
            )
    for name in ("faces", "runs", "parts"):
        if name == "parts":
            inline = len(document.value.parts)
            yield from document.repeated(((name, at, "id"), p.id) for at, p in enumerate(job.parts[:inline]))
        else:
            yield from document.repeated(
                ((name, at, "id"), item.id) for at, item in enumerate(getattr(job, name))
            )
    yield from document.repeated(
        (("boards", b, "circuits", c, "id"), circuit.id)
        for b, board in enumerate(job.boards)
        for c, circuit in enumerate(board.circuits)
    )
    yield from document.repeated(
        (("earth", "bonding", at, "id"), bond.id) for at, bond in enumerate(job.earth.bonding)
    )
    yield from document.repeated(
        (("supply", "live", at, "name"), line.name) for at, line in enumerate(job.supply.live)
    )


def _parts(document: Document[Job], job: Job) -> Iterator[Problem]:
    wanted: list[tuple[Path, str, str]] = [
        (("devices", at, "part"), device.part, device.kind) for at, device in enumerate(job.devices)
    ]
    wanted += [(("strings", at, "module"), string.module, "module") for at, string in enumerate(job.strings)]
    wanted += [(("runs", at, "cable"), run.cable, "cable") for at, run in enumerate(job.runs)]
    listed = [] if isinstance(job.buses, Unknown) else job.buses
    wanted += [(("buses", at, "cable"), bus.cable, "signal-cable") for at, bus in enumerate(listed)]
    wanted += [
        (("boards", at, "part"), board.part, "board")
        for at, board in enumerate(job.boards)
        if isinstance(board.part, str)
    ]
    wanted += [
        (("contacts", at, "cable"), contact.cable, "signal-cable")
        for at, contact in enumerate(job.contacts)
        if isinstance(contact.cable, str)
    ]
    if isinstance(job.earth.cable, str):
        wanted.append((("earth", "cable"), job.earth.cable, "cable"))
    wanted += [
        (("devices", at, "fixing", "anchor"), device.fixing.anchor, "anchor")
        for at, device in enumerate(job.devices)
        if hasattr(device, "fixing") and not isinstance(device.fixing.anchor, Open)
    ]
    wanted += [
        (("devices", at, "fixing", "backing", "screw"), screw, "anchor")
        for at, device in enumerate(job.devices)
        if (backing := getattr(getattr(device, "fixing", None), "backing", None))
        and not isinstance(screw := backing.screw, Unknown)
    ]
    wanted += [
        (("faces", at, "mount"), face.mount, "mount")
        for at, face in enumerate(job.faces)
        if not isinstance(face.mount, Unknown)
    ]
    kinds = {part.id: part.kind for part in job.parts}
    for path, part_id, kind in wanted:
        fitting = [known for known, its in kinds.items() if its == kind]
        if part_id not in fitting:
            article = "an" if kind[0] in "aeiou" else "a"
            allowed = f"{article} {kind} in parts: or in a file parts/ID.yaml"
            yield document.mistyped(path, part_id, allowed, fitting)


def terminals(job: Job) -> list[str]:
    """Every terminal a run may end on."""
    parts = {part.id: part for part in job.parts}
    found = ["supply", *(string.id for string in job.strings), *(board.id for board in job.boards)]
    for device in job.devices:
        if device.kind not in PORTS:
            continue
        ports = list(PORTS[device.kind])
        part = parts.get(device.part)
        if isinstance(part, Inverter):
            ports += [tracker.id for tracker in part.trackers]
        found += [f"{device.id}.{port}" for port in ports] or [device.id]
    return found


def _terminals(document: Document[Job], job: Job) -> Iterator[Problem]:
    known = terminals(job)
    loaded = [(board.id, circuit.run) for board in job.boards for circuit in board.circuits if circuit.loads]
    runs = {run.id for run in job.runs}
    loads = {run for _, run in loaded} | document.lost  # a circuit that could not be read may have loads
    astray = {board for board, run in loaded if run not in runs}  # its loads hang on a run nobody can tell
    unloaded = {circuit.run: circuit.id for board in job.boards for circuit in board.circuits}
    for at, run in enumerate(job.runs):
        if run.start not in known:
            yield _no_terminal(document, ("runs", at, "from"), run.start, "a terminal", known)
        if run.end not in known and run.id not in loads and run.start not in astray:
            circuit = unloaded.get(run.id)
            allowed = f"loads of circuit '{circuit}', or a terminal" if circuit else "a terminal"
            yield _no_terminal(document, ("runs", at, "to"), run.end, allowed, known)
    faces = [face.id for face in job.faces]
    inputs = _input_terminals(known)
    for at, string in enumerate(job.strings):
        if string.face not in faces:
            yield document.mistyped(("strings", at, "face"), string.face, "a face", faces)
        if string.input not in inputs:
            yield document.mistyped(("strings", at, "input"), string.input, "an inverter input", inputs)


def _no_terminal(document: Document[Job], path: Path, word: str, allowed: str, known: list[str]) -> Problem:
    """A word that is no terminal; of a device that has several, nobody can tell which is meant."""
    ports = [terminal for terminal in known if terminal.startswith(f"{word}.")]
    if ports:
        return document.problem(path, f"'{word}'", f"one of its terminals: {', '.join(ports)}")
    return document.mistyped(path, word, allowed, known)


def _sides(document: Document[Job], job: Job) -> Iterator[Problem]:
    """A run joins two terminals of the array, of a battery circuit or of the alternating current side; one of
    the array starts at its string.
    """
    strings = {string.id for string in job.strings}
    batteries = {device.id for device in job.devices if device.kind == "battery"}

    def side(terminal: str) -> str:
        if terminal in strings or terminal in inputs:
            return "the array"
        port = terminal.partition(".")[2]
        return "a battery circuit" if terminal in batteries or port == "battery" else "alternating current"

    known = terminals(job)
    inputs = _input_terminals(known)
    for at, run in enumerate(job.runs):
        if run.start not in known or run.end not in known or run.start in strings:
            continue
        if run.end in strings and run.start in inputs:
            yield document.problem(("runs", at, "from"), f"'{run.start}'", f"the string first: '{run.end}'")
        elif side(run.start) != side(run.end):
            fitting = [each for each in known if side(each) == side(run.start) and each != run.start]
            allowed = f"another terminal of {side(run.start)}, as '{run.start}' is: {', '.join(fitting)}"
            yield document.problem(("runs", at, "to"), f"'{run.end}', a terminal of {side(run.end)}", allowed)


def _input_terminals(known: list[str]) -> list[str]:
    """The terminals among those known that a string may land on."""
    fixed = {*PORTS["inverter"], *PORTS["changeover"]}
    return [terminal for terminal in known if (port := terminal.partition(".")[2]) and port not in fixed]


def _inputs(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Gear belongs to an input the inverter has; a string's run ends on the string's own input."""
    parts = {part.id: part for part in job.parts}
    for at, device in enumerate(job.devices):
        part = parts.get(device.part)
        if not isinstance(device, InverterDevice) or not isinstance(part, Inverter):
            continue
        trackers = [tracker.id for tracker in part.trackers]
        for i, gear in enumerate(device.inputs):
            if gear.id not in trackers:
                path: Path = ("devices", at, "inputs", i, "id")
                yield document.mistyped(path, gear.id, "an input of the inverter", trackers)
    known = terminals(job)
    inputs = {string.id: string.input for string in job.strings if string.input in known}
    for at, run in enumerate(job.runs):
        if run.start in inputs and run.end != inputs[run.start]:
            yield document.problem(
                ("runs", at, "to"),
                f"'{run.end}'",
                f"'{inputs[run.start]}', the input of string '{run.start}'",
            )


def _circuits(document: Document[Job], job: Job) -> Iterator[Problem]:
    runs = [run.id for run in job.runs]
    ends = terminals(job)
    lines = [conductor.name for conductor in job.supply.live]
    read_lines = "supply" not in document.lost
    ids = [circuit.id for board in job.boards for circuit in board.circuits]
    for b, board in enumerate(job.boards):
        for c, circuit in enumerate(board.circuits):
            here: Path = ("boards", b, "circuits", c)
            if circuit.run not in runs:
                yield document.mistyped((*here, "run"), circuit.run, "a run", runs)
            else:
                run = job.runs[runs.index(circuit.run)]
                if run.start != board.id and run.start in ends:
                    yield document.problem(
                        (*here, "run"), f"run '{run.id}' from '{run.start}'", f"a run from '{board.id}'"
                    )
            for p, phase in enumerate(circuit.phases):
                if phase not in lines and read_lines:
                    yield document.mistyped((*here, "phases", p), phase, "a line conductor", lines)
            for n, other in enumerate(circuit.neutral_shared_with):
                if other not in ids:
                    yield document.mistyped((*here, "neutral_shared_with", n), other, "a circuit", ids)


def _lines(document: Document[Job], job: Job) -> Iterator[Problem]:
    """An inverter's circuit has as many line conductors as the inverter; a house without three feeds none of
    three phases.
    """
    parts = {part.id: part for part in job.parts}
    ends = {run.id: (run.start, run.end) for run in job.runs}
    circuits = [(b, c, each) for b, board in enumerate(job.boards) for c, each in enumerate(board.circuits)]
    supplied = len(job.supply.live)
    if "supply" in document.lost:
        return
    for at, device in enumerate(job.devices):
        part = parts.get(device.part)
        if not isinstance(device, InverterDevice) or not isinstance(part, Inverter):
            continue
        fitting = {3} if part.phases == "3" else {1, supplied} - {3}
        allowed = f"{' or '.join(map(str, sorted(fitting)))}, as the inverter '{device.id}' has"
        if max(fitting) > supplied:
            yield document.problem(("devices", at, "part"), f"line conductors to it: {supplied}", allowed)
            continue
        for b, c, circuit in circuits:
            if f"{device.id}.grid" in ends.get(circuit.run, ()) and len(set(circuit.phases)) not in fitting:
                path: Path = ("boards", b, "circuits", c, "phases")
                yield document.problem(path, f"line conductors: {len(set(circuit.phases))}", allowed)


def _transformers(document: Document[Job], job: Job) -> Iterator[Problem]:
    """The run and the lines that current transformers sit on."""
    runs, lines = [run.id for run in job.runs], [line.name for line in job.supply.live]
    direct = {part.id for part in job.parts if isinstance(part, Meter) and part.connection == "direct"}
    for at, device in enumerate(job.devices):
        found = getattr(device, "transformers", None)
        if found is None:
            continue
        here: Path = ("devices", at, "transformers")
        if device.part in direct:
            yield document.problem(
                here, f"transformers of '{device.id}', and its part '{device.part}' is a direct meter",
                "none, or a meter that measures through transformers",
            )  # fmt: skip
        if not isinstance(found.run, Unknown) and found.run not in runs:
            yield document.mistyped((*here, "run"), found.run, "a run", runs)
        clamps = [] if isinstance(found.clamps, Unknown) else found.clamps
        yield from document.repeated(
            ((*here, "clamps", c, "channel"), clamp.channel) for c, clamp in enumerate(clamps)
        )
        for c, clamp in enumerate(clamps):
            for key, line in (("channel", clamp.channel), ("line", clamp.line)):
                if not isinstance(line, Unknown) and line not in lines:
                    yield document.mistyped((*here, "clamps", c, key), line, "a line conductor", lines)


def _bonding(document: Document[Job], job: Job) -> Iterator[Problem]:
    ids = [circuit.id for board in job.boards for circuit in board.circuits]
    for at, bond in enumerate(job.earth.bonding):
        if not isinstance(bond.circuit, Unknown) and bond.circuit not in ids:
            yield document.mistyped(("earth", "bonding", at, "circuit"), bond.circuit, "a circuit", ids)


def _leads(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Earth leads join a board or a device to a device; whatever makes a lead has an id of its own."""
    devices = [device.id for device in job.devices]
    starts = [*(board.id for board in job.boards), *devices]
    for at, lead in enumerate(job.earth.leads):
        for key, name, fitting in (("to", lead.to, devices), ("at", lead.at, starts)):
            if name not in fitting:
                what = "a device" if key == "to" else "a board or a device"
                yield document.mistyped(("earth", "leads", at, key), name, what, fitting)
    named: list[tuple[Path, str]] = [(("runs", at, "id"), run.id) for at, run in enumerate(job.runs)]
    named += [(("contacts", at, "id"), each.id) for at, each in enumerate(job.contacts)]
    named += [(("earth", "bonding", at, "id"), each.id) for at, each in enumerate(job.earth.bonding)]
    named += [(("earth", "leads", at, "id"), each.id) for at, each in enumerate(job.earth.leads)]
    once: dict[str, str] = {}
    for path, name in named:
        kind = str(path[-3])
        if once.setdefault(name, kind) != kind:
            yield document.problem(path, f"'{name}', which one of {once[name]} has", "an id of its own")
    yield from document.repeated(
        (("earth", "leads", at, "id"), lead.id) for at, lead in enumerate(job.earth.leads)
    )


def _rings(document: Document[Job], job: Job) -> Iterator[Problem]:
    """Two ways between the same terminals would make a ring, which no question here can judge."""
    group: dict[str, str] = {}

    def leader(terminal: str) -> str:
        while group.get(terminal, terminal) != terminal:
            terminal = group[terminal]
        return terminal

    for at, run in enumerate(job.runs):
        start, end = leader(run.start), leader(run.end)
        if start == end:
            yield document.problem(
                ("runs", at), f"run '{run.id}' closing a ring from '{run.start}' to '{run.end}'",
                "runs that branch out without meeting again",
            )  # fmt: skip
        group[start] = end
