"""Values that know where they come from, the lines that worked them out, and their equations as printed."""

from buildsheet.worksheet.sheet import Line, Model, Worksheet
from buildsheet.worksheet.value import Absent, Input, Row, UnknownValueError, Value, unknown

__all__ = ["Absent", "Input", "Line", "Model", "Row", "UnknownValueError", "Value", "Worksheet", "unknown"]
