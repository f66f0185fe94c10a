"""Dangers of what turns: speeds at set maximum and at runaway, coasting, the motor's own limits, heat."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, ReadFrom, derivation, memory, practice
from buildsheet.design import Design
from buildsheet.design.design import Heat, Load
from buildsheet.given.bench import HeldRotor
from buildsheet.motors.brushed import BrushedMotor
from buildsheet.reference import Cell, table
from buildsheet.sizing.alternating import AlternatingLine
from buildsheet.sizing.finding import BRACES, MORE, Finding, Said, slug
from buildsheet.sizing.waist import Steered
from buildsheet.worksheet import Value

BELIEVABLE = 0.85  # efficiency of a magnet motor of this size at the best, from memory
AGREE = 0.10  # the two ways to K_e should agree within about 5 %; twice that is a sign
OWN_FAN = derivation("heat with the square of current; what a fan carries off with its speed (first affinity law)")
HOW_MADE = "Write its outside diameter, the bore and the material under turning: homemade: its speed is worked from them."
BRAKES = Citation("textbooks on DC machines, dynamic braking", "torque falls with speed, none at standstill")
RUNAWAY = derivation("a shorted power device leaves the whole supply on the motor")


def turning(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Every turning part at set maximum and at runaway."""
    del circuit
    yield from _named(design)
    for part in design.turning:
        name = part.name
        if not part.rated.known:
            yield Finding(f"speed-unknown-{slug(name)}", "stop", "WARNING", Said.of(f"Nobody knows what speed the {name} stands."),
                          "A part that bursts throws its pieces at whoever stands before it.",
                          HOW_MADE if part.spin is not None else f"Find the mark on the {name}, or the speed that it ran at in its old machine, and write it.", practice("marks on rotating parts"), key=part.rated.id,
                          unknown=(part.rated,))  # fmt: skip
            continue
        for value, when, kind in (
            (part.at_maximum, "at the set maximum", "over-speed"),
            (part.at_runaway, "at runaway", "runaway"),
        ):
            if not value.known:
                yield Finding(f"{kind}-unknown-{slug(name)}", "stop", "WARNING", Said.of(f"The speed of the {name} {when} is not known."), "It can't be compared with what the part stands.",
                              "", RUNAWAY, key=part.rated.id, unknown=(value,), awaits=f"the {name} {when}")  # fmt: skip
            elif value > part.rated:
                yield Finding(f"{kind}-{slug(name)}", "stop", "WARNING", Said.of(f"The {name.translate(BRACES)} reaches {{0}} {when} and stands {{1}}.", value, part.rated),
                              "A part that bursts throws its pieces at whoever stands before it.",
                              "Fit a part rated for it, change the pulleys, or use a supply that can't reach it.", RUNAWAY, key=part.rated.id)  # fmt: skip
    machine = design.project.machine
    if (
        machine is not None
        and machine.speed is not None
        and machine.speed.limit.known
        and machine.speed.high.known
    ):
        low_limit = (
            machine.speed.limit.unit is machine.speed.high.unit and machine.speed.high > machine.speed.limit
        )
        if low_limit:
            yield Finding("above-own-limit", "stop", "WARNING", Said.of("The highest speed {0} is above the limit {1} of the file.", machine.speed.high, machine.speed.limit),
                          "One of the two is wrong.", "Correct machine: speed.", practice("own rule"))  # fmt: skip


def _named(design: Design) -> Iterator[Finding]:
    """Parts that must be there and are not named, and speeds the wrong way round."""
    project = design.project
    machine = project.machine
    if machine is None or machine.speed is None or design.load is None or project.power is None:
        return
    speed = machine.speed
    if speed.low.known and speed.high.known and speed.low.unit is speed.high.unit and speed.low > speed.high:
        yield Finding("speeds-reversed", "stop", "NOTICE", Said.of("The lowest speed {0} is above the highest {1}.", speed.low, speed.high), "Everything was worked for the wrong end.",
                      "Write the lower one first.", practice("own rule"))  # fmt: skip
    belts = len(project.belts)
    parts = round(table("machine_kinds").cell(machine.kind or "other", "parts").si)
    wanted = {"tool": min(belts, 1) + parts, "motor": min(belts, 1)}
    wanted |= {f"after belt {number}": 2 for number in range(1, belts)}
    if any(sum(part.shaft == shaft for part in project.turning) < least for shaft, least in wanted.items()):
        yield Finding("turning-not-named", "stop", "WARNING", Said.of("Not every part that turns is in the file with the speed it stands."), "A part that bursts throws its pieces at whoever stands before it.",
                      "Name them under turning: the pulleys of each belt, those of a countershaft with shaft: after belt 1, and the tool; for a belt sander the drum, the idler and the abrasive belt, for a band saw both wheels and the blade.", RUNAWAY, key="turning")  # fmt: skip


def belts(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Shafts that are nearer to each other than their pulleys are large."""
    del circuit
    for number, belt in enumerate(design.project.belts, 1):
        if belt.centres.known and belt.driver.known and belt.driven.known and float(belt.centres) <= (float(belt.driver) + float(belt.driven)) / 2:
            yield Finding(f"pulleys-overlap-{number}", "stop", "NOTICE", Said.of("Belt {0}: the shafts are {1} apart, less than both pulleys' radii together.".replace("{0}", str(number)).replace("{1}", "{0}"), belt.centres),
                          "The pulleys would touch; length and wrap are worked from a wrong figure.", "Measure the distance of the shafts again.", derivation("two circles that do not overlap"), key=f"belts.{number}.centres")  # fmt: skip


def box(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A box whose heat and bonding this version does not work."""
    del circuit
    given = design.project.box
    if given is not None and given.material == "plastic":
        yield Finding("box-not-metal", "stop", "WARNING", Said.of("The box is of plastic."), "Its heat and its bonding are worked for sheet steel here; plastic keeps the heat in.",
                      "Take a steel box.", practice("own limit of this version"), key="box.material")  # fmt: skip


def window(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Speeds outside what this kind of machine usually runs at; the danger of its moving tool."""
    del circuit
    machine = design.project.machine
    if machine is None or machine.kind is None or machine.speed is None:
        return
    kinds = table("machine_kinds")
    low, high = kinds.cell(machine.kind, "low"), kinds.cell(machine.kind, "high")
    hazard, source = low.note("hazard"), _window_of(low)
    yield Finding("moving-tool", "note", "WARNING", Said.of(f"{hazard[0].upper()}{hazard[1:]}."), "It starts without a sound and does not stop for a hand.",
                  ("Guard all of it, the place of work too" if machine.reach == "guarded" else "Guard all of it but the place of work") + ", tie back hair, no gloves, no loose sleeves; eye protection.", practice("guarding of rotating tools"), key="machine.kind", step="motor")  # fmt: skip
    top = machine.speed.high
    if top.known and top.unit is low.unit and float(top) < low.si:
        yield Finding("slower-than-usual", "note", "NOTICE", Said.of(f"The highest speed {{0}} is below the usual {low.printed} to {high.printed}.", top), "It works, but slowly.",
                      "Keep it if that is wanted.", source)  # fmt: skip
    if top.known and top.unit is high.unit and float(top) > high.si:
        yield Finding("faster-than-usual", "heed", "WARNING", Said.of(f"The highest speed {{0}} is above the usual {low.printed} to {high.printed}.", top), "Tool and work heat up, and parts are thrown further.",
                      "Lower it unless tool and guard are made for it.", source)  # fmt: skip
    if low.note("dust") in DUSTS:
        name, found, why, do = DUSTS[low.note("dust")]
        yield Finding(name, "note", "CAUTION", Said.of(found), why, do, practice("dust and brush motors"), key="machine.kind")  # fmt: skip


# What the table of kinds says that flies off the work -> id, found, why, do.
DUSTS = {
    "wood": ("wood-dust", "Wood dust fills an open motor and burns.", "Dust on warm parts smoulders; the brushes spark.",
             "Draw the dust off, keep it from the motor, blow the motor out often, never grind metal with wood dust inside."),
    "metal": ("metal-dust", "Metal chips and dust get into an open motor.", "They join its windings to its case, and wear brushes and bearings.",
              "Shield its openings from the chips and leave the air its way, never blow chips towards it, measure its insulation again each year."),
    "sparks": ("sparks", "Sparks of the wheel burn what lies about.", "Wood dust flashes when a spark comes, and a bag of dust burns hours later.",
               "Clear wood dust away first, never draw metal and wood dust into one bag, shield the motor's openings."),
    "flour": ("flour-dust", "Dust of grain and flour burns, and in the air of a room it explodes.", "The brushes spark.",
              "Keep motor and box out of the dust, sweep it up, blow none of it about."),
}  # fmt: skip


def _window_of(cell: Cell) -> Citation:
    """Where the usual speeds of a kind come from: each row of the table says it."""
    basis = cell.note("basis")
    honest: ReadFrom = "practice" if basis.startswith("common practice") else "memory" if "from memory" in basis else "secondary copy"
    return Citation(cell.table.title, basis if honest == "secondary copy" else basis.replace("from memory: ", "").replace("from memory", "this kind"), read_from=honest)


def load(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A load that is hardest when slow, and one that is not as usual for its kind."""
    del circuit
    machine, found = design.project.machine, design.load
    if machine is None or found is None:
        return
    low, high = found.motor_torque_low, found.motor_torque_high
    if found.law.hardest_when_slow and low.known and high.known and float(low) > float(high) * MORE:
        yield Finding("hardest-when-slow", "note", "NOTICE", Said.of("The work takes the same power at all speeds: of the motor {0} at the slowest, {1} at the fastest.", low, high), "Current, fuses, overload and heat follow the slowest speed.",
                      "If a size stops the packet, take a belt step for slow work and narrow the speeds, or write machine: load if yours does not pull harder when slow.", derivation("power is torque times speed"), ("M1",), key="machine.speed")  # fmt: skip
    usual = table("machine_kinds").rows[machine.kind]["load"] if machine.kind not in (None, "other") else None
    if machine.load is not None and usual is not None and machine.load != usual:
        order = list(table("load_laws").rows)  # the hardest when slow first
        easier = order.index(machine.load) > order.index(usual)
        yield Finding("load-of-its-own", "heed" if easier else "note", "NOTICE", Said.of(f"The load is written as {machine.load}; usual for a machine of kind {machine.kind} is {usual}."), "Current and heat at the slowest speed rest on it.",
                      "Clamp the current at the slowest speed under work, on sheet 9, and compare.", table("machine_kinds").source, ("M1",), key="machine.load")  # fmt: skip


def coast(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A tool that turns on for long after the stop."""
    del circuit
    machine = design.project.machine
    if design.coast is None or machine is None:
        return
    limit = table(design.region.tables["rules"]).cell("coast limit", "value")
    controls, brake = design.project.controls, design.sizes.braking if design.sizes is not None else None
    if controls is not None and controls.brake:
        yield from _brake(design, limit.si)
        if brake is not None and brake.time.known:
            return
    if not design.coast.known:
        yield Finding("coast-unknown", "heed", "WARNING", Said.of("Nobody knows how long the tool coasts."), "A hand reaches in while it still turns.", "Measure it at first power and write the inertia.", practice("coasting tools"), key="machine.inertia",
                      unknown=(design.coast,), awaits="how long the tool coasts")  # fmt: skip
    elif float(design.coast) > limit.si and machine.reach != "guarded":
        yield Finding("coasts-long", "only-with", "WARNING", Said.of("The tool coasts {0} after the stop and can be reached.", design.coast), "A hand reaches in while it still turns.",
                      "Fit a brake, or a guard that stays locked until it stands.", practice("a long coast of a tool within reach needs a brake or a locked guard"))  # fmt: skip
    else:
        yield Finding("coasts", "note", "WARNING", Said.of("The tool runs on for {0} after the stop.", design.coast), "Stop takes the power away; nothing brakes.", "Keep clear until it stands.", derivation("coast on the motor's own losses"))  # fmt: skip


def _brake(design: Design, limit: float) -> Iterator[Finding]:
    """A brake that was asked for: whether this motor can have one, and what it does."""
    machine, brake, motor = design.project.machine, design.sizes.braking if design.sizes is not None else None, design.project.motor
    if brake is None:
        if design.sizes is not None:
            yield Finding("brake-not-possible", "stop", "WARNING", Said.of("This motor can't brake itself on a resistor."), "Only a motor with magnets, whose plate is known, makes its own field when the supply is away; a brake that needs supply or field does not count.",
                          "Leave brake out, and keep the tool out of reach until it stands.", BRAKES, ("M1",), key="controls.brake")  # fmt: skip
        return
    if not brake.time.known or design.coast is None:
        yield Finding("brake-unknown", "stop", "WARNING", Said.of("Nobody knows how fast the brake stops the tool."), "It is counted on without being known.", "Write machine: inertia and motor: inertia.", BRAKES, ("R3",), key="machine.inertia", unknown=(brake.time,), awaits="how fast the brake stops")  # fmt: skip
        return
    if float(brake.time) > limit and machine is not None and machine.reach != "guarded":
        yield Finding("brakes-slowly", "only-with", "WARNING", Said.of("With the brake the tool still takes {0} to stand, and can be reached.", brake.time), "A hand reaches in while it still turns.",
                      "Fit a guard that stays locked until it stands.", BRAKES, ("R3",))  # fmt: skip
    yield Finding("brakes", "note", "WARNING", Said.of("The brake stops the tool in {0}; without it it coasts {1}.", brake.time, design.coast), "It brakes, but it does not hold: at standstill a hand can turn it, and so can the work.",
                  "Keep clear until it stands, and never take the brake for a lock.", BRAKES, ("R3", "M1"))  # fmt: skip
    if motor is not None and motor.pulley in ("left-hand thread", "right-hand thread"):
        yield Finding("brake-unscrews", "stop", "WARNING", Said.of("The pulley is screwed on the motor's shaft, and the brake pulls at {0}.", brake.torque), "What a motor screws tight, a brake unscrews: it runs off the shaft.",
                      "Lock it with a key or a screw into the shaft, and write motor: pulley anew; or leave the brake out.", BRAKES, ("M1", "R3"), key="motor.pulley")  # fmt: skip


def motor(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """What plate and bench say of the motor, and what the load asks of it."""
    del circuit
    given, sheet = design.project.motor, design.sheet
    if given is None:
        return
    if isinstance(given, BrushedMotor):
        yield from _held(given.held, sheet.values.get("motor.R_a"))
    plate = given.plate
    if plate is not None and plate.power.known and plate.voltage.known and plate.current.known:
        claimed, honest = sheet.values.get("motor.eta_n"), sheet.values.get("motor.P_h")
        if claimed is not None and honest is not None and claimed.known and float(claimed) > BELIEVABLE:
            yield Finding("plate-power", "heed", "NOTICE", Said.of("The plate claims {0}; {1} from {2} leaves about {3}.", plate.power, plate.voltage, plate.current, honest),
                          "A plate like this states a peak, not what the motor stands for long.", "Plan with the smaller figure.", Citation("dynamometer test and retail pages on peak horsepower"), ("M1",))  # fmt: skip
    if "motor.L_low" in sheet.values:
        yield Finding("inductance-assumed", "note", "NOTICE", Said.of("Nobody measured the inductance: all was worked from {0} to {1}, the worst end taken for each size.", sheet.values["motor.L_low"], sheet.values["motor.L_high"]),
                      "It decides how fast the motor is on this line, and what it takes at start." if isinstance(design.applied, AlternatingLine) else "It decides how smooth the current is, and so the heat.", "Put low-voltage AC on the held rotor and write volts and amperes under motor: alternating.", derivation("form factor falls as inductance grows"), ("M1",), key="motor.alternating")  # fmt: skip
    by_plate, by_spin = sheet.values.get("motor.K_e_plate"), sheet.values.get("motor.K_e")
    if (
        by_plate is not None
        and by_spin is not None
        and by_plate.known
        and by_spin.known
        and abs(float(by_plate) / float(by_spin) - 1) > AGREE
    ):
        yield Finding("constants-disagree", "heed", "NOTICE", Said.of("Plate and spin test disagree on the back-EMF constant: {0} and {1}.", by_plate, by_spin),
                      "One of them belongs to another motor, speed or voltage.", "Spin it again both ways, and read the plate with a lamp.", memory("motor data should agree within about 5 %"), ("M1",))  # fmt: skip
    heat = design.heat
    if heat is not None and heat.duty_current.known and heat.allowed_current.known:
        if heat.duty_current > heat.allowed_current:
            yield Finding("motor-overheats", "stop", "WARNING", Said.of("Over run and rest the motor carries {0}; fed so it stands {1}.", heat.duty_current, heat.allowed_current),
                          "The winding burns.", "Lower the load or gear down" + (", or smooth the current with a choke." if isinstance(design.applied, Steered) else "."), derivation("copper heat goes with the square of the RMS current"), ("M1",))  # fmt: skip
        elif (
            worst := max((p.current for p in design.points if p.current.known), default=None)
        ) is not None and worst > heat.allowed_current:
            yield Finding("motor-short-time", "heed", "NOTICE", Said.of("While it runs the motor carries {0}; all day it stands {1}.", worst, heat.allowed_current),
                          "It lives on its rests.", "Keep to the duty on the rating plate.", derivation("equal copper heat over a cycle"), ("M1",))  # fmt: skip
    if (
        heat is not None
        and design.load is not None
        and given.cooling != "none"
        and (design.motor is None or design.motor.direct)  # an induction motor's torque for long is worked at each speed
        and heat.lowest_speed.known
        and design.load.motor_low.known
        and design.load.motor_low < heat.lowest_speed
    ):
        yield from _slow(design.load, heat)
    if heat is not None and heat.inside.known and heat.limit.known and heat.inside > heat.limit:
        power = design.project.power
        stands = f"the {power.noun} stands" if power is not None and heat.drive_loss is not None else "what is in it stands"
        yield Finding("box-too-hot", "stop", "WARNING", Said.of(f"The air in the box reaches {{0}}; {stands} {{1}}.", heat.inside, heat.limit),
                      "What is too warm fails, and a drive perhaps to full speed.", "Take a larger box, or let filtered air through it.", Citation("enclosure climate calculation after IEC 60890"), ("T1",))  # fmt: skip
    if given.spare_wires:  # a tachometer is a small generator by itself, but nobody has proved the insulation between the two
        yield Finding("spare-wires-live", "note", "WARNING", Said.of(f"Spare wires of the motor are live with it, or count as live: {', '.join(given.spare_wires)}."),
                      "A loose end in the machine puts the supply on what it touches; through a tap of the field the motor would also run faster and hotter than planned.",
                      "Close off each one by itself, and connect none of them.", practice("tapped windings, and tachometers beside them"), ("M1",), step="motor", key="motor.spare_wires")  # fmt: skip
    if given.double_insulated:
        yield Finding("second-insulation-lost", "only-with", "DANGER", Said.of("The motor comes from a double-insulated appliance."), "Taken out it has lost its second insulation: core and spindle can be live.",
                      "Bond core and driven spindle, measure insulation to both, use an insulating belt, and put it on the record.", practice("double-insulated appliances"), ("M1",), electric=True, key="motor.double_insulated")  # fmt: skip


def _slow(load: Load, heat: Heat) -> Iterator[Finding]:
    """A motor that turns more slowly than its own fan can do with. It is to be felt, but where the load is easier when slow
    and the fan does with that; where it is harder and the fan does not, it burns."""
    slow = heat.slow
    enough = slow is not None and slow.current.known and slow.stands.known and not slow.current > slow.stands
    if slow is not None and load.law.hardest_when_slow and slow.current.known and slow.stands.known and not enough:
        yield Finding("too-hot-when-slow", "stop", "WARNING", Said.of("At the lowest speed the motor carries {0} by heat; on its own fan, turning so slowly, it stands {1}.", slow.current, slow.stands),
                      "The winding burns, and the overload relay, which knows nothing of the fan, does not see it.", "Gear down so that the motor turns faster, raise the lowest speed, or make the work at it lighter.", OWN_FAN, ("M1",))  # fmt: skip
    elif not enough or load.law.hardest_when_slow:
        yield Finding("cools-badly-when-slow", "heed", "NOTICE", Said.of("At the lowest speed the motor turns at {0}; on its own fan it gives full torque down to {1}.", load.motor_low, heat.lowest_speed),
                      "Its fan turns too slowly to cool it.", "Feel the case after ten minutes at the lowest speed; fit a fan if the hand can't stay.", table("assumed").source, ("M1",))  # fmt: skip


def _held(held: HeldRotor | None, resistance: Value | None) -> Iterator[Finding]:
    """Readings with the rotor held that no winding gives."""
    if held is None or resistance is None or resistance.known:
        return
    readings = (held.current_1, held.voltage_1, held.current_2, held.voltage_2)
    if all(reading.known for reading in readings):
        yield Finding("held-readings", "stop", "WARNING", Said.of("With the rotor held, {0} took {1} and {2} took {3}: more current must take more volts.", *readings), "The armature's resistance comes from these two.",
                      "Probably the two voltages of motor: held are swapped, or the two currents. Look at the notes of the test, or measure again.", derivation("Ohm's law in a winding"), ("M1",),
                      key="motor.held", unknown=(resistance,))  # fmt: skip
