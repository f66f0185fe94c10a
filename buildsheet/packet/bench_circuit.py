"""The circuit of a bench test: battery, fuse, lamp, meter and what is tested, in one ring."""

from collections.abc import Sequence
from functools import cache

from markupsafe import Markup

from buildsheet.packet.figures import INK, line, num, ring, svg, text
from buildsheet.packet.marks import symbol_parts

WIDTH, HEIGHT = 139.0, 13.4
MIDDLE, RADIUS = 4.3, 3.8


@cache
def _drawn(name: str, x: float) -> str:
    across, down, body = symbol_parts(name)
    scale = 5.0 / max(across, down)
    shift = f"translate({num(x - across * scale / 2)} {num(MIDDLE - down * scale / 2)}) scale({scale:.6f})"
    return ring(x, MIDDLE, RADIUS, 0.5) + f'<g transform="{shift}">{body}</g>'


def drawing(parts: Sequence[tuple[str, str]]) -> Markup:
    """Parts in a ring, each as (symbol, words under it). The first is the battery, its plus towards the second."""
    first, last, foot = 14.0, WIDTH - 18.0, HEIGHT - 0.4
    pitch = (last - first) / (len(parts) - 1)
    out, back = last + 14, first - 10
    body = line(back, MIDDLE, out, MIDDLE, 0.5)
    body += f'<path d="M{num(out)} {num(MIDDLE)}V{num(foot)}H{num(back)}V{num(MIDDLE)}" fill="none" stroke="{INK}" stroke-width="0.5"/>'
    for i, (name, words) in enumerate(parts):
        x = first + i * pitch
        body += _drawn(name, x) + text(x, MIDDLE + RADIUS + 3.1, words, 7.5, "regular", "middle")
    body += text(first + RADIUS + 1.2, MIDDLE - 0.9, "+", 9, "bold")
    return svg(WIDTH, HEIGHT, "Test circuit: " + ", ".join(words for _, words in parts) + ", in a ring", body, "bench")
