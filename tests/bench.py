"""Milliseconds and ratios, measured side by side in one run: `make bench`."""

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from time import perf_counter, process_time

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))
SANDER = ROOT / "projects/strip-sander/strip-sander.yaml"
# `import pydantic` alone loads nothing (it is lazy): the least that a user of it imports is BaseModel.
BARE = "from pydantic import BaseModel; import pint, yaml"
KEEPING = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"} | {
    "PYTHONPYCACHEPREFIX": str(Path(tempfile.gettempdir()) / "buildsheet-bench-compiled")
}
ENGINE = """
import os, sys
from buildsheet.packet.fonts import fontconfig_file
os.environ["FONTCONFIG_FILE"] = str(fontconfig_file())
import weasyprint
weasyprint.HTML(sys.argv[1]).write_pdf(sys.argv[2], pdf_variant="pdf/ua-1")
"""


def best(command: list[str], runs: int) -> float:
    """Shortest wall time of a command, ms, with compiled code kept between runs as on a user's machine, wherever this runs."""
    times = []
    for _ in range(runs):
        start = perf_counter()
        subprocess.run(command, check=True, capture_output=True, cwd=ROOT, env=KEEPING)
        times.append(perf_counter() - start)
    return 1000 * min(times)


def commands() -> None:
    python, program = sys.executable, str(Path(sys.executable).with_name("buildsheet"))
    bare = best([python, "-c", BARE], 9)
    check = best([program, "check", str(SANDER)], 9)
    print(f"check                      {check:8.0f} ms  bare imports {bare:.0f} ms, ratio {check / bare:.2f} (at most 1.8)")
    with tempfile.TemporaryDirectory() as folder:
        packet = best([program, "packet", str(SANDER), "--out", folder], 3)
        page = str(Path(folder) / "strip-sander.html")
        engine = best([python, "-c", ENGINE, page, str(Path(folder) / "alone.pdf")], 3)
    print(f"packet                     {packet:8.0f} ms  PDF engine alone {engine:.0f} ms, ratio {packet / engine:.2f} (at most 1.3)")


def design() -> None:
    from buildsheet.circuit.effects import effects
    from buildsheet.circuit.proofs import prove
    from buildsheet.design.work import work
    from buildsheet.packet.diagram import draw
    from buildsheet.project import load
    from tests.circuit import machines
    from tests.demos import DEMOS
    from tests.packet.diagram.circuits import widened

    rooms = [import_module(f"buildsheet.waveforms.{name}") for name in ("alternating", "chopped", "fed", "smoothed", "solve")]
    caches = [one for room in rooms for one in vars(room).values() if hasattr(one, "cache_clear")]
    cold, warm = {}, {}
    for path in sorted(ROOT.glob("projects/*/*.yaml")):
        project = load(path)
        work(project)  # imports and tables are paid once in a process
        unsolved, solved = [], []
        for _ in range(9):
            for cached in caches:
                cached.cache_clear()
            for kept in (unsolved, solved):
                start = perf_counter()
                work(project)
                kept.append(1000 * (perf_counter() - start))
        cold[path.stem], warm[path.stem] = min(unsolved), min(solved)
    for words, times, most in (("waves unsolved", cold, 10), ("waves kept", warm, 3)):
        slowest = max(times, key=times.__getitem__)
        print(f"one design, {words:<15}{times[slowest]:8.2f} ms  (under {most}; {slowest}, the slowest of {len(times)})")
    circuit = max(map(machines.circuit, DEMOS), key=lambda one: len(one.wires))
    for what, words in ((lambda one: prove(one, pole_may_swap=True), "all proofs"), (lambda one: effects(one, pole_may_swap=True), "single faults")):
        times = []
        for _ in range(5):
            fresh = replace(circuit)  # keeps nothing of what was worked out before
            start = perf_counter()
            what(fresh)
            times.append(perf_counter() - start)
        print(f"{words:<27}{1000 * min(times):8.1f} ms  ({'under 100' if words == 'all proofs' else 'under 1000'}; {len(circuit.devices)} devices, {len(circuit.wires)} wires, the largest demonstration)")
    large = widened(machines.circuit("yarn-twister"))
    times = []
    for _ in range(5):
        begun = process_time()
        draw(large, width=262.6, height=146.0, title="Wiring diagram", ground_name="earth")
        times.append(process_time() - begun)
    print(f"diagram, {len(large.devices)} devices, {len(large.wires)} wires {1000 * min(times):5.0f} ms  (under 150, of the processor's time)")


def waveforms() -> None:
    from buildsheet.waveforms import (
        DIODE_BRIDGE,
        HALF_CONTROLLED_BRIDGE,
        Capacitor,
        Load,
        SeriesMotor,
        Source,
        firing_angle_for,
        on_alternating,
        smoothed,
        smoothed_emf_for,
        solve,
    )
    from tests.waveforms.comparison import worst_circuit, worst_error
    from tests.waveforms.points import fixed_points, inductive_circuits, smoothed_circuits

    def each(what: str, limit: str, solutions: int, one: Callable[[int], object]) -> None:
        start = perf_counter()
        for step in range(solutions):
            one(step)
        print(f"{what:26} {1000 * (perf_counter() - start) / solutions:8.3f} ms  ({limit})")

    ideal, cord, transformer = Source(120.0, 60.0), Source(120.0, 60.0, 0.3, 1.8), Source(120.0, 60.0, 0.3, 1.8, 2e-4)
    each("one solution", "under 0.3", 400, lambda k: firing_angle_for(HALF_CONTROLLED_BRIDGE, ideal, 1.5, 0.01, 60.0 + k * 0.05, 5.0))
    each("  source with inductance", "under 0.3", 400, lambda k: solve(HALF_CONTROLLED_BRIDGE, transformer, Load(1.5, 0.02, 20.0 + k * 0.1), 1.0))
    each("  series motor on a triac", "under 0.3", 400, lambda k: on_alternating(cord, SeriesMotor(10.0, 0.05, 20.0), 0.005 * k))
    each("  with capacitor", "under 2", 400, lambda k: smoothed(DIODE_BRIDGE, cord, Load(1.5, 0.01, 80.0 + k * 0.2), Capacitor(0.001, 1e4)))
    each("  and source inductance", "under 2", 400, lambda k: smoothed(DIODE_BRIDGE, transformer, Load(1.5, 0.01, 80.0 + k * 0.2), Capacitor(0.001, 1e4)))
    each("  back-EMF at a current", "no limit", 100, lambda k: smoothed_emf_for(DIODE_BRIDGE, cord, 1.5, 0.01, 0.5 + k * 0.1, Capacitor(0.001, 1e4)))
    error, point = worst_error(fixed_points(500))
    print(f"500 points against stepping {100 * error:7.2f} %   (at most 1)  worst at {point}")
    for what, circuits in (("inductive source", inductive_circuits(500)), ("capacitor", smoothed_circuits(500))):
        error, reading, circuit = worst_circuit(circuits)
        print(f"500 more, {what:17} {100 * error:7.2f} %   (at most 1)  worst in {reading} at {circuit}")


if __name__ == "__main__":
    commands()
    design()
    waveforms()
