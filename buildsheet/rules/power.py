"""Dangers between outlet and drive: load of the circuit, live controls, drive limits, protection, restart."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, derivation, memory, practice
from buildsheet.design import Design
from buildsheet.rules.clauses import clause
from buildsheet.rules.wet import WET
from buildsheet.sizing.finding import MORE, Finding, Said
from buildsheet.sizing.waist import Steered
from buildsheet.units import AMPERE
from buildsheet.ways.drive import MANUALS as DRIVE_MANUALS
from buildsheet.ways.way import Beside
from buildsheet.worksheet import unknown

RESTART = Citation("IEC 60204-1", "7.5", "6th ed. 2016")
PERSONS = memory("IEC 60050-195", "195-04-01 to 195-04-03, skilled, instructed and ordinary persons")
ZERO_START = Citation("a builder's account of a drive from an exercise machine", "it wants the knob at zero after each power-up")


def supply(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Load of the circuit, residual current, poles."""
    del circuit
    given, sizes = design.project.supply, design.sizes
    if given is None:
        return
    if given.residual_current in (None, "none"):
        word = design.region.words["residual-current-device"]
        found, do = (
            ("The outlet has no residual-current protection.", f"Use a {word} outlet.")
            if given.residual_current == "none"
            else (
                "The file does not say whether the outlet has residual-current protection.",
                f"Look for a {word} at the outlet or in the panel, press its test button, and write supply: residual_current.",
            )
        )
        yield Finding("no-residual-current", "heed", "WARNING", Said.of(found), "Without it a fault to the frame flows through whoever touches it until a fuse blows.",
                      f"{do} If it trips, find the leakage; never move to an unprotected outlet.", practice("residual-current protection of outlets in workshops"), key="supply.residual_current", electric=True)  # fmt: skip
    if given.connection == "fixed":
        yield Finding("fixed-wiring", "stop", "WARNING", Said.of("The machine is to be wired to the building."), "Every step and reading of this packet rests on a plug that can be pulled; fixed wiring is a licensed person's work.",
                      "Give it a cord and plug, or let a licensed person plan it.", practice("local code"), key="supply.connection", electric=True)  # fmt: skip
    if (
        sizes is not None
        and sizes.line_current.known
        and sizes.continuous_limit is not None
        and sizes.continuous_limit.known
        and sizes.line_current > sizes.continuous_limit
    ):
        yield Finding("overloads-circuit", "stop", "WARNING", Said.of("The machine draws {0}; this circuit may give {1} for hours.", sizes.line_current, sizes.continuous_limit),
                      "The breaker trips, or the wires in the wall run hot.", "Lower the power, or feed it from a circuit of its own with a larger breaker.", clause(design, "continuous share"))  # fmt: skip
    if (
        sizes is not None
        and sizes.line_fuse.known
        and given.breaker.known
        and sizes.line_fuse > given.breaker
    ):
        yield Finding("fuse-above-breaker", "stop", "WARNING", Said.of("The line fuse would be {0}, more than the wall breaker's {1}.", sizes.line_fuse, given.breaker),
                      "The breaker in the wall would trip first and the machine needs more than the circuit gives.", "Feed it from a larger circuit, or lower the load.", clause(design, "continuous share"))  # fmt: skip
    if (
        sizes is not None
        and sizes.drop_share.known
        and sizes.drop_limit.known
        and sizes.drop_share > sizes.drop_limit
    ):
        yield Finding("voltage-drop", "heed", "NOTICE", Said.of("The wires lose {0} of the voltage; {1} is the most.", sizes.drop_share, sizes.drop_limit),
                      "The motor is slower and the wires warmer.", "Take thicker or shorter wire.", memory("IEC 60204-1", "12.5"))  # fmt: skip


def persons(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """What the person who wires it has learnt, against what the packet asks of them."""
    del circuit
    site = design.project.site
    if design.supplied is None or not design.supplied.live or (site is not None and site.skill == "skilled"):
        return
    if site is not None and site.skill == "lay":
        yield Finding("skill-lay", "stop", "DANGER", Said.of("Who wires it has learnt nothing of electricity."), "They can't see what is wrong before it kills.",
                      "Let a skilled person wire it, or instruct and watch the one who does; then write site: skill anew.", PERSONS, electric=True, key="site.skill")  # fmt: skip
        return
    found = (
        "An instructed person wires it; first power is for a skilled one."
        if site is not None and site.skill == "instructed"
        else "The file does not say what the person who wires it has learnt; first power is for a skilled one."
    )
    yield Finding("skill", "heed", "WARNING", Said.of(found), "With the plug in a slip can kill; an instructed person knows the rules, a skilled one sees what is wrong.",
                  "Wire it with the plug out; let a skilled person check it before first power and do that with you.", PERSONS, electric=True, key="site.skill")  # fmt: skip


def drive(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """What the drive may do and what its control terminals are."""
    del circuit
    power, site, machine = design.project.power, design.project.site, design.project.machine
    if power is None or design.applied is None:
        return
    wired = power.control is not None and power.control.wired
    named = power.control.name if power.control is not None else ""
    if wired and power.live_controls is not False:  # not known counts as live
        wet = site is not None and site.where in WET
        foot = machine is not None and machine.foot_control
        if wet or foot:
            found = (
                "Controls at line voltage in a wet place."
                if wet
                else "A control at line voltage under a foot."
            )
            yield Finding("live-controls-wet", "stop", "DANGER", Said.of(found), "Water or a worn cable puts line voltage on the hand or foot.",
                          "Use a drive with galvanic separation, or move the machine indoors.", DRIVE_MANUALS, ("S4", "T1"), electric=True, key="power.separation")  # fmt: skip
        why = f"The {power.noun} does not separate them from the line." if power.live_controls else f"Nobody knows whether the {power.noun} separates them from the line, so they count as live."
        yield Finding("live-controls", "note", "DANGER", Said.of(f"Line voltage from the plug to the motor, on the {named}'s wires too."),
                      f"{why} Touching one with the plug in can kill, also with the {named} at its slow end.",
                      f"Use the insulation of the wire list, sleeve every lug, take a plastic shaft, and never join any of them to {design.region.words['earth']}.", DRIVE_MANUALS, ("S4", "T1"), electric=True, step="knob", key="power.separation")  # fmt: skip
    elif design.supplied is not None and design.supplied.live:
        apart = f"; the {named}'s wires are separated from it" if wired else ""
        touch = "Touching the line side or the motor's wires with the plug in can kill." if wired or power.separates else "Any of it can kill while the plug is in."
        ends = f" The separation ends where a wire of the {named} meets one of the line." if wired else ""
        lead = f", and lead the {named}'s wires apart from all others" if wired else ""
        if power.low_behind:
            apart = f" into the {power.low_behind}; behind it all is at low voltage, by its mark"
            touch, ends, lead = f"Touching the line side with the plug in can kill, and so does what is behind the {power.low_behind} once its insulation fails.", "", f", and wire and touch what is behind the {power.low_behind} like the line"
        yield Finding("line-voltage", "note", "DANGER", Said.of(f"Line voltage from the plug {'to the motor' if not power.low_behind else ''}{apart}.".replace("  ", " ")),
                      f"{touch}{ends}{power.separates}",
                      f"Pull the plug before the lid comes off{lead}.", practice("work on the line side"), ("T1",), electric=True, step="motor", key="power.separation")  # fmt: skip
    yield from _voltages(design)
    yield from _limits(design)
    worst = max((p for p in design.points if p.current.known), key=lambda p: float(p.current), default=None)
    gives = power.gives
    limit = design.heat.drive_current if design.heat is not None else gives
    if worst is not None and limit is not None and gives is not None:
        if not limit.known:
            yield Finding("drive-rating-unknown", "stop", "WARNING", Said.of(f"Nobody knows what current the {power.noun} gives for long."), "One that is too small burns or fails to full speed.",
                          f"Find the {power.noun}'s rating with and without its heat sink and write it under power.", practice("drive ratings"), ("T1",),
                          key="power.rated", unknown=(limit if gives.known else gives,))  # fmt: skip
        elif worst.current > limit:
            yield Finding("drive-too-small", "stop", "WARNING", Said.of(f"The motor takes {{0}}; the {power.noun} gives {{1}} as it is cooled here.", worst.current, limit),
                          f"The {power.noun} overheats; a power device that fails shorted gives full speed.", "Fit the heat sink or a fan, or take a larger one.", practice("drive makers' derating"), ("T1",))  # fmt: skip
    yield from _reach(design)
    yield from _knob(design)


def _reach(design: Design) -> Iterator[Finding]:
    """Whether each speed is reached, and whether knob and motor hold it."""
    power, applied = design.project.power, design.applied
    if power is None or applied is None:
        return
    about = (power.first[0], "M1")
    for point in design.points:
        asked, most = power.reach(applied, point)
        if asked.known and most.known and asked > most:
            end, do = ("highest", "Lower the highest speed") if point.tag == "high" else ("lowest", "Lower the load at the lowest speed, raise that speed,")
            yield Finding("speed-out-of-reach" + ("" if point.tag == "high" else "-when-slow"), "stop", "NOTICE", Said.of(f"The {end} speed needs {{0}}; the {power.noun} gives {{1}}.", asked, most),
                          "The machine stays slower than the file says.", f"{do} or change the pulleys.", practice("range of the drive"), about[:1])  # fmt: skip
    blind = tuple(point.rms for point in design.points if not point.rms.known)
    if blind:
        yield Finding("no-operating-point", "stop", "WARNING", Said.of("The operating point could not be worked out."), "Wires, fuses and heat all rest on it.",
                      "", practice("own rule"), unknown=blind[-1:], awaits="the operating point")  # fmt: skip
    low, high = design.point("low"), design.point("high")
    if low is None or high is None or power.control is None or design.load is None or not design.load.law.hardest_when_slow:
        return
    slow, fast = (power.reach(applied, point)[0] for point in (low, high))
    if slow.known and fast.known and float(slow) > float(fast) * MORE:
        yield Finding("slow-needs-more-volts", "stop", "WARNING", Said.of("The lowest speed needs {0} under work, the highest {1}: the knob would stand the wrong way round.", slow, fast),
                      "When the work lifts off at slow, the tool runs above its set maximum.", "Raise the lowest speed, or gear down for slow work.", HOLDS, about)  # fmt: skip
    elif low.emf is not None and low.emf.known and low.terminal.known and 2 * float(low.emf) < float(low.terminal):
        yield Finding("speed-not-held-when-slow", "heed", "WARNING", Said.of("At the lowest speed only {0} of the {1} at the motor are its own: it does not hold this speed by itself.", low.emf, low.terminal),
                      "Work of constant power stalls it when it dips, and lets it run up when it eases.", "Raise the lowest speed or gear down for slow work, and keep the hand at stop.", HOLDS, about)  # fmt: skip


def _knob(design: Design) -> Iterator[Finding]:
    """What the drive does at the knob's ends: a broken wire, and a start with the knob turned up."""
    power, machine = design.project.power, design.project.machine
    if power is None or power.control is None:
        return
    if power.control.wired and power.broken_low_end != "stops":
        grade = "heed" if power.broken_low_end else "note"
        text = (
            f"With the slow-end wire of the knob off, the {power.noun} goes to full speed."
            if power.broken_low_end
            else f"Nobody knows what the {power.noun} does when the slow-end wire of the knob comes off."
        )
        yield Finding("open-low-end", grade, "WARNING", Said.of(text), "A broken wire then starts the machine at full speed.",  # type: ignore[arg-type]
                      "Run its wires in one cable, clamp it at both ends, and check the runaway column of the speeds sheet.", practice("drive makers' manuals"), ("S4", "T1"), step="knob", key="power.open_low_end")  # fmt: skip
    speed = machine.speed if machine is not None else None
    one_speed = speed is not None and speed.low.known and speed.high.known and float(speed.low) == float(speed.high)
    if power.waits_for_zero or one_speed:
        return
    text = (
        f"The {power.noun} starts at the speed that the {power.control.name} was left at."
        if power.waits_for_zero is False
        else f"Nobody knows whether the {power.noun} starts with the {power.control.name} turned up."
    )
    yield Finding("starts-at-knob", "heed", "WARNING", Said.of(text), "After a trip of the no-volt release, start brings the tool to its last speed at once, with the work and the hand still in it.",
                  f"Turn the {power.control.name} to slow after every stop and before every start, and say so beside the start button; or take one that starts only from zero.",
                  ZERO_START, ("S2", "S4", "T1"), step="knob", key="power.starts_from_zero")  # fmt: skip


def _a(noun: str) -> str:
    """A noun with its article."""
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


NEAR = 0.1  # two voltages that differ by less than the line's tolerance are the same voltage
FAR_ABOVE = 1.5  # a drive that can give this much more than the plate is made for another motor


def _voltages(design: Design) -> Iterator[Finding]:
    """Line, drive, motor and fan must be made for each other."""
    power, supplied, motor, controls = design.project.power, design.supplied, design.project.motor, design.project.controls
    if power is None or supplied is None or not supplied.voltage.known:
        return
    line, made_for, high = supplied.voltage, power.made_for, power.output_most
    if supplied.alternating and made_for is not None and made_for.known and abs(float(made_for) / float(line) - 1) > NEAR:
        yield Finding("drive-for-another-line", "stop", "DANGER", Said.of(f"The {power.noun} is made for {{0}}, the line has {{1}}.", made_for, line), "Too much bursts its parts; too little lets it misfire.",
                      f"Take {_a(power.noun)} for this line.", DRIVE_MANUALS, (power.first[0],), electric=True)  # fmt: skip
    elif made_for is not None and not made_for.known:
        yield Finding("drive-line-unknown", "note", "NOTICE", Said.of(f"The file does not say for which line voltage the {power.noun} is made."), f"{_a(power.noun).capitalize()} on the wrong line is destroyed, or lets too much through.",
                      f"Read it off the {power.noun} and write it under {made_for.id.replace('.', ': ')}.", DRIVE_MANUALS, ("T1",), key=made_for.id)  # fmt: skip
    full = design.sheet.values.get("drive.V_full")
    if full is not None and full.known and high.known and float(high) > float(full) * (1 + NEAR):
        yield Finding("output-beyond-line", "stop", "WARNING", Said.of(f"The {power.noun} is said to give {{0}}; from this supply it has {{1}} at the most.", high, full), "One of the two is wrong, and every size rests on them.",
                      f"Read the {power.noun}'s plate again: its output on this supply.", Citation("single-phase bridge, mean of a rectified sine", read_from="derivation"), ("T1",))  # fmt: skip
    plate = motor.plate if motor is not None and (design.motor is None or design.motor.direct) else None
    if plate is not None and plate.voltage.known and high.known and float(high) > float(plate.voltage) * (1 + NEAR):
        far = float(high) > float(plate.voltage) * FAR_ABOVE
        yield Finding("drive-above-motor", "stop" if far else "heed", "WARNING", Said.of(f"The {power.noun} can give {{0}}; the motor's plate says {{1}}.", high, plate.voltage), "At full output the motor runs above its rated speed and voltage.",
                      f"Take {_a(power.noun)} for this motor." if far else "Set the maximum trim before the belt goes on, and write its position down.", Citation("drive manual", "step-down output for 90 V motors is a mode of its own"), ("T1", "M1"))  # fmt: skip
    pulses = power.pulse_height(design.applied) if design.applied is not None else None
    if pulses is not None and pulses.known and plate is not None and plate.voltage.known and float(pulses) > float(plate.voltage) * (1 + NEAR):
        yield Finding("pulses-above-motor", "heed", "WARNING", Said.of("The pulses at the motor are {0} high; its plate says {1}.", pulses, plate.voltage), "Their average is what the knob sets, but insulation and brushes feel their height, and a shorted switch leaves all of it on.",
                      "Measure the motor's insulation before and after the first hour, look at the brushes, and take a drive of a lower voltage if they spark.", practice("magnet motors on rectified line"), ("T1", "M1"))  # fmt: skip
    fan = controls.fan if controls else None
    if fan is not None and fan.voltage.known and abs(float(fan.voltage) / float(line) - 1) > NEAR:
        yield Finding("fan-for-another-line", "stop", "WARNING", Said.of("The fan is made for {0}, the supply has {1}.", fan.voltage, line), f"It is wired beside the {power.noun} and burns.",
                      "Take a fan for this supply; one on a separate adapter is not wired by this program.", practice("fans on the line"), ("M2",))  # fmt: skip


HOLDS = derivation("torque falls with speed faster than that of constant power as long as the back-EMF is more than the volts lost in the winding")
HIGH_LIMIT = 1.5  # a current limit this far above the plate no longer guards the motor


def _limits(design: Design) -> Iterator[Finding]:
    """Current limit, ratings and potentiometer of the drive, against each other and the motor."""
    power, motor = design.project.power, design.project.motor
    if power is None:
        return
    limit, gives = power.current_limit_set, power.gives
    if limit is None or gives is None:
        return
    if limit.known and gives.known and limit > gives:
        yield Finding("limit-beyond-drive", "stop", "WARNING", Said.of(f"The current limit is {{0}}; as it is cooled here the {power.noun} gives {{1}}.", limit, gives), f"At a jam the {power.noun} burns before it limits.",
                      f"Set the limit below the {power.noun}'s rating and write it.", DRIVE_MANUALS, ("T1",))  # fmt: skip
    sizes = design.sizes
    if sizes is not None and sizes.limit_rms.known and sizes.motor_fuse is not None and sizes.motor_fuse.known and sizes.limit_rms > sizes.motor_fuse:
        yield Finding("limit-above-fuse", "heed", "NOTICE", Said.of(f"At its limit the {power.noun} gives {{0}} as heat feels it; the motor fuse is {{1}}.", sizes.limit_rms, sizes.motor_fuse), f"A jam blows the fuse before the {power.noun} can hold the current.",
                      "Set the current limit lower, and keep two spare fuses.", derivation("a fuse warms by the RMS current, a drive limits the average"), ("F2", "T1"), key="power.current_limit")  # fmt: skip
    plate = motor.plate if motor else None
    if limit.known and plate is not None and plate.current.known and float(limit) > HIGH_LIMIT * float(plate.current):
        yield Finding("limit-high-for-motor", "heed", "WARNING", Said.of("The current limit is {0}, the motor's plate says {1}.", limit, plate.current), "A jam then overloads the motor until the relay trips.",
                      "Set it as low as the work allows.", DRIVE_MANUALS, ("T1", "M1"))  # fmt: skip


def own(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """What the way of powering says against itself: its data, and its parts as they were sized."""
    del circuit
    power, motor, controls = design.project.power, design.project.motor, design.project.controls
    if power is None:
        return
    plate = motor.plate if motor is not None else None
    current = plate.current if plate is not None else unknown("motor.plate.current", AMPERE, "no nameplate", "current on the plate")
    yield from power.dangers(Beside(design.region, current, controls is not None and controls.choke is not None, controls is not None and controls.fan is not None))
    if design.sizes is not None:
        yield from design.sizes.outfit.dangers()


def protection(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Overload, fault current, no-volt release, emergency stop, disconnect."""
    del circuit
    sizes, controls, motor, power = design.sizes, design.project.controls, design.project.motor, design.project.power
    if sizes is None:
        return
    if controls is None or controls.overload is None:
        yield Finding("no-overload", "stop", "WARNING", Said.of("Nothing protects the motor from overload."), "A fuse does not: it carries for hours what burns a winding.",
                      "Name it under controls, for example: overload: {by: relay}", clause(design, "overload factor"), ("M1",), key="controls.overload")  # fmt: skip
    elif controls.overload.by == "inverter" and power is not None and power.guards_motor:
        if not controls.overload.setting.known:
            yield Finding("overload-not-set", "stop", "WARNING", Said.of("The file does not say what current the inverter's overload is set to."), "Its factory setting is for its own rating, not for this motor.",
                          "Write controls: overload: setting, the plate's current for the way in which the motor is linked.", clause(design, "overload factor"), ("T1", "M1"), key="controls.overload.setting")  # fmt: skip
    elif controls.overload.by == "relay" and power is not None and power.guards_motor:
        yield Finding("relay-behind-inverter", "stop", "WARNING", Said.of("An overload relay does not lie behind an inverter."), "Its trip would open the chain, but its heaters feel the inverter's pulses and its low frequencies wrongly.",
                      "Let the inverter's own electronics guard the motor: overload: {by: inverter, setting: what the plate says}.", DRIVE_MANUALS, ("T1", "M1"), key="controls.overload")  # fmt: skip
    elif controls.overload.by != "relay":
        yield Finding("overload-not-shown", "stop", "WARNING", Said.of(f"The overload is left to the {controls.overload.by}."), "Nothing in the circuit shows that it stops the motor, or at what current.",
                      "Take a relay in the chain of the no-volt release: overload: {by: relay}", clause(design, "overload factor"), ("M1",), key="controls.overload")  # fmt: skip
    elif (
        controls.overload.by == "relay"
        and sizes.overload_need.known
        and sizes.overload_top.known
        and sizes.overload_need > sizes.overload_top
    ):
        yield Finding("overload-too-low", "stop", "WARNING", Said.of("The work takes {0} by heat; the overload relay may be set to {1} at the most.", sizes.overload_need, sizes.overload_top),
                      "Set for the plate the relay trips; set for the work it does not protect.", "Lower the load" + (", or smooth the current with a choke." if isinstance(design.applied, Steered) else ", or gear down."), clause(design, "overload factor"), ("F3", "M1"))  # fmt: skip
    if (
        controls is not None
        and controls.overload is not None
        and controls.overload.setting.known
        and sizes is not None
        and sizes.overload_top.known
        and controls.overload.setting > sizes.overload_top
    ):
        yield Finding("overload-set-high", "stop", "WARNING", Said.of(f"The overload {'relay' if controls.overload.by == 'relay' else 'protection'} is set to {{0}}; {{1}} is the most for this motor.", controls.overload.setting, sizes.overload_top), "The winding burns before it trips.",
                      "Set it lower, and write controls: overload: setting anew.", clause(design, "overload factor"), ("F3", "M1"), key="controls.overload.setting")  # fmt: skip
    no_release = controls is not None and not controls.no_volt_release
    if no_release:
        yield Finding("no-volt-release-refused", "stop", "WARNING", Said.of("The no-volt release is refused."), "After a power cut the machine starts by itself.",
                      "Leave no_volt_release at true.", RESTART, key="controls.no_volt_release")  # fmt: skip
    if motor is not None and motor.protector == "self-resetting" and no_release:
        yield Finding("self-resetting-protector", "stop", "WARNING", Said.of("The motor's thermal protector resets itself."), "It starts the machine when it has cooled, with a hand inside.",
                      "Keep the no-volt release and wire the protector into its chain.", RESTART, ("M1",), key="motor.protector")  # fmt: skip
    if controls is not None and not controls.emergency_stop:
        yield Finding("no-emergency-stop", "stop", "WARNING", Said.of("There is no emergency stop."), "A caught sleeve leaves no time to look for a knob.", "Leave emergency_stop at true.", Citation("ISO 13850", "4.1", read_from="memory"), key="controls.emergency_stop")  # fmt: skip
    if controls is not None and not controls.disconnect:
        yield Finding("no-disconnect", "stop", "DANGER", Said.of("There is no disconnect."), "Nothing opens the line before the box is.", "Leave disconnect at true.", Citation("IEC 60204-1", "5.3", "6th ed. 2016", "memory"), key="controls.disconnect", electric=True)  # fmt: skip


def users(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A machine that others than its builder use."""
    del circuit
    site = design.project.site
    if site is not None and site.users == "club":
        yield Finding("many-users", "heed", "WARNING", Said.of("A club uses the machine: hands that have not read this packet."), "Who was not shown what it does reaches where its builder would not.",
                      "Show each user sheet 2 and the stop, write down whom; ask the club's insurer. It is not for employees, sale or hire.", practice("machines in clubs"), key="site.users")  # fmt: skip


def restart(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A protector that resets itself, also behind a no-volt release that it is not part of."""
    del circuit
    motor = design.project.motor
    if motor is not None and motor.protector == "self-resetting":
        yield Finding("protector-not-in-chain", "stop", "WARNING", Said.of("The self-resetting protector in the motor is not in the chain of the no-volt release."),
                      "It opens the motor's current and closes it again when cool: the machine starts by itself.", "Bring its two wires out and wire it into the chain, or replace it by one with manual reset.", RESTART, ("M1",), key="motor.protector")  # fmt: skip
