"""`python -m buildsheet.packet.fonts` cuts the typeface into the checkout."""

from buildsheet.packet.fonts import FILES
from buildsheet.packet.fonts.cut import cut_fonts

cut_fonts(FILES)
