"""The packet's files: whole or not at all; what a stop withholds is not written, and stale files go."""

import csv
import io
import os
import tempfile
from collections.abc import Callable, Collection, Mapping
from pathlib import Path

from buildsheet.circuit.proofs import protected_by
from buildsheet.given.problems import BuildsheetError
from buildsheet.packet.html import html
from buildsheet.packet.pdf import write_pdf
from buildsheet.packet.views import cover
from buildsheet.packet.views.parts import buying
from buildsheet.packet.words import ink_of, say
from buildsheet.plan import Plan

SUFFIXES = (".pdf", ".html", "-parts.csv", "-wires.csv")


def write_packet(plan: Plan, file: Path, folder: Path, progress: Callable[[str], None]) -> tuple[Path, ...]:
    """Writes what the plan allows into `folder`; the PDF is the last path. Raises BuildsheetError when it can't."""
    name = file.stem
    progress("sheets")
    page = html(plan)
    files: dict[str, bytes] = {f"{name}.html": page.encode()}
    if not plan.stopped and plan.circuit is not None:
        files[f"{name}-parts.csv"] = parts_csv(plan).encode()
        files[f"{name}-wires.csv"] = wires_csv(plan).encode()
    progress("print")
    machine = plan.project.machine
    title = f"{machine.name if machine else 'Motor alone'}, build packet"
    author = machine.drawn_by if machine and machine.drawn_by else "unnamed builder"
    files[f"{name}.pdf"] = write_pdf(
        page,
        title=title,
        author=author,
        subject=machine.purpose if machine else "",
        created=cover.date(plan) or None,
    )
    return put(folder, files, stale=tuple(f"{name}{suffix}" for suffix in SUFFIXES if f"{name}{suffix}" not in files))


def put(folder: Path, files: Mapping[str, bytes], stale: Collection[str] = ()) -> tuple[Path, ...]:
    """Writes files into a folder, each whole or not at all, and removes those that are stale; the paths in order.

    Raises BuildsheetError with what the system said."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for file_name in stale:
            (folder / file_name).unlink(missing_ok=True)
        for file_name, data in files.items():
            _write_whole(folder / file_name, data)
    except OSError as error:
        raise BuildsheetError(f"{error.filename or folder}: {error.strerror}") from None
    return tuple(folder / file_name for file_name in files)


def _write_whole(path: Path, data: bytes) -> None:
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
        Path(temporary).chmod(0o644)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def parts_csv(plan: Plan) -> str:
    """The parts with their needs, what is there and what to buy."""
    ink = ink_of(plan)
    rows = [["code", "place", "verdict", "on hand", "buy", "what else will do"]]
    wanted = buying(plan)
    for seat in plan.design.seats:
        part = seat.part.kind if seat.part else ""
        rows.append(
            [
                seat.place.code,
                seat.place.label,
                seat.verdict,
                part,
                say(seat, ink) if seat in wanted else "",
                seat.place.or_else,
            ]
        )
    return _csv(rows)


def wires_csv(plan: Plan) -> str:
    """The wire list, lengths in millimetres."""
    if plan.circuit is None:
        return ""
    guards = protected_by(plan.circuit)
    rows = [["number", "from", "to", "role", "size", "colour", "length mm", "cable", "protected by"]]
    for wire in plan.circuit.wires:
        guard = guards.get(wire.number, ("", 0.0))[0]
        rows.append(
            [
                str(wire.number),
                str(wire.a),
                str(wire.b),
                wire.role,
                wire.size,
                wire.colour,
                str(round(wire.length * 1000)),
                wire.cable,
                guard,
            ]
        )
    return _csv(rows)


def _csv(rows: list[list[str]]) -> str:
    """Rows as CSV. A cell that a spreadsheet would run as a formula gets an apostrophe in front."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerows(
        [[f"'{cell}" if cell[:1] in "=+-@\t\r" and cell else cell for cell in row] for row in rows]
    )
    return stream.getvalue()
