"""Sizes of conductors: their cross-section, and how wide their line is drawn."""

import math
import re

THIN = 0.6
WIDTHS = ((1.5e-6, 0.95), (2.5e-6, 1.35), (4.0e-6, 1.75))  # from so many m2 on, the line is so many mm wide
# 16 AWG is 1.3 mm2, 14 AWG 2.1, 12 AWG 3.3, 10 AWG 5.3: neighbours in either row of power sizes look different up to there.


def conductor_area(size: str) -> float:
    """Cross-section in m2 of a size such as '14 AWG' or '1.5 mm²'. Raises ValueError.

    The gauge's formula is that of ASTM B258: diameter 0.127 mm times 92^((36 - n) / 39).
    """
    gauge = re.fullmatch(r"(\d+)(/0)? ?AWG", size.strip())
    if gauge:
        n = 1 - int(gauge[1]) if gauge[2] else int(gauge[1])
        diameter: float = 0.127e-3 * 92.0 ** ((36 - n) / 39)
        return 0.25 * math.pi * diameter * diameter
    metric = re.fullmatch(r"([\d.]+) ?(?:mm²|mm2|mm\^2)", size.strip())
    if metric:
        return float(metric[1]) * 1e-6
    raise ValueError(f"not a conductor size: {size!r}")


def line_width(size: str) -> float:
    """Width of a wire's line, mm."""
    area = conductor_area(size) * (1 + 1e-9)  # a size on a limit counts to the wider line
    return max((width for least, width in WIDTHS if area >= least), default=THIN)
