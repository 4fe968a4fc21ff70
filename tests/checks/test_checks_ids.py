"""The ids of the questions are promised to whoever reads the JSON: one that goes or changes is news."""

from ferrule.checks import QUESTIONS

IDS = """
backup.allowed
backup.load
backup.shared_neutral
backup.start
backup.three_phase_motor
battery.cable
battery.connection
battery.current
battery.drop
battery.energy
battery.isolation
battery.parallel_packs
battery.place
battery.protection
battery.temperature
battery.voltage_window
board.ratings
board.surge
bonding.array
bonding.main
bonding.supplementary
bus.addresses
bus.bias
bus.cable
bus.connected
bus.length
bus.load
bus.protocol
bus.speed
bus.termination
bus.topology
changeover.rating
circuit.breaking_capacity
circuit.disconnection
circuit.drop
circuit.fed_from_both_sides
circuit.island_fault
circuit.island_rcd
circuit.neutral
circuit.overload
circuit.protective
circuit.rcd
circuit.short_circuit
contact.sense
device.fixing
device.lift
device.reach
device.room
device.stands
device.working_space
earth.conductor
earth.electrode
earth.island_electrode
earth.neutral_bond
earth.stuck_contact
input.isolator
input.operating_current
input.parallel_strings
input.short_circuit_current
input.surge
inverter.ac_isolation
inverter.altitude
inverter.dc_ac_ratio
inverter.earthing_system
inverter.overvoltage
inverter.rise
run.dc_capacity
run.dc_drop
run.neutral
run.overload
run.protective
run.short_circuit
string.cold_operating_voltage
string.cold_voltage
string.fuse
string.hot_voltage
string.length
supply.backfeed
supply.connected
supply.export
supply.main_fuse
supply.second_fault
supply.unbalance
wall.hidden_services
"""


def test_the_ids_stay_what_they_were() -> None:
    assert sorted(question.id for question in QUESTIONS) == IDS.split()
