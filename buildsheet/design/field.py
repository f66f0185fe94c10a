"""The supply of a field of its own: volts of a bridge on the line, a resistor where these are too many, currents cold and warm,
the relay that watches it, and heat that is there as long as the disconnect is on.
"""

from dataclasses import dataclass

from buildsheet.formulas import cooling, protection
from buildsheet.formulas import shunt as s
from buildsheet.formulas.choke import resistance_in_a_row
from buildsheet.formulas.motor import copper_loss
from buildsheet.motors.motor import Machine, SeparateField
from buildsheet.project import Project
from buildsheet.reference import Region, table
from buildsheet.sizing.supply import Supplied
from buildsheet.worksheet import Value, Worksheet

SMALL = "resistors_e6_low"  # power resistors of few ohms


@dataclass(frozen=True, slots=True)
class FieldSupply:
    """A field's supply sized. `volts` of the bridge on the nominal line; `resistor` and its `rating`, None without one; currents
    at work, at the most (cold, line high) and at the least (warm, line low); `share` of the full field at work, `lowest` at the
    least; below `opens` the relay has fallen out, which is the share `watched`; `asked` is the least current that the relay is
    sure of; heat of winding and of the parts in the box while it is warm, and of the winding at the most."""

    field: SeparateField
    volts: Value
    resistor: Value | None
    rating: Value | None
    current: Value
    most: Value
    least: Value
    share: Value
    lowest: Value
    watched: Value
    opens: Value
    asked: Value
    heat: Value
    heat_most: Value
    box_heat: Value


def work_field(project: Project, region: Region, sheet: Worksheet, supplied: Supplied, motor: Machine) -> FieldSupply | None:
    """The supply of the motor's field where it has one of its own and the way leaves room for it; None else. The motor is
    told what field it then has."""
    field = motor.separate_field
    if field is None or project.power is None or not project.power.feeds_apart or not supplied.alternating:
        return None
    drop = sheet.assume("T3.U_d", "bridge drop")
    low_line = sheet.work("supply.V_min", protection.lowest_voltage, "line voltage at the bottom of its tolerance", V=supplied.voltage,
                          p=sheet.pick("T3.p", region.tables["rules"], "value", "line tolerance", key="line tolerance"))  # fmt: skip
    volts, high, low = (
        sheet.work(f"T3.V{end}", protection.full_bridge_average, f"volts of the field's bridge{words}", V=line, U_d=drop)
        for end, words, line in (("", "", supplied.voltage), ("_high", ", line high", supplied.highest), ("_low", ", line low", low_line))
    )
    resistor = _resistor(sheet, field, volts)
    warm, cold = field.warm, field.cold
    if resistor is not None:
        warm = sheet.work("field.R_hot", resistance_in_a_row, "warm field with its resistor", R_1=field.warm, R_2=resistor)
        cold = sheet.work("field.R", resistance_in_a_row, "cold field with its resistor", R_1=field.cold, R_2=resistor)
    current = sheet.work("field.I", s.field_current, "field current, warm", V_f=volts, R_f=warm)
    most = sheet.work("field.I_high", s.field_current, "field current, cold, line high", V_f=high, R_f=cold)
    least = sheet.work("field.I_low", s.field_current, "field current, warm, line low", V_f=low, R_f=warm)
    share = sheet.work("field.p", s.field_share, "field at work, of the whole", I_f=current, I_n=field.current)
    lowest = sheet.work("field.p_low", s.field_share, "field on a low line, of the whole", I_f=least, I_n=field.current)
    watched = sheet.pick("K3.p", "bench_limits", "value", "share of the field below which its relay has fallen out", key="field relay opens")
    opens = sheet.work("K3.I", s.current_of_share, "current below which the field relay has fallen out", I_n=field.current, p=watched)
    margin = sheet.pick("K3.k", "bench_limits", "value", "least field current over that", key="field relay margin")
    asked = sheet.work("K3.I_need", s.current_with_margin, "field current that the relay needs at the least", I=opens, k=margin)
    heat = sheet.work("heat.P_f", copper_loss, "heat of the field, always on", I_rms=current, R=field.warm)
    heat_most = sheet.work("heat.P_f_high", copper_loss, "heat of the field at first, cold, line high", I_rms=most, R=field.cold)
    rating = None
    box_heat = sheet.work("heat.P_T3", cooling.bridge_loss, "heat of the field's bridge", U_d=drop, I=current)
    if resistor is not None:
        lost = sheet.work("R4.P", copper_loss, "heat of the field's resistor", I_rms=current, R=resistor)
        worst = sheet.work("R4.P_high", copper_loss, "heat of the field's resistor at the most", I_rms=most, R=resistor)
        spare = sheet.pick("R4.k", "bench_limits", "value", "rating over heat", key="field resistor spare")
        rating = sheet.work("R4.P_n", s.rating_with_spare, "rating of the field's resistor, at the least", P=worst, k=spare)
        box_heat = sheet.work("heat.P_field", cooling.total_heat, "heat of the field's bridge and resistor", P_1=box_heat, P_2=lost)
    motor.excited(sheet, share, watched)
    return FieldSupply(field, volts, resistor, rating, current, most, least, share, lowest, watched, opens, asked, heat, heat_most, box_heat)


def _resistor(sheet: Worksheet, field: SeparateField, volts: Value) -> Value | None:
    """The resistor in a row with the field, where the bridge gives more than the field stands; the next larger one, so that it
    never gets more than its full current warm."""
    times = sheet.pick("T3.k", "bench_limits", "value", "volts that a field stands over its plate's", key="field over plate")
    stands = sheet.work("T3.V_most", s.volts_that_a_field_stands, "volts that the field stands", V_f=field.volts, k=times)
    if volts.known and stands.known and not volts > stands:
        return None
    need = sheet.work("R4.R_need", s.field_series_resistor, "resistor in a row with the field, at the least", V_f=volts, I_f=field.current, R_f=field.warm)
    small = table(SMALL)
    reaches = need.known and float(need) <= small.cell(list(small.rows)[-1], "resistance").si
    return sheet.pick("R4.R", SMALL if reaches else "resistors_e12", "resistance", "resistor in a row with the field", at_least=need)
