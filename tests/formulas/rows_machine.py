"""Published figures of speeds, belts, torque and turning masses.

A1 to A11 are the codes of a collection of check rows: workshop formulas (United States Army lathe course and a maker's
speed page), belt geometry (a public belt calculator) and the arc-of-contact table of Machinery's Handbook, 31st ed.
"""

from math import radians

from buildsheet.formulas import cutting as c
from buildsheet.formulas import mechanics as m
from tests.formulas.rows import (
    EXACT,
    FOOT,
    FOOT_PER_MINUTE,
    HORSEPOWER,
    INCH,
    POUND_FORCE,
    Row,
    rpm,
)

SPEEDS = "workshop speed formula"
SPINDLES = [
    Row(f"A11-1: 100 ft/min, 1 in; {SPEEDS}", m.speed_for_surface_speed, {"v": 100 * FOOT_PER_MINUTE, "d": 1 * INCH}, rpm(382), abs=rpm(0.5)),
    Row(f"A11-2: 250 ft/min, 2 in; {SPEEDS}", m.speed_for_surface_speed, {"v": 250 * FOOT_PER_MINUTE, "d": 2 * INCH}, rpm(477), abs=rpm(0.5)),
    Row(f"A11-3: 90 ft/min, 1.5 in; {SPEEDS}", m.speed_for_surface_speed, {"v": 90 * FOOT_PER_MINUTE, "d": 1.5 * INCH}, rpm(229), abs=rpm(0.5)),
    Row(f"A11-4: 30 m/min, 25 mm; {SPEEDS}", m.speed_for_surface_speed, {"v": 30 / 60, "d": 0.025}, rpm(382), abs=rpm(0.5)),
    Row("A11-6: 6 in wheel; derived", m.surface_speed, {"omega": rpm(3450), "d": 6 * INCH}, 5419 * FOOT_PER_MINUTE, abs=0.5 * FOOT_PER_MINUTE),
    Row("A11-6: the same in m/s; derived", m.surface_speed, {"omega": rpm(3450), "d": 6 * INCH}, 27.5, abs=0.05),
    Row("A11-7: 10 in disc; derived", m.surface_speed, {"omega": rpm(1725), "d": 10 * INCH}, 4516 * FOOT_PER_MINUTE, abs=0.5 * FOOT_PER_MINUTE),
    Row("A11-7: the same in m/s; derived", m.surface_speed, {"omega": rpm(1725), "d": 10 * INCH}, 22.9, abs=0.05),
    Row("A11-11: 50 mm pulley; derived", m.surface_speed, {"omega": rpm(4000), "d": 0.050}, 10.5, abs=0.05),
    Row("A11-18: 12 in band wheels; derived", m.surface_speed, {"omega": rpm(900), "d": 12 * INCH}, 2827 * FOOT_PER_MINUTE, abs=0.5 * FOOT_PER_MINUTE),
    Row("A11-19: 14 in wheels at 3000 ft/min; derived", m.speed_for_surface_speed, {"v": 3000 * FOOT_PER_MINUTE, "d": 14 * INCH}, rpm(819), abs=rpm(0.5)),
    Row("A11-20: 8 in buff; derived", m.surface_speed, {"omega": rpm(3450), "d": 8 * INCH}, 7226 * FOOT_PER_MINUTE, abs=0.5 * FOOT_PER_MINUTE),
    Row("A4: 12 in disc; derived", m.surface_speed, {"omega": rpm(1725), "d": 12 * INCH}, 27.5, abs=0.05),
    Row("A5: 6 in wheel at 6500 ft/min; derived from ANSI B7.1", m.speed_for_surface_speed, {"v": 6500 * FOOT_PER_MINUTE, "d": 6 * INCH}, rpm(4138), abs=rpm(0.5)),
    Row("A5: 8 in wheel at 6500 ft/min; derived from ANSI B7.1", m.speed_for_surface_speed, {"v": 6500 * FOOT_PER_MINUTE, "d": 8 * INCH}, rpm(3104), abs=rpm(0.5)),
    Row("A5: 6 in wheel at 4800 rpm; derived", m.surface_speed, {"omega": rpm(4800), "d": 6 * INCH}, 7540 * FOOT_PER_MINUTE, abs=0.5 * FOOT_PER_MINUTE),
    Row("A7: 100 mm cast pulley at 33.02 m/s; derived from MPTA B13i", m.speed_for_surface_speed, {"v": 33.02, "d": 0.100}, rpm(6306), abs=rpm(0.5)),
    Row("B10: 50 mm pulley; derived for 29 CFR 1910.219", m.surface_speed, {"omega": rpm(4000), "d": 0.050}, 2061 * FOOT_PER_MINUTE, abs=0.5 * FOOT_PER_MINUTE),
]  # fmt: skip

BELT = "public belt calculator"
BELTS = [
    Row(f"A11-8: 50, 100, 300 mm; {BELT}", m.belt_length, {"d": 0.050, "D": 0.100, "C": 0.300}, 0.8377, abs=5e-5),
    Row(f"A11-8: its wrap; {BELT}", m.wrap_angle, {"d": 0.050, "D": 0.100, "C": 0.300}, radians(170.4), abs=radians(0.05)),
    Row(f"A11-9: 2, 8, 12 in; {BELT}", m.belt_length, {"d": 2 * INCH, "D": 8 * INCH, "C": 12 * INCH}, 40.46 * INCH, abs=0.005 * INCH),
    Row(f"A11-9: its wrap; {BELT}", m.wrap_angle, {"d": 2 * INCH, "D": 8 * INCH, "C": 12 * INCH}, radians(151.0), abs=radians(0.05)),
    Row(f"A11-10: 40, 200, 350 mm; {BELT}", m.belt_length, {"d": 0.040, "D": 0.200, "C": 0.350}, 1.0953, abs=5e-5),
    Row(f"A11-10: its wrap; {BELT}", m.wrap_angle, {"d": 0.040, "D": 0.200, "C": 0.350}, radians(153.6), abs=radians(0.05)),
    *(
        Row(f"A7: (D − d)/C {share}; Machinery's Handbook, 31st ed., page 2581", m.wrap_angle, {"d": 0.1, "D": 0.1 + share, "C": 1.0}, radians(degrees), abs=radians(0.55))
        for share, degrees in ((0.0, 180), (0.1, 174), (0.2, 169), (0.3, 163), (0.4, 157), (0.5, 151), (0.6, 145), (0.8, 133), (1.0, 120))
    ),
    Row(f"A11-8: centres of that belt; {BELT}, turned round", m.centre_distance, {"L": 0.8377, "d": 0.050, "D": 0.100}, 0.300, abs=5e-5),
    Row(f"A11-10: centres of that belt; {BELT}, turned round", m.centre_distance, {"L": 1.0953, "d": 0.040, "D": 0.200}, 0.350, abs=5e-5),
    Row("A11-12: 1.5 to 6 in; derived", m.belt_ratio, {"d_1": 1.5 * INCH, "d_2": 6 * INCH}, 4.0, rel=EXACT),
    Row("A11-12: 4000 rpm through it; derived", m.driven_speed, {"omega_1": rpm(4000), "i": 4.0}, rpm(1000), rel=EXACT),
    Row("A11-13: 4000 rpm to 900; derived", m.driven_speed, {"omega_1": rpm(4000), "i": 4.44}, rpm(900), rel=0.005 / 4.44),
    Row("A11-13: 900 rpm from 4000; derived", m.driving_speed, {"omega_2": rpm(900), "i": 4.44}, rpm(4000), rel=0.005 / 4.44),
]  # fmt: skip

TORQUE = [
    Row("A11-16: 1 hp at 1000 rpm; workshop formula 5252", m.torque_of_power, {"P": HORSEPOWER, "omega": rpm(1000)}, 5.25 * POUND_FORCE * FOOT, abs=0.005 * POUND_FORCE * FOOT),
    Row("A11-16: the same in N·m", m.torque_of_power, {"P": HORSEPOWER, "omega": rpm(1000)}, 7.12, abs=0.005),
    Row("A1: 5252 lb·ft for 1 hp at 1 rpm; workshop formula", m.torque_of_power, {"P": HORSEPOWER, "omega": rpm(1)}, 5252 * POUND_FORCE * FOOT, abs=0.5 * POUND_FORCE * FOOT),
    Row("A1: 9549 N·m for 1 kW at 1 rpm; workshop formula", m.torque_of_power, {"P": 1000, "omega": rpm(1)}, 9549.0, abs=0.5),
    Row("1.2-a: 0.5 hp at 1725 rpm; derived", m.torque_of_power, {"P": 0.5 * HORSEPOWER, "omega": rpm(1725)}, 2.064, rel=2e-3),
    Row("1.2-a: the same in lb·in", m.torque_of_power, {"P": 0.5 * HORSEPOWER, "omega": rpm(1725)}, 18.27 * POUND_FORCE * INCH, rel=2e-3),
    Row("1.1-e: 10.26 mN·m at 2500 rpm; an exercise, derived", m.shaft_power, {"T": 10.26e-3, "omega": rpm(2500)}, 2.687, rel=5e-3),
    Row("1.1-e: half the held torque at half the free speed; an exercise, derived", m.shaft_power, {"T": 15e-3, "omega": rpm(1900)}, 2.985, rel=5e-3),
    Row("9-a: 0.02 kg·m² at 1725 rpm; derived", m.turning_energy, {"J": 0.02, "omega": rpm(1725)}, 326.3, rel=2e-3),
    Row("A8: flywheel of 2 kg and 60 mm radius at 4000 rpm; derived", m.turning_energy, {"J": 2 * 0.060**2 / 2, "omega": rpm(4000)}, 316.0, abs=0.5),
]  # fmt: skip

CUBIC_INCH_PER_MINUTE = INCH**3 / 60
CUTTING = [
    Row("A11-14: 100 ft/min, 0.050 in deep, 0.005 in/rev; course sheet", c.removal_rate, {"v": 100 * FOOT_PER_MINUTE, "f": 0.005 * INCH, "d": 0.050 * INCH}, 0.30 * CUBIC_INCH_PER_MINUTE, abs=0.005 * CUBIC_INCH_PER_MINUTE),
    Row("A11-14: K_p 0.74, so 0.22 hp at the cut; Machinery's Handbook, 31st ed., page 1147", c.cutting_power, {"K_p": 2.02e9, "Q": 0.30 * CUBIC_INCH_PER_MINUTE}, 0.22 * HORSEPOWER, abs=0.005 * HORSEPOWER),
    Row("A11-15: 0.74 hp/(in³/min) is 2.02 kW/(cm³/s); the same page's two columns", c.cutting_power, {"K_p": 0.74 * HORSEPOWER / CUBIC_INCH_PER_MINUTE, "Q": 1e-6}, 2020.0, abs=5.0),
]  # fmt: skip

ROWS = [*SPINDLES, *BELTS, *TORQUE, *CUTTING]
