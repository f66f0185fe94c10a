"""The command line: parse, call one function, print. Heavy libraries are imported inside the commands."""

import gc
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from buildsheet.project import Project

EXIT_STOP, EXIT_UNREADABLE = 1, 2


class _Commands(click.Group):
    """Turns every error of the program into a message and exit code 2: never a traceback."""

    def invoke(self, ctx: click.Context) -> Any:
        from buildsheet.given.problems import BuildsheetError

        try:
            return super().invoke(ctx)
        except BuildsheetError as error:
            click.echo(str(error), err=True)
            ctx.exit(EXIT_UNREADABLE)
        except BrokenPipeError:
            sys.stderr.close()
            ctx.exit(0)


def _load(file: Path) -> "Project":
    """A project; characters that the packet's type has no sign for are refused with their place."""
    from buildsheet.packet.fonts import characters
    from buildsheet.project import load

    return load(file, characters())


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="buildsheet")
def main() -> None:
    """Turns one project file into a build packet for a machine made around a salvaged motor."""
    gc.set_threshold(200_000)  # a command lives for a second: collecting while it imports only costs time


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--all", "everything", is_flag=True, help="Everything, however long.")
@click.option("--json", "as_json", is_flag=True, help="For programs.")
def check(file: Path, *, everything: bool, as_json: bool) -> None:
    """Say what state a project is in, what is wrong, what to take and what to find out."""
    from buildsheet.packet.words import check_json, check_text
    from buildsheet.plan import plan

    made = plan(_load(file))
    if as_json:
        click.echo(json.dumps(check_json(made, file.name), ensure_ascii=False, indent=1, allow_nan=False))
    else:
        click.echo(check_text(made, everything=everything))
    sys.exit(EXIT_STOP if made.stopped else 0)


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for the files; `packet` beside the project file when left out.",
)
def packet(file: Path, out: Path | None) -> None:
    """Write the build packet: NAME.pdf, NAME.html, NAME-parts.csv, NAME-wires.csv."""
    from buildsheet.packet.files import write_packet
    from buildsheet.plan import plan

    made = plan(_load(file))
    progress = (
        (lambda text: click.echo(f"  {text}", err=True)) if sys.stderr.isatty() else (lambda _text: None)
    )
    written = write_packet(made, file, out or file.parent / "packet", progress)
    if made.stopped:
        click.echo(
            f"{file.name} has a stop: what it withholds is not written. `buildsheet check {file}` says why.",
            err=True,
        )
    for path in written:
        click.echo(str(path))
    sys.exit(EXIT_STOP if made.stopped else 0)


@main.command()
@click.argument("what", default="")
@click.argument("kind", default="")
@click.option("--region", default="north-america", show_default=True, metavar="NAME", help="Which paper and words.")
@click.option("--out", type=click.Path(path_type=Path), default=Path("measure"), show_default=True, help="Folder for the files.")
def measure(what: str, kind: str, *, region: str, out: Path) -> None:
    """Write a measuring sheet, one page to fill in at the bench: motor KIND, donor, board, transformer, capacitor, switch;
    without a word, the one that asks what a motor is."""
    from buildsheet.packet.measure import find, region_of, write

    sheet = find(what, kind)
    for path in write(sheet, region_of(region), out):
        click.echo(str(path))


@main.command(name="formula")
@click.argument("name", required=False)
@click.argument("quantities", nargs=-1)
@click.option("--json", "as_json", is_flag=True, help="For programs.")
def formula_command(name: str | None, quantities: tuple[str, ...], *, as_json: bool) -> None:
    """List the formulas, find one by a plain word, or work one: formula belt_ratio d_1="40 mm" d_2="160 mm"."""
    from buildsheet.cli.lookup import formula_report

    click.echo(formula_report(name, quantities, as_json=as_json))


@main.command(name="table")
@click.argument("name", required=False)
@click.argument("row", required=False)
@click.option("--json", "as_json", is_flag=True, help="For programs.")
def table_command(name: str | None, row: str | None, *, as_json: bool) -> None:
    """List the published tables, or print one, or one row."""
    from buildsheet.cli.lookup import table_report

    click.echo(table_report(name, row, as_json=as_json))


@main.command()
def schema() -> None:
    """Print the JSON Schema of a project file, for editors."""
    from buildsheet.project import json_schema

    click.echo(json.dumps(json_schema(), ensure_ascii=False, indent=1))


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--region",
    default="",
    show_default="north-america",
    metavar="NAME",
    help="Which rules, tables, colours and words hold.",
)
@click.option("--motor", is_flag=True, help="A line for everything that can be said of the motor.")
@click.option("--way", default="", metavar="NAME", help="The same for this way of powering; a wrong name lists them.")
@click.option("--machine", is_flag=True, help="The same for the machine.")
@click.option(
    "--from",
    "other",
    type=click.Path(path_type=Path),
    help="A copy of this file instead, in long form, with what each key is.",
)
def start(file: Path, *, region: str, motor: bool, way: str, machine: bool, other: Path | None) -> None:
    """Begin a project file: commented lines to fill in, and the schema that editors complete from."""
    from buildsheet.cli.start import SCHEMA_FILE, copied, started
    from buildsheet.given.problems import BuildsheetError
    from buildsheet.project import json_schema

    if other is None:
        blocks = tuple(name for name, wanted in (("motor", motor), ("machine", machine)) if wanted)
        text = started(region=region or "north-america", blocks=blocks, way=way)
    elif region or motor or way or machine:
        raise BuildsheetError("--from copies a file: leave the other options out")
    else:
        text = copied(_load(other))
    try:
        with file.open("x", encoding="utf-8") as stream:
            stream.write(text)
        (file.parent / SCHEMA_FILE).write_text(
            json.dumps(json_schema(), ensure_ascii=False, indent=1) + "\n", encoding="utf-8"
        )
    except OSError as error:
        raise BuildsheetError(f"{file}: {error.strerror}") from None
    click.echo(str(file))
