"""Writes the golden files anew, one for each demo: `python tests/golden.py`. Read the diff before you commit it."""

import json
from pathlib import Path

from buildsheet.packet.words import check_json
from buildsheet.plan import plan
from buildsheet.project import load

ROOT = Path(__file__).resolve().parents[1]

if __name__ == "__main__":
    for project in sorted(ROOT.glob("projects/*/*.yaml")):
        made = check_json(plan(load(project)), project.name)
        path = ROOT / "tests/golden" / f"{project.stem}.json"
        path.parent.mkdir(exist_ok=True)
        path.write_text(json.dumps(made, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
