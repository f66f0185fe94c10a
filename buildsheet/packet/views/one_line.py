"""The one-line diagram: the power path of the circuit from plug to motor, one line for all its poles."""

from markupsafe import Markup

from buildsheet.circuit import Capacitor, Circuit, Device, Winding
from buildsheet.circuit.contraction import bridges, joins
from buildsheet.circuit.netlist import Terminal
from buildsheet.packet import figures
from buildsheet.packet.fonts import text_width
from buildsheet.plan import Plan

WIDTH, HEIGHT = 174.0, 21.0
BOX, LINE_Y = 11.0, 9.0
SMALL, POINTS_PER_MM = 7.0, 72 / 25.4


def drawing(plan: Plan) -> Markup | None:
    """The path as a drawing, or None without a circuit."""
    if plan.circuit is None or plan.stopped:
        return None
    path = power_path(plan.circuit)
    pitch = WIDTH / len(path)
    body = figures.line(pitch / 2, LINE_Y, WIDTH - pitch / 2, LINE_Y, 0.95)
    for place, device in enumerate(path):
        middle = pitch * (place + 0.5)
        body += figures.rect(middle - BOX / 2 - 0.27, LINE_Y - 4.27, BOX + 0.54, 8.54)
        body += figures.rect(middle - BOX / 2 + 0.28, LINE_Y - 3.72, BOX - 0.56, 7.44, figures.PAPER)
        body += figures.text(middle, LINE_Y + 1.5, device.code, 11, weight="bold", anchor="middle")
        body += figures.text(
            middle, LINE_Y - 5.6, _fitted(device.name, pitch), SMALL, weight="semibold", anchor="middle"
        )
        body += figures.text(middle, LINE_Y + 7.6, _fitted(device.rating, pitch), SMALL, anchor="middle")
    return figures.svg(WIDTH, HEIGHT, "One-line diagram from plug to motor", body, "figure")


def _fitted(words: str, width: float) -> str:
    """As much as the width holds: whole phrases first, then whole words."""
    for separator in (", ", " "):
        parts = words.split(separator)
        while len(parts) > 1 and text_width(separator.join(parts), SMALL / POINTS_PER_MM) > width - 1.5:
            parts.pop()
        words = separator.join(parts)
    return words


def power_path(circuit: Circuit) -> list[Device]:
    """Devices that the line pole's current passes on its way to the motor, everything switched on."""
    source, poles = circuit.source
    start, goal = (
        Terminal(source.code, poles.live[0]),
        next(d.code for d in circuit.devices.values() if d.kind == "motor"),
    )
    positions = {
        d.code: d.positions[-1] if d.kind in ("disconnect", "contactor", "reversing-switch") else d.positions[0]
        for d in circuit.devices.values()
        if d.positions
    }
    beside: dict[Terminal, list[Terminal]] = {}
    for wire in circuit.wires:
        if wire.role in ("line", "plus", "entry", "secondary", "armature"):
            beside.setdefault(wire.a, []).append(wire.b)
            beside.setdefault(wire.b, []).append(wire.a)
    for device in circuit.devices.values():
        if device.kind == "bleeder" or any(isinstance(part, Capacitor) and part.passes for part in device.inside):
            continue  # beside the way to the run winding, not on it
        for a, b in (*joins(device, positions), *bridges(device, positions)):
            beside.setdefault(Terminal(device.code, a), []).append(Terminal(device.code, b))
            beside.setdefault(Terminal(device.code, b), []).append(Terminal(device.code, a))
    found: dict[Terminal, Terminal | None] = {start: None}
    waiting = [start]
    longest: list[Terminal] = []
    run = {name for part in circuit.devices[goal].inside if isinstance(part, Winding) and part.part == "run" for name in (part.a, part.b)}
    while waiting:
        here = waiting.pop(0)
        if here.device == goal and (not run or here.name in run):  # a start winding lies beside the way, with its switch
            longest = max(longest, _back(found, here), key=len)
        for there in beside.get(here, []):
            if there not in found and here.device != goal:
                found[there] = here
                waiting.append(there)
    return [circuit.devices[code] for code in dict.fromkeys(terminal.device for terminal in longest)]


def _back(found: dict[Terminal, Terminal | None], end: Terminal) -> list[Terminal]:
    path = [end]
    while (before := found[path[-1]]) is not None:
        path.append(before)
    return path[::-1]
