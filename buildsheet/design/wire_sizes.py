"""Sizes of conductors: the cord behind the wall breaker, and the wires behind each fuse."""

from collections.abc import Callable
from dataclasses import dataclass

from buildsheet.design.design import WireSize
from buildsheet.design.heat import ambient_air
from buildsheet.formulas import choice, conductors
from buildsheet.project import Project
from buildsheet.reference import Region
from buildsheet.units import OHM_PER_METRE, WIRE_AREA
from buildsheet.worksheet import Row, Value, Worksheet, unknown


def cord_size(project: Project, region: Region, sheet: Worksheet, breaker: Value) -> WireSize:
    """The cord, which the wall breaker alone protects."""
    table_id = region.tables["cord"]
    ambient = ambient_air(project, sheet)
    factor = _factor(
        sheet, "cord.k_T", region.tables["cord-ambient"], ambient, "correction for the air around the cord"
    )
    bundle = sheet.pick(
        "cord.k_n",
        region.tables["bundle"],
        "factor",
        "correction for conductors together: two carry current",
        key="1 to 3",
    )
    need = sheet.work(
        "cord.I_t",
        conductors.least_table_ampacity,
        "ampacity that the cord table must give",
        I_p=breaker,
        k_T=factor,
        k_n=bundle,
    )
    table = sheet.pick("cord.I_z", table_id, "two", "ampacity of the cord in the table", at_least=need)
    gauge = gauge_of(table)
    place = sheet.work(
        "cord.I_p",
        conductors.ampacity_in_place,
        "ampacity of the cord where it lies",
        I_t=table,
        k_T=factor,
        k_n=bundle,
    )
    return _size("cord", gauge, table, place, breaker, need, sheet, region)


def _factor(sheet: Worksheet, id: str, table_id: str, temperature: Value, label: str) -> Value:
    return sheet.pick(id, table_id, "factor", label, where="up_to", at_least=temperature)


@dataclass(frozen=True, slots=True)
class Guarded:
    """A fuse and what the conductors behind it must carry; `area` is None when no size in the tables does."""

    rating: Value
    factor: Value
    bundle: Value
    need: Value
    area: Value | None


def wire_size(region: Region, sheet: Worksheet, role: str, guard: Guarded) -> WireSize:
    """Wires of one role: the smallest gauge that carries the rating of its fuse, and is no smaller than its role allows."""
    wire = region.tables["wire"]
    if guard.area is None:
        return _size(role, "", guard.need, guard.need, guard.rating, guard.need, sheet, region)
    least = sheet.pick(
        f"{role}.A_least",
        region.tables["least-wire"],
        "area",
        f"smallest cross-section for {role} wires",
        key=role,
    )
    wanted = sheet.work(
        f"{role}.A_min",
        choice.larger_of,
        f"cross-section of the {role} wires, at least",
        a=guard.area,
        b=least,
    )
    chosen = gauge_of(
        sheet.pick(
            f"{role}.A_n", wire, "area", f"standard cross-section of the {role} wires", at_least=wanted
        )
    )
    table = sheet.pick(
        f"{role}.I_z",
        region.tables["ampacity"],
        "ampacity",
        f"ampacity of the {role} wires in the table",
        key=chosen,
    )
    hot = sheet.work(f"{role}.I_hot", conductors.ampacity_in_place, f"ampacity of the {role} wires where they lie, by heat",
                     I_t=table, k_T=guard.factor, k_n=guard.bundle)  # fmt: skip
    terminals = sheet.pick(
        f"{role}.I_60",
        region.tables["terminals"],
        "ampacity",
        f"what {region.words['terminals']} allow, {role} wires",
        key=chosen,
    )
    place = sheet.work(
        f"{role}.I_p", choice.smaller_of, f"ampacity of the {role} wires where they lie", a=hot, b=terminals
    )
    return _size(role, chosen, table, place, guard.rating, guard.need, sheet, region)


def guarded(region: Region, sheet: Worksheet, code: str, rating: Value, inside: Value) -> Guarded:
    """What conductors behind a fuse need: by heat where they lie, and by the temperature of their terminals."""
    factor = _factor(
        sheet,
        f"{code}.k_T",
        region.tables["ambient"],
        inside,
        f"correction for the air in the box, wires behind {code}",
    )
    bundle = sheet.pick(
        f"{code}.k_n",
        region.tables["bundle"],
        "factor",
        f"correction for conductors together, behind {code}",
        key="1 to 3",
    )
    share = once(
        sheet,
        "rule.k_g",
        lambda: sheet.pick(
            "rule.k_g", region.tables["rules"], "value", "what a wire carries over its fuse", key="fuse guard"
        ),
    )
    carries = sheet.work(
        f"{code}.I_g",
        conductors.guarded_current,
        f"current that wires behind {code} must carry",
        I_n=rating,
        k=share,
    )
    need = sheet.work(
        f"{code}.I_t",
        conductors.least_table_ampacity,
        f"ampacity that the table must give, wires behind {code}",
        I_p=carries,
        k_T=factor,
        k_n=bundle,
    )
    by_heat = sheet.pick(
        f"{code}.I_heat",
        region.tables["ampacity"],
        "ampacity",
        f"size by heat, wires behind {code}",
        at_least=need,
    )
    by_terminals = sheet.pick(
        f"{code}.I_term",
        region.tables["terminals"],
        "ampacity",
        f"size by terminals, wires behind {code}",
        at_least=rating,
    )
    if not (by_heat.known and by_terminals.known):
        return Guarded(rating, factor, bundle, by_terminals if by_heat.known else by_heat, None)
    wire = region.tables["wire"]
    a, b = (sheet.pick(f"{code}.A_{how}", wire, "area", f"cross-section by {how}, wires behind {code}", key=gauge_of(found))
            for how, found in (("heat", by_heat), ("terminals", by_terminals)))  # fmt: skip
    return Guarded(
        rating,
        factor,
        bundle,
        need,
        sheet.work(
            f"{code}.A", choice.larger_of, f"cross-section of wires behind {code}, at least", a=a, b=b
        ),
    )


def once(sheet: Worksheet, id: str, make: Callable[[], Value]) -> Value:
    """A value that several sizes rest on, worked at the first of them."""
    return sheet.values[id] if id in sheet.values else make()


def gauge_of(value: Value) -> str:
    """The row key of a looked-up value: the gauge or size that it belongs to; empty when it is not known."""
    return value.parent.cell.row if isinstance(value.parent, Row) else ""


def _size(
    role: str,
    gauge: str,
    table: Value,
    place: Value,
    guard: Value,
    need: Value,
    sheet: Worksheet,
    region: Region,
) -> WireSize:
    wire = region.tables["wire"]
    if not gauge:
        why = table.why or "no size"
        nothing = unknown(f"{role}.A", WIRE_AREA, why, f"cross-section of the {role} wires")
        return WireSize(
            role, "", table, place, nothing, unknown(f"{role}.r", OHM_PER_METRE, why), guard, need
        )
    area = sheet.pick(f"{role}.A", wire, "area", f"cross-section of the {role} wires", key=gauge)
    cold = sheet.pick(
        f"{role}.r_t", wire, "resistance", f"resistance of the {role} wires in the table", key=gauge
    )
    warm = once(
        sheet,
        "rule.k_w",
        lambda: sheet.pick(
            "rule.k_w", region.tables["rules"], "value", "warm copper over the table's", key="warm copper"
        ),
    )
    resistance = sheet.work(
        f"{role}.r", conductors.warm_resistance, f"resistance of the {role} wires, warm", r=cold, k=warm
    )
    return WireSize(role, gauge, table, place, area, resistance, guard, need)
