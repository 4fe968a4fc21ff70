"""What a signal bus leaves open: where its terminators are on, and where it is biased."""

from collections.abc import Sequence

from ferrule.checks.bus import wanted_terminators
from ferrule.choose.offers.offer import Offer
from ferrule.clauses import Code
from ferrule.design import Design
from ferrule.fact import all_known, known, unknown_of
from ferrule.job.firm import Firm
from ferrule.parts.port import Port, PortBias

Names = tuple[str, ...]


def _terminators(design: Design, code: Code, _firm: Firm, bus: str) -> Sequence[Names]:
    """None, else where they belong and none is built in."""
    given, ports = design.house.buses[bus], design.house.bus_ports(bus)
    all_known(*unknown_of(ports.items(), "terminator"))
    wanted = wanted_terminators(design, code, given, code.trace())
    fitted = tuple(port for port in wanted if known(ports[port].terminator) != "built-in")
    return [(), fitted] if fitted else [()]


def _biases(design: Design, _code: Code, _firm: Firm, bus: str) -> Sequence[Names]:
    """None, else one place: the asking device's before the others'."""
    given, ports = design.house.buses[bus], design.house.bus_ports(bus)
    all_known(given.client, *unknown_of(ports.items(), "bias"))
    client = known(given.client)
    switchable = [name for name, port in ports.items() if _switchable(port)]
    return [(), *((port,) for port in sorted(switchable, key=lambda port: port != client))]


def _switchable(port: Port) -> bool:
    bias = known(port.bias)
    return isinstance(bias, PortBias) and bias.switchable


def _spelled(ports: Names) -> str:
    return f"[{', '.join(ports)}]"


TERMINATORS = Offer(
    "terminators",
    owners=lambda design: design.house.buses,
    given=lambda design, bus: design.house.buses[bus].terminators,
    candidates=_terminators,
    path="buses.{owner}.terminators",
    spell=_spelled,
)
BIAS = Offer(
    "bus_bias",
    owners=lambda design: [bus.id for bus in design.house.buses.values() if bus.kind == "rs485"],
    given=lambda design, bus: design.house.buses[bus].bias,
    candidates=_biases,
    path="buses.{owner}.bias",
    spell=_spelled,
)
