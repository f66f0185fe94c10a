"""First power with belt and tool on: its first runs, its speeds, its time to standstill, its currents."""

from collections.abc import Iterator

from buildsheet.packet.views import field
from buildsheet.packet.views.power_steps import PowerItem, Writer
from buildsheet.packet.views.steps import PartHead, StepItem, Taken
from buildsheet.worksheet import Value

HEARD = 1.0  # s: what lies nearer together no hand times


class Coupled(Writer):
    """The part of the sheet that wants the tool on."""

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
            yield from self.soft_start()
            yield self.step(f"While it runs: {self.cut}. Wait until all stands. {self.uncut.capitalize()} again.", "nothing starts by itself.")
            yield self.step("Start again, and press the emergency stop; release it when all stands.", "the contactor drops at once, all coasts to a stand, and nothing starts when it is released.")
            yield from self.up("at light work")
            yield from self.both_ways()
        elif self.runs_away:
            yield from self.up()
        easy = "with light work all the time" if self.never_bare else "without work"
        yield self.step(
            f"Run ten minutes at the slowest speed, then ten at the fastest, {easy}." if self.control is not None else f"Run twenty minutes {easy}.",
            "the hand can stay on the motor, the box is only warm, and the belt has not wandered." if belts else "the hand can stay on the motor, and the box is only warm.",
            *(() if self.never_bare else self.speeds()),
        )  # fmt: skip
        yield from self.standstill()
        yield from self.words(field.at_rest(self.plan, self.circuit, self.ink))
        yield from self.currents()

    def soft_start(self) -> Iterator[StepItem]:
        """A start that is listened to."""
        sizes = self.plan.design.sizes
        if sizes is None or sizes.soft_start is None:
            return
        waits = sizes.soft_start.waits
        yield self.step(
            f"Press stop, wait until all stands. {self.start[0].upper()}{self.start[1:]}, and listen: from the contactor to the click of K5.",
            "the two clicks are clearly apart, the motor comes up without a jerk and nearly to its speed, and after three starts R5 is at most hand-warm (plug out, wait, then feel)." if self.plugged else "the two clicks are clearly apart, the motor comes up without a jerk and nearly to its speed, and after three starts R5 is at most hand-warm.",
            *((Taken("contactor to click", f"about {self.ink.print(waits)}", "s", "stopwatch"),) if waits.known and float(waits) >= HEARD else ()),
            note="No click: stop at once, and read the rows of the soft start on sheet 8 again.",
        )  # fmt: skip

    def speeds(self) -> tuple[Taken, ...]:
        load = self.plan.design.load
        if load is None:
            return ()
        return (
            *((Taken(f"tool, {self.slowest}", f"about {self.ink.print(load.tool_low)}", "rpm", "tachometer"),) if self.control is not None else ()),
            Taken(f"tool{self.at_fast}", f"about {self.ink.print(load.tool_high)}" + ("" if self.control is not None else ", more without work"), "rpm", "tachometer"),
        )

    def standstill(self) -> Iterator[StepItem]:
        sizes = self.plan.design.sizes
        brake = sizes.braking if sizes is not None else None
        coast = brake.time if brake is not None else self.plan.design.coast
        if coast is None or not coast.known:
            return
        yield self.step(
            ("At the fastest speed press" if self.control is not None else "Press") + " the emergency stop, and take the time to standstill; then release it.",
            "it slows down at once, and the braking resistor R3 is at most hand-warm after three stops." if brake is not None else "it coasts evenly, without a scrape.",
            Taken("time to standstill", f"at most {self.ink.print(coast)}", "s", "stopwatch"),
        )

    def currents(self) -> Iterator[StepItem]:
        sizes, load = self.plan.design.sizes, self.plan.design.load
        average, rms = self.plan.design.hardest("current"), self.plan.design.hardest("rms")
        where = ", at the slowest speed" if load is not None and load.law.hardest_when_slow else ""
        if average is not None and rms is not None:
            yield self.step(
                f"{self.clamped(self.motor_wire(), 'AC+DC' if self.steered else 'AC')} Work as hard as the file says{where}; off, and read the film where the work is steady.",
                "the speed sinks as the work grows and rises as it is lifted, and stays below what sheet 10 says of runaway." if self.never_bare else "the speed holds, and the current falls back when the work is lifted.",
                *(self.speeds() if self.never_bare else ()),
                *((Taken("motor, average", f"at most {self.ink.print(average)}", "A DC", "clamp"),) if self.steered else ()),
                Taken("motor, true RMS", f"at most {self.ink.print(rms)}", "A AC+DC" if self.steered else "A AC", "clamp"),
            )
        if sizes is not None:
            yield self.step(
                f"{self.clamped(self.line_wire(), 'AC' if self.plugged else 'DC')} Work as hard again; off, and read alike.",
                "no fuse and no relay trips.",
                self.drawn(sizes.line_current),
            )

    def drawn(self, rms: Value) -> Taken:
        """The supply's current: a clamp shows RMS on alternating current, and the average on direct current."""
        average = self.plan.design.hardest("drawn")
        if average is None:
            return Taken("supply, true RMS", f"at most {self.ink.print(rms)}", "A AC", "clamp")
        return Taken("supply, average", f"at most {self.ink.print(average)}", "A DC", "clamp")
