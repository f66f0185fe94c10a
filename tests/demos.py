"""The demonstration machines: every folder of `projects` with a file of its own name that is meant for building."""

from pathlib import Path

PROJECTS = Path(__file__).resolve().parents[1] / "projects"
NOT_FOR_BUILDING = {  # and why
    "first-evening": "a motor and nothing else",
    "textbook-motor": "a motor of a worked example",
    "leaf-turner": "a draft on purpose",
    "long-form": "motors and ways of powering alone, and whole files in long form",
}
DEMOS = tuple(sorted(folder.name for folder in PROJECTS.iterdir() if folder.is_dir() and folder.name not in NOT_FOR_BUILDING))
