"""First power: settings, then one reading after the other, each in the step that takes it. Plug and clips in turns: a
meter's clips go on with the plug out, nothing is probed by hand.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from buildsheet.circuit import Circuit, Terminal
from buildsheet.motors.series import SeriesMachine
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.facts import Fact, joined, limit, settings
from buildsheet.packet.views.rotor import looks
from buildsheet.packet.views.steps import HoldItem, PartHead, StepItem, Taken
from buildsheet.plan import Plan
from buildsheet.sizing.waist import Steered
from buildsheet.worksheet import Value


@dataclass(frozen=True, slots=True)
class SettingsItem:
    """Settings with a box for where each ended up."""

    settings: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class RowItem:
    """A remark beside the steps."""

    title: str
    text: str
    tint: bool = False


PowerItem = PartHead | StepItem | HoldItem | SettingsItem | RowItem

CAPACITOR = "This drive holds a large capacitor behind its bridge, charged to the peak of the line."
# Who does it, by what the file says of the person who wires. A person's word is never raised by this sheet.
BY_SKILL = {
    "skilled": "For the skilled person that the file names.",
    "instructed": "For a skilled person; who wired it is instructed, and writes.",
    "lay": "For a skilled person, not for the lay person who wired it.",
    None: "For a skilled person: the file does not say who wires it.",
}


def who(plan: Plan) -> str:
    """The first sentence of the sheet's purpose: who does it."""
    site = plan.project.site
    return BY_SKILL[site.skill if site else None]


def items(plan: Plan, ink: Ink) -> tuple[PowerItem, ...]:
    """Everything on the sheet under its first warning."""
    if plan.circuit is None or plan.stopped:
        return ()
    return tuple(_Writer(plan, plan.circuit, ink).all())


def instruments(plan: Plan, ink: Ink) -> set[str]:
    """What the readings are taken with, and the outlet tester of the first step of a machine with a plug."""
    steps = [item for item in items(plan, ink) if isinstance(item, StepItem)]
    tester = {"tester"} if any("Test the outlet" in item.action for item in steps) else set()
    return tester | {reading.tool for item in steps for reading in item.readings if reading.tool != "display"}


def purpose(plan: Plan) -> str:
    """What the sheet is for, and how each of its readings is taken."""
    off, on = _switching(plan)
    return f"{who(plan)} One reading at a time: {off}, clips on, cover shut, {on}, read, {off}."


def _switching(plan: Plan) -> tuple[str, str]:
    """What takes the machine off its supply, and what puts it on."""
    supplied = plan.design.supplied
    on_plug = supplied is None or supplied.guard is not None
    return ("plug out", "plug in") if on_plug else ("battery fuse out", "battery fuse in")


def output_of(circuit: Circuit) -> tuple[Terminal, Terminal]:
    """The two terminals that feed the motor: of the drive, or of the contactor where the line feeds it."""
    return drive_ends(circuit, 4)


def drive_ends(circuit: Circuit, stage: int) -> tuple[Terminal, Terminal]:
    """The first and the last terminal of the drive on the wires of this stage; of the contactor where there is no drive."""
    ends = [end for wire in circuit.wires if wire.stage == stage for end in (wire.a, wire.b)]
    found = [end for end in ends if circuit.devices[end.device].kind == "drive"]
    found = found or [end for end in ends if circuit.devices[end.device].kind == "contactor"]
    return found[0], found[-1]


class _Writer:
    def __init__(self, plan: Plan, circuit: Circuit, ink: Ink):
        self.plan, self.circuit, self.ink = plan, circuit, ink
        self.off, self.on = _switching(plan)
        self.plugged = self.on == "plug in"
        # a fuse that is drawn under current makes an arc: on a battery the disconnect cuts, and the fuse comes out after
        self.cut, self.uncut = (self.off, self.on) if self.plugged else ("disconnect off", "disconnect on")
        sizes = plan.design.sizes
        charged = sizes is not None and sizes.precharge is not None
        self.start = "hold start until the contactor pulls in" if charged else "press start, wait"
        self.press = "Hold start for longer than the charging takes" if charged else "Press start"
        self.count = 0
        machine = plan.project.machine
        self.guarded = machine is not None and machine.reach == "guarded"
        self.runs_away = isinstance(plan.design.motor, SeriesMachine)
        self.low, self.high = plan.design.point("low"), plan.design.point("high")
        motor, power = plan.design.motor, plan.project.power
        self.brushes = motor is None or motor.direct
        self.steered = plan.design.applied is None or isinstance(plan.design.applied, Steered)
        self.kind = "DC" if self.steered else "AC"  # of the voltage on the motor
        self.noun = power.noun if power is not None else "drive"
        self.shows = power is not None and power.display  # its own display tells its output, which no meter reads well
        self.control = plan.project.power.control if plan.project.power is not None else None
        self.never_bare = self.runs_away and self.control is None  # nothing holds its speed but its load
        self.set_slow = f"{self.control.name} at {self.control.slow}" if self.control is not None else ""
        self.at_slow, self.at_fast = (f", {self.set_slow}", f", {self.control.name} at {self.control.fast}") if self.control is not None else ("", "")

    def step(self, action: str, right_when: str, *readings: Taken, note: str = "") -> StepItem:
        self.count += 1
        return StepItem(str(self.count), action, right_when, note=note, readings=readings)

    def all(self) -> Iterator[PowerItem]:
        yield from self.before()
        yield self.stored()
        yield from self.unloaded()
        yield from self.loaded()
        yield from self.charger()
        yield RowItem("Anything wrong", f"Smoke, smell, a trip, a speed that nobody set: {self.cut} first{'' if self.plugged else ', then the fuse out'}, think after. A fuse is replaced once; when it blows again, look for the short with sheet 8.", tint=True)  # fmt: skip

    def before(self) -> Iterator[PowerItem]:
        words = self.plan.design.region.words
        yield PartHead("Before", "The supply and the empty machine", "Belt and tool off, guard on, sheet 8 signed.", None)
        if self.plugged:
            residual = words["residual-current-device"]
            yield self.step(
                f"Test the outlet with a tester: polarity and {words['earth']}. Press the test button of the {residual}.",
                "the tester shows a right outlet, and the test button trips it.",
            )
        else:
            lugs = [w.number for w in self.circuit.wires if Terminal("X1", "+") in (w.a, w.b)]
            yield self.step(
                f"Both fuses out. Put the lug{'s' if len(lugs) > 1 else ''} of {' and '.join(str(n) for n in lugs)} on the plus post with an insulated spanner, and the cap over it.",
                "nothing sparks, and no bare metal of the post is left.",
            )
        yield from (self.step(*words) for words in looks(self.plan))
        yield self.step(
            "Turn the motor's shaft by hand.", "it turns without a scrape" + (", and the brushes do not catch." if self.brushes else ".")
        )
        yield self.step(
            (f"Set what stands below{self.at_slow}" if not self.shows else f"Turn the {self.set_slow.replace(' at ', ' to ')}") + ", emergency stop pressed, disconnect off" + (", the charger's fuse F4 out" if "X4" in self.circuit.devices else "") + (", direction at forward." if "S5" in self.circuit.devices else "."),
            "where each stands is written in its box." if not self.shows else f"each stands so; the {self.noun} itself is set at step {self.count + 6}.",
        )
        if not self.shows and (rows := settings(self.plan, self.ink, by_hand=True)):
            yield SettingsItem(tuple(rows))
        person = "The second person reads sheet 8 and the settings, and stands by the " + ("breaker." if self.plugged else "battery fuse.")
        yield HoldItem(
            "1", person, f"This is the last contact before power. Nothing is on before it is closed: {self.off}."
        )

    def stored(self) -> RowItem:
        rules = self.plan.design.region.tables["rules"]
        wait, volts = limit("safe time", self.ink, rules), limit("no output", self.ink)
        plus, minus = self.output()
        sizes = self.plan.design.sizes
        own = next((device for device in self.circuit.devices.values() if device.kind == "capacitor"), None)
        if own is not None:
            seen = "Sheet 5 shows a capacitor"
            if not self.steered:
                plus, minus = (Terminal(own.code, name) for name in own.terminals[:2])
        elif sizes is not None and sizes.precharge is not None:
            seen = "The drive holds the capacitor that sheet 8 charges over a resistor"
            plus, minus = self.drive_ends(3)
        elif (kept := self.plan.project.power.keeps_charge if self.plan.project.power else None) is not None:
            wait = str(self.ink.print(kept)) if kept.known else wait
            return RowItem("Stored charge", f"{CAPACITOR.replace('drive', self.noun)} {self.off.capitalize()}, wait {wait}, and read the capacitor's own two screws: under {limit('no output', self.ink)} DC, or the hand stays out. Its output shows nothing of it. The shaft makes voltage as long as it turns.")
        else:
            seen = "Sheet 5 shows no capacitor" + (f", but the {self.noun} may hold one" if self.steered else "")
        return RowItem(
            "Stored charge",
            f"{seen}. {self.off.capitalize()}, then wait {wait}, and go on only when the meter shows less than {volts} DC between {_at(plus) if not self.steered else plus.name} and {_at(minus) if not self.steered else minus.name}. The shaft makes voltage as long as it turns.",
        )

    def clips(self) -> str:
        """How a reading is taken: clips only go on with the supply off."""
        off, on = (self.off, self.on) if self.plugged else (f"{self.cut}, {self.off}", f"{self.on}, {self.uncut}")
        return f"For every reading: {off}, wait, clips on, cover shut, {on}, read. Never {self.on} with the cover open."

    def output(self) -> tuple[Terminal, Terminal]:
        return output_of(self.circuit)

    def drive_ends(self, stage: int) -> tuple[Terminal, Terminal]:
        return drive_ends(self.circuit, stage)

    def disconnect(self) -> tuple[Terminal, Terminal]:
        """Where the supply comes in on the disconnect."""
        return Terminal("Q1", "1"), Terminal("Q1", "3")

    def unloaded(self) -> Iterator[PowerItem]:
        plus, minus = self.output()
        yield PartHead("Power", "First minutes, nothing coupled", self.clips(), None)
        yield self.supply_volts()
        yield self.step(
            f"Clips on {_at(plus)} and {_at(minus)}, {self.kind}. {self.on.capitalize()}, disconnect on. Nothing else.",
            "nothing hums, turns or smells for a minute.",
            Taken("drive's output" if self.steered else "at the motor's wires", f"none: under {limit('no output', self.ink)}", f"V {self.kind}"),
        )
        yield self.step(f"{self.press} with the emergency stop still pressed.", "nothing happens.")
        yield from self.trials()
        yield from self.display()
        if self.never_bare:
            yield RowItem("Not started yet", "With nothing coupled this motor runs away, and nothing holds it. Its first start is with belt and tool on, guards shut.", tint=True)
            return
        yield from self.first_start()
        yield from self.zero_start()
        yield self.step(f"While it runs: {self.cut}. Wait until all stands. {self.uncut.capitalize()} again.", "nothing starts by itself.")
        if self.runs_away and self.control is not None:
            yield RowItem("Not faster yet", f"With nothing coupled this motor runs away. The {self.control.name} stays at {self.control.slow} until belt and tool are on.", tint=True)
        else:
            yield from self.up("more without load")
        yield self.step(
            "Press the emergency stop.", f"the contactor drops at once, and the motor {'brakes' if 'R3' in self.circuit.devices else 'coasts'} to a stand."
        )
        yield from self.free_current()
        if "S5" in self.circuit.devices:
            yield self.step(
                f"Start{self.with_slow}. Turn the direction switch to 0 and leave it there until the motor stands; then turn it the other way and press start at once.",
                "the contactor drops at 0, the motor coasts to a stand, and start does nothing until the timer's time is over; then it turns the other way.",
                note="Never throw the switch over while the motor turns: the timer holds back start, not the lever, and the motor would short itself through the drive.",
            )

    def first_start(self) -> Iterator[PowerItem]:
        """The first start, and what to do when it turns the wrong way."""
        yield self.step(
            f"Hands off the shaft. Release the emergency stop, {self.start}.", self.starting(), *self.first_volts(),
            note="" if self.stands or not self.steered or self.never_bare else "Without load it is faster than sheet 10 says.",
        )  # fmt: skip
        yield from self.which_way()

    def trials(self) -> Iterator[StepItem]:
        """What the way of powering wants to be read before it feeds the motor."""
        sizes = self.plan.design.sizes
        for one in sizes.outfit.trials if sizes is not None else ():
            yield self.step(
                f"{self.off.capitalize()}, {one.fuse} out of its holder. Clips on {one.red} and {one.black}, AC. {self.on.capitalize()}, disconnect on, emergency stop released, {self.start}{one.before}.",
                one.right_when, Taken(one.what, joined(one.want, self.ink), one.unit), note=f"{one.note + ' ' if one.note else ''}Then {self.off}, {one.fuse} back in.",
            )  # fmt: skip

    def up(self, more: str = "") -> Iterator[StepItem]:
        """The control turned up, in two steps; a dial by the meter."""
        control = self.control
        if control is None:
            return
        if control.stands:
            yield self.step(
                f"{self.start[0].upper()}{self.start[1:]}; turn the {control.name} up slowly until the motor turns well, the meter on its output.",
                "the motor starts softly and speeds up evenly, the way that its arrow of sheet 14 points.",
                *self.volts(self.low, "output, slowest speed", more),
                note="Mark beside the scale where this is: the scale itself is no measure.",
            )
        else:
            yield self.step(
                f"{self.start[0].upper()}{self.start[1:]}; turn the {control.name} up by a quarter.",
                "the motor speeds up evenly, and the way that its arrow of sheet 14 points.",
            )
        yield self.step(
            f"Turn the {control.name} to {control.fast}.", "the speed rises without a jump, and nothing shakes.", *self.volts(self.high, f"output{self.at_fast}", "or a little more" if control.stands else more)
        )

    def charger(self) -> Iterator[PowerItem]:
        """The charger's socket last: until here its fuse is out, so that one fuse alone makes the machine dead."""
        supplied = self.plan.design.supplied
        if "X4" not in self.circuit.devices or supplied is None:
            return
        yield PartHead("Charger", "The charger's socket, last of all", "Its fuse was out until here.", None)
        yield self.step(
            f"{self.cut.capitalize()}, {self.off}. Clips on {_at(Terminal('X4', '+'))}, red, and {_at(Terminal('X4', '−'))}, black. Fit the charger's fuse F4.",
            "the meter shows no minus sign. A minus sign means F4 out at once: swapped leads burst what hangs on it.",
            Taken("charger's socket", f"about {self.ink.print(supplied.voltage)}", "V DC"),
            note="From now on the box is dead only with both fuses out, F1 and F4: this socket is live with the disconnect off.",
        )
        yield self.step(
            f"{self.on.capitalize()}, {self.uncut}. Put the charger's lead into its socket, the charger itself switched off. {self.press}.",
            "the contactor does not pull in.",
        )

    def supply_volts(self) -> StepItem:
        one, other = self.disconnect()
        supplied = self.plan.design.supplied
        kind = "AC" if self.plugged else "DC"
        want: tuple[Taken, ...] = ()
        if supplied is not None:
            nominal, most = self.ink.print(supplied.voltage), self.ink.print(supplied.highest)
            want = (Taken("supply", f"about {nominal}, at most {most}", f"V {kind}"),)
        return self.step(
            f"Clips on {_at(one)} and {_at(other)}, {kind}. {self.on.capitalize()}, disconnect off.", "the box is dead behind the disconnect: no lamp, no hum" + ("." if self.plugged else f"; with red on {one.name} there is no minus sign."), *want,
        )  # fmt: skip

    @property
    def stands(self) -> bool:
        """Whether the motor stands still with its control at the slow end."""
        return self.control is not None and self.control.stands

    @property
    def with_slow(self) -> str:
        return f" with the {self.set_slow}" if self.control is not None else ""

    @property
    def slowest(self) -> str:
        return "slowest speed" if self.stands else self.set_slow

    @property
    def slowly(self) -> str:
        """What is added to a start."""
        if self.control is None:
            return ""
        return f", then the {self.control.name} to the slowest speed" if self.stands else self.at_slow

    def first_volts(self) -> tuple[Taken, ...]:
        """The output at the first start."""
        if self.stands and self.control is not None:
            return (Taken(f"output{self.at_slow}", f"none: under {limit('no output', self.ink)}", "V DC"),)
        return self.volts(self.low, f"output{self.at_slow}", "" if self.control is not None else "more without load")

    def volts(self, point: object, what: str, more: str = "") -> tuple[Taken, ...]:
        if self.shows:  # pulses, which a pocket meter reads as anything: the display tells the frequency
            setting = getattr(point, "setting", None)
            if not isinstance(setting, Value):
                return ()
            return (Taken(what.replace("output", "its display"), f"{self.ink.print(setting)}", "Hz", "display"),)
        terminal = getattr(point, "terminal", None)
        if not isinstance(terminal, Value):
            return ()
        if not self.steered:
            what, more = what.replace("output", "at the motor"), ""
        want = f"about {self.ink.print(terminal)}" + (f", {more}" if more else "")
        return (Taken(what, want, f"V {self.kind}"),)

    def display(self) -> Iterator[PowerItem]:
        """An inverter is told what its motor is before it may turn it: its run input stays open until then."""
        run = self.run_link()
        if not self.shows or run is None:
            return
        wait = self.waits()
        number, end = run
        yield self.step(
            f"{self.off.capitalize()}. Take the link {number} off {_at(end)} and tape its end. {self.on.capitalize()}, release the emergency stop, {self.start}.",
            f"the contactor holds, the {self.noun}'s display lights, and the motor stands: its run input is open.",
        )
        yield self.step(
            f"Now, the motor still standing, set the {self.noun} by its manual, cover shut.",
            "each figure was read back on the display and stands in its box.",
            note="Where its keys can't be reached with the cover shut, a skilled person does this step.",
        )
        yield SettingsItem(tuple(settings(self.plan, self.ink, by_hand=True)))
        yield self.step(
            f"Emergency stop, {self.off}. Wait {wait}. Put the link {number} back on {_at(end)}.",
            "its display is dark, and the link is under its screw.",
            note="From here on the contactor starts and stops the machine: the link tells the inverter to run as soon as it has power.",
        )

    def run_link(self) -> tuple[int, Terminal] | None:
        """The wire that links the run input of a converter, and one of its ends."""
        return next(((w.number, w.a) for w in self.circuit.wires if w.a.device == w.b.device and w.stage == 5), None)

    def waits(self) -> str:
        """How long to wait for a converter's capacitors, in print."""
        kept = self.plan.project.power.keeps_charge if self.plan.project.power else None
        if kept is not None and kept.known:
            return str(self.ink.print(kept))
        return f"{limit('safe time', self.ink, self.plan.design.region.tables['rules'])} and longer, until its charge lamp is dark"

    def which_way(self) -> Iterator[PowerItem]:
        """What to do when a motor for alternating current turns the wrong way, and when it does not start."""
        if self.steered:
            return
        motor = next(device for device in self.circuit.devices.values() if device.kind == "motor")
        leads = [wire for wire in self.circuit.wires if motor.code in (wire.a.device, wire.b.device) and wire.role != "protective"]
        if self.shows:
            text = f"Plug out, wait {self.waits()}, swap {leads[0].number} and {leads[1].number} at the inverter, and write it into their boxes. Never by a switch."
        else:
            part, letter = ("armature", "A") if any(name.startswith("A") for name in motor.terminals) else ("start winding", "Z")
            ends = [wire for wire in leads if any(end.device == motor.code and end.name.startswith(letter) for end in (wire.a, wire.b))]
            empty = ", capacitor empty" if "C1" in self.circuit.devices else ""
            swap = f"Plug out{empty}, swap the ends of the {part}: {' and '.join(str(w.number) for w in ends)} at the motor." if len(ends) > 1 else "This motor turns one way only: turn it about on its feet, or take another."
            text = f"{swap} One that hums and does not come up to speed within three seconds is switched off at once."
        yield RowItem("Wrong way round?", text)

    def starting(self) -> str:
        """What start does with the control at its slow end, by what the file says."""
        holds = "the contactor holds" + (" and the fan blows" if "M2" in self.circuit.devices else "")
        power = self.plan.project.power
        if self.control is None:
            return f"{holds}, and the motor runs up at once to its speed, the way that its arrow of sheet 14 points."
        if self.stands:
            return f"{holds}, and the motor stands still."
        return holds + {
            True: f". The {self.noun} waits for its knob to be at slow, where it is: the motor runs up to its slowest speed.",
            False: f", and the motor runs up by itself to its slowest speed: this {self.noun} does not wait for its {self.control.name}.",
            None: f". The file does not say whether the {self.noun} waits for its knob: the motor may run up at once, or only after the knob was turned fully to slow.",
        }[power.waits_for_zero if power else None]

    def zero_start(self) -> Iterator[StepItem]:
        power, control = self.plan.project.power, self.control
        starts = power.waits_for_zero if power else None
        if starts is False or control is None:
            return
        if control.stands:
            yield self.step(
                f"Press stop. Turn the {control.name} a little up from {control.slow}. {self.start[0].upper()}{self.start[1:]}.",
                f"nothing happens: the contact on the {control.name} holds start back.",
                note=f"Turn it back to {control.slow} after that.",
            )
            return
        yield self.step(
            f"Press stop. Turn the {control.name} to the middle. {self.start[0].upper()}{self.start[1:]}.",
            "the contactor holds, and the motor stands still until it has been at slow."
            if starts
            else "you know which it is: it waits for slow, or it runs up at once.",
            note="" if starts else "Write it into the file, power: starts_from_zero.",
        )

    def free_current(self) -> Iterator[StepItem]:
        free = self.plan.design.sheet.values.get("motor.free_run.current")
        if free is None or not free.known:
            return
        wire = self.motor_wire()
        yield self.step(
            f"Clamp round wire {wire}, DC, its MAX hold on. {self.start[0].upper()}{self.start[1:]}{self.slowly}; then off, and read.",
            "the current is steady.",
            Taken("motor running free", f"about {self.ink.print(free)}, a little more at speed", "A DC", "clamp"),
        )

    def motor_wire(self) -> str:
        """A wire that carries the armature current."""
        plus, _ = self.output()
        return str(next(wire.number for wire in self.circuit.wires if wire.stage == 4 and plus in (wire.a, wire.b)))

    def line_wire(self) -> str:
        """A wire that carries the whole current of the supply."""
        at = Terminal("F1", "1")
        return str(next(wire.number for wire in self.circuit.wires if at in (wire.a, wire.b)))

    def loaded(self) -> Iterator[PowerItem]:
        belts = bool(self.plan.project.belts)
        yield PartHead("Load", "With belt and tool" if belts else "With the tool", f"{self.off.capitalize()} before each of the first three.", None)
        if belts:
            yield self.step(
                "Lay the belt on, set its tension, and tighten the pulleys on their shafts.",
                "a straightedge lies flat on both pulleys, the belt sits in all its grooves, and it does not slip when the tool is held and the motor's shaft is turned by hand.",
            )
        else:
            yield self.step("Couple the motor to the tool.", "both shafts turn by hand without a tight place.")
        yield self.step(
            "Put the tool on. What is marked with an arrow runs the way the arrow points.",
            "turned by hand a few times it tracks in its middle and touches nothing.",
        )
        yield self.step(
            "Put all guards back on.",
            "no finger reaches a turning part from any side" + (", the place of work neither." if self.guarded else ", and only the place of work is open."),
        )
        if self.never_bare:
            yield from self.first_start()
            yield self.step(f"While it runs: {self.cut}. Wait until all stands. {self.uncut.capitalize()} again.", "nothing starts by itself.")
            yield self.step("Start again, and press the emergency stop.", "the contactor drops at once, and all coasts to a stand.")
        elif self.runs_away:
            yield from self.up()
        easy = "with light work all the time" if self.never_bare else "without work"
        yield self.step(
            "Run ten minutes at the slowest speed, then ten at the fastest, without work." if self.control is not None else f"Run twenty minutes {easy}.",
            "the hand can stay on the motor, the box is only warm, and the belt has not wandered." if belts else "the hand can stay on the motor, and the box is only warm.",
            *(() if self.never_bare else self.speeds()),
        )  # fmt: skip
        yield from self.standstill()
        yield from self.currents()

    def speeds(self) -> tuple[Taken, ...]:
        load = self.plan.design.load
        if load is None:
            return ()
        return (
            *((Taken(f"tool, {self.slowest}", f"about {self.ink.print(load.tool_low)}", "rpm", "tachometer"),) if self.control is not None else ()),
            Taken(f"tool{self.at_fast}", f"about {self.ink.print(load.tool_high)}", "rpm", "tachometer"),
        )

    def standstill(self) -> Iterator[StepItem]:
        sizes = self.plan.design.sizes
        brake = sizes.braking if sizes is not None else None
        coast = brake.time if brake is not None else self.plan.design.coast
        if coast is None or not coast.known:
            return
        yield self.step(
            ("At the fastest speed press" if self.control is not None else "Press") + " the emergency stop, and take the time to standstill.",
            "it slows down at once, and the braking resistor R3 is at most hand-warm after three stops." if brake is not None else "it coasts evenly, without a scrape.",
            Taken("time to standstill", f"at most {self.ink.print(coast)}", "s", "stopwatch"),
        )

    def currents(self) -> Iterator[StepItem]:
        sizes, load = self.plan.design.sizes, self.plan.design.load
        average, rms = self.plan.design.hardest("current"), self.plan.design.hardest("rms")
        where = ", at the slowest speed" if load is not None and load.law.hardest_when_slow else ""
        if average is not None and rms is not None:
            yield self.step(
                f"Clamp round wire {self.motor_wire()}, MAX hold on, cover shut. Work as hard as the file says{where}; off, and read.",
                "the speed sinks as the work grows and rises as it is lifted, and stays below what sheet 10 says of runaway." if self.never_bare else "the speed holds, and the current falls back when the work is lifted.",
                *(self.speeds() if self.never_bare else ()),
                *((Taken("motor, average", f"at most {self.ink.print(average)}", "A DC", "clamp"),) if self.steered else ()),
                Taken("motor, true RMS", f"at most {self.ink.print(rms)}", "A AC+DC" if self.steered else "A AC", "clamp"),
            )
        if sizes is not None:
            yield self.step(
                f"Clamp round wire {self.line_wire()}, MAX hold on, cover shut. Work as hard again; off, and read.",
                "no fuse and no relay trips.",
                self.drawn(sizes.line_current),
            )

    def drawn(self, rms: Value) -> Taken:
        """The supply's current: a clamp shows RMS on alternating current, and the average on direct current."""
        average = self.plan.design.hardest("drawn")
        if average is None:
            return Taken("supply, true RMS", f"at most {self.ink.print(rms)}", "A AC", "clamp")
        return Taken("supply, average", f"at most {self.ink.print(average)}", "A DC", "clamp")


def _at(terminal: Terminal) -> str:
    return f"{terminal.device} · {terminal.name}"
