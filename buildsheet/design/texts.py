"""The grey line under each device's name in the diagram: what it is rated, as short as it can be said."""

from collections import defaultdict

from buildsheet.design.design import Design, Sizes
from buildsheet.design.field import FieldSupply
from buildsheet.quantities import figures
from buildsheet.sizing.spelt import row_of, spelt


def device_texts(design: Design) -> dict[str, str]:
    """By device code, empty for a device that has none."""
    sizes, supplied, project = design.sizes, design.supplied, design.project
    if sizes is None or supplied is None:
        return {}
    motor = project.motor
    current = "" if supplied.alternating else " DC"
    poles = f"{supplied.poles} × " if supplied.poles > 1 else ""
    written = {
        "Q1": f"2-pole, {row_of(sizes.disconnect)}{current}",
        "F1": f"{poles}{spelt(sizes.line_fuse)}{', time-lag' if supplied.alternating else current}",
        "Q2": f"{'2' if supplied.alternating else '1'}-pole, {row_of(sizes.contactor)}{current}",
        "S1": "latching, red on yellow",
        "S2": "white, springs back",
        "S3": "black, springs back",
        "F3": f"range {row_of(sizes.overload_range)}",
        "M2": "on the drive",
        "S5": "changes over at 0",
        "S6": "pushed open by the guard",
        "S7": "under its hood",
        "F6": "opens when hot",
    }
    if sizes.cord is not None:
        written["X1"] = f"{spelt(supplied.voltage)}, {sizes.cord.gauge}"
        written["X2"] = f"{sizes.cord.gauge}, one wire each"
        written["bar"] = f"{design.region.words['earth'].capitalize()} bar"
    else:
        battery = project.battery
        written["X1"] = f"{spelt(supplied.voltage)}, {spelt(battery.capacity)}" if battery else ""
        written["X4"] = "opens when plugged in"
        written["F4"] = f"{spelt(sizes.charger_fuse)} DC"
    if sizes.wait is not None:
        written["K1"] = f"off-delay {row_of(sizes.wait)}"
    if sizes.precharge is not None:
        written |= {
            "K2": f"on-delay {row_of(sizes.precharge.time)}",
            "R1": f"{spelt(sizes.precharge.resistor)}, {spelt(sizes.precharge.power)}",
            "V1": "lets the charge through",
            "V2": "the same once more",
        }
    written |= sizes.outfit.texts
    if sizes.braking is not None:
        written["R3"] = f"{row_of(sizes.braking.resistor)}, {spelt(sizes.braking.rating)}"
    if sizes.soft_start is not None:
        written |= {
            "R5": f"{row_of(sizes.soft_start.resistor)}, {spelt(sizes.soft_start.rating)}",
            "F8": "on R5, opens when hot",
            "K4": f"on-delay {row_of(sizes.soft_start.time)}",
            "K5": "bridges R5",
        }
    if sizes.field is not None:
        written |= _field(sizes.field, sizes)
    choke = project.controls.choke if project.controls else None
    if choke is not None:
        written["L1"] = f"{spelt(choke.inductance)}, {spelt(choke.current)}" if choke.current.known else spelt(choke.inductance)
    if sizes.motor_fuse is not None:
        written["F2"] = f"{spelt(sizes.motor_fuse)}, {_dc(design)}"
    if sizes.bleeder is not None:
        written["C1"] = f"{spelt(sizes.bleeder.capacitor)}, {spelt(sizes.bleeder.volts)} AC"
        written["R2"] = f"{row_of(sizes.bleeder.resistor)}, {spelt(sizes.bleeder.power)} or more"
    rating = design.motor.rating(design.sheet) if design.motor is not None else None
    if rating is not None and motor is not None:
        written["M1"] = f"{spelt(rating.voltage)} {motor.drawn}, {spelt(rating.current)}"
    return defaultdict(str, written)


def _field(field: FieldSupply, sizes: Sizes) -> dict[str, str]:
    """What belongs to a field's own supply."""
    return {
        "T3": f"{figures(field.volts, 3)} V DC" if field.volts.known else "",
        "R4": f"{row_of(field.resistor)}, {spelt(field.rating)}" if field.resistor is not None and field.rating is not None else "",
        "K3": f"out under {figures(field.opens, 2)} A" if field.opens.known else "",
        "F7": f"{spelt(sizes.field_fuse)}, time-lag" if sizes.field_fuse is not None else "",
    }


def _dc(design: Design) -> str:
    """What the motor fuse must have printed on it: the greatest voltage behind it, as DC."""
    volts = design.sizes.motor_fuse_volts if design.sizes else None
    return "marked for DC" if volts is None or not volts.known else f"at least {figures(volts, 3)} V DC"
