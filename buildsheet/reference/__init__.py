"""Published tables and the data of regions, as files with their citation; one loader; look-ups that never guess."""

from buildsheet.reference.regions import Region, region, region_names
from buildsheet.reference.tables import Cell, Column, MissingRow, Table, table, table_ids

__all__ = ["Cell", "Column", "MissingRow", "Region", "Table", "region", "region_names", "table", "table_ids"]
