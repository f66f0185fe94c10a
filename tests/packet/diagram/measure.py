"""Measures a finished drawing by its published geometry, independently of how it was laid out."""

import itertools

from buildsheet.circuit import Circuit, Terminal
from buildsheet.packet.diagram import Drawing, Rect

LINE = 0.95  # a wire that isn't drawn wider


def pieces(drawing: Drawing) -> list[tuple[int, Rect]]:
    """The straight pieces of all wires as thin rectangles."""
    found = []
    for number, points in drawing.wires.items():
        for (ax, ay), (bx, by) in itertools.pairwise(points):
            found.append((number, Rect(min(ax, bx), min(ay, by), abs(ax - bx), abs(ay - by))))
    return found


def half(drawing: Drawing, number: int) -> float:
    """Half the width of a wire's line."""
    return max(LINE, drawing.line_widths[number]) / 2


def grown(room: Rect, by: float) -> Rect:
    return Rect(room.x - by, room.y - by, room.width + 2 * by, room.height + 2 * by)


def hits(one: Rect, other: Rect) -> bool:
    """Whether two rectangles share more than a hundredth of a millimetre either way."""
    return (
        min(one.right, other.right) - max(one.x, other.x) > 0.01
        and min(one.bottom, other.bottom) - max(one.y, other.y) > 0.01
    )


def faults(drawing: Drawing) -> list[str]:
    """All that is wrong with a drawing, in words; nothing for a clean one."""
    found: list[str] = []
    lines = pieces(drawing)
    flagged = {flag.wire: flag.room for flag in drawing.flags}
    for number in drawing.wires:
        if number not in flagged:
            found.append(f"wire {number} has no flag")
    for number, line in lines:
        for code, box in drawing.boxes.items():
            inner = grown(box, -0.3)
            if hits(grown(line, 0.05), inner):
                found.append(f"wire {number} through {code}")
    for i, (number, line) in enumerate(lines):
        for other, second in lines[i + 1 :]:
            if number == other:
                continue
            along = (line.width > 0) == (second.width > 0) or line.width + line.height == 0
            if along and hits(grown(line, half(drawing, number)), grown(second, half(drawing, other))):
                found.append(f"wires {number} and {other} on one line")
    texts = drawing.texts
    for i, words in enumerate(texts):
        room = words.room
        in_flag = any(grown(flag.room, 0.01).x <= room.x and room.right <= flag.room.right + 0.01
                      and flag.room.y - 0.3 <= room.y and room.bottom <= flag.room.bottom + 0.3 for flag in drawing.flags)  # fmt: skip
        if (
            room.x < -0.01
            or room.y < -0.01
            or room.right > drawing.width + 0.01
            or room.bottom > drawing.height + 0.01
        ):
            found.append(f"{words.words!r} off the sheet")
        if words.size < 7 * 25.4 / 72 - 1e-6:
            found.append(f"{words.words!r} is smaller than 7 pt")
        if not in_flag:
            for number, line in lines:
                if hits(room, grown(line, half(drawing, number))):
                    found.append(f"{words.words!r} on wire {number}")
        for other in texts[i + 1 :]:
            if hits(room, other.room):
                found.append(f"{words.words!r} on {other.words!r}")
        for ring in drawing.rings:
            if hits(room, ring.room):
                found.append(f"{words.words!r} on ring {ring.terminal}")
    found += _box_faults(drawing) + _flag_faults(drawing, lines)
    for number, points in drawing.wires.items():
        for x, y in points:
            if not (0.4 <= x <= drawing.width - 0.4 and 0.4 <= y <= drawing.height - 0.4):
                found.append(f"wire {number} off the sheet")
    return found


def _box_faults(drawing: Drawing) -> list[str]:
    found = []
    boxes = list(drawing.boxes.items())
    for i, (code, box) in enumerate(boxes):
        if box.x < 0 or box.y < 0 or box.right > drawing.width or box.bottom > drawing.height:
            found.append(f"{code} off the sheet")
        for other, second in boxes[i + 1 :]:
            if hits(box, second):
                found.append(f"{code} on {other}")
        for words in drawing.texts:
            inside = (
                box.x <= words.room.x
                and words.room.right <= box.right
                and box.y <= words.room.y
                and words.room.bottom <= box.bottom
            )
            if hits(words.room, box) and not inside:
                found.append(f"{words.words!r} across the edge of {code}")
    return found


def _flag_faults(drawing: Drawing, lines: list[tuple[int, Rect]]) -> list[str]:
    found = []
    for i, flag in enumerate(drawing.flags):
        room = flag.room
        if not any(
            number == flag.wire and hits(grown(line, 0.02), grown(room, -0.5)) for number, line in lines
        ):
            found.append(f"flag {flag.wire} is not on its wire")
        for number, line in lines:
            if number != flag.wire and hits(room, grown(line, half(drawing, number))):
                found.append(f"flag {flag.wire} covers wire {number}")
        for other in drawing.flags[i + 1 :]:
            if hits(room, other.room):
                found.append(f"flags {flag.wire} and {other.wire}")
        for code, box in drawing.boxes.items():
            if hits(room, box):
                found.append(f"flag {flag.wire} on {code}")
        for ring in drawing.rings:
            if hits(room, ring.room):
                found.append(f"flag {flag.wire} on ring {ring.terminal}")
        for words in drawing.texts:
            if hits(room, words.room) and not (
                room.x - 0.01 <= words.room.x and words.room.right <= room.right + 0.01
            ):
                found.append(f"flag {flag.wire} on {words.words!r}")
    return found


def wiring_faults(circuit: Circuit, drawings: tuple[Drawing, ...]) -> list[str]:
    """Wires that are missing, drawn twice, or that end elsewhere than in the rings of their terminals."""
    found: list[str] = []
    drawn = [number for drawing in drawings for number in drawing.wires]
    if sorted(drawn) != sorted(wire.number for wire in circuit.wires):
        found.append("not every wire is drawn once")
    by_number = {wire.number: wire for wire in circuit.wires}
    for drawing in drawings:
        rings: dict[Terminal, list[Rect]] = {}
        for ring in drawing.rings:
            rings.setdefault(ring.terminal, []).append(ring.room)
        for number, points in drawing.wires.items():
            wire = by_number[number]
            for end, (x, y) in ((wire.a, points[0]), (wire.b, points[-1])):
                if not any(r.x <= x <= r.right and r.y <= y <= r.bottom for r in rings.get(end, [])):
                    found.append(f"wire {number} does not end at {end}")
    return found
