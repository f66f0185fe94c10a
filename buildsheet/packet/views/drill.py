"""Drill drawing: the door and the underside of the box to scale, a hole for each control, cable and stud.

The grid is even: controls in rows of at most MOST_IN_A_ROW, the emergency stop alone in the lowest, nearest to the hand
and over none that a hand would have to pass. What is printed is a table's hole or a share of the box's own measures.
"""

from dataclasses import dataclass
from math import hypot, inf

from markupsafe import Markup

from buildsheet.circuit import Circuit, Device
from buildsheet.citations import derivation
from buildsheet.packet import figures
from buildsheet.packet.ink import Ink
from buildsheet.plan import Plan
from buildsheet.plan.cuts import cables
from buildsheet.reference import table
from buildsheet.units import METRE
from buildsheet.worksheet import Model, Row, Value

MOST_IN_A_ROW = 4
ALONE = "emergency-stop"
SCALES = (1, 2, 5, 10, 20)  # one to this many: reductions of ISO 5455 (from memory)
ROOM = (82.0, 100.0)  # mm on paper, for the door
SIZE_ROOM, NOTE_ROOM = 15.0, 56.0  # mm on paper that a size beside a hole takes, and the note below
HOLES = table("hole_sizes")
EVEN = derivation("even spacing over the box's own measure")


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole: what sits in it, its size, and its middle from the left and the upper edge."""

    code: str
    what: str
    size: Value
    x: Value
    y: Value
    note: str


@dataclass(frozen=True, slots=True)
class Group:
    """A heading inside the table."""

    group: str


@dataclass(frozen=True, slots=True)
class Drill:
    """The drawing, its holes row by row for a table, and a remark when they stand too close."""

    svg: Markup
    rows: list[object]
    remark: str


def drill(plan: Plan, ink: Ink) -> Drill | None:
    """The drill drawing; None while the box or the circuit is not known."""
    box, circuit = plan.project.box, plan.circuit
    if box is None or circuit is None or plan.stopped or not all(v.known for v in (box.width, box.height, box.depth)):
        return None
    door = door_holes(circuit, box.width, box.height)
    under = under_holes(circuit, box.width, box.depth)
    spacing = _spacing()
    rows: list[object] = []
    for name, holes in (("Door, seen from outside", door), ("Underside, seen from below, door above", under)):
        rows.append(Group(name))
        rows += [[f"{hole.code} {hole.what}", *(str(ink.print(value)) for value in (hole.size, hole.x, hole.y)), hole.note] for hole in holes]
    stud = HOLES.cell("stud", "hole")
    studs = ", ".join(device.code for device in circuit.devices.values() if device.kind in ("enclosure", "door"))
    if studs:
        size = ink.print(_of_table("stud"))
        rows.append([f"{studs} studs of the box", str(size), "beside X2", "", stud.note("called")])
    return Drill(_svg(door, under, box.width, box.height, box.depth, spacing, ink), rows, too_close(door, spacing, ink))


def _spacing() -> Value:
    cell = table("bench_limits").cell("control spacing", "value")
    return Value(cell.si, id="drill.spacing", unit=cell.unit, parent=Row(cell), label="between two controls")


def _of_table(kind: str) -> Value:
    cell = HOLES.cell(kind, "hole")
    return Value(cell.si, id=f"hole.{kind}", unit=cell.unit, parent=Row(cell), label=f"hole for {kind}")


def _share(part: int, parts: int, whole: Value, name: str) -> Value:
    """`part` of `parts` equal pieces of a measure of the box."""
    model = Model(f"{part} of {parts} equal parts", {"l": whole}, "where a hole goes", EVEN)
    return Value(part * float(whole) / parts, id=f"drill.{name}", unit=METRE, parent=model, label=f"{name}, place of its hole")


def controls(circuit: Circuit) -> list[list[Device]]:
    """The controls of the door in rows from above: those that are switched seldom first, the emergency stop last."""
    panel = [device for device in circuit.devices.values() if device.place == "panel"]
    alone = [device for device in panel if device.kind == ALONE]
    seldom = [device for device in panel if device.kind in ("disconnect", "charger-inlet", "reversing-switch")]
    often = [device for device in panel if device not in alone and device not in seldom]
    rows = [group[start : start + MOST_IN_A_ROW] for group in (seldom, often) for start in range(0, len(group), MOST_IN_A_ROW)]
    return [*rows, *([alone] if alone else [])]


def door_holes(circuit: Circuit, width: Value, height: Value) -> list[Hole]:
    """A hole for each control of the door, evenly spaced."""
    rows = controls(circuit)
    return [
        Hole(
            device.code, device.name, _of_table(device.kind),
            _share(place + 1, len(row) + 1, width, f"{device.code}.x"), _share(line + 1, len(rows) + 1, height, f"{device.code}.y"),
            HOLES.cell(device.kind, "hole").note("called"),
        )
        for line, row in enumerate(rows)
        for place, device in enumerate(row)
    ]  # fmt: skip


def leaving(circuit: Circuit) -> list[tuple[str, str]]:
    """Every cable, and every single wire, that leaves the box: its name and where it goes."""
    found = []
    for name, cores in cables(circuit).items():
        there = [circuit.devices[end.device] for core in cores for end in (core.a, core.b) if _away(circuit.devices[end.device])]
        if there:
            found.append((name, there[0].name))
    for wire in circuit.wires:
        if not wire.cable:
            away = [circuit.devices[end.device] for end in (wire.a, wire.b)]
            if sum(_away(device) for device in away) == 1:
                found.append((str(wire.number), next(device.name for device in away if _away(device))))
    return found


def _away(device: Device) -> bool:
    """Whether a device sits apart from the box: the box's own metal does not."""
    return device.place == "outside" and device.kind not in ("enclosure", "door")


def under_holes(circuit: Circuit, width: Value, depth: Value) -> list[Hole]:
    """A hole for each cable, in a row on the underside, so that no chip or drop falls in."""
    cables_out = leaving(circuit)
    parts = len(cables_out) + 1
    return [
        Hole(code, f"to {name[0].lower()}{name[1:]}", _of_table("cable gland"), _share(place, parts, width, f"{code}.x"), _share(1, 2, depth, f"{code}.y"),
             HOLES.cell("cable gland", "hole").note("called"))
        for place, (code, name) in enumerate(cables_out, 1)
    ]  # fmt: skip


def too_close(holes: list[Hole], spacing: Value, ink: Ink) -> str:
    """A remark when two controls stand nearer than they may; empty when none do."""
    for place, one in enumerate(holes):
        for other in holes[place + 1 :]:
            apart = ((float(one.x) - float(other.x)) ** 2 + (float(one.y) - float(other.y)) ** 2) ** 0.5
            if apart < float(spacing) - 1e-9:
                return f"{one.code} and {other.code} would stand nearer than {ink.print(spacing)}: take a larger box, or a panel of its own for the controls."
    return ""


def scale_for(width: Value, height: Value) -> float:
    """The largest usual scale at which the door fits its room on paper: one to this many."""
    return next((n for n in SCALES if 1000 * float(width) <= n * ROOM[0] and 1000 * float(height) <= n * ROOM[1]), SCALES[-1])


def _svg(door: list[Hole], under: list[Hole], width: Value, height: Value, depth: Value, spacing: Value, ink: Ink) -> Markup:
    n = scale_for(width, height)
    left, top = 4.0, 1.0
    w, h, d = (1000 * float(v) / n for v in (width, height, depth))
    beside = left + w + 7
    body = _plate(left, top, w, h, f"door, {ink.print(width)} × {ink.print(height)}", door, n, spacing, ink)
    body += figures.rect(left - 1.8, top + 4, 1.2, h - 8)
    body += figures.text(left + 1.5, top + 4, "hinge", 7, fill=figures.GREY)
    body += _plate(beside, top, w, d, f"underside, {ink.print(width)} × {ink.print(depth)}", under, n, None, ink)
    body += figures.text(beside + w - 1.5, top + 4, "door", 7, anchor="end", fill=figures.GREY)
    body += figures.text(beside, top + d + 5, f"scale 1 : {n:g} · a dashed ring keeps others out", 7.5, fill=figures.GREY)
    return figures.svg(max(beside + w + 1, beside + NOTE_ROOM), max(top + h, top + d + 6) + 1, "Drill drawing of door and underside", body, "figure")


def _plate(x0: float, y0: float, w: float, h: float, name: str, holes: list[Hole], n: float, spacing: Value | None, ink: Ink) -> str:
    """One side of the box with its holes, centre lines and names."""
    body = f'<rect x="{figures.num(x0)}" y="{figures.num(y0)}" width="{figures.num(w)}" height="{figures.num(h)}" fill="none" stroke="{figures.INK}" stroke-width="0.55"/>'
    body += figures.text(x0 + 1.5, y0 + h - 1.5, name, 7, fill=figures.GREY)
    sized = _apart(holes) / n >= SIZE_ROOM  # else the sizes would lie on each other: the table below has them
    for hole in holes:
        x, y, r = x0 + 1000 * float(hole.x) / n, y0 + 1000 * float(hole.y) / n, 500 * float(hole.size) / n
        clear = r + 1.4
        if spacing is not None:
            clear = 500 * float(spacing) / n
            body += f'<circle cx="{figures.num(x)}" cy="{figures.num(y)}" r="{figures.num(clear)}" fill="none" stroke="{figures.GREY}" stroke-width="0.2" stroke-dasharray="0.9 0.9"/>'
        body += figures.ring(x, y, r, 0.4)
        body += figures.line(x - r - 1.4, y, x + r + 1.4, y, 0.15) + figures.line(x, y - r - 1.4, x, y + r + 1.4, 0.15)
        body += figures.text(x, y - clear - 0.9, hole.code, 8.5, "bold", "middle")
        if sized:
            body += figures.text(x, y + clear + 2.9, f"Ø {ink.print(hole.size)}", 7, anchor="middle")
    return body


def _apart(holes: list[Hole]) -> float:
    """The least distance, mm, of two holes from each other."""
    return min(
        (1000 * hypot(float(a.x) - float(b.x), float(a.y) - float(b.y)) for i, a in enumerate(holes) for b in holes[i + 1 :]),
        default=inf,
    )
