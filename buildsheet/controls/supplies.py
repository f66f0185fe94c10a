"""What an outlet and a battery say of themselves to everything behind them."""

from buildsheet.formulas import battery as b
from buildsheet.formulas import protection as p
from buildsheet.given.battery import Battery
from buildsheet.given.site import Supply
from buildsheet.reference import Region
from buildsheet.sizing.supply import Supplied
from buildsheet.units import VOLT
from buildsheet.worksheet import Value, Worksheet, unknown


def from_outlet(supply: Supply, region: Region, sheet: Worksheet) -> Supplied:
    """An outlet on the line: its voltage within the line's tolerance, its breaker, its fault current."""
    tolerance = sheet.pick(
        "rule.p", region.tables["rules"], "value", "line tolerance", key="line tolerance"
    )
    voltage = sheet.take(supply.voltage)
    highest = sheet.work(
        "supply.V_max", p.highest_voltage, "line voltage at the top of its tolerance", V=voltage, p=tolerance
    )
    two_hot = supply.poles == "two-hot"
    swaps = not region.plug_polarised
    return Supplied(
        word="outlet",
        voltage=voltage,
        highest=highest,
        lowest=voltage,
        fault=sheet.known_or_assumed(supply.fault_current, "fault current"),
        frequency=sheet.take(supply.frequency),
        guard=supply.breaker,
        poles=2 if two_hot or swaps else 1,
        pole_may_swap=swaps,
        two_hot=two_hot,
    )


def from_battery(battery: Battery, sheet: Worksheet) -> Supplied:
    """A battery: highest on the charger, lowest at the cut-off of its cells, its own resistance behind a short."""
    voltage = sheet.take(battery.voltage)
    highest = _of_cells(battery, sheet, "full", "battery.V_max", "battery voltage at the end of charging")
    lowest = _of_cells(battery, sheet, "empty", "battery.V_min", "battery voltage at its cut-off")
    resistance = sheet.known_or_assumed(battery.resistance, "battery resistance")
    fault = sheet.work(
        "battery.I_fault", b.battery_fault_current, "battery into a dead short", V=highest, R_i=resistance
    )
    return Supplied(
        word="battery",
        voltage=voltage,
        highest=highest,
        lowest=lowest,
        fault=fault,
        live=False,
        earthed=False,
    )


def _of_cells(battery: Battery, sheet: Worksheet, column: str, id: str, label: str) -> Value:
    if battery.kind is None:
        return unknown(id, VOLT, "the kind of battery is not in the file", label)
    nominal = sheet.pick(f"{id}_c", "batteries", "nominal", "nominal voltage of a cell", key=battery.kind)
    cell = sheet.pick(f"{id}_x", "batteries", column, f"voltage of a cell, {label.partition(' at ')[2]}", key=battery.kind)
    return sheet.work(id, b.voltage_of_cells, label, V=battery.voltage, V_c=nominal, V_x=cell)
