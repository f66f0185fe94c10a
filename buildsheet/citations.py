"""Where a formula or a table comes from. A floor below both, so that neither has to import the other."""

from dataclasses import dataclass
from typing import Literal

ReadFrom = Literal["original", "scan", "secondary copy", "memory", "practice", "derivation", "own design"]


@dataclass(frozen=True, slots=True)
class Citation:
    """A published work, or the honest statement that there is none.

    `work`, `edition` and `at` (clause, table or page) name the place; `read_from` says what was really read.
    """

    work: str
    at: str = ""
    edition: str = ""
    read_from: ReadFrom = "secondary copy"

    def __str__(self) -> str:
        place = ", ".join(part for part in (self.work, self.edition, self.at) if part)
        honest = {
            "memory": " (from memory)",
            "practice": " (common practice, no source)",
            "derivation": "",
            "own design": "",
        }
        return place + honest.get(self.read_from, "")


def memory(work: str, at: str = "", edition: str = "") -> Citation:
    """A work that was not read again for this program: its values are from memory, and print so."""
    return Citation(work, at, edition, "memory")


def practice(what: str) -> Citation:
    """A habit of the trade without a published source."""
    return Citation(what, read_from="practice")


def derivation(what: str) -> Citation:
    """Follows from definitions or from physics that any textbook has; `what` says from which."""
    return Citation(what, read_from="derivation")
