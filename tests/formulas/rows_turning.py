"""Published and derived figures of braking, of tachometers and of spinning bodies.

The codes before the colon are those of a collection of check rows, each made from the source named behind it.
"""

from buildsheet.formulas import braking, controls, mechanics, motor, rotor, tachometer
from tests.formulas.rows import EXACT, FOOT, INCH, POUND_FORCE, Row, rpm

K = 0.4567  # V·s/rad of the motor of row 1.2
SIM = "simulated in a circuit with the inertia as a capacitor"
FLYWHEEL = "physics textbook problem, 5.0 kg·m² at 60 rad/s at rest after 5 min"
DISC = "a physics answer page, disc of 6 kg and 25 cm, 360 rpm at rest after 30 s"
BRAKING = [
    Row("9-b: resistor for 10 A; derived", braking.brake_resistor, {"E": 82.5, "I": 10, "R_a": 1.5}, 6.75, rel=EXACT),
    Row("9-c: current at first; derived", braking.brake_current, {"E": 82.5, "R_a": 1.5, "R_b": 8.5}, 8.25, rel=5e-3),
    Row(f"9-c: current at first; {SIM}, 10 mH", braking.brake_current, {"E": 82.5, "R_a": 1.5, "R_b": 8.5}, 8.20, rel=1e-2),
    Row("9-c: time constant; derived", braking.brake_time_constant, {"J": 0.02, "R_a": 1.5, "R_b": 8.5, "K_e": K}, 0.959, rel=5e-3),
    Row("9-c: to 10 % of speed; derived", braking.time_to_share_of_speed, {"tau": 0.959, "p": 0.10}, 2.21, rel=5e-3),
    Row(f"9-c: to 10 % of speed; {SIM}", braking.time_to_share_of_speed, {"tau": 0.959, "p": 0.10}, 2.207, rel=5e-3),
    Row("9-c: part of the resistor; derived", braking.resistor_share, {"R_a": 1.5, "R_b": 8.5}, 277.4 / 326.3, rel=5e-3),
    Row(f"9-c: energy in the resistor; {SIM}, all of 326.3 J", braking.brake_energy, {"W": 326.3, "k": 0.85}, 277.4, rel=5e-3),
    Row(f"9-c: energy in the armature; {SIM}", braking.brake_energy, {"W": 326.3, "k": 0.15}, 48.9, rel=5e-3),
    Row("9-d: current into 40 ohm; value of a drive manual, derived", braking.brake_current, {"E": 82.5, "R_a": 1.5, "R_b": 40}, 1.99, rel=5e-3),
    Row("9-d: time constant; value of a drive manual, derived", braking.brake_time_constant, {"J": 0.02, "R_a": 1.5, "R_b": 40, "K_e": K}, 3.98, rel=5e-3),
    Row("7.3-a: resistor for 10 A when reversed; derived", braking.plugging_resistor, {"V": 90, "E": 82.5, "I": 10, "R_a": 1.5}, 15.75, rel=5e-3),
    Row("7.3-a: 115 A is 23 times the rated current; derived", controls.plugging_current, {"V": 90, "E": 82.5, "R": 1.5}, 23 * 5.0, rel=5e-3),
    Row("7.3-b: 10 mH at 5 A; derived", braking.coil_energy, {"L": 10e-3, "I": 5}, 0.125, rel=EXACT),
    Row("7.3: 10 mH at 60 A; derived", braking.coil_energy, {"L": 10e-3, "I": 60}, 18.0, rel=EXACT),
    Row(f"coast; {FLYWHEEL}", mechanics.coast_time, {"J": 5.0, "omega": 60, "T_0": 1.0}, 300.0, rel=EXACT),
    Row(f"work of friction; {FLYWHEEL}", mechanics.turning_energy, {"J": 5.0, "omega": 60}, 9000.0, rel=EXACT),
    Row(f"inertia of that coast; {FLYWHEEL}", braking.inertia_from_coast, {"T_0": 1.0, "t": 300, "omega": 60}, 5.0, rel=EXACT),
    Row(f"coast; {DISC}", mechanics.coast_time, {"J": 0.1875, "omega": rpm(360), "T_0": 0.236}, 30.0, rel=2e-3),
    Row("1.2-b: current of a held rotor: 27.18 N·m and the loss torque from 60 A; derived", braking.armature_torque, {"K_t": K, "I": 60.0}, 27.18 + 0.2195, rel=5e-3),
    Row("9-c: heat in the armature at first; derived as the rest of 82.5 V times 8.25 A", motor.copper_loss, {"I_rms": 8.25, "R": 1.5}, 82.5 * 8.25 - 579.0, rel=2e-2),
]  # fmt: skip

# Speeds of synchronous machines by poles and frequency, printed in textbooks on electrical machines; from memory.
SPEEDS = "table of synchronous speeds in machine textbooks, from memory"
TACHOMETERS = [
    Row(f"2 poles, 60 Hz; {SPEEDS}", tachometer.tachometer_speed, {"f": 60, "p": 1}, rpm(3600), rel=EXACT),
    Row(f"12 poles, 50 Hz; {SPEEDS}", tachometer.tachometer_speed, {"f": 50, "p": 6}, rpm(500), rel=EXACT),
    Row(f"14 poles, 60 Hz; {SPEEDS}, to the whole turn", tachometer.tachometer_speed, {"f": 60, "p": 7}, rpm(514), abs=rpm(0.5)),
    Row(f"400 Hz at 12 000 rpm: 4 poles, aircraft generators; {SPEEDS}", tachometer.tachometer_pole_pairs, {"f": 400, "omega": rpm(12000)}, 2.0, rel=EXACT),
    Row("7 V for each 1000 rpm, a usual tachometer by its data sheet, from memory: 24.5 V", tachometer.tachometer_speed_by_voltage, {"V": 24.5, "V_1": 7.0, "omega_1": rpm(1000)}, rpm(3500), rel=EXACT),
]  # fmt: skip

# Strength of materials, problems 139 and 140 of a public review site: steel of 490 lb/ft³ with g = 32.2 ft/s²; 7.85 Mg/m³.
STEEL = 490 * 0.45359237 / FOOT**3
KSI = 1000 * POUND_FORCE / INCH**2
RING = "strength of materials review problem 139"
ROTOR = [
    Row(f"20 ksi in a ring; {RING}", rotor.spinning_stress, {"c": 1, "rho": STEEL, "v": 435.04 * FOOT}, 20 * KSI, rel=2e-3),
    Row(f"rim speed at 20 ksi, as half of 40 ksi; {RING}", rotor.allowed_rim_speed, {"sigma": 40 * KSI, "k": 2, "c": 1, "rho": STEEL}, 435.04 * FOOT, rel=1e-3),
    Row(f"rim speed at 30 ksi, as half of 60 ksi; {RING}", rotor.allowed_rim_speed, {"sigma": 60 * KSI, "k": 2, "c": 1, "rho": STEEL}, 532.81 * FOOT, rel=1e-3),
    Row(f"its turns at a mean radius of 10 in; {RING}", mechanics.speed_for_surface_speed, {"v": 532.81 * FOOT, "d": 20 * INCH}, rpm(6105.54), rel=1e-4),
    Row("solid disc, steel: (3 + 0.3)/8; textbook mechanics of materials 2, 3rd ed., chapter 4", rotor.solid_disc_factor, {"nu": 0.3}, 0.4125, rel=EXACT),
    Row("a pin hole doubles the stress; the same chapter", rotor.bored_disc_factor, {"nu": 0.3, "q": 0}, 2 * 0.4125, rel=EXACT),
    Row("a hole of 50 mm in a disc of 200 mm; derived", rotor.bore_share, {"d_i": 0.05, "d": 0.2}, 0.25, rel=EXACT),
    Row(f"inertia; {DISC}", rotor.disc_inertia, {"m": 6, "d": 0.50}, 0.1875, rel=EXACT),
    Row("A8: flywheel of 2 kg and 60 mm, 316 J at 4000 rpm; derived", rotor.disc_inertia, {"m": 2, "d": 0.120}, 2 * 316 / rpm(4000) ** 2, abs=6e-6),
    Row("a metre of round steel bar of 20 mm: 2.47 kg; trade weight tables, from memory", rotor.cylinder_mass, {"d": 0.020, "l": 1.0, "rho": 7850}, 2.47, abs=0.005),
]  # fmt: skip

ROWS = [*BRAKING, *TACHOMETERS, *ROTOR]
