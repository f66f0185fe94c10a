"""First power: settings, then one reading after the other, each in the step that takes it. Plug and clips in turns: a
meter's clips go on with the plug out, nothing is probed by hand.
"""

from collections.abc import Iterator

from buildsheet.circuit import Electronics, Terminal
from buildsheet.packet.ink import Ink
from buildsheet.packet.views import field
from buildsheet.packet.views.coupled import Coupled
from buildsheet.packet.views.facts import joined, limit, settings
from buildsheet.packet.views.power_steps import PowerItem, RowItem, SettingsItem, at, switching
from buildsheet.packet.views.rotor import looks
from buildsheet.packet.views.steps import HoldItem, PartHead, StepItem, Taken
from buildsheet.plan import Plan

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
    off, on = switching(plan)
    return f"{who(plan)} One reading at a time: {off}, clips on, cover shut, {on}, read, {off}."


class _Writer(Coupled):
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
            seen = f"The {self.noun} holds the capacitor that sheet 8 charges over a resistor"
            plus, minus = self.drive_ends(3)
        elif (kept := self.plan.project.power.keeps_charge if self.plan.project.power else None) is not None:
            wait = str(self.ink.print(kept)) if kept.known else wait
            return RowItem("Stored charge", f"This {self.noun} holds a large capacitor behind its bridge, charged to the peak of the line. {self.off.capitalize()}, wait {wait}, and read the capacitor's own two screws: under {limit('no output', self.ink)} DC, or the hand stays out. Its output shows nothing of it. The shaft makes voltage as long as it turns.")
        else:
            if any(isinstance(part, Electronics) and part.does == "chops" for d in self.circuit.devices.values() if d.kind == "drive" for part in d.inside):
                plus, minus = self.drive_ends(3)  # its capacitor lies ahead of its switch: its output shows nothing of it
            seen = "Sheet 5 shows no capacitor" + (f", but the {self.noun} may hold one" if any(isinstance(part, Electronics) and part.unleashes for d in self.circuit.devices.values() for part in d.inside) else "")
        return RowItem(
            "Stored charge",
            f"{seen}. {self.off.capitalize()}, then wait {wait}, and go on only when the meter shows less than {volts} DC between {at(plus)} and {at(minus)}. The shaft makes voltage as long as it turns.",
        )

    def clips(self) -> str:
        """How a reading is taken: clips only go on with the supply off."""
        off, on = (self.off, self.on) if self.plugged else (f"{self.cut}, {self.off}", f"{self.on}, {self.uncut}")
        return f"For every reading: {off}, wait, clips on, cover shut, {on}, read. Never {self.on} with the cover open."

    def unloaded(self) -> Iterator[PowerItem]:
        plus, minus = self.output()
        yield PartHead("Power", "First minutes, nothing coupled", self.clips(), None)
        yield self.supply_volts()
        yield from self.words(field.first_power(self.plan, self.circuit, self.ink, self.off, self.on))
        yield self.step(
            f"Clips on {at(plus)} and {at(minus)}, {self.kind}. {self.on.capitalize()}, disconnect on. Nothing else.",
            "nothing hums, turns or smells for a minute.",
            Taken((f"{self.noun}'s output" if self.made_of_parts else "at the motor's fuse and wire") if self.steered else "at the motor's wires", f"none: under {limit('no output', self.ink)}", f"V {self.kind}"),
        )
        yield self.step(f"{self.press} with the emergency stop still pressed.", "nothing happens.")
        yield from self.trials()
        yield from self.display()
        if self.never_bare:
            yield RowItem("Not started yet", "With nothing coupled this motor runs away, and nothing holds it. Its first start is with belt and tool on, guards shut.", tint=True)
            return
        yield from self.first_start()
        yield from self.soft_start()
        yield from self.zero_start()
        yield self.step(f"While it runs: {self.cut}. Wait until all stands. {self.uncut.capitalize()} again.", "nothing starts by itself.")
        if self.runs_away and self.control is not None:
            yield RowItem("Not faster yet", f"With nothing coupled this motor runs away. The {self.control.name} stays at {self.control.slow} until belt and tool are on.", tint=True)
        else:
            yield from self.up("more without load")
        yield self.step(
            "Press the emergency stop; release it when all stands.", f"the contactor drops at once, nothing starts when it is released, and the motor {'brakes' if 'R3' in self.circuit.devices else 'coasts'} to a stand."
        )
        yield from self.free_current()
        yield from self.both_ways()

    def trials(self) -> Iterator[StepItem]:
        """What the way of powering wants to be read before it feeds the motor."""
        sizes = self.plan.design.sizes
        for one in sizes.outfit.trials if sizes is not None else ():
            yield self.step(
                f"{self.off.capitalize()}, {one.fuse} out of its holder. Clips on {one.red} and {one.black}, {one.unit.split()[-1]}. {self.on.capitalize()}, disconnect on, emergency stop released, {self.start}{one.before}.",
                one.right_when, Taken(one.what, joined(one.want, self.ink), one.unit), note=f"{one.note + ' ' if one.note else ''}Then {self.off}, {one.fuse} back in.",
            )  # fmt: skip

    def charger(self) -> Iterator[PowerItem]:
        """The charger's socket last: until here its fuse is out, so that one fuse alone makes the machine dead."""
        supplied = self.plan.design.supplied
        if "X4" not in self.circuit.devices or supplied is None:
            return
        yield PartHead("Charger", "The charger's socket, last of all", "Its fuse was out until here.", None)
        yield self.step(
            f"{self.cut.capitalize()}, {self.off}. Clips on {at(Terminal('X4', '+'))}, red, and {at(Terminal('X4', '−'))}, black. Fit the charger's fuse F4.",
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
            f"Clips on {at(one)} and {at(other)}, {kind}. {self.on.capitalize()}, disconnect off.", "the box is dead behind the disconnect: no lamp, no hum" + ("." if self.plugged else f"; with red on {one.name} there is no minus sign."), *want,
        )  # fmt: skip

    def display(self) -> Iterator[PowerItem]:
        """An inverter is told what its motor is before it may turn it: its run input stays open until then."""
        run = self.run_link()
        if not self.shows or run is None:
            return
        wait = self.waits()
        number, end = run
        yield self.step(
            f"{self.off.capitalize()}. Take the link {number} off {at(end)} and tape its end. {self.on.capitalize()}, release the emergency stop, {self.start}.",
            f"the contactor holds, the {self.noun}'s display lights, and the motor stands: its run input is open.",
        )
        yield self.step(
            f"Now, the motor still standing, set the {self.noun} by its manual, cover shut.",
            "each figure was read back on the display and stands in its box.",
            note="Where its keys can't be reached with the cover shut, a skilled person does this step.",
        )
        yield SettingsItem(tuple(settings(self.plan, self.ink, by_hand=True)))
        yield self.step(
            f"Emergency stop, {self.off}. Wait {wait}. Put the link {number} back on {at(end)}.",
            "its display is dark, and the link is under its screw.",
            note="From here on the contactor starts and stops the machine: the link tells the inverter to run as soon as it has power.",
        )

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
            f"{self.clamped(wire, self.kind)} {self.start[0].upper()}{self.start[1:]}{self.slowly}; then off, and read the film where it runs evenly.",
            "the current is steady.",
            Taken("motor running free", f"about {self.ink.print(free)}, a little more at speed", f"A {self.kind}", "clamp"),
        )
