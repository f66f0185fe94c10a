"""Milliseconds and ratios, measured side by side in one run: `make bench`."""

import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter, process_time

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))
SANDER = ROOT / "projects/strip-sander/strip-sander.yaml"
# `import pydantic` alone loads nothing (it is lazy): the least that a user of it imports is BaseModel.
BARE = "from pydantic import BaseModel; import pint, yaml"
ENGINE = """
import os, sys
from buildsheet.packet.fonts import fontconfig_file
os.environ["FONTCONFIG_FILE"] = str(fontconfig_file())
import weasyprint
weasyprint.HTML(sys.argv[1]).write_pdf(sys.argv[2], pdf_variant="pdf/ua-1")
"""


def best(command: list[str], runs: int) -> float:
    """Shortest wall time of a command, ms."""
    times = []
    for _ in range(runs):
        start = perf_counter()
        subprocess.run(command, check=True, capture_output=True, cwd=ROOT)
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
    from buildsheet.circuit.proofs import prove
    from buildsheet.design.wiring import wire
    from buildsheet.design.work import work
    from buildsheet.packet.diagram import draw
    from buildsheet.project import load
    from buildsheet.waveforms import back_emf_for, firing_angle_for, solve
    from tests.circuit import machines
    from tests.packet.diagram.circuits import widened

    project = load(SANDER)
    work(project)  # imports and tables are paid once in a process
    times = []
    for _ in range(30):
        for cached in (solve, firing_angle_for, back_emf_for):
            cached.cache_clear()
        start = perf_counter()
        made = work(project)
        times.append(perf_counter() - start)
    print(f"one design, waves unsolved {1000 * min(times):8.2f} ms  (under 10)")
    circuit = wire(made)
    assert circuit is not None
    start = perf_counter()
    prove(circuit)
    print(f"all proofs                 {1000 * (perf_counter() - start):8.1f} ms")
    large = widened(machines.circuit("yarn-twister"))
    times = []
    for _ in range(5):
        begun = process_time()
        draw(large, width=262.6, height=146.0, title="Wiring diagram", ground_name="earth")
        times.append(process_time() - begun)
    print(f"diagram, {len(large.devices)} devices, {len(large.wires)} wires {1000 * min(times):5.0f} ms  (under 150, of the processor's time)")


def waveforms() -> None:
    from buildsheet.waveforms import HALF_CONTROLLED_BRIDGE, Source, firing_angle_for
    from tests.waveforms.comparison import worst_error
    from tests.waveforms.points import fixed_points

    source = Source(120.0, 60.0)
    start = perf_counter()
    for step in range(400):
        firing_angle_for(HALF_CONTROLLED_BRIDGE, source, 1.5, 0.01, 60.0 + step * 0.05, 5.0)
    print(f"one solution               {1000 * (perf_counter() - start) / 400:8.3f} ms  (under 0.3)")
    error, point = worst_error(fixed_points(500))
    print(f"500 points against stepping {100 * error:7.2f} %   (at most 1)  worst at {point}")


if __name__ == "__main__":
    commands()
    design()
    waveforms()
