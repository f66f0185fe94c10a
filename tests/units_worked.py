"""Writes buildsheet/units_worked.json: what pint says of the usual unit texts. `python tests/units_worked.py`."""

import json
from pathlib import Path

from buildsheet import quantities
from buildsheet.given import fields
from buildsheet.given.fields import Reads
from buildsheet.quantities import QuantityError
from buildsheet.reference import table, table_ids
from buildsheet.units import UNITS

ROOT = Path(__file__).resolve().parents[1]
FILE = ROOT / "buildsheet/units_worked.json"


def usual() -> list[str]:
    """Unit texts that the print uses, that tables are printed in, that messages and examples show."""
    texts = {name for unit in UNITS for name in (*unit.steps, *unit.inch)} | set(quantities._known_units())
    texts |= {quantities.split(unit.example)[1] for unit in UNITS}
    texts |= {quantities.split(bound)[1] for reads in _fields() for bound in (reads.low, reads.high)}
    texts |= {"mohm", "Mohm", "uF", "mW", "cm", "degF", "m^2", "mm^2", "mm2", "kg·m²", "N*m", "lb", "g", "kg", "rev/min", "V/krpm", "Ah", "PS"}
    for name in table_ids():
        for column in table(name).columns.values():
            texts.add(column.printed_unit)
        for cells in table(name).rows.values():
            texts |= {quantities.split(cells[c.name])[1] for c in table(name).columns.values() if c.quantity and cells[c.name] != "-"}
    return sorted(texts - {""})


def _fields() -> list[Reads]:
    """Every kind of field that a project file has."""
    return [part for value in vars(fields).values() for part in getattr(value, "__metadata__", ()) if isinstance(part, Reads)]


def by_pint() -> dict[str, dict[str, list[object]]]:
    """Kinds of each text, and its scale to the coherent unit of each of them."""
    kinds: dict[str, list[object]] = {}
    scales: dict[str, list[object]] = {}
    for text in usual():
        try:
            found = quantities._kinds_by_pint(text)
        except QuantityError:
            continue
        kinds[text] = [unit.kind for unit in found]
        for unit in found:
            scales[f"{text} -> {unit.si}"] = list(quantities._scale_by_pint(text, unit.si))
    return {"kinds": kinds, "scales": scales}


if __name__ == "__main__":
    if not FILE.is_file():
        FILE.write_text('{"kinds": {}, "scales": {}}\n', encoding="utf-8")
    FILE.write_text(json.dumps(by_pint(), ensure_ascii=False, indent=1, sort_keys=True) + "\n", encoding="utf-8")
