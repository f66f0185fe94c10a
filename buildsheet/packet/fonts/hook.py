"""Build hook of the wheel: cuts the packet's fonts, so that the repository holds no font file and the wheel all of them."""

import importlib.util
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class FontHook(BuildHookInterface):  # type: ignore[type-arg]  # the interface's parameter is the builder's configuration
    """Runs before a wheel is put together."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Cuts the fonts unless they are there, and takes them into the wheel although git ignores them."""
        del version
        here = Path(self.root) / "buildsheet" / "packet" / "fonts"
        if not (here / "files" / "fonts.conf").is_file():
            _cutter(here / "cut.py").cut_fonts(here / "files")
        build_data["artifacts"].append("buildsheet/packet/fonts/files/*")


def _cutter(path: Path) -> Any:
    """The cutting module by its file: while a wheel is built the package itself can't be imported."""
    spec = importlib.util.spec_from_file_location("cut", path)
    if spec is None or spec.loader is None:
        raise FileNotFoundError(path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
