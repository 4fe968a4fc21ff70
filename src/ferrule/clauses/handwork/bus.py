"""Signal buses of two wires: RS-485 (TIA-485-A:1998, MODBUS over Serial Line 1.02) and CAN (ISO 11898-2)."""

from collections.abc import Callable, Iterable, Iterator
from itertools import product

from ferrule.clauses.procedures.bus import BusKind, Divider, Expected
from ferrule.constraint import Constraint, at_least, at_most
from ferrule.physics import bus, conductor
from ferrule.physics.bus import Bias, Network, Node
from ferrule.working import Tables, Trace

_TEST_A = 0.001  # any current does, for the network is linear


class TwistedPair:
    """One line with a terminator at each end, biased at one place at most."""

    needs = (
        "bus_unit_load",
        "bus_loads_most",
        "bus_can_nodes_most",
        "bus_can_input",
        "bus_terminator",
        "bus_terminators",
        "bus_terminator_tolerance",
        "bus_idle_least",
        "bus_bias_supply_tolerance",
        "bus_bias_tolerance",
        "bus_bias_places",
        "bus_core_resistivity",
        "bus_core_excess",
        "bus_lead_resistance",
        "bus_full_length",
        "bus_full_speed",
        "bus_can_length",
        "bus_can_stub",
        "bus_tap_should",
        "bus_tap_most",
        "bus_address_least",
        "bus_address_most",
        "bus_separation",
        "bus_screen_places",
        "bus_reference",
        "contact_stop_sense",
    )

    def input_ohm(self, t: Trace, *, kind: BusKind, load: float) -> float:
        if kind == "can":
            return t.figure("bus_can_input", "low")
        return t.calculate(bus.input_resistance, unit_ohm=t.figure("bus_unit_load"), share=load)

    def core_ohm(self, t: Trace, *, area_mm2: float, length_m: float) -> float:
        return t.calculate(
            conductor.cable_resistance,
            resistance_ohm_per_km=t.calculate(
                conductor.resistance_per_km,
                resistivity_ohm_mm2_per_m=t.figure("bus_core_resistivity"),
                area_mm2=area_mm2,
            ),
            length_m=length_m,
        )

    def terminator_ohm(self, t: Trace) -> float:
        return t.figure("bus_terminator")

    def terminators(self, t: Trace) -> int:
        return int(t.figure("bus_terminators"))

    def resistance(self, t: Trace, *, network: Network, at: int) -> Expected:
        """The least with every receiver loading the pair and dead supplies joining their bias resistors; the
        most with neither, thin strands and the meter's own leads.
        """
        off = t.figure("bus_terminator_tolerance") / 100
        excess = 1 + t.figure("bus_core_excess") / 100
        leads_ohm = t.figure("bus_lead_resistance")
        most = _without_inputs(_scaled(network, terminator=1 + off, core=excess))
        least = _scaled(network, terminator=1 - off)
        return Expected(
            t.calculate(
                bus.resistance_between_lines,
                test_v=network.unpowered_v(at=at, test_a=_TEST_A, joined=True),
                test_a=_TEST_A,
            ),
            least.unpowered_v(at=at, test_a=_TEST_A, joined=True) / _TEST_A,
            _read_ohm(most, at, leads_ohm),
        )

    def idle(self, t: Trace, *, network: Network, at: int) -> Expected:
        off = t.figure("bus_terminator_tolerance") / 100
        supply = t.figure("bus_bias_supply_tolerance") / 100
        resistor = t.figure("bus_bias_tolerance") / 100
        excess = 1 + t.figure("bus_core_excess") / 100
        plus_v, minus_v = network.idle_v()[at]
        corners = [
            _scaled(
                network,
                terminator=1 + side * off,
                supply=1 + side * supply,
                bias=1 - side * resistor,
                core=core,
            )
            for side, core in product((-1, 1), (1.0, excess))
        ]
        reached = [found.idle_v()[at] for found in (*corners, *map(_without_inputs, corners))]
        differences_v = [plus - minus for plus, minus in reached]
        return Expected(
            t.calculate(bus.idle_voltage, plus_v=plus_v, minus_v=minus_v),
            min(differences_v),
            max(differences_v),
        )

    def idle_enough(self, tables: Tables, *, network: Network) -> Iterator[Constraint]:
        """TIA-485-A: a receiver may take anything below 0.2 V either way for silence or for a signal."""
        t = Trace(tables)
        lines_v = network.idle_v()
        lowest = min(range(len(lines_v)), key=lambda at: lines_v[at][0] - lines_v[at][1])
        plus_v, minus_v = lines_v[lowest]
        found_v = t.calculate(bus.idle_voltage, plus_v=plus_v, minus_v=minus_v)
        least_v = t.figure("bus_idle_least")
        yield at_least(
            "idle_voltage",
            "While nobody sends, {value} stand between the lines; below {limit} a receiver hears signals in "
            "silence",
            t,
            value=found_v,
            limit=least_v,
            unit="V",
            mend="bias the bus at one place with smaller resistors, and leave only the terminators at its "
            "two ends",
        )
        if found_v >= least_v:
            t = Trace(tables)
            yield at_least(
                "idle_voltage_at_worst",
                "With everything off its nominal value the wrong way, {value} are left of it",
                t,
                value=self.idle(t, network=network, at=lowest).low,
                limit=t.figure("bus_idle_least"),
                unit="V",
                binding=False,
                mend="bias the bus with somewhat smaller resistors",
            )

    def biased(self, tables: Tables, *, places: int) -> Constraint:
        t = Trace(tables)
        return at_most(
            "bias_places",
            "Places at which the bus is biased: {value}; there should be no more than {limit}",
            t,
            value=places,
            limit=t.figure("bus_bias_places"),
            unit="count",
            binding=False,
            mend="switch the bias on at one device only",
        )

    def load(
        self, tables: Tables, *, kind: BusKind, loads: Iterable[float], biases_ohm: Iterable[float]
    ) -> Constraint:
        t = Trace(tables)
        if kind == "can":
            return at_most(
                "nodes",
                "{value} devices load the bus; it bears {limit}",
                t,
                value=len(list(loads)),
                limit=t.figure("bus_can_nodes_most"),
                unit="count",
                mend="split the bus by a repeater",
            )
        most, unit_ohm = t.figure("bus_loads_most"), t.figure("bus_unit_load")
        biases = [
            t.calculate(bus.bias_load, unit_ohm=unit_ohm, resistor_ohm=each_ohm) for each_ohm in biases_ohm
        ]
        return at_most(
            "unit_loads",
            "Receivers and bias make {value} unit loads; a sender drives {limit}",
            t,
            value=t.given("unit_loads", sum(loads), "of the receivers") + sum(biases),
            limit=most,
            unit="",
            mend="bias at one place with larger resistors, or split the bus by a repeater",
        )

    def length(self, tables: Tables, *, kind: BusKind, speed_bit_per_s: float, length_m: float) -> Constraint:
        t = Trace(tables)
        if kind == "can":
            limit_m = t.read("bus_can_length", speed_bit_per_s, "low")
        else:
            limit_m = t.calculate(
                bus.length_at_speed,
                full_length_m=t.figure("bus_full_length", "low"),
                full_bit_per_s=t.figure("bus_full_speed"),
                speed_bit_per_s=speed_bit_per_s,
            )
        return at_most(
            "length",
            "The line is {value} long; at {speed_bit_per_s} it may be {limit}",
            t,
            value=length_m,
            limit=limit_m,
            unit="m",
            mend="set a lower speed on every device, or split the bus by a repeater",
            speed_bit_per_s=speed_bit_per_s,
        )

    def taps(
        self, tables: Tables, *, kind: BusKind, speed_bit_per_s: float, taps_m: Iterable[float]
    ) -> Iterator[Constraint]:
        lengths_m = [each_m for each_m in taps_m if each_m]
        if not lengths_m:
            return
        t = Trace(tables)
        must = "The longest tap between line and device is {value}; it may be {limit}"
        mend = "lead the line through the device's own terminals"
        if kind == "rs485":
            should = "The longest tap between line and device is {value}; it should be no more than {limit}"
            yield at_most(
                "tap", must, t, value=max(lengths_m), limit=t.figure("bus_tap_most", "low"), unit="m",
                mend=mend,
            )  # fmt: skip
            t = Trace(tables)
            yield at_most(
                "short_tap", should, t, value=max(lengths_m), limit=t.figure("bus_tap_should"), unit="m",
                binding=False, mend=mend,
            )  # fmt: skip
            return
        yield at_most(
            "tap", must, t, value=max(lengths_m), limit=t.read("bus_can_stub", speed_bit_per_s, "one"),
            unit="m", mend=mend,
        )  # fmt: skip
        t = Trace(tables)
        yield at_most(
            "all_taps", "All taps together are {value} long; they may be {limit}", t, value=sum(lengths_m),
            limit=t.read("bus_can_stub", speed_bit_per_s, "all"), unit="m", mend=mend,
        )  # fmt: skip

    def addresses(self, t: Trace) -> tuple[int, int]:
        return int(t.figure("bus_address_least")), int(t.figure("bus_address_most"))

    def separation(
        self,
        tables: Tables,
        *,
        distance_mm: float,
        power_screened: bool,
        screened: bool,
        divider: Divider,
    ) -> Constraint:
        """A convention of data cabling: a bus that keeps less may still work."""
        t = Trace(tables)
        row = f"{'screened' if screened else 'unscreened'}_{divider}"
        return at_least(
            "separation",
            "A power cable runs {value} beside it; {limit} should lie between them",
            t,
            value=distance_mm,
            limit=t.read("bus_separation", row, "screened" if power_screened else "unscreened"),
            unit="mm",
            binding=False,
            mend="move them apart, lay an earthed steel divider between them, or take a screened cable",
        )

    def screen_places(self, t: Trace) -> int:
        return int(t.figure("bus_screen_places"))

    def stop_sense(self, t: Trace) -> str:
        return t.term("contact_stop_sense")

    def joined_reference(self, t: Trace) -> bool:
        return t.term("bus_reference") == "required"


def _read_ohm(network: Network, at: int, leads_ohm: float) -> float | None:
    """What an ohmmeter reads with its leads; None where no current flows."""
    try:
        return network.unpowered_v(at=at, test_a=_TEST_A, joined=False) / _TEST_A + leads_ohm
    except ZeroDivisionError:
        return None


def _scaled(
    network: Network, *, terminator: float, core: float = 1.0, supply: float = 1.0, bias: float = 1.0
) -> Network:
    """The network with every part of a kind off its value by a factor."""

    def changed(node: Node) -> Node:
        return node._replace(
            terminator_ohm=node.terminator_ohm and node.terminator_ohm * terminator,
            bias=node.bias
            and Bias(node.bias.up_ohm * bias, node.bias.down_ohm * bias, node.bias.supply_v * supply),
        )

    links = tuple(link._replace(conductor_ohm=link.conductor_ohm * core) for link in network.links)
    return _each_node(network, changed)._replace(links=links)


def _without_inputs(network: Network) -> Network:
    return _each_node(network, lambda node: node._replace(input_ohm=None))


def _each_node(network: Network, change: Callable[[Node], Node]) -> Network:
    return network._replace(nodes=tuple(change(node) for node in network.nodes))
