"""What every part of first power needs: what a step says of the machine, its starts, its volts, which way it turns."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from buildsheet.circuit import Circuit, Terminal
from buildsheet.motors.series import SeriesMachine
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.facts import Fact, limit
from buildsheet.packet.views.field import Words
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


BRAKE = 20  # the wires of a brake are numbered from here in their hundred
PowerItem = PartHead | StepItem | HoldItem | SettingsItem | RowItem


def switching(plan: Plan) -> tuple[str, str]:
    """What takes the machine off its supply, and what puts it on."""
    supplied = plan.design.supplied
    on_plug = supplied is None or supplied.guard is not None
    return ("plug out", "plug in") if on_plug else ("battery fuse out", "battery fuse in")


def output_of(circuit: Circuit) -> tuple[Terminal, Terminal]:
    """The two terminals that feed the motor: of the drive, or of the contactor where the line feeds it."""
    return drive_ends(circuit, 4)


def drive_ends(circuit: Circuit, stage: int) -> tuple[Terminal, Terminal]:
    """The first and the last terminal of the drive on the wires of this stage; of what switches the motor where there is no
    drive, the wires of a brake aside."""
    ends = [end for wire in circuit.wires if wire.stage == stage and wire.number % 100 < BRAKE for end in (wire.a, wire.b)]
    found = [end for end in ends if circuit.devices[end.device].kind == "drive"]
    found = found or [end for end in ends if circuit.devices[end.device].kind in ("contactor", "bridging-relay", "speed-control", "disconnect", "line-fuse")]
    return found[0], found[-1]


class Writer:
    """Counts the steps, and knows the words that this machine wants in them."""

    def __init__(self, plan: Plan, circuit: Circuit, ink: Ink):
        self.plan, self.circuit, self.ink = plan, circuit, ink
        self.off, self.on = switching(plan)
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
        self.made_of_parts = power is not None and bool(power.links)  # else nothing lies between supply and motor
        self.shows = power is not None and power.display  # its own display tells its output, which no meter reads well
        self.control = plan.project.power.control if plan.project.power is not None else None
        self.never_bare = self.runs_away and (self.control is None or not self.steered)  # nothing holds its speed but its load
        self.set_slow = f"{self.control.name} at {self.control.slow}" if self.control is not None else ""
        self.at_slow, self.at_fast = (f", {self.set_slow}", f", {self.control.name} at {self.control.fast}") if self.control is not None else ("", "")

    def step(self, action: str, right_when: str, *readings: Taken, note: str = "") -> StepItem:
        self.count += 1
        return StepItem(str(self.count), action, right_when, note=note, readings=readings)

    def words(self, found: Iterable[Words]) -> Iterator[StepItem]:
        """Steps that another sheet's part has put into words."""
        for action, right_when, readings, note in found:
            yield self.step(action, right_when, *readings, note=note)

    def output(self) -> tuple[Terminal, Terminal]:
        return output_of(self.circuit)

    def drive_ends(self, stage: int) -> tuple[Terminal, Terminal]:
        return drive_ends(self.circuit, stage)

    def disconnect(self) -> tuple[Terminal, Terminal]:
        """Where the supply comes in on the disconnect."""
        return Terminal("Q1", "1"), Terminal("Q1", "3")

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

    def run_link(self) -> tuple[int, Terminal] | None:
        """The wire that links the run input of a converter, and one of its ends."""
        return next(((w.number, w.a) for w in self.circuit.wires if w.a.device == w.b.device and w.stage == 5), None)

    def waits(self) -> str:
        """How long to wait for a converter's capacitors, in print."""
        kept = self.plan.project.power.keeps_charge if self.plan.project.power else None
        if kept is not None and kept.known:
            return str(self.ink.print(kept))
        return f"{limit('safe time', self.ink, self.plan.design.region.tables['rules'])} and longer, until its charge lamp is dark"

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

    def motor_wire(self) -> str:
        """A wire that carries the armature current."""
        plus, _ = self.output()
        return str(next(wire.number for wire in self.circuit.wires if wire.stage == 4 and plus in (wire.a, wire.b)))

    def line_wire(self) -> str:
        """A wire that carries the whole current of the supply."""
        at = Terminal("F1", "1")
        return str(next(wire.number for wire in self.circuit.wires if at in (wire.a, wire.b)))

    def first_start(self) -> Iterator[PowerItem]:
        """The first start, and what to do when it turns the wrong way."""
        yield self.step(
            f"Hands off the shaft. Release the emergency stop, {self.start}.", self.starting(), *self.first_volts(),
            note="" if self.stands or not self.steered or self.never_bare else "Without load it is faster than sheet 10 says.",
        )  # fmt: skip
        yield from self.which_way()

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
            text = swap if self.brushes else f"{swap} One that hums and does not come up to speed within three seconds is switched off at once."
        yield RowItem("Wrong way round?", text)

    def clamped(self, wire: str, kind: str) -> str:
        """How a current is read that settles only after a start: a meter that holds its greatest reading would hold the start's."""
        zero = "" if kind == "AC" else ", zeroed"
        return f"Clamp round wire {wire}, {kind}{zero}; a phone in a clear bag, its lamp on, films its display in the shut box."

    def both_ways(self) -> Iterator[StepItem]:
        """The direction switch tried, where there is one."""
        motor = self.plan.design.motor
        if "S5" not in self.circuit.devices or motor is None:
            return
        clicks = motor.starting is not None and motor.starting.switch
        shorts = f"the motor would short itself through the {self.noun}" if self.steered else motor.reversal.thrown
        yield self.step(
            f"Start{self.with_slow}. Turn the direction switch to 0 and leave it there until the motor stands; then turn it the other way and press start at once, and again later.",
            f"the contactor drops at 0, the motor coasts to a stand{', its start switch clicking as it slows' if clicks else ''}, and start does nothing until the timer's time is over; pressed again after that, it turns the other way.",
            note=f"Never throw the switch over while the motor turns: the timer holds back start, not the lever{', and' if self.steered else ';'} {shorts}.",
        )
        yield from self.other_way()

    def other_way(self) -> Iterator[StepItem]:
        """The current of a motor with brushes both ways: brushes that stand for one direction show in it."""
        free = self.plan.design.sheet.values.get("motor.free_run.current")
        if not self.brushes or (not self.never_bare and (free is None or not free.known)):
            return
        work = "at light, steady work" if self.never_bare else f"running free{self.at_slow}"
        kind = "DC" if self.steered else "AC"
        yield self.step(
            f"{self.clamped(self.motor_wire(), kind)} Run one way {work}; off, and read the film where it runs evenly. Then the other way alike.",
            "both are within a fifth of each other, and the brushes spark alike.",
            Taken("current, one way", "as read", f"A {kind}", "clamp"),
            Taken("current, the other way", "within a fifth of it", f"A {kind}", "clamp"),
            note="Further apart, the brushes stand for one direction: run it that way alone, reverse: false.",
        )

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


def at(terminal: Terminal) -> str:
    """A screw as the sheet prints it."""
    return f"{terminal.device} · {terminal.name}"
