"""A region is data: supply, colours, terms, spelling, paper and which tables hold. Files, not branches."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, eq=False, slots=True)
class Region:
    """What differs between regions.

    `tables` maps a role ("wire", "cord ampacity", …) to a table id, `colours` a conductor's function to its IEC 60757
    colour codes with the preferred one first, `words` a neutral term to the region's word.
    """

    id: str
    title: str
    paper: str
    inches: bool
    symbols: str
    plug_polarised: bool
    tables: Mapping[str, str]
    colours: Mapping[str, tuple[str, ...]]
    reserved_colours: Mapping[str, tuple[str, ...]]
    words: Mapping[str, str]
    codes: Mapping[str, str]


def region_names() -> tuple[str, ...]:
    """Names of all regions, sorted."""
    folder = files("buildsheet.reference") / "regions"
    return tuple(
        sorted(path.name.removesuffix(".toml") for path in folder.iterdir() if path.name.endswith(".toml"))
    )


@cache
def region(name: str) -> Region:
    """The region with this name. Raises LookupError."""
    if name not in region_names():
        raise LookupError(f'no region "{name}"; there are {", ".join(region_names())}')
    path = files("buildsheet.reference") / "regions" / f"{name}.toml"
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    return Region(
        id=name,
        title=raw["title"],
        paper=raw["paper"],
        inches=raw["inches"],
        symbols=raw["symbols"],
        plug_polarised=raw["plug_polarised"],
        tables=raw["tables"],
        colours={role: tuple(codes) for role, codes in raw["colours"].items()},
        reserved_colours={role: tuple(codes) for role, codes in raw["reserved_colours"].items()},
        words=raw["words"],
        codes=raw["codes"],
    )
