"""Wiring steps in a safe order, read from the circuit: mount, protective conductor, knob, motor side, drive, release
chain, line side, cord last; hold points between; the warning that belongs to a step right before it.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from buildsheet.circuit import Circuit, Electronics, Terminal, Wire
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.steps import HoldItem, Item, PartHead, StepItem, WarningItem
from buildsheet.packet.views.wires import WireLine, insulation, wire_line
from buildsheet.plan import Plan
from buildsheet.plan.cuts import cables, on_a_plug
from buildsheet.reference import table
from buildsheet.ways.way import capital
from buildsheet.worksheet import Row, Value

MOST_WIRES = 3
COUNTS = {2: "two", 3: "three", 4: "four"}


@dataclass(frozen=True, slots=True)
class _Part:
    key: str
    name: str
    stages: tuple[int, ...]
    hold: tuple[str, str] | None


# The order of the work. The cord comes last, so that nothing that is being wired can be live.
PARTS: tuple[_Part, ...] = (
    _Part("protective", "Protective conductor", (9,), ("A second person tugs each green-yellow wire and looks for bare metal under each ring.",
          "A frame without it is live after the first fault. Nothing below is wired until this is signed.")),
    _Part("knob", "Speed knob", (5,), ("A second person compares the knob's wires with sheet 5.",
          "The outer two swapped means full speed at the slow end. Nothing below is wired until this is signed.")),
    _Part("motor", "Motor side", (4,), None),
    _Part("field", "Field and its supply", (6,), ("A second person follows these wires on sheet 5, from the bridge through the relay to the motor and back.",
          "A field that is lost means a motor that bursts. Nothing below is wired until this is signed.")),
    _Part("drive", "Feed of the drive", (3,), None),
    _Part("release", "No-volt release", (2,), ("A second person follows these wires on sheet 5, one by one, from the fuse to the coil.",
          "A contact that is bridged by mistake makes the emergency stop a decoration.")),
    _Part("line", "Supply side in the box", (1,), None),
)  # fmt: skip


def items(plan: Plan, ink: Ink) -> tuple[Item, ...]:
    """All steps with their heads, warnings and hold points."""
    if plan.circuit is None:
        return ()
    return tuple(_Writer(plan, plan.circuit, ink).all())


class _Writer:
    def __init__(self, plan: Plan, circuit: Circuit, ink: Ink):
        self.plan, self.circuit, self.ink = plan, circuit, ink
        self.count = self.holds = self.parts = 0
        self.placed: Counter[Terminal] = Counter()
        self.laid: set[str] = set()

    def all(self) -> Iterator[Item]:
        yield from self.mount()
        corded = [w for w in self.circuit.wires if on_a_plug(w, self.circuit)]
        for part in PARTS:
            wires = [w for w in self.circuit.wires if w.stage in part.stages and w not in corded]
            if not corded and part.key == "line":
                yield from self.battery(wires)
            elif wires:
                yield from self.part(part, wires)
        if corded:
            yield from self.cord(corded)
        yield self.sweep()
        yield self.step(
            "Fit the terminal covers, tie the wires, and photograph the inside.",
            "no wire lies on a heat sink or an edge, and the control wires do not lie among the power wires.",
        )

    def sweep(self) -> StepItem:
        """Chips, strands and dust out; on the line also the gaps of bare live metal."""
        action = "Sweep out every chip and strand, wipe the dust off, and look at each bare screw and lug."
        if "X2" not in self.circuit.devices:
            return self.step(action, "nothing loose is left, and no strand stands out anywhere.")
        gap = self.ink.print(limit_of("bare live metal"))
        return self.step(
            action,
            f"none is nearer than {gap} to metal of the box, over a surface or through air; where one is, an insulating sheet lies between.",
            note="The gaps inside a bought part are its maker's matter.",
        )

    def head(self, name: str, note: str, strip: Value | None = None) -> PartHead:
        self.parts += 1
        return PartHead(f"Part {chr(64 + self.parts)}", name, note, strip)

    def step(
        self, action: str, right_when: str, wires: tuple[WireLine, ...] = (), note: str = ""
    ) -> StepItem:
        self.count += 1
        return StepItem(str(self.count), action, right_when, wires, note)

    def hold(self, action: str, why: str) -> HoldItem:
        self.holds += 1
        return HoldItem(str(self.holds), action, why)

    def warnings(self, key: str) -> Iterator[Item]:
        for finding in self.plan.findings:
            if finding.step == key:
                yield WarningItem(finding, f"before step {self.count + 1}")

    def mount(self) -> Iterator[Item]:
        devices = self.circuit.devices.values()
        panel = ", ".join(d.code for d in devices if d.place == "panel")
        power = self.plan.project.power
        turns = f" and the {power.control.name} turns freely" if power is not None and power.control is not None else ""
        inside = ", ".join(d.code for d in devices if d.place == "box")
        yield self.head(
            "Box and mounting", "No wire yet. All holes first: a drill chip on a terminal is a short."
        )
        yield self.step(
            "Drill the box by the drawing of sheet 14 and clear every edge and chip.",
            "a finger run round each hole finds no burr.",
        )
        yield self.step(
            "Fit a bushing in every hole, and strain relief where a cable passes.",
            "a hard pull on a scrap of cable moves nothing inside.",
        )
        yield self.step(
            f"Mount {inside} in the box{self.fins()}.",
            "air can pass from below to above, and nothing touches the lid.",
        )
        yield self.step(
            f"Mount {panel} in the door, the emergency stop nearest to the hand.",
            f"every label of sheet 14 is beside its control{turns}.",
        )
        if "X2" in self.circuit.devices:
            studs = ", ".join(d.code for d in devices if d.metal == "stud")
            yield self.step(
                f"Scrape the paint off where the bar X2 and the studs {studs} sit, and bolt them down with toothed washers.",
                "bright metal shows all round each washer.",
            )
        if self.circuit.wall_breaker is None:
            unguarded = self.ink.print(limit_of("unguarded wire"))
            holders = " and ".join(d.code for d in devices if d.kind in ("line-fuse", "charger-fuse"))
            yield self.step(
                f"Screw the holders of {holders} on a board beside the battery, empty, within {unguarded} of wire from its plus post.",
                "both posts are covered, the holders' drawers open by hand, and nothing metal can fall across them.",
            )
        yield from self.machine()

    def fins(self) -> str:
        """How a drive stands in the box."""
        power = self.plan.project.power
        drive = next((d for d in self.circuit.devices.values() if d.kind == "drive"), None)
        bare = drive is not None and any(isinstance(part, Electronics) and part.does == "rectifies" for part in drive.inside)
        return f", the {'bridge' if bare else power.noun}'s fins upright" if power is not None and drive is not None else ""

    def machine(self) -> Iterator[Item]:
        """Motor and guard on the machine's frame. Belt and tool wait for sheet 9: the first power is without load."""
        belts = bool(self.plan.project.belts)
        guarded = self.plan.project.machine is not None and self.plan.project.machine.reach == "guarded"
        yield self.step(
            "Bolt the motor to the machine frame" + (", its pulley tight on the shaft." if belts else ", its shaft free of the tool."),
            "all bolts have lock washers, no pull of the hand shifts the motor, and its shaft turns without a scrape.",
            note="The belt stays off until sheet 9 asks for it." if belts else "The coupling stays open until sheet 9 asks for it.",
        )
        linking = self.plan.design.motor.linking if self.plan.design.motor is not None else ""
        if linking:
            yield self.step(linking, "each pair of U1, V1 and W1 reads the same ohms, and no lead touches the lid.")
        yield self.step(
            "Fit the guard and its screws.",
            f"it needs a tool to come off, it covers all that turns{'' if guarded else ' but the place of work'}, and it touches nothing when the shaft is turned by hand.",
        )

    def part(self, part: _Part, wires: list[Wire]) -> Iterator[Item]:
        sizes = sorted({w.size for w in wires})
        first, last = wires[0].number, wires[-1].number
        which = f"Wire {first}" if first == last else f"Wires {first}–{last}"
        name = part.name.replace("drive", self.plan.project.power.noun) if self.plan.project.power is not None else part.name
        name = name if self.control == "knob" else name.replace("Speed knob", capital(self.control))
        note = f"{which}: {' and '.join(sizes)}, {insulation(self.plan, self.ink)}. Torque as marked on the part."
        yield self.head(name, note, strip_of(sizes[0], self.plan.design.region.tables["strip"]))
        if part.key == "knob":
            yield from self.warnings("knob")
            yield self.knob()
        if part.key in ("motor", "field"):
            yield from self.warnings(part.key)
        for _, group in groupby(wires, key=lambda w: (w.a.device, w.b.device, w.cable)):
            batch = list(group)
            yield from self.lay(batch[0])
            for start in range(0, len(batch), MOST_WIRES):
                yield self._wires(part.key, batch[start : start + MOST_WIRES])
        if part.key == "motor":
            yield from self.spare_wires()
        if part.key == "protective":
            yield self.step(
                "Shake, swing and slide all metal that a hand can reach.",
                "each piece that moves on a hinge, a slide or rubber has a green-yellow wire of its own.",
                note="One that has none goes into the file under movable_metal, and the packet is printed anew.",
            )
        if part.key == "knob" and self.control != "knob":
            yield self.hold(f"A second person compares the {self.control}'s wires with sheet 5.", "Swapped, no pulse comes through, or one without end. Nothing below is wired until this is signed.")
        elif part.hold:
            yield self.hold(*part.hold)

    def spare_wires(self) -> Iterator[Item]:
        """Wires of the motor that go nowhere: some are live with it."""
        motor = self.plan.project.motor
        if motor is not None and motor.spare_wires:
            yield self.step(
                f"Close off the motor's spare wires, each by itself: {', '.join(motor.spare_wires)}.",
                "no copper shows, each has an insulated end cap of its own that a pull does not move, and all are tied to the motor's cable.",
                note="Never two of them under one cap: joined, they short a part of a winding.",
            )

    @property
    def control(self) -> str:
        """What sets the speed, as the paper calls it."""
        power = self.plan.project.power
        return power.control.name if power is not None and power.control is not None else "knob"

    def knob(self) -> StepItem:
        if self.control != "knob":
            bare = self.plan.project.power is None or self.plan.project.power.live_controls is not False
            return self.step(
                f"Fit the {self.control} in the door{', its case and its knob of plastic' if bare else ''}.",
                "a finger reaches no metal of it, and its wires are long enough with the door open." if bare else "it sits tight, and stands at its slow end.",
                note="It was tried on the bench first, its pulses read as sheet 3 has them.",
            )
        if self.plan.project.power is None or self.plan.project.power.live_controls is not False:
            return self.step(
                "Fit the speed knob in the door with its insulating bush.",
                "its metal case touches no metal of the door, and a finger reaches no metal of its shaft or of the knob's screw.",
                note="A metal shaft that comes through to the knob is not good enough here: take one with a plastic shaft.",
            )
        return self.step(
            "Fit the speed knob in the door.", "its nut is tight, and its pointer stands at slow at the left stop."
        )

    def lay(self, wire: Wire) -> Iterator[Item]:
        """Laying a cable, before the first of its conductors is screwed on."""
        if not wire.cable or wire.cable in self.laid:
            return
        self.laid.add(wire.cable)
        cores = cables(self.circuit)[wire.cable]
        ends = sorted({end.device for core in cores for end in (core.a, core.b)}, key=lambda code: self.circuit.devices[code].place == "outside")
        out = [self.circuit.devices[code] for code in ends if self.circuit.devices[code].place == "outside"]
        conductors = f"{len(cores)} conductors, {' and '.join(dict.fromkeys(core.size for core in cores))}"
        if out:
            yield self.step(
                f"Lead cable {wire.cable} through its strain relief to {_the(out[0].name)} ({out[0].code}), and strip its jacket at both ends.",
                "the relief holds the jacket, no core is nicked, and the cable lies clear of all that turns.",
                note=f"{conductors}. Its protective conductor comes first, and is the longest." if cores[0].role == "protective" else f"{conductors}.",
            )
            return
        yield self.step(
            f"Lay cable {wire.cable} with a loop at the door's hinge, tie it on both sides of the loop, and strip its jacket at both ends.",
            "the door opens and shuts without a pull on a core.",
            note=f"{conductors}.",
        )

    def _wires(self, key: str, wires: list[Wire]) -> StepItem:
        a, b = self.circuit.devices[wires[0].a.device], self.circuit.devices[wires[0].b.device]
        ends = [end for w in wires for end in (w.a, w.b)]
        self.placed.update(ends)
        lines = tuple(wire_line(w, self.plan, self.ink) for w in wires)
        if key == "protective":
            moves = b.kind == "metal"
            return self.step(
                f"Bond {_the(b.name)} ({b.code}) to the bar{', with a loop of fine-strand wire' if moves else ''}.",
                "the ring lies flat on bare metal under a toothed washer"
                + (", and the part moves all its way without a pull on the wire." if moves else "."),
                lines,
            )
        if a.code == b.code:
            return self.step(
                f"Link {a.code} {', '.join(f'{w.a.name} to {w.b.name}' for w in wires)}.",
                "the link lies beside the part, not across it.",
                lines,
            )
        full = [f"{end.device} {end.name}" for end in dict.fromkeys(ends) if self.placed[end] > 1]
        holds = "now hold two wires each" if len(full) > 1 else "now holds two wires"
        note = f"{' and '.join(full)} {holds}: that is all {'they take' if len(full) > 1 else 'it takes'}." if full else ""
        return self.step(
            f"Join {_the(a.name)} ({a.code}) and {_the(b.name)} ({b.code}).",
            "a pull with two fingers moves no end.",
            lines,
            note,
        )

    def battery(self, wires: list[Wire]) -> Iterator[Item]:
        """The wires in the box first, then those of the battery, whose fuses stay out."""
        source, _ = self.circuit.source
        outside = [w for w in wires if any(self.circuit.devices[end.device].place == "outside" for end in (w.a, w.b))]
        inside = [w for w in wires if w not in outside]
        part = next(part for part in PARTS if part.key == "line")
        if inside:
            yield from self.part(part, inside)
        if not outside:
            return
        sizes = sorted({w.size for w in outside})
        yield self.head(
            "Battery, last of all",
            f"{' and '.join(sizes)}, {insulation(self.plan, self.ink)}. Its fuses stay out of their holders. No ring, watch or loose chain.",
            strip_of(sizes[0], self.plan.design.region.tables["strip"]),
        )
        yield self.hold(
            "A second person compares all wires so far with sheets 5 and 6.",
            "With the battery on, a mistake burns.",
        )
        # The fused ends of the leads first, then minus, and plus last of all, as sheet 2 says.
        for wire in sorted(outside, key=lambda w: (source.code in (w.a.device, w.b.device), Terminal(source.code, "+") in (w.a, w.b))):
            if Terminal(source.code, "+") in (wire.a, wire.b):
                far = wire.b if wire.a.device == source.code else wire.a
                yield self.step(
                    f"Screw wire {wire.number} to {far.device} {far.name}; its lug for the plus post stays off, taped over.",
                    "the lug is wholly under tape, and the post under its cap. It goes on after sheet 8 is signed.",
                    (wire_line(wire, self.plan, self.ink),),
                )
                continue
            yield self._wires("battery", [wire])

    def cord(self, wires: list[Wire]) -> Iterator[Item]:
        if not wires:
            return
        sizes = wires[0].size
        yield self.head(
            "Cord, last of all",
            f"Cable {wires[0].cable}: {sizes}, {COUNTS.get(len(wires), str(len(wires)))} conductors. Its plug stays in your pocket or in your sight.",
            strip_of(sizes, self.plan.design.region.tables["strip"]),
        )
        yield self.hold(
            "A second person compares all wires so far with sheets 5 and 6.",
            "After the cord is on, a mistake can be live.",
        )
        on_door = any(self.circuit.devices[w.b.device].place == "panel" for w in wires)
        yield self.step(
            "Pass the cord through its strain relief and strip its jacket.",
            "the relief holds the jacket, not the wires"
            + (
                "; two reach the open door with a loop to spare, and the protective conductor reaches the bar with more to spare than they have."
                if on_door
                else ", and the protective conductor is the longest of the three."
            ),
        )
        protective = [w for w in wires if w.role == "protective"]
        others = [w for w in wires if w.role != "protective"]
        if protective:
            yield self.step(
                "Put its protective conductor on the bar in the box.",
                "it has the longest way to go before it comes taut: torn out, it would come off last.",
                tuple(wire_line(w, self.plan, self.ink) for w in protective),
            )
        switch = self.circuit.devices[others[0].b.device]
        ends = " and ".join(w.b.name for w in others)
        loop = ", with a loop at the hinge" if switch.place == "panel" else ""
        yield self.step(
            f"Put its other two on {_the(switch.name)} ({switch.code}), switched off{loop}.",
            f"no bare strand stands out, and {ends} can't be touched with a finger.",
            tuple(wire_line(w, self.plan, self.ink) for w in others),
        )


def limit_of(name: str) -> Value:
    """A limit of the bench as a Value."""
    cell = table("bench_limits").cell(name, "value")
    return Value(cell.si, id=f"bench_limits.{name}", unit=cell.unit, parent=Row(cell), label=name)


def strip_of(gauge: str, table_id: str) -> Value:
    """Bare length at the end of a wire of this gauge."""
    cell = table(table_id).cell(gauge, "strip")
    return Value(cell.si, id=f"strip.{gauge}", unit=cell.unit, parent=Row(cell), label="bare length")


def _the(name: str) -> str:
    return f"the {name[0].lower()}{name[1:]}" if not name.startswith("DC") else f"the {name}"
