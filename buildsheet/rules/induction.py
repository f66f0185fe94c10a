"""Dangers of motors for alternating current: straight on the line with one speed, and behind an inverter."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, derivation, memory, practice
from buildsheet.design import Design
from buildsheet.motors.induction import InductionMachine
from buildsheet.motors.motor import Machine
from buildsheet.motors.series import SeriesMachine
from buildsheet.motors.single_phase import SinglePhaseMachine
from buildsheet.motors.three_phase import ThreePhaseMachine
from buildsheet.reference import table
from buildsheet.sizing.alternating import AlternatingLine, ThreePhase
from buildsheet.sizing.finding import Finding, Said
from buildsheet.worksheet import Value

MACHINES = Citation("textbooks on electrical machines, induction motor")
START = memory("NEMA MG 1", "start winding and its switch")
SPARE = 1.3  # greatest torque over the work's, at the least: common practice for a load without shocks
OFF = 0.05  # a tool that runs this far from what is wanted is told
TRIPS_AT = 3.0  # IEC 60898-1: a breaker of type B may trip at once from three times its rating


def line_motor(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A motor straight on the line: one speed, which nothing but belts sets; torque, start, second winding and capacitor."""
    motor, load, machine = design.motor, design.load, design.project.machine
    if motor is None or not isinstance(design.applied, AlternatingLine) or design.project.power is None or load is None or machine is None:
        return
    brushes = isinstance(motor, SeriesMachine)
    high = design.point("high")
    if machine.speed is not None and machine.speed.low.known and machine.speed.high.known and float(machine.speed.low) != float(machine.speed.high):
        why = "Its load sets it: nothing here lowers the volts." if brushes else "Frequency and poles set it. Less voltage only makes it slip, hum and burn."
        yield Finding("one-speed-only", "stop", "NOTICE", Said.of("The tool is to run at {0} to {1}; this motor on this line has one speed.", machine.speed.low, machine.speed.high),
                      why, "Write one speed, such as 60..60 rpm, or take another motor" + (" or way." if brushes else "."), MACHINES, ("M1",), key="machine.speed")  # fmt: skip
    if high is not None and high.omega.known and load.motor_high.known and abs(float(high.omega) / float(load.motor_high) - 1) > OFF:
        yield Finding("speed-by-belts", "stop", "NOTICE", Said.of("The motor turns at {0} under this load; the file's tool speed asks for {1}.", high.omega, load.motor_high), "Torque, turning parts and coast were worked for a speed that the machine does not have.",
                      "Change the pulleys, or write the tool speed that they give.", MACHINES, ("M1",), key="machine.speed")  # fmt: skip
    if high is not None and not high.omega.known:
        yield Finding("no-speed-on-line", "stop", "WARNING", Said.of("Nobody knows what speed the motor has under its load."), "Where it can't carry what the work asks it hums, stands and burns.",
                      "Compare plate and readings of the motor; work less hard or gear down.", MACHINES, ("M1",), key="motor.plate", unknown=(high.omega,))  # fmt: skip
    yield from _start(design, motor)
    if isinstance(motor, SinglePhaseMachine):
        yield from _torque(design, motor)
        yield Finding("no-speed-control", "note", "NOTICE", Said.of("This motor keeps its speed whatever its voltage is."), "A dimmer, a triac or a variable transformer only makes it slip, hum and heat.",
                      "Change its speed by belts, never by volts.", MACHINES, ("M1",), key="motor.kind")  # fmt: skip
        if circuit is not None:
            yield from _second_winding(design, motor)


def _torque(design: Design, motor: InductionMachine) -> Iterator[Finding]:
    load = design.load
    if load is None or not load.motor_torque_high.known or not motor.torque.known:
        return
    if load.motor_torque_high > motor.torque:
        yield Finding("torque-beyond-motor", "stop", "WARNING", Said.of("The work asks {0} of the motor; by its plate it gives {1} for long.", load.motor_torque_high, motor.torque), "It slips, heats and trips, or stalls and hums.",
                      "Gear down, work less hard, or take a larger motor.", derivation("rated torque is plate power over plate speed"), ("M1",), key="machine.torque")  # fmt: skip


def _start(design: Design, motor: Machine) -> Iterator[Finding]:
    supply, start = design.project.supply, motor.at_start
    if supply is not None and start is not None and start.known and supply.breaker.known and float(start) > TRIPS_AT * float(supply.breaker):
        yield Finding("start-trips-breaker", "heed", "NOTICE", Said.of("At start the motor takes {0} for a moment; the breaker is {1}.", start, supply.breaker), "A quick breaker trips at each start.",
                      "Feed it from a circuit with a slower or larger breaker; a licensed person changes it.", memory("IEC 60898-1", "type B: three to five times its rating"), ("M1",))  # fmt: skip


def _second_winding(design: Design, motor: SinglePhaseMachine) -> Iterator[Finding]:
    starting, line = motor.starting, design.supplied
    if starting is None:
        return
    if starting.switch:
        yield Finding("start-winding-burns", "note", "WARNING", Said.of("A start winding that stays in burns within seconds."), "Its switch opens by speed: a motor that hums and stands, or never clicks, keeps it in.",
                      "Stop at once when it does not come up to speed within three seconds, and find out why: capacitor, start switch, or a belt too tight.", START, ("M1",), step="motor", key="motor.kind")  # fmt: skip
    if starting.capacitor is not None and starting.volts is not None and starting.volts.known and line is not None and line.voltage.known:
        yield Finding("capacitor-holds", "note", "DANGER", Said.of("With the plug out the motor's capacitor may still hold up to {0}.", design.sheet.values["C1.V_m"]), "Its resistor R2 may be broken.",
                      "Wait, read it, short it through a resistor, then touch.", practice("capacitors of motors"), ("C1", "R2"), electric=True, step="motor", key="motor.capacitor")  # fmt: skip
        least = table("bench_limits").cell("capacitor over line", "value").si
        if not starting.switch and float(starting.volts) < least * float(line.voltage):
            yield Finding("capacitor-volts", "stop", "WARNING", Said.of("The running capacitor is marked {0}; on this line of {1} more than that can stand across it.", starting.volts, line.voltage), "A capacitor above its mark bursts.",
                          "Take one of the same microfarads for more volts, or read its mark again.", memory("handbooks on capacitor motors", "1.1 to 1.9 times the line across a running capacitor"), ("C1",), key="motor.capacitor")  # fmt: skip


def inverter(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """An inverter and its motor: linking, and cooling at low speed."""
    del circuit
    power, motor = design.project.power, design.motor
    if power is None or not isinstance(design.applied, ThreePhase):
        return
    if isinstance(motor, ThreePhaseMachine):
        yield from _three_phase(design, power.output_most, motor)


def _three_phase(design: Design, gives: Value, motor: ThreePhaseMachine) -> Iterator[Finding]:
    load = design.load
    given = motor.given
    if motor.link is None and motor.refuses and gives.known:
        yield Finding("motor-volts", "stop", "WARNING", Said.of("The inverter gives {0}; neither voltage on the motor's plate is that.", gives), "Too little volts and it stalls and burns, too much and its iron saturates.",
                      "Take a motor whose plate has this voltage; most small ones have it in delta.", MACHINES, ("M1",), key="motor.plate")  # fmt: skip
    if given.leads is None:
        yield Finding("leads-unknown", "heed", "NOTICE", Said.of("The file does not say how many leads the motor has."), "Six are linked by you, in delta or star; three were linked by somebody, perhaps for another voltage.",
                      "Open its terminal box and write motor: leads.", MACHINES, ("M1",), key="motor.leads")  # fmt: skip
    for point in design.points:
        lasting = design.sheet.values.get(f"{point.tag}.T_s")
        if load is None or lasting is None or not point.torque.known:
            continue
        if not lasting.known and motor.torque.known:
            yield Finding(f"too-slow-for-its-fan-{point.tag}", "stop", "WARNING", Said.of(f"Nobody knows what torque its own fan leaves the motor {point.label}."), "Slower than a fifth of its speed its fan cools next to nothing.",
                          "Gear down, so that the motor turns faster.", table("shaft_fan_torque").source, ("M1",), key="belts", unknown=(lasting,))  # fmt: skip
        elif lasting.known and point.torque > lasting:
            yield Finding(f"torque-beyond-motor-{point.tag}", "stop", "WARNING", Said.of(f"The work asks {{0}} of the motor; {point.label} it gives {{1}} for long.", point.torque, lasting), "It heats until its winding burns: at low speed its own fan turns too slowly, above its rated speed its field is weaker.",
                          "Gear down at low speed, use less of the range at the top, or fit a fan of its own motor.", table("shaft_fan_torque").source, ("M1",), key="machine.torque")  # fmt: skip
    high = design.point("high")
    multiple = design.sheet.values.get("high.T_b")
    if high is not None and multiple is not None and multiple.known and high.torque.known and float(high.torque) * SPARE > float(multiple):
        yield Finding("near-breakdown", "stop", "WARNING", Said.of("At the highest speed the motor stalls at {0}; the work asks {1}.", multiple, high.torque), "Above its rated frequency its greatest torque falls with the square: a little more and it stalls at full current.",
                      "Use less of the range at the top.", Citation("power-electronics textbook, 4th ed.", "chapter 15, field weakening"), ("M1",), key="machine.speed")  # fmt: skip
