"""Published and derived figures of loads whose torque goes with speed, and of a fan on the motor's own shaft.

Half speed and its quarter torque stand on a drive maker's page on three types of loads (name withheld), which also names
what is the same at all speeds; the fan of 10 kW at 1000 rpm that takes 80 kW at 2000 rpm on a page of the affinity laws.
"""

from math import sqrt

from buildsheet.formulas import cooling, loads
from tests.formulas.rows import EXACT, Row, rpm

MAKER = "a drive maker's page on three types of loads"
AFFINITY = "an affinity-law page's fan of 10 kW at 1000 rpm, 80 kW at 2000 rpm; torque by P = T·ω"
HALF = {"T": 100.0, "omega": rpm(900), "omega_ref": rpm(1800)}
ROWS = [
    Row(f"half speed, a quarter of the torque; {MAKER}", loads.torque_at_speed_quadratic, HALF, 25.0, rel=EXACT),
    Row(f"twice the speed; {AFFINITY}", loads.torque_at_speed_quadratic, {"T": 10e3 / rpm(1000), "omega": rpm(2000), "omega_ref": rpm(1000)}, 80e3 / rpm(2000), rel=EXACT),
    Row("half speed, twice the torque: the power stays; derived, P = T·ω", loads.torque_at_constant_power, HALF, 200.0, rel=EXACT),
    Row("1 hp at 1000 rpm is 7.12 N·m, so at 1725 rpm 4.13; workshop formula 9549·kW/N", loads.torque_at_constant_power, {"T": 7.12, "omega": rpm(1725), "omega_ref": rpm(1000)}, 9549 * 0.7457 / 1725, rel=1e-3),
    Row("half speed, half the torque; derived: shear goes with speed", loads.torque_at_speed_viscous, HALF, 50.0, rel=EXACT),
    # A bearing by Petroff: T = 4·π²·mu·N·r³·l/c with N in turns a second; oil of 0.02 Pa·s, 25 mm, 50 mm, 0.05 mm
    Row("Petroff's bearing at 10 and 30 turns a second; derived from his equation", loads.torque_at_speed_viscous,
        {"T": 39.4784176 * 0.02 * 10 * 0.025**3 * 0.05 / 5e-5, "omega": rpm(1800), "omega_ref": rpm(600)}, 39.4784176 * 0.02 * 30 * 0.025**3 * 0.05 / 5e-5, rel=1e-6),
    Row("half the fan's speed, half the heat, so the root of a half; derived", cooling.current_on_slow_fan, {"I": 10.0, "omega": 50.0, "omega_f": 100.0}, 10 * sqrt(0.5), rel=EXACT),
    Row("a stand: nothing; derived", cooling.current_on_slow_fan, {"I": 10.0, "omega": 0.0, "omega_f": 100.0}, 0.0, abs=1e-12),
    Row("at the fan's own speed all of the rated current; derived", cooling.current_on_slow_fan, {"I": 10.0, "omega": 100.0, "omega_f": 100.0}, 10.0, rel=EXACT),
]  # fmt: skip
