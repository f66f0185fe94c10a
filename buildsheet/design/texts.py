"""The grey line under each device's name in the diagram: what it is rated, as short as it can be said."""

from collections import defaultdict

from buildsheet.design.design import Design
from buildsheet.design.wire_sizes import gauge_of
from buildsheet.units import figures, signed, spell
from buildsheet.worksheet import Input, Row, Value


def device_texts(design: Design) -> dict[str, str]:
    """By device code, empty for a device that has none."""
    sizes, supplied, project = design.sizes, design.supplied, design.project
    if sizes is None or supplied is None:
        return {}
    power, motor = project.power, project.motor
    plate = motor.plate if motor else None
    current = "" if supplied.alternating else " DC"
    poles = f"{supplied.poles} × " if supplied.poles > 1 else ""
    written = {
        "Q1": f"2-pole, {_row(sizes.disconnect)}{current}",
        "F1": f"{poles}{_text(sizes.line_fuse)}{', time-lag' if supplied.alternating else current}",
        "Q2": f"{'2' if supplied.alternating else '1'}-pole, {_row(sizes.contactor)}{current}",
        "S1": "latching, red on yellow",
        "S2": "white, springs back",
        "S3": "black, springs back",
        "F3": f"range {_row(sizes.overload_range)}",
        "F2": f"{_text(sizes.motor_fuse)}, {_dc(design)}",
        "M2": "on the drive",
        "S5": "changes over at 0",
        "S6": "pushed open by the guard",
        "S7": "under its hood",
        "F6": "opens when hot",
    }
    if sizes.cord is not None:
        written["X1"] = f"{_text(supplied.voltage)}, {sizes.cord.gauge}"
        written["X2"] = f"{sizes.cord.gauge}, one wire each"
        written["bar"] = f"{design.region.words['earth'].capitalize()} bar"
    else:
        battery = project.battery
        written["X1"] = f"{_text(supplied.voltage)}, {_text(battery.capacity)}" if battery else ""
        written["X4"] = "opens when plugged in"
        written["F4"] = f"{_text(sizes.charger_fuse)} DC"
    if sizes.wait is not None:
        written["K1"] = f"off-delay {_row(sizes.wait)}"
    if sizes.precharge is not None:
        written |= {
            "K2": f"on-delay {_row(sizes.precharge.time)}",
            "R1": f"{_text(sizes.precharge.resistor)}, {_text(sizes.precharge.power)}",
            "V1": "lets the charge through",
            "V2": "the same once more",
        }
    if power is not None:
        separated = "its knob alone separated" if supplied.live else ""
        written["T1"] = "not separated from the line" if power.live_controls is not False else separated
        written["S4"] = f"{_text(power.potentiometer)} linear"
    choke = project.controls.choke if project.controls else None
    if choke is not None:
        written["L1"] = f"{_text(choke.inductance)}, {_text(choke.current)}" if choke.current.known else _text(choke.inductance)
    if plate is not None:
        written["M1"] = f"{_text(plate.voltage)} {motor.drawn if motor else 'DC'}, {_text(plate.current)}"
    return defaultdict(str, written)


def _dc(design: Design) -> str:
    """What the motor fuse must have printed on it: the greatest voltage behind it, as DC."""
    volts = design.sizes.motor_fuse_volts if design.sizes else None
    return "marked for DC" if volts is None or not volts.known else f"at least {figures(volts, 3)} V DC"


def _row(value: Value | None) -> str:
    """By the name of its row, where a size has one."""
    return gauge_of(value) or _text(value) if value is not None else "not known"


def _text(value: Value | None) -> str:
    """As the parts list spells it: what was written, a table's own digits (halves are fractions in some row names)."""
    if value is None or not value.known:
        return "not known"
    if isinstance(value.parent, Input):
        return " ".join(signed(value.parent.text)).strip()
    if isinstance(value.parent, Row):
        cell = value.parent.cell
        column = cell.table.columns[cell.column]
        return " ".join(signed(cell.printed if column.quantity else f"{cell.printed} {column.printed_unit}")).strip()
    return spell(float(value), value.unit, inches=False)
