"""Dangers of a motor whose field has a supply of its own: field lost, weak, too strong, hot at standstill."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, derivation, practice
from buildsheet.design import Design
from buildsheet.design.field import FieldSupply
from buildsheet.motors.motor import SeparateField
from buildsheet.reference import table
from buildsheet.sizing.finding import Finding, Said

LOST = Citation("textbooks on electrical machines, shunt motor", "speed goes with the inverse of the field; what is left in the iron does not hold it")
MANUALS = Citation("drive makers' manuals", "a field left on at standstill overheats; field loss", read_from="secondary copy")
BRAKES = Citation("textbooks on DC machines, dynamic braking", "a separately excited motor brakes only while its field is fed")
SATURATES = Citation("textbooks on electrical machines, shunt motor", "magnetising curve: flux does not go with the current of the field")
OWN_LIMIT = practice("own limit of this version")
WEAK = 0.9  # of the full field: less is told
APART = 0.25  # ohms by plate and by meter, warm, may differ by the temperature that was assumed; this is more than that explains


def shunt(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A motor with a field on a supply of its own."""
    del circuit
    motor, power = design.motor, design.project.power
    if motor is None:
        return
    if motor.separate_field is None:
        asked = design.project.controls
        if asked is not None and (asked.field_relay or asked.field_fuse):
            yield Finding("field-parts-needless", "note", "NOTICE", Said.of("A relay or a fuse of a field is asked for, and this motor has no field on a supply of its own."), "Neither is in the circuit.",
                          "Take the line away, or write the motor's own kind.", OWN_LIMIT, ("M1",), key="controls.field_relay")  # fmt: skip
        return
    yield from _tests(design, motor.separate_field)
    if power is None or design.sizes is None:
        return
    field = design.sizes.field
    if field is None:
        yield Finding("field-not-fed", "stop", "DANGER", Said.of(f"This version feeds a field only from a bridge on the line beside a phase-controlled drive; here nothing would feed it beside the {power.noun}."), "An armature that is fed without its field has no speed of its own: it runs away, or burns standing.",
                      "Take a phase-controlled drive on the line.", OWN_LIMIT, ("M1",), key="power.way")  # fmt: skip
        return
    controls = design.project.controls
    if controls is None or not controls.field_relay:
        fused = "; and its own fuse is one more part that can take it away" if controls is not None and controls.field_fuse else ""
        yield Finding("field-not-watched", "stop", "DANGER", Said.of(f"Nothing watches the motor's field{fused}."), "A broken wire, a burnt winding or a blown fuse takes the field away; the motor then runs up until it bursts.",
                      "Write controls: field_relay: true. Its contact stands in the chain of the no-volt release, so that nothing runs without field current.", LOST, ("M1",), key="controls.field_relay")  # fmt: skip
    else:
        yield Finding("field-lost", "note", "DANGER", Said.of("With its field lost this motor has no bound to its speed. Its relay takes the contactor out below {0}, which is {1} of the whole.", field.opens, field.watched), "Only current in the field holds it; what magnetism is left in the iron does not.",
                      "Never bridge the relay, never switch or plug the field's wires while anything turns, and put no switch into them.", LOST, ("K3", "T3", "M1"), electric=True, step="field", key="controls.field_relay")  # fmt: skip
    yield from _strength(field)
    yield Finding("field-heats-at-rest", "heed", "WARNING", Said.of("The field is on as long as the disconnect is, the motor still or not: {0} of heat, at first {1}.", field.heat, field.heat_most), "Its fan stands still at rest, and a field that is left on overnight bakes its insulation.",
                  "Switch the disconnect off when work stops; feel the motor's frame after half an hour at rest, at first power.", MANUALS, ("M1", "T3"), key="motor.field_plate")  # fmt: skip
    lost = design.sheet.values.get("R4.P")
    if field.resistor is not None and lost is not None and lost.known and float(lost) > table("bench_limits").cell("bleeder heat", "value").si:
        yield Finding("field-resistor-hot", "heed", "CAUTION", Said.of("The bridge gives {0}, the field is made for {1}: {2} become heat in its resistor.", field.volts, field.field.volts, lost), "It scorches what it sits on, day and night. A half-wave tap would give half the volts, but it draws direct current from the line, which is never done here.",
                      "If the field has two halves, join them in a row for the higher volts of its plate; else mount the resistor outside the box, behind a grille.", table("combinations").source, ("R4",), key="motor.field_plate")  # fmt: skip
    if design.project.machine is not None and design.project.machine.reverse:
        yield Finding("reverse-armature-only", "note", "NOTICE", Said.of("The direction switch changes over the armature alone; the field stays as it is."), "A field that is switched is lost meanwhile, and its many turns make an arc that burns contacts and insulation.",
                      "Never put a contact into the field's wires.", LOST, ("S5", "M1"), key="machine.reverse")  # fmt: skip
    yield Finding("brakes-only-with-field", "note", "WARNING", Said.of("Whatever brakes this motor brakes only while its field is fed."), "A power cut or a pulled plug takes field and brake away together: it then coasts.",
                  "Count on the coast of sheet 10, never on a drive that brakes.", BRAKES, ("M1",), key="motor.kind")  # fmt: skip


def _strength(field: FieldSupply) -> Iterator[Finding]:
    """What field the supply makes: too little for its relay, weak, unknown."""
    if not (field.least.known and field.asked.known):
        yield Finding("field-unknown", "stop", "WARNING", Said.of("Nobody knows what current the field takes."), "Relay, resistor and runaway rest on it.",
                      "Read the field's line of the plate, measure its ohms, and write motor: field_plate and field_winding.", OWN_LIMIT, ("M1",), key="motor.field_plate", unknown=(field.least if not field.least.known else field.asked,))  # fmt: skip
        return
    if field.least < field.asked:
        yield Finding("field-too-weak", "stop", "WARNING", Said.of("Warm and on a low line the field takes {0}; its relay is sure of it from {1} on.", field.least, field.asked), "The relay would fall out at work; a relay set lower would let the motor run too fast.",
                      "The field is made for more volts than a bridge on this line gives: join its halves side by side if it has two, or take another motor.", LOST, ("K3", "M1"), key="motor.field_plate")  # fmt: skip
    elif field.share.known and float(field.share) < WEAK:
        yield Finding("field-weak", "note", "NOTICE", Said.of("At work the field has {0} of its full current.", field.share), "The motor is faster at the same volts by the inverse of that, and takes so much more current for the same torque; both are counted.",
                      "Nothing, if its rows of sheet 10 suit.", SATURATES, ("M1",), key="motor.field_plate")  # fmt: skip


def _tests(design: Design, field: SeparateField) -> Iterator[Finding]:
    """Tests at another field than the whole one, and ohms that are not those of the plate."""
    for name, share, key in (("spin test", "motor.p_spun", "motor.spun_field"), ("free run", "motor.p_run", "motor.free_run")):
        found = design.sheet.values.get(share)
        constant = design.sheet.values.get("motor.K_e" if name == "spin test" else "motor.K_e_run")
        if found is not None and found.known and constant is None:
            yield Finding(f"weak-field-{name.replace(' ', '-')}", "note", "NOTICE", Said.of(f"The {name} was made at {{0}} of the full field.", found), "Iron saturates: what it shows does not hold at the whole field, so the constant comes from the plate.",
                          "Make it again with the whole current in the field, if volts enough are at hand in safety.", SATURATES, ("M1",), key=key)  # fmt: skip
    volts, warm, current = field.volts, field.warm, field.current
    if volts.known and warm.known and current.known and abs(float(volts) / float(current) / float(warm) - 1) > APART:
        yield Finding("field-disagrees", "stop", "WARNING", Said.of("By its plate the field takes {0} at {1}; by its ohms, warm {2}, it does not.", current, volts, warm), "Perhaps its two halves are joined otherwise than the plate means, turns are shorted, or the plate is of another motor.",
                      "Read each half by itself, compare, and join them as the plate says.", derivation("Ohm's law in the field winding"), ("M1",), key="motor.field_winding")  # fmt: skip
