"""From design to circuit: the stages in their order, with the sizes and texts of the design."""

from dataclasses import replace
from math import inf
from typing import TypedDict

from buildsheet.circuit import Circuit, Contact, Device, Terminal, Winding
from buildsheet.circuit.builder import Board, Conductor, Feed
from buildsheet.controls.alternating_motor import Starter, wire_line_motor, wire_three_phase
from buildsheet.controls.battery import add_charger_inlet, wire_battery
from buildsheet.controls.brake import add_brake
from buildsheet.controls.choices import Choke
from buildsheet.controls.extras import bar_screws, bond_movable, renamed, wire_extras, with_room
from buildsheet.controls.field import OwnFuse, add_field_relay, wire_field
from buildsheet.controls.line import bond, wire_line
from buildsheet.controls.motor_side import add_overload, wire_fan, wire_motor
from buildsheet.controls.no_volt_release import ChainContact, wire_no_volt_release
from buildsheet.controls.precharge import add_precharge
from buildsheet.controls.reversing import add_reversing, feed_timer
from buildsheet.controls.soft_start import add_resistor, wire_soft_start
from buildsheet.controls.stops import add_stops
from buildsheet.design.design import Design, Sizes, WireSize
from buildsheet.design.texts import device_texts
from buildsheet.formulas.conductors import wire_length
from buildsheet.given.site import Runs
from buildsheet.reference import table
from buildsheet.sizing.ohms import around, usual
from buildsheet.sizing.places import Seat
from buildsheet.sizing.supply import Supplied
from buildsheet.units import METRE
from buildsheet.worksheet import Value, unknown


class _Shared(TypedDict):
    """What every motor's part of the circuit is given."""

    windings: tuple[Winding, ...]
    makes_volts: float
    bonded: bool
    texts: dict[str, str]


def wire(design: Design) -> Circuit | None:
    """The circuit of a design; None while a size that a wire or fuse needs is not known."""
    if missing(design):
        return None
    sizes, supplied, power, project = design.sizes, design.supplied, design.project.power, design.project
    if sizes is None or supplied is None or power is None:
        return None
    board, texts = (
        Board(_conductors(design, sizes, supplied), _lengths(design, supplied)),
        device_texts(design),
    )
    fuse, breaks = _trips(design, "line-fuse", sizes.line_fuse), _interrupts(design, "line-fuse")
    chain: list[ChainContact] = []
    movable = project.machine.movable_metal if project.machine is not None else ()
    if supplied.guard is not None:
        live = ("L", "L2") if supplied.two_hot else ("L",)
        feed = wire_line(
            board, fuse_rating=fuse, fuse_interrupts=breaks, both=supplied.poles > 1, live=live, texts=texts,
            screws=bar_screws(project.extras, movable),
        )  # fmt: skip
    else:
        feed = wire_battery(board, fuse_rating=fuse, fuse_interrupts=breaks, texts=texts)
        if sizes.charger_fuse is not None:
            rating = _trips(design, "charger-fuse", sizes.charger_fuse)
            chain.append(
                add_charger_inlet(
                    board,
                    fuse_rating=rating,
                    fuse_interrupts=_interrupts(design, "charger-fuse"),
                    texts=texts,
                )
            )
    if _has_relay(design):
        chain.append(add_overload(board, usual("heater of an overload relay"), texts))
    if sizes.wait is not None:
        chain.append(add_reversing(board, usual("coil of a timer"), texts))
    if sizes.field is not None and project.controls is not None and project.controls.field_relay:
        chain.append(add_field_relay(board, usual("coil of a current relay"), texts))
    if sizes.soft_start is not None:
        chain.append(add_resistor(board, around("resistor", float(sizes.soft_start.resistor)), texts))
    if project.controls is not None:
        chain += add_stops(board, project.controls.also_stops, texts)
    if sizes.precharge is not None:
        add_precharge(board, resistor=around("resistor", float(sizes.precharge.resistor)), coil=usual("coil of a timer"), texts=texts)
    behind = wire_no_volt_release(board, feed, chain=chain, zero=sizes.outfit.zero_contact, coil=usual("coil of a contactor"), both=supplied.guard is not None, texts=texts)
    limit = float(sizes.limit_rms) if sizes.limit_rms.known else inf
    soft = sizes.soft_start is not None
    fed = wire_soft_start(board, behind, usual("coil of a timer"), texts) if soft else behind
    outputs = sizes.outfit.wire(board, fed, limit=limit, texts=texts, metal=supplied.earthed)
    code, *ends = power.first
    # where the standstill timer's coil lies: at the drive; behind a start resistor it would pull in late, and on the line is no drive
    timed = (Terminal(code, ends[0]), Terminal(code, ends[1])) if code in board.devices and not soft else behind
    shared: _Shared = {"windings": _windings(design), "makes_volts": _makes_volts(design), "bonded": supplied.earthed, "texts": texts}
    if sizes.motor_fuse is not None:
        lies = wire_motor(board, plus=outputs[0], minus=outputs[1], fuse_rating=_trips(design, "motor-fuse", sizes.motor_fuse),
                   fuse_interrupts=_interrupts(design, "motor-fuse"), choke=_choke(design), **shared)  # fmt: skip
        if sizes.field is not None:
            _field(board, feed, design, sizes, supplied, texts)
        if sizes.braking is not None:
            add_brake(board, lies, around("resistor", float(sizes.braking.resistor)), texts)
    elif len(outputs) > 2:
        wire_three_phase(board, outputs, **shared)
    else:
        wire_line_motor(board, (outputs[0], outputs[1]), starter=_starter(design), **shared)
    # coils last, so that no motor current runs over their screws
    if "K1" in board.devices:
        feed_timer(board, timed)
    fan = project.controls.fan if project.controls else None
    if fan is not None:
        wire_fan(board, (with_room(board, behind[0]), with_room(board, behind[1])), usual("small fan"), texts, metal=supplied.earthed and fan.body != "plastic")
    if supplied.earthed:
        _bonds(board, texts)
        bond_movable(board, movable)
    if project.extras:
        feeds = {"with the disconnect": feed, "while it runs": behind}
        wire_extras(board, feeds, project.extras, usual("lamp or indicator"), earthed=supplied.earthed)
    if supplied.earthed:
        board.devices["X2"] = _with_spares(board)
    guard = float(supplied.guard) if supplied.guard is not None else None
    unguarded = table("bench_limits").cell("unguarded wire", "value").si if guard is None else 0.0
    _direct_figures(board, design)
    made = board.circuit(
        float(sizes.fault_at_fuse),
        guard,
        unguarded,
        protective_least=float(sizes.protective) if sizes.protective is not None else 0.0,
        direct_volts=_direct_volts(sizes, supplied),
    )
    return renamed(made, project.names)


def missing(design: Design) -> tuple[Value, ...]:
    """What the circuit still needs: sizes and lengths that are not known, in the order of the power path."""
    sizes, supplied = design.sizes, design.supplied
    if sizes is None or supplied is None:
        return ()
    runs = design.project.runs
    lengths = [_run(runs, name, label) for name, label in _runs(supplied)]
    cord = [sizes.cord.ampacity] if sizes.cord is not None else []
    values = [
        *((supplied.guard,) if supplied.guard is not None else ()),
        sizes.line_fuse,
        sizes.line_fuse_breaks,
        *cord,
        sizes.fault_at_fuse,
        *((sizes.motor_fuse,) if sizes.motor_fuse is not None else ()),
        *((sizes.bleeder.resistor, sizes.bleeder.crest) if sizes.bleeder is not None else ()),
        *(size.ampacity for size in sizes.wires),
        *((sizes.charger_fuse,) if sizes.charger_fuse is not None else ()),
        *((sizes.precharge.resistor, sizes.precharge.need) if sizes.precharge is not None else ()),
        *((sizes.protective,) if sizes.protective is not None else ()),
        *sizes.outfit.needed,
        *((sizes.limit_rms,) if sizes.motor_fuse is not None else ()),
        *((sizes.soft_start.resistor, sizes.soft_start.time) if sizes.soft_start is not None else ()),
        *((sizes.braking.resistor,) if sizes.braking is not None else ()),
        *(winding.ohms for winding in (design.motor.windings if design.motor is not None else ())),
        *((sizes.field.resistor,) if sizes.field is not None and sizes.field.resistor is not None else ()),
        *((sizes.field_fuse,) if sizes.field_fuse is not None else ()),
        *((choke.resistance,) if (choke := _choke_of(design)) is not None else ()),
        *lengths,
    ]
    return tuple(value for value in values if not value.known)


def _runs(supplied: Supplied) -> tuple[tuple[str, str], ...]:
    first = (
        ("cord", "length of the cord") if supplied.guard is not None else ("battery", "run from the battery")
    )
    return (first, ("motor", "run to the motor"), ("panel", "run to the door"))


def _run(runs: Runs | None, name: str, label: str) -> Value:
    if runs is None:
        return unknown(f"runs.{name}", METRE, "not in the file", label)
    found: Value = getattr(runs, name)
    return found


def _conductor(size: WireSize, colours: tuple[str, ...], role: str = "") -> Conductor:
    return Conductor(size.gauge, float(size.ampacity), colours, role, float(size.area))


def _conductors(design: Design, sizes: Sizes, supplied: Supplied) -> dict[str, Conductor]:
    colours, line = design.region.colours, sizes.wire("line")
    shared = {
        "armature": _conductor(sizes.wire("armature"), colours["armature"]),
        **({"signal": _conductor(sizes.wire("signal"), colours["signal"])} if any(size.role == "signal" for size in sizes.wires) else {}),
    }
    cord = sizes.cord
    if cord is None:  # a battery
        plus, minus = _conductor(line, colours["plus"], "plus"), _conductor(line, colours["minus"], "minus")
        found = {
            "line": plus,
            "neutral": minus,
            "control": _conductor(sizes.wire("control"), colours["extra-low"]),
            **shared,
        }
        if sizes.charger_fuse is not None:
            charger = sizes.wire("charger")
            found["charger"] = _conductor(charger, colours["plus"], "plus")
            found["charger-return"] = _conductor(charger, colours["minus"], "minus")
        return found
    other = "line-2" if supplied.two_hot else "neutral"
    protective = _conductor(cord, colours["protective"])
    return {
        "cord-line": _conductor(cord, colours["line"], "line"),
        "cord-neutral": _conductor(cord, colours[other], other),
        "cord-protective": _conductor(cord, colours["protective"], "protective"),
        "entry": _conductor(cord, colours["line"]),
        "entry-2": _conductor(cord, colours[other], other),
        "line": _conductor(line, colours["line"]),
        "neutral": _conductor(line, colours[other], other),
        **({"field": _conductor(line, colours["armature"])} if sizes.field is not None else {}),
        **({"secondary": _conductor(sizes.wire("secondary"), colours["line"])} if any(size.role == "secondary" for size in sizes.wires) else {}),
        "control": _conductor(sizes.wire("control"), colours["control"]),
        "protective": protective,
        **shared,
    }


def _lengths(design: Design, supplied: Supplied) -> dict[str, float]:
    """Length of each run, a spare loop at each wire included."""
    runs, sheet = design.project.runs, design.sheet
    box = sheet.assume("runs.box", "wire in the box")
    if runs is None:
        return {"box": float(box)}
    loop = sheet.known_or_assumed(runs.loop, "spare loop")
    motor = sheet.work("wire.l_motor", wire_length, "wire to the motor, to cut", l=runs.motor, l_s=loop)
    panel = sheet.work("wire.l_panel", wire_length, "wire to the door, to cut", l=runs.panel, l_s=loop)
    found = {"box": float(box), "motor": float(motor), "panel": float(panel)}
    if supplied.guard is not None:
        return {**found, "cord": float(runs.cord)}
    supply = sheet.work("wire.l_supply", wire_length, "wire to the battery, to cut", l=runs.battery, l_s=loop)
    post = sheet.pick(
        "wire.l_post", "bench_limits", "value", "wire from a battery post to its fuse", key="unguarded wire"
    )
    return {**found, "supply": float(supply), "post": float(post)}


def _has_relay(design: Design) -> bool:
    controls, power = design.project.controls, design.project.power
    asked = bool(controls and controls.overload and controls.overload.by == "relay")
    return asked and (power is None or not power.guards_motor)


def seat_of(design: Design, place_id: str) -> Seat | None:
    """The seat of a place."""
    return next((seat for seat in design.seats if seat.place.id == place_id), None)


def _trips(design: Design, place_id: str, bought: Value) -> float:
    """Rating of a fuse: that of the seated part, or of the one that is to be bought."""
    seat = seat_of(design, place_id)
    if seat is not None and seat.usable and seat.part is not None:
        return float(seat.part.current)
    return float(bought)


def _interrupts(design: Design, place_id: str) -> float | None:
    """Breaking capacity of a fuse: that of the seated part; one that is to be bought breaks what its kind breaks on
    AC, and on DC what is printed on it, which the counter is asked for."""
    seat = seat_of(design, place_id)
    if seat is None:
        return None
    if not seat.usable or seat.part is None:
        if place_id != "motor-fuse":  # of the same kind, line and charger fuse alike
            breaks = design.sizes.line_fuse_breaks if design.sizes is not None else None
            return float(breaks) if breaks is not None and breaks.known else None
        needed = next((need.value for need in seat.place.needs if need.rating == "breaking"), None)
        return float(needed) if isinstance(needed, Value) and needed.known else None
    return float(seat.part.breaking) if seat.part.breaking.known else None


def _direct_volts(sizes: Sizes, supplied: Supplied) -> float:
    """The most that direct current reaches anywhere in the machine."""
    if not supplied.alternating:
        return float(supplied.highest)
    return float(sizes.motor_fuse_volts) if sizes.motor_fuse_volts.known else inf


def _direct_figures(board: Board, design: Design) -> None:
    """The DC figure of each contact: the one printed on the part at its place, or the one that the counter is asked for."""
    for seat in design.seats:
        device = board.devices.get(seat.place.code)
        needs = {need.rating: need for need in seat.place.needs}
        asked = needs.get("voltage")
        direct = "supply" in needs and needs["supply"].value == "DC"
        if device is None or asked is None or not (direct or "DC" in asked.label) or not isinstance(asked.value, Value):
            continue
        volts = seat.part.voltage if seat.usable and seat.part is not None else asked.value
        figure = float(volts) if volts.known else None
        inside = tuple(
            replace(part, breaks_dc=figure) if isinstance(part, Contact) else part for part in device.inside
        )
        board.devices[device.code] = replace(device, inside=inside)


def _makes_volts(design: Design) -> float:
    """The most that the motor makes by itself: its back-EMF at runaway; of one whose field goes with its supply no more than
    the line's crest, since what is left in its iron fades at once."""
    if design.motor is not None and not design.motor.direct and design.sizes is not None:
        found: Value | None = design.sizes.motor_fuse_volts
    else:
        found = design.sheet.values.get("runaway.E")
    return float(found) if found is not None and found.known else inf


def _windings(design: Design) -> tuple[Winding, ...]:
    """The motor's windings with the ohms that a pocket meter may show on them."""
    made = []
    for winding in design.motor.windings if design.motor is not None else ():
        part = "brushed armature" if winding.part == "armature" else "field winding"
        made.append(Winding(winding.a, winding.b, *around(part, float(winding.ohms)), part=winding.part, apart=winding.apart))
    return tuple(made)


def _field(board: Board, feed: Feed, design: Design, sizes: Sizes, supplied: Supplied, texts: dict[str, str]) -> None:
    """The field's own supply, as far as it is sized."""
    field, motor = sizes.field, design.motor
    if field is None or motor is None:
        return
    winding = next(one for one in motor.windings if one.apart)
    fuse = None
    if sizes.field_fuse is not None:
        fuse = OwnFuse(_trips(design, "field-fuse", sizes.field_fuse), _interrupts(design, "field-fuse"), supplied.poles > 1)
    ohms = around("resistor", float(field.resistor)) if field.resistor is not None else None
    wire_field(board, feed, (f"M1:{winding.a}", f"M1:{winding.b}"), resistor=ohms, fuse=fuse, texts=texts)


def _starter(design: Design) -> Starter | None:
    """What turns the field of the design's motor round."""
    starting = design.motor.starting if design.motor is not None else None
    if starting is None:
        return None
    bleeder = design.sizes.bleeder if design.sizes is not None else None
    if bleeder is None:
        return Starter(starting.switch)
    return Starter(starting.switch, float(bleeder.capacitor), float(bleeder.crest), around("resistor", float(bleeder.resistor)))


def _choke_of(design: Design) -> Choke | None:
    controls = design.project.controls
    return controls.choke if controls is not None else None


def _choke(design: Design) -> tuple[float, float] | None:
    """Ohms that a meter may show on the choke; None without one."""
    choke = _choke_of(design)
    if choke is None:
        return None
    return around("field winding", float(choke.resistance))


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
    bond(board, 902, "U1", "stud", "box", stud="2")
    bond(board, 903, "U2", "stud", "panel", stud="3")
    if "T1" in board.devices:
        bond(board, 904, "T1", "case", "box", stud="4")
    bond(board, 905, "M1", "frame", "motor", stud="5", cable="W3")
    bond(board, 906, "U3", "stud", "motor", stud="6")
    if "M2" in board.devices and board.devices["M2"].metal:
        bond(board, 907, "M2", "frame", "box", stud="7")
    if "L1" in board.devices and board.devices["L1"].metal:
        bond(board, 908, "L1", "core", "box", stud="8")
    if "T2" in board.devices and (metal := board.devices["T2"].metal):
        bond(board, 909, "T2", metal, "box", stud="9")


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
