"""From design to circuit: the stages in their order, with the sizes and texts of the design."""

from buildsheet.circuit import Circuit, Device
from buildsheet.circuit.builder import Board, Conductor
from buildsheet.controls.line import bond, wire_line
from buildsheet.controls.motor_side import add_overload, wire_fan, wire_motor
from buildsheet.controls.no_volt_release import wire_no_volt_release
from buildsheet.design.design import Design, Sizes, WireSize
from buildsheet.design.wire_sizes import gauge_of
from buildsheet.formulas.conductors import wire_length
from buildsheet.reference import table
from buildsheet.sizing.places import Seat
from buildsheet.units import spell
from buildsheet.ways.phase_drive import wire_drive
from buildsheet.worksheet import Input, Value

LENGTHS = {"cord": "cord", "motor": "motor", "panel": "panel"}


def wire(design: Design) -> Circuit | None:
    """The circuit of a design; None while a size that a wire or fuse needs is not known."""
    sizes = design.sizes
    if sizes is None or not _wireable(design, sizes):
        return None
    board = Board(_conductors(design, sizes), _lengths(design))
    texts = _texts(design, sizes)
    overload = _has_relay(design)
    feed = wire_line(
        board,
        fuse_rating=float(sizes.line_fuse),
        fuse_interrupts=_interrupts(design, "line-fuse"),
        texts=texts,
    )
    if overload:
        add_overload(board, _usual("heater of an overload relay"), texts)
    behind = wire_no_volt_release(
        board, feed, overload=overload, coil=_usual("coil of a contactor"), texts=texts
    )
    power = design.project.power
    pot = power.potentiometer if power else None
    low, high = _spread("potentiometer")
    ohms = float(pot) if pot is not None and pot.known else 0.0
    plus, minus = wire_drive(
        board,
        behind,
        potentiometer=(low * ohms, high * ohms),
        end=_spread("end of a potentiometer")[1] * ohms,
        live=bool(power and power.live_controls is not False),
        texts=texts,
    )
    wire_motor(board, plus=plus, minus=minus, armature=_armature(design), fuse_rating=float(sizes.motor_fuse),
               fuse_interrupts=_interrupts(design, "motor-fuse"), overload=overload, texts=texts)  # fmt: skip
    if design.project.controls and design.project.controls.fan:
        wire_fan(board, behind, _usual("small fan"), texts)
    _bonds(board, texts)
    return board.circuit(
        float(sizes.fault_at_fuse), float(design.project.supply.breaker) if design.project.supply else 0.0
    )


def _wireable(design: Design, sizes: Sizes) -> bool:
    values: list[Value] = [
        sizes.line_fuse,
        sizes.motor_fuse,
        sizes.fault_at_fuse,
        *(size.ampacity for size in sizes.wires),
        sizes.cord.ampacity,
    ]
    lengths = (
        [design.project.runs.cord, design.project.runs.motor, design.project.runs.panel]
        if design.project.runs
        else []
    )
    return (
        all(value.known for value in values)
        and len(lengths) == len(LENGTHS)
        and all(length.known for length in lengths)
    )


def _conductor(size: WireSize, colours: tuple[str, ...]) -> Conductor:
    return Conductor(size.gauge, float(size.ampacity), colours)


def _conductors(design: Design, sizes: Sizes) -> dict[str, Conductor]:
    colours, cord = design.region.colours, sizes.cord
    line, control = sizes.wire("line"), sizes.wire("control")
    entry = Conductor(cord.gauge, float(cord.ampacity), colours["line"])
    protective = design.region.colours["protective"]
    return {
        "cord-line": entry,
        "cord-neutral": Conductor(cord.gauge, float(cord.ampacity), colours["neutral"]),
        "cord-protective": Conductor(cord.gauge, float(cord.ampacity), protective),
        "entry": entry,
        "line": _conductor(line, colours["line"]),
        "neutral": _conductor(line, colours["neutral"]),
        "control": _conductor(control, colours["control"]),
        "armature": _conductor(sizes.wire("armature"), colours["armature"]),
        "signal": _conductor(sizes.wire("signal"), colours["signal"]),
        "protective": Conductor(cord.gauge, float(cord.ampacity), protective),
    }


def _lengths(design: Design) -> dict[str, float]:
    runs, sheet = design.project.runs, design.sheet
    box = sheet.assume("runs.box", "wire in the box")
    if runs is None:
        return {"box": float(box)}
    loop = sheet.known_or_assumed(runs.loop, "spare loop")
    motor = sheet.work("wire.l_motor", wire_length, "wire to the motor, to cut", l=runs.motor, l_s=loop)
    panel = sheet.work("wire.l_panel", wire_length, "wire to the door, to cut", l=runs.panel, l_s=loop)
    return {"box": float(box), "cord": float(runs.cord), "motor": float(motor), "panel": float(panel)}


def _has_relay(design: Design) -> bool:
    controls = design.project.controls
    return bool(controls and controls.overload and controls.overload.by == "relay")


def seat_of(design: Design, place_id: str) -> Seat | None:
    """The seat of a place."""
    return next((seat for seat in design.seats if seat.place.id == place_id), None)


def _interrupts(design: Design, place_id: str) -> float | None:
    """Breaking capacity of a fuse: that of the seated part; one that is to be bought is bought to its need."""
    seat = seat_of(design, place_id)
    if seat is None:
        return None
    if seat.part is None:
        needed = next((need.value for need in seat.place.needs if need.rating == "breaking"), None)
        return float(needed) if isinstance(needed, Value) and needed.known else None
    return float(seat.part.breaking) if seat.part.breaking.known else None


def _usual(part: str) -> tuple[float, float]:
    """Ohms that a meter shows on a good part, by custom."""
    cells = table("usual_ohms")
    return cells.cell(part, "low").si, cells.cell(part, "high").si


def _spread(part: str) -> tuple[float, float]:
    """How far a good part may read from its value, as factors."""
    cells = table("meter_spread")
    return cells.cell(part, "low").si, cells.cell(part, "high").si


def _armature(design: Design) -> tuple[float, float]:
    motor = design.sheet.values.get("motor.R_a")
    ohms = float(motor) if motor is not None and motor.known else 1.0
    low, high = _spread("brushed armature")
    return low * ohms, high * ohms


def _spell(value: Value) -> str:
    return spell(float(value), value.unit, inches=False) if value.known else "not known"


def _texts(design: Design, sizes: Sizes) -> dict[str, str]:
    """The grey line under each device's name."""
    project, region = design.project, design.region
    supply, power, motor = project.supply, project.power, project.motor
    plate = motor.plate if motor else None
    written = {
        "X1": f"{sizes.cord.gauge}, 3 wires",
        "X2": f"{sizes.cord.gauge}, one wire each",
        "bar": f"{region.words['earth'].capitalize()} bar",
        "Q1": f"2-pole, {_row(sizes.disconnect)}",
        "F1": f"{_row(sizes.line_fuse)}, time-lag",
        "Q2": f"2-pole, {_row(sizes.contactor)}",
        "S1": "latching, red on yellow",
        "S2": "white, springs back",
        "S3": "black, springs back",
        "F3": f"range {_row(sizes.overload_range)}",
        "F2": f"{_row(sizes.motor_fuse)}, marked for DC",
        "M2": "on the drive",
    }
    if power is not None:
        written["T1"] = (
            "not separated from the line" if power.live_controls is not False else "separated from the line"
        )
        written["S4"] = f"{_text(power.potentiometer)} linear"
    if plate is not None:
        written["M1"] = f"{_text(plate.voltage)} DC, {_text(plate.current)}"
    if supply is not None:
        written["X1"] = f"{_text(supply.voltage)}, {sizes.cord.gauge}"
    return dict.fromkeys(("T1", "S4", "M1"), "") | written


def _row(value: Value) -> str:

    return gauge_of(value) or _spell(value)


def _text(value: Value) -> str:

    return value.parent.text if isinstance(value.parent, Input) else _spell(value)


def _bonds(board: Board, texts: dict[str, str]) -> None:
    """Metal that can be touched: box, its door, machine frame, motor, drive."""
    for code, kind, name, column in (
        ("U1", "enclosure", "Box", 3),
        ("U2", "door", "Door of the box", 2),
        ("U3", "frame", "Machine frame", 6),
    ):
        board.add(
            Device(
                code, kind, name, texts.get(code, ""), ("stud",), metal="stud", place="outside", column=column
            )
        )
    bond(board, 902, "2", "U1", "stud", "box")
    bond(board, 903, "3", "U2", "stud", "panel")
    bond(board, 904, "4", "T1", "case", "box")
    bond(board, 905, "5", "M1", "frame", "motor")
    bond(board, 906, "6", "U3", "stud", "motor")
    board.devices["X2"] = _with_spares(board)


def _with_spares(board: Board) -> Device:
    """The bar with spare screws marked as such, which may stay empty."""
    bar = board.devices["X2"]
    used = {wire.a.name for wire in board.wires if wire.a.device == "X2"} | {
        wire.b.name for wire in board.wires if wire.b.device == "X2"
    }
    takes = {name: 1 if name in used else 0 for name in bar.terminals}
    return Device(
        bar.code, bar.kind, bar.name, bar.rating, bar.terminals, bar.inside, takes=takes, place=bar.place
    )
