"""The matrix of what may stand behind what as DEVELOPERS.md prints it: `python tests/matrix.py` writes it anew."""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))
PAGE, HEAD = ROOT / "DEVELOPERS.md", "## What may stand behind what\n"


def printed() -> str:
    """One row for each thing: what may stand behind it, and what never."""
    from buildsheet.reference import table

    legal: dict[str, list[str]] = {}
    never: dict[str, list[str]] = {}
    for pair, row in table("combinations").rows.items():
        first, _, second = pair.partition(" > ")
        legal.setdefault(first, [])
        never.setdefault(first, [])
        (never if row["verdict"] == "stop" else legal)[first].append(second)
    lines = [f"| {first} | {', '.join(legal[first]) or '–'} | {', '.join(never[first]) or '–'} |" for first in legal]
    intro = "Printed from `combinations.toml` by `python tests/matrix.py`; a test compares. A pair in neither column is not known, and a stop. Reasons and what to do instead: `buildsheet table combinations`.\n"
    return "\n".join([HEAD, intro, "| behind this | may stand, on its condition | never |", "|---|---|---|", *lines, ""])


def page(text: str) -> str:
    """The page with its section replaced."""
    before, _, rest = text.partition(HEAD)
    _, mark, after = rest.partition("\n## ")
    return before + printed() + (mark + after if mark else "")


if __name__ == "__main__":
    PAGE.write_text(page(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
