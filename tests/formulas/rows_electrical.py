"""Published figures of wire, of drops and of protection, and motor examples of textbooks and public handbooks.

The codes before the colon are those of a collection of check rows, each made from the source named behind it.
"""

from math import log, pi, sqrt

from buildsheet.formulas import battery, choice, conductors, controls, cooling, supplies
from buildsheet.formulas import conductors as w
from buildsheet.formulas import motor as m
from buildsheet.formulas import protection as p
from tests.formulas.rows import CIRCULAR_MIL, EXACT, FOOT, INCH, Row, celsius, rpm

# AWG: diameter in, diameter mm, circular mils, mm², ohm for 1000 ft and for 1 km at 20 °C, ohm for 1000 ft as printed.
# Diameters by ASTM B258-02; resistance by IEC 60028, computed for a collection of check rows with 0.5 % tolerance; the
# last column is printed in a public wire table, rounded to 0.01.
SOLID_WIRE = {
    20: (0.0320, 0.812, 1022, 0.518, 10.15, 33.31, 10.15),
    18: (0.0403, 1.024, 1624, 0.823, 6.385, 20.95, 6.39),
    17: (0.0453, 1.150, 2048, 1.038, 5.063, 16.61, 5.06),
    16: (0.0508, 1.291, 2583, 1.309, 4.015, 13.17, 4.02),
    12: (0.0808, 2.053, 6530, 3.309, 1.588, 5.211, 1.59),
    10: (0.1019, 2.588, 10383, 5.261, 0.9988, 3.277, 1.00),
    8: (0.1285, 3.264, 16510, 8.366, 0.6282, 2.061, 0.63),
    6: (0.1620, 4.115, 26251, 13.302, 0.3951, 1.296, 0.40),
    4: (0.2043, 5.189, 41741, 21.151, 0.2485, 0.8152, 0.25),
    2: (0.2576, 6.544, 66371, 33.631, 0.1563, 0.5127, 0.16),
}
MM2 = 1e-6
ROOM = celsius(20)


def _disc(diameter: float) -> float:
    return pi * diameter**2 / 4


def _solid_wire() -> list[Row]:
    made = []
    for gauge, (inch, mm, cmil, area, kft, km, printed) in SOLID_WIRE.items():
        metal = {"A": area * MM2, "T": ROOM}
        made += [
            Row(
                f"1A: {gauge} AWG, diameter in inches; ASTM B258-02",
                w.gauge_area,
                {"n": gauge},
                _disc(inch * INCH),
                rel=2 * 0.00005 / inch,
            ),
            Row(
                f"1A: {gauge} AWG, diameter in mm; ASTM B258-02",
                w.gauge_area,
                {"n": gauge},
                _disc(mm / 1000),
                rel=2 * 0.0005 / mm,
            ),
            Row(
                f"1A: {gauge} AWG, circular mils; ASTM B258-02",
                w.gauge_area,
                {"n": gauge},
                cmil * CIRCULAR_MIL,
                rel=0.51 / cmil,
            ),
            Row(
                f"1A: {gauge} AWG, mm²; ASTM B258-02",
                w.gauge_area,
                {"n": gauge},
                area * MM2,
                abs=0.51e-3 * MM2,
            ),
            Row(
                f"1A: {gauge} AWG, ohm for 1000 ft; IEC 60028, computed",
                w.copper_resistance,
                {"l": 1000 * FOOT, **metal},
                kft,
                rel=1e-3,
            ),
            Row(
                f"1A: {gauge} AWG, ohm for 1 km; IEC 60028, computed",
                w.copper_resistance,
                {"l": 1000.0, **metal},
                km,
                rel=1e-3,
            ),
            Row(
                f"1A: {gauge} AWG, ohm for 1000 ft; a public wire table",
                w.copper_resistance,
                {"l": 1000 * FOOT, **metal},
                printed,
                abs=0.0055,
            ),
        ]
    return made  # fmt: skip


COPPER_10 = 1.7241e-8 / 5.26e-6  # ohm/m of 5.26 mm² at 20 °C by IEC 60028
FAA = "FAA AC 43.13-1B change 1"

WIRE = [
    Row("1.1: 36 AWG is 0.0050 in; ASTM B258-02", w.gauge_area, {"n": 36}, _disc(0.0050 * INCH), rel=EXACT),
    Row("1.1: 4/0 AWG is 0.4600 in; ASTM B258-02", w.gauge_area, {"n": -3}, _disc(0.4600 * INCH), rel=2 * 0.00005 / 0.46),
    Row("1.11: three gauges down, ×2.005; computed from ASTM B258-02", w.gauge_area, {"n": 7}, 2.005 * _disc(0.10189 * INCH), rel=5e-4),
    Row("1.11: ten gauges down, ×10.16; computed from ASTM B258-02", w.gauge_area, {"n": 0}, 10.16 * _disc(0.10189 * INCH), rel=1e-3),
    Row("1.3: 10.371 ohm·cmil/ft at 20 °C; IEC 60028", w.copper_resistance, {"l": 1000 * FOOT, "A": 1000 * CIRCULAR_MIL, "T": ROOM}, 10.371, rel=2e-4),
    Row("1.7: about 12.6 ohm·cmil/ft at 75 °C; trade practice from NEC chapter 9 Table 8", w.copper_resistance, {"l": 1000 * FOOT, "A": 1000 * CIRCULAR_MIL, "T": celsius(75)}, 12.6, rel=5e-3),
    Row(f"V1: 20 A, 107 ft there and back, No. 6; {FAA} Table 11-7", w.voltage_drop, {"l": 107 / 2, "r": 0.00044, "I": 20}, 0.942, abs=0.0005),
    Row(f"V2: 20 A, 90 ft, No. 4; {FAA} Table 11-7", w.voltage_drop, {"l": 90 / 2, "r": 0.00028, "I": 20}, 0.504, abs=0.0005),
    Row(f"V3: 20 A, 88 ft, No. 12; {FAA} Table 11-7 prints 3.60, the product is 3.555", w.voltage_drop, {"l": 88 / 2, "r": 0.00202, "I": 20}, 3.555, abs=0.0005),
    Row(f"V4: 20 A, 100 ft, No. 14; {FAA} Table 11-7", w.voltage_drop, {"l": 100 / 2, "r": 0.00306, "I": 20}, 6.12, abs=0.005),
    Row(f"V5a: 39 ft, No. 10; {FAA} Table 11-8", w.voltage_drop, {"l": 39 / 2, "r": 0.00126, "I": 20}, 0.98, abs=0.005),
    Row(f"V5b: 156 ft, No. 10; {FAA} Table 11-8", w.voltage_drop, {"l": 156 / 2, "r": 0.00126, "I": 20}, 3.93, abs=0.005),
    Row(f"V5c: 273 ft, No. 10; {FAA} Table 11-8", w.voltage_drop, {"l": 273 / 2, "r": 0.00126, "I": 20}, 6.88, abs=0.005),
    Row(f"X5: 19.5 ft, No. 10; {FAA} Table 11-8 misprints 0.366, the product is 0.491", w.voltage_drop, {"l": 19.5 / 2, "r": 0.00126, "I": 20}, 0.491, abs=0.0005),
    Row(f"V5a: loop of 39 ft of No. 10 by its 0.98 V at 20 A; {FAA} Table 11-8", w.loop_resistance, {"l": 39 / 2, "r": 0.00126}, 0.98 / 20, rel=0.005),
    Row("V7: 480 V, 200 ft, 20 A, 1.1 ohm for 1000 ft: trade magazine prints 7.6 to 7.7 V for three phases, √3/2 of two wires", w.voltage_drop, {"l": 200 * sqrt(3) / 2, "r": 1.1e-3, "I": 20}, 7.62, abs=0.005),
    Row("8-e: 24 V, 20 A, 3 m, 10 AWG at 20 °C; derived", w.voltage_drop, {"l": 3, "r": COPPER_10, "I": 20}, 0.393, rel=5e-3),
    Row("8-e: the same at 75 °C; derived", w.voltage_drop, {"l": 3, "r": COPPER_10 * 309.5 / 254.5, "I": 20}, 0.478, rel=5e-3),
    Row("8-e: share of 24 V; derived", w.drop_share, {"U": 0.393, "V": 24}, 0.0164, rel=5e-3),
    Row("Q84: nine 12 AWG of 90 °C insulation, 30 A × 0.70; trade magazine, code question 84", w.ampacity_in_place, {"I_t": 30, "k_T": 1.0, "k_n": 0.70}, 21.0, rel=EXACT),
    Row("Q84: so that table value carries 21 A; the same, turned round", w.least_table_ampacity, {"I_p": 21, "k_T": 1.0, "k_n": 0.70}, 30.0, rel=EXACT),
]  # fmt: skip

OPENSTAX = "OpenStax College Physics, chapter 23, back EMF"
MOTORS = [
    Row("D1: 260 V, 0.4 ohm and 3.76 ohm in series: 125 % of 50 A; DOE-HDBK-1011", m.held_rotor_current, {"V": 260, "R": 0.4 + 3.76}, 62.5, rel=EXACT),
    Row(f"D2: at start; {OPENSTAX}", m.held_rotor_current, {"V": 48.0, "R": 0.400}, 120.0, rel=EXACT),
    Row(f"D2: heat at start; {OPENSTAX}", m.copper_loss, {"I_rms": 120, "R": 0.400}, 5.76e3, rel=EXACT),
    Row(f"D2: 20 A leave 40.0 V; {OPENSTAX}", m.back_emf, {"V": 48.0, "I": 20, "R": 0.400, "U_b": 0}, 40.0, rel=EXACT),
    Row(f"D2: heat in the coil; {OPENSTAX}", m.copper_loss, {"I_rms": 20, "R": 0.400}, 160.0, rel=EXACT),
    Row(f"D3: 10.0 A at start; {OPENSTAX}, problem with solution", m.held_rotor_current, {"V": 120, "R": 12.00}, 10.0, rel=EXACT),
    Row(f"D3: 1.67 A leave 100 V; {OPENSTAX}, problem with solution", m.back_emf, {"V": 120, "I": 1.67, "R": 12.00, "U_b": 0}, 100.0, abs=0.06),
    Row(f"D4: 8.00 A running, 20.0 A at start; {OPENSTAX}, problem with solution", m.back_emf, {"V": 120, "I": 8.00, "R": 120 / 20.0, "U_b": 0}, 72.0, rel=EXACT),
    Row("D5: series motor, 0.06 and 0.04 ohm, 20 kW at 200 V; open textbook companion, chapter 8 example 27", p.current_of_power, {"P": 20e3, "V": 200}, 100.0, rel=EXACT),
    Row("D5: its back-EMF; the same", m.back_emf, {"V": 200, "I": 100, "R": 0.06 + 0.04, "U_b": 0}, 190.0, rel=EXACT),
    Row("D5: power it develops, E times I; the same", m.honest_power, {"V": 190, "I": 100, "eta": 1}, 19e3, rel=EXACT),
    Row("D6: 6 ohm more halves 400 rpm at 20 A; power-system textbook, 2nd ed., part IV example 1.13", m.speed_at_voltage, {"V": 250, "I": 20, "R": 0.5 + 6, "U_b": 0, "K_e": 240 / rpm(400)}, rpm(200), rel=EXACT),
    Row("D6: and needs all 250 V; the same", m.terminal_voltage, {"K_e": 240 / rpm(400), "omega": rpm(200), "I": 20, "R": 0.5 + 6, "U_b": 0}, 250.0, rel=EXACT),
    Row("D7: textbook Electric Machinery and Transformers, 2nd ed., example 1-13", m.back_emf, {"V": 125, "I": 60, "R": 0.25, "U_b": 0}, 110.0, rel=EXACT),
    Row("D8: running; college-physics problem", m.back_emf, {"V": 120.0, "I": 0.80, "R": 15.0, "U_b": 0}, 108.0, rel=EXACT),
    Row("D8: held; college-physics problem", m.held_rotor_current, {"V": 120.0, "R": 15.0}, 8.0, rel=EXACT),
    Row("D8: 4.4 A at half speed; college-physics problem", m.back_emf, {"V": 120.0, "I": 4.4, "R": 15.0, "U_b": 0}, 54.0, rel=EXACT),
    Row("D9: constant of a free run; open textbook companion, example 4.5", m.free_run_constant, {"V": 120, "I_0": 0, "R": 2.5, "U_b": 0, "omega_0": rpm(6000)}, 0.191, abs=0.0005),
    Row("D9: current at 0.5 N·m; the same", m.armature_current, {"T": 0.5, "K_t": 0.190986, "I_0": 0}, 2.62, abs=0.005),
    Row("D9: back-EMF on 60 V; the same", m.back_emf, {"V": 60, "I": 2.618, "R": 2.5, "U_b": 0}, 53.5, abs=0.05),
    Row("D9: speed on 60 V; the same, recomputed 2672.8 rpm", m.speed_at_voltage, {"V": 60, "I": 2.618, "R": 2.5, "U_b": 0, "K_e": 0.190986}, rpm(2672.8), rel=1e-4),
]  # fmt: skip

PROTECTION = [
    Row("M3: 28 A nameplate at 125 %; an exam-study site prints 35 A", p.overload_setting, {"I_n": 28, "k": 1.25}, 35.0, rel=EXACT),
    Row("2.2: 18 AWG at 7 A, continuous 5.6 A; NEC 240.4(D)", p.continuous_limit, {"I_b": 7, "k": 0.80}, 5.6, rel=EXACT),
    Row("2.2: 16 AWG at 10 A, continuous 8 A; NEC 240.4(D)", p.continuous_limit, {"I_b": 10, "k": 0.80}, 8.0, rel=EXACT),
    Row("1.5: 12 A continuous of a 15 A outlet; trade practice after NEC 210.20(A)", p.continuous_limit, {"I_b": 15, "k": 0.80}, 12.0, rel=EXACT),
    Row("100 Ah rated over 20 h, at 5 A: 20 h by definition; a battery maker's page on Peukert's law", battery.runtime, {"C": 100 * 3600, "H": 20 * 3600, "I": 5.0, "k": 1.2}, 20 * 3600, rel=EXACT),
    Row("100 Ah at the 20 h rate, 10 A: about 7.5 h; a battery retailer's page, flooded, exponent within its 1.2 to 1.6", battery.runtime, {"C": 100 * 3600, "H": 20 * 3600, "I": 10.0, "k": 1.4}, 7.5 * 3600, rel=0.02),
    Row("S75: k from two tests and back, 20 A for 3 h where 5 A last 20 h; a page on solar batteries (60 Ah of 100)", battery.runtime, {"C": 100 * 3600, "H": 20 * 3600, "I": 20.0, "k": log(20 / 3) / log(20 / 5)}, 3 * 3600, rel=1e-9),
    Row("lead-acid cut-off of 12 V: 10.5 V, 1.75 V a cell; a lead-acid article", battery.voltage_of_cells, {"V": 12.0, "V_c": 2.0, "V_x": 1.75}, 10.5, rel=EXACT),
    Row("lead-acid charge limit of 12 V: 14.4 V, 2.40 V a cell; a lead-acid article", battery.voltage_of_cells, {"V": 12.0, "V_c": 2.0, "V_x": 2.40}, 14.4, rel=EXACT),
    Row("7.3-a: the motor of 1.2-a reversed at full speed, 115 A; derived from the armature equation", controls.plugging_current, {"V": 90.0, "E": 82.5, "R": 1.5}, 115.0, rel=5e-3),
    Row("IEC 60364-4-43 433.1 with an IEC 60127-2 fuse that opens by 2.1 times: 2.1/1.45 of 10 A is 14.5 A", conductors.guarded_current, {"I_n": 10.0, "k": 1.45}, 10 * 2.1 / 1.45, rel=2e-3),
    Row("copper at 70 °C, 1.2 times 13.3 ohm/km; IEC 60228 class 5, 1.5 mm², and IEC 60028", conductors.warm_resistance, {"r": 0.0133, "k": 1.2}, 0.0133 * (1 + 0.00393 * 50), rel=4e-3),
    Row("1000 m: nothing is taken off; a drive maker's hardware manual, altitude", cooling.share_at_altitude, {"h": 1000.0}, 1.0, rel=EXACT),
    Row("1500 m: 0.95; a drive maker's hardware manual, altitude curve", cooling.share_at_altitude, {"h": 1500.0}, 0.95, rel=EXACT),
    Row("3000 m: 0.80; a drive maker's hardware manual, altitude curve", cooling.share_at_altitude, {"h": 3000.0}, 0.80, rel=EXACT),
    Row("300 m: nothing is taken off under 1000 m; IEC 60034-1", cooling.share_at_altitude, {"h": 300.0}, 1.0, rel=EXACT),
    Row("3.33: a 10 A fuse for 7.5 A at 25 °C; a fuse maker's guide quoted on a public page", p.least_fuse_rating, {"I": 7.5, "k": 0.75}, 10.0, rel=EXACT),
    Row("3.2: 17 % are left between 90 V and the 108 V of a bridge on 120 V; derived", choice.room, {"used": 90, "limit": 108}, 0.17, abs=0.005),
]  # fmt: skip

ROWS = [
    Row("9-c: 8.25 A from 82.5 V over 10 ohm, no drop; derived and simulated", controls.diode_braking_current, {"E": 82.5, "U_d": 0.0, "R": 10.0}, 8.25, rel=5e-3),
    Row("8-g: 840 A from 12.6 V is a loop of 15 mOhm; derived", supplies.source_resistance, {"V": 12.6, "I_s": 840.0}, 0.015, rel=5e-3),*_solid_wire(), *WIRE, *MOTORS, *PROTECTION]
