"""Published and derived figures of series, shunt and induction motors, of inverters and of phase control.

The codes before the colon are those of a collection of check rows, each made from the source named behind it. "derived"
means from textbook relations, by hand or by a simulation, before this package had the formula.
"""

from math import cos, radians

from buildsheet.formulas import (
    braking,
    choke,
    controls,
    induction,
    inverter,
    motor,
    protection,
    series,
    shunt,
    triac,
)
from tests.formulas.rows import EXACT, HORSEPOWER, METRIC_HORSEPOWER, Row, rpm

EXAM = "exam solution"
K_SERIES = 108 / (0.6 * rpm(2000))  # N·m/A²: 120 V less 0.6 A in 20 ohm, over current and speed
LINEAR = "tutor site, by its own numbers"
SERIES = [
    Row(f"1.6-a: reactance; {EXAM}", series.coil_reactance, {"f": 60, "L": 0.25}, 94.25, rel=5e-3),
    Row(f"1.6-a: torque over the square of the current; {EXAM}, derived", series.series_constant, {"V": 120, "I": 0.6, "R": 20, "U_b": 0, "omega": rpm(2000)}, 0.309 / 0.6**2, rel=5e-3),
    Row(f"1.6-a: torque; {EXAM}, derived", series.series_torque, {"k": K_SERIES, "I": 0.6}, 0.309, rel=5e-3),
    Row(f"1.6-a: back-EMF on direct current; {EXAM}", motor.back_emf, {"V": 120, "I": 0.6, "R": 20, "U_b": 0}, 108.0, rel=EXACT),
    Row(f"1.6-a: back-EMF on alternating current; {EXAM}", series.alternating_back_emf, {"V": 120, "I": 0.6, "X": 94.25, "R": 20, "U_b": 0}, 93.84, rel=5e-3),
    Row(f"1.6-a: speed on alternating current; {EXAM}", series.series_speed, {"E": 93.84, "k": K_SERIES, "I": 0.6}, rpm(1738), rel=5e-3),
    Row(f"1.6-a: speed on direct current; {EXAM}", series.series_speed, {"E": 108, "k": K_SERIES, "I": 0.6}, rpm(2000), rel=5e-3),
    Row(f"1.6-a: the same by its torque; {EXAM}, derived", series.series_speed_at_torque, {"V": 120, "R": 20, "k": K_SERIES, "T": 0.309}, rpm(2000), rel=5e-3),
    Row(f"1.6-a: current for that torque; {EXAM}, derived", series.loaded_series_current, {"T": 0.3, "T_0": 0.009, "k": K_SERIES}, 0.6, rel=5e-3),
    Row(f"1.6-a: 108 V of back-EMF at 0.6 A; {EXAM}, derived", series.series_emf, {"k": K_SERIES, "omega": rpm(2000), "I": 0.6}, 108.0, rel=5e-3),
    Row(f"1.6-a: the same as a resistance, E/I; {EXAM}, derived", series.motion_resistance, {"k": K_SERIES, "omega": rpm(2000)}, 108 / 0.6, rel=5e-3),
    Row(f"1.6-a: with the winding's 20 ohm it is V/I; {EXAM}, derived", choke.resistance_in_a_row, {"R_1": 20, "R_2": 108 / 0.6}, 120 / 0.6, rel=5e-3),
    Row(f"1.6-a: and without the rest the winding's; {EXAM}, derived", series.rest_of_resistance, {"R": 120 / 0.6, "R_f": 108 / 0.6}, 20.0, rel=5e-3),
    Row(f"1.6-a: the constant, had it been spun; {EXAM}, derived", series.series_constant_spun, {"E": 108, "I": 0.6, "omega": rpm(2000)}, 0.309 / 0.6**2, rel=5e-3),
    Row(f"1.6-a: the speed at which 0.309 N·m are its own losses; {EXAM}, derived", series.series_runaway_speed, {"E": 108, "k": K_SERIES, "T_0": 0.309}, rpm(2000), rel=5e-3),
    Row("3.5-a: 2 mH and 8 mH are the 10 mH of the next row; derived", choke.inductance_in_a_row, {"L_1": 2e-3, "L_2": 8e-3}, 10e-3, rel=1e-9),
    Row(f"1.6-a: power factor; {EXAM}, derived", series.series_power_factor, {"E": 93.84, "I": 0.6, "R": 20, "V": 120}, 0.882, rel=5e-3),
    Row("1.6-b: 45 A at start of a motor of 30 A; basic electrical engineering textbook, example 8.30", series.series_torque, {"k": 5 * METRIC_HORSEPOWER / rpm(1000) / 30**2, "I": 45}, 79.0, rel=5e-3),
    Row("1.6-b: that torque takes 45 A; the same", series.series_current, {"T": 79.0, "k": 35.1 / 30**2}, 45.0, rel=5e-3),
    Row(f"1.6-c: 100 A; {LINEAR} (prints 505.75)", series.speed_by_flux, {"omega_1": rpm(600), "E_1": 231.25, "E_2": 229, "p": 100 / 85}, rpm(505), rel=3e-3),
    Row(f"1.6-c: 40 A; {LINEAR}", series.speed_by_flux, {"omega_1": rpm(600), "E_1": 231.25, "E_2": 238, "p": 40 / 85}, rpm(1312), rel=3e-3),
    Row(f"1.6-c: back-EMF at 85 A, 3 V of brushes taken twice; {LINEAR}", motor.back_emf, {"V": 250, "I": 85, "R": 0.15, "U_b": 6}, 231.25, rel=EXACT),
]  # fmt: skip

# Power-electronics textbook, 4th ed., examples 14.1 and 14.3: field 147 ohm, armature 0.25 ohm, 0.7032 V/(A·rad/s),
# 45 N·m; data of the open companion set, figures worked from them by hand.
BOOK = "power-electronics textbook, 4th ed., example 14.1"
SEMI = "power-electronics textbook, 4th ed., example 14.3"
K_FULL = 0.7032 * 220 / 147  # V·s/rad with 220 V on the field
LESS = 187.27 / 220  # share of the field current on a bridge from 208 V
# Basic electrical engineering textbook, example 8.23: 230 V, 0.4 ohm, 20 A at 800 rpm; 29.93 ohm more than the field's 115
# ohm for 1000 rpm at the same torque.
WEAKER = 115 / (115 + 29.93)
SHUNT = [
    Row(f"14.1: field current; {BOOK}", shunt.field_current, {"V_f": 220, "R_f": 147}, 1.497, abs=5e-4),
    Row(f"14.1: speed at 142.9 V; {BOOK}", shunt.shunt_speed, {"V": 142.93, "I": 42.75, "R": 0.25, "U_b": 0, "K_e": K_FULL, "p": 1.0}, rpm(1200), rel=1e-3),
    Row(f"14.1: torque of 42.75 A; {BOOK}", shunt.shunt_torque, {"K_e": K_FULL, "p": 1.0, "I": 42.75}, 45.0, rel=1e-3),
    Row(f"14.3: field voltage; {SEMI}", protection.full_bridge_average, {"V": 208, "U_d": 0}, 187.27, rel=1e-4),
    Row(f"14.3: field current; {SEMI}", shunt.field_current, {"V_f": 187.27, "R_f": 147}, 1.274, abs=5e-4),
    Row(f"14.3: share of the field current of example 14.1; {SEMI}", shunt.field_share, {"I_f": 1.274, "I_n": 1.4966}, LESS, rel=1e-3),
    Row(f"14.3: armature current for the same 45 N·m; {SEMI}", shunt.weak_field_current, {"I": 42.75, "p": LESS}, 50.23, rel=1e-3),
    Row(f"14.3: speed at 106.38 V; {SEMI}", shunt.shunt_speed, {"V": 106.38, "I": 50.23, "R": 0.25, "U_b": 0, "K_e": K_FULL, "p": LESS}, rpm(1000), rel=1e-3),
    Row(f"14.3: torque of 50.23 A; {SEMI}", shunt.shunt_torque, {"K_e": K_FULL, "p": LESS, "I": 50.23}, 45.0, rel=1e-3),
    Row(f"14.3: field current of that share; {SEMI}", shunt.current_of_share, {"I_n": 1.4966, "p": LESS}, 1.274, rel=1e-3),
    Row(f"14.3: constant at that share: 45 N·m over 50.23 A; {SEMI}", shunt.constant_at_share, {"K_e": K_FULL, "p": LESS}, 45 / 50.23, rel=1e-3),
    Row("8.23: 29.93 ohm in the field for 1000 rpm; basic electrical engineering textbook, its own rounding", shunt.weak_field_speed, {"omega": rpm(800), "E_1": 222, "E_2": 230 - 0.4 * 20 / WEAKER, "p": WEAKER}, rpm(1000), rel=3e-3),
    Row("8.23: that resistor by its current; the same", shunt.field_series_resistor, {"V_f": 230, "I_f": 230 / 144.93, "R_f": 115}, 29.93, rel=EXACT),
    Row("3.3: at least 100 ohm on 100 V with a limit of 1 A; a drive manual", shunt.field_resistance, {"V_f": 100, "I_f": 1}, 100.0, rel=EXACT),
    Row("3.3: at least 200 ohm on 200 V with a limit of 1 A; a drive manual", shunt.field_resistance, {"V_f": 200, "I_f": 1}, 200.0, rel=EXACT),
    Row("3.3: '100 V' field from 115 V; a drive manual", protection.full_bridge_average, {"V": 115, "U_d": 0}, 103.5, rel=1e-3),
    Row("3.3: '200 V' field from 230 V; a drive manual", protection.full_bridge_average, {"V": 230, "U_d": 0}, 207.0, rel=1e-3),
    Row("3.3: '50 V' field from the half-wave tap on 115 V; a drive manual", triac.half_wave_average, {"V_s": 115, "alpha": 0}, 51.8, rel=1e-3),
    Row("3.3: '100 V' field from the half-wave tap on 230 V; a drive manual", triac.half_wave_average, {"V_s": 230, "alpha": 0}, 103.5, rel=1e-3),
]  # fmt: skip

TWO_WINDINGS = "textbook Electric Machinery and Transformers, 2nd ed., example 10-2"
TWO_WINDINGS_3 = "textbook Electric Machinery and Transformers, 2nd ed., example 10-3"
START, RUN = radians(15), radians(40)
LEAD = radians(42)
BREAKDOWN = "a public examination question: breakdown twice the rated torque at a slip of 10 %"
INDUCTION = [
    Row("1.7-a: four poles on 60 Hz; derived", induction.synchronous_speed, {"f": 60, "p": 4}, rpm(1800), rel=EXACT),
    Row("1.7-a: slip of 1725 rpm; derived", induction.slip, {"omega_s": rpm(1800), "omega": rpm(1725)}, 0.0417, abs=5e-5),
    Row("1.7-a: rotor; derived", induction.rotor_frequency, {"s": 75 / 1800, "f": 60}, 2.5, rel=EXACT),
    Row(f"1.7-b: start winding; {TWO_WINDINGS}", induction.winding_power, {"V": 110, "I": 4, "phi": START}, 425.0, rel=3e-3),
    Row(f"1.7-b: run winding; {TWO_WINDINGS}", induction.winding_power, {"V": 110, "I": 6, "phi": RUN}, 505.6, rel=3e-3),
    Row(f"1.7-b: both, by the line current; {TWO_WINDINGS}", induction.winding_power, {"V": 110, "I": 9.77, "phi": radians(30)}, 930.6, rel=3e-3),
    Row(f"1.7-b: line current; {TWO_WINDINGS_3}", induction.line_current, {"I_1": 4, "phi_1": START, "I_2": 6, "phi_2": RUN}, 9.77, rel=3e-3),
    Row(f"1.7-b: its angle; {TWO_WINDINGS_3}", induction.line_lag, {"I_1": 4, "phi_1": START, "I_2": 6, "phi_2": RUN, "I": 9.77}, radians(30), rel=3e-3),
    Row(f"1.7-b: efficiency of the run winding; {TWO_WINDINGS}, in mechanical horsepower of 746 W", motor.plate_efficiency, {"P": 0.25 * 746, "V": 110, "I": 6 * cos(RUN)}, 0.369, rel=3e-3),
    Row(f"1.7-c: line current with capacitor; {TWO_WINDINGS_3}", induction.line_current, {"I_1": 4, "phi_1": -LEAD, "I_2": 6, "phi_2": RUN}, 7.66, rel=3e-3),
    Row(f"1.7-c: power factor; {TWO_WINDINGS_3}", induction.power_factor, {"P": 110 * (4 * cos(LEAD) + 6 * cos(RUN)), "V": 110, "I": 7.66}, 0.988, rel=3e-3),
    Row(f"1.7-c: torque over that before; {TWO_WINDINGS_3}", induction.starting_torque_ratio, {"I_1": 4, "theta_1": radians(25), "I_2": 4, "theta_2": radians(82)}, 2.343, rel=3e-3),
    Row("1.7-d: the winding alone takes 4 A; derived from example 10-2", induction.winding_current, {"V": 110, "R": 26.56, "X_L": 7.12, "X_C": 0}, 4.0, rel=5e-3),
    Row("1.7-d: capacitor for 42° of lead; derived", induction.capacitance_for_lead, {"R": 26.56, "X_L": 7.12, "phi": LEAD, "f": 60}, 85.5e-6, rel=5e-3),
    Row("1.7-d: current behind 85.5 µF; derived", induction.winding_current, {"V": 110, "R": 26.56, "X_L": 7.12, "X_C": 1e6 / (120 * 3.14159265 * 85.5)}, 3.08, rel=5e-3),
    Row("1.7-d: torque over that before; derived", induction.starting_torque_ratio, {"I_1": 4, "theta_1": radians(25), "I_2": 3.08, "theta_2": radians(82)}, 1.80, rel=5e-3),
    Row("1.7-e: 20 µF across 370 V; derived", induction.capacitor_current, {"f": 60, "C": 20e-6, "V": 370}, 2.79, rel=2e-3),
    Row("1.7: 2653 µF for 1 A and 1 V at 60 Hz; derived", induction.capacitance_from_reading, {"I": 1, "V": 1, "f": 60}, 2653e-6, abs=0.5e-6),
    Row("1.7: 3183 µF for 1 A and 1 V at 50 Hz; derived", induction.capacitance_from_reading, {"I": 1, "V": 1, "f": 50}, 3183e-6, abs=0.5e-6),
    Row("1.7: a right angle from 3 + 2.7j and 7 + 3j ohm, 50 Hz; textbook Electric Machines, example 10.4, worked by hand", induction.quadrature_capacitance, {"R": 7, "X_L": 3, "phi_m": radians(41.99), "f": 50}, 295.4e-6, rel=2e-3),
    Row(f"half of breakdown at 2.68 %; {BREAKDOWN}", induction.torque_at_slip, {"T_b": 2.0, "s_b": 0.10, "s": 0.0268}, 1.0, rel=2e-3),
    Row(f"slip 2.68 %; {BREAKDOWN}", induction.slip_at_load, {"s_b": 0.10, "k": 2}, 0.0268, abs=5e-5),
    Row(f"1460 rpm; {BREAKDOWN}", induction.speed_at_slip, {"omega_s": rpm(1500), "s": 0.0268}, rpm(1460), abs=rpm(0.5)),
    Row(f"back to 10 %; {BREAKDOWN}", induction.breakdown_slip, {"s_n": 0.0268, "k": 2}, 0.10, rel=2e-3),
    Row("1.5-a: 120 V, 10 A, efficiency 0.70, power factor one; a woodworker's page prints 1.1 hp", induction.alternating_shaft_power, {"V": 120, "I": 10, "k_p": 1, "eta": 0.70}, 1.13 * HORSEPOWER, rel=1e-2),
    Row("7.4: snubber of 0.1 µF at 120 V 60 Hz; derived", induction.capacitor_current, {"f": 60, "C": 0.1e-6, "V": 120}, 4.5e-3, abs=5e-5),
    Row("7.4: snubber of 0.1 µF at 230 V 50 Hz; derived", induction.capacitor_current, {"f": 50, "C": 0.1e-6, "V": 230}, 7.2e-3, abs=5e-5),
]  # fmt: skip

INVERTER = [
    Row("four poles, 1440 rpm at 50 Hz, so 840 rpm at 30 Hz and the same torque; examination question as answered on a physics forum (an answer book prints 864)", inverter.inverter_speed, {"f": 30, "p": 4, "f_n": 50, "s_n": 0.04}, rpm(840), rel=EXACT),
    Row("and back: 30 Hz for 840 rpm; the same", inverter.frequency_for_speed, {"omega": rpm(840), "p": 4, "f_n": 50, "s_n": 0.04}, 30.0, rel=EXACT),
    Row("two poles, 3560 rpm at 60 Hz, so 5060 rpm at 85 Hz; a solution sheet on drives, problem 9-5", inverter.inverter_speed, {"f": 85, "p": 2, "f_n": 60, "s_n": 40 / 3600}, rpm(5060), rel=EXACT),
    Row("440 V at 60 Hz is 366.7 V at 50 Hz for the same flux; a machines problem, worked by hand", inverter.volts_at_frequency, {"V_n": 440, "f_n": 60, "f": 50}, 366.7, abs=0.05),
    Row("15.5: breakdown of 61.11 N·m falls to 35 N·m at 1.321 of base; power-electronics textbook, 4th ed.", inverter.breakdown_above_base, {"T_b": 11.2e3 / rpm(1750), "b": 1.321}, 35.0, rel=2e-3),
]  # fmt: skip

CONVERTERS = "derived, checked by a simulation in time"
MOTOR_D = "study site's solved problem, numbers derived"
MOTOR_E = "power-electronics tutorial 5, derived"
PHASE = [
    *(
        Row(f"3.1-a: {name} on 120 V at {angle}°; {CONVERTERS}", one, {"V_s": 120, "alpha": radians(angle)}, volts, rel=1e-3, abs=1e-9)
        for name, one, figures in (
            ("semiconverter", triac.semiconverter_average, (108.0, 81.03, 54.02)),
            ("full converter", triac.full_converter_average, (108.0, 54.02, 0.0)),
            ("one thyristor", triac.half_wave_average, (54.02, 40.51, 27.01)),
        )
        for angle, volts in zip((0, 60, 90), figures, strict=True)
    ),
    Row(f"3.1-b: full converter at 45°; {CONVERTERS}", triac.full_converter_average, {"V_s": 120, "alpha": radians(45)}, 76.4, rel=1e-3),
    Row("C2: semiconverter at 60°, 0.2 H; simulated 81.00 V", triac.semiconverter_average, {"V_s": 120, "alpha": radians(60)}, 81.00, rel=1e-3),
    Row("C3: full converter at 45°, 0.2 H; simulated 76.39 V", triac.full_converter_average, {"V_s": 120, "alpha": radians(45)}, 76.39, rel=1e-3),
    Row("3.1-c: average of 230 V at 90°; electric drives textbook, example 2.11", triac.semiconverter_average, {"V_s": 230, "alpha": radians(90)}, 103.5, rel=2e-3),
    Row("3.1-c: its RMS value; the same", triac.triac_voltage, {"V_s": 230, "alpha": radians(90)}, 162.6, rel=2e-3),
    Row("3.1-c: its form factor; the same", triac.form_factor, {"V_rms": 162.6, "V": 103.5}, 1.571, rel=2e-3),
    Row(f"3.1-d: 260 V at 30°; {MOTOR_D}", triac.full_converter_average, {"V_s": 260, "alpha": radians(30)}, 202.7, rel=3e-3),
    Row(f"3.1-d: speed at 38 A; {MOTOR_D}", motor.speed_at_voltage, {"V": 202.7, "I": 38, "R": 0.3, "U_b": 0, "K_e": 0.182 / rpm(1)}, rpm(1051), rel=3e-3),
    Row(f"3.1-d: torque of 38 A; {MOTOR_D}", braking.armature_torque, {"K_t": 1.74, "I": 38}, 66.1, rel=3e-3),
    Row(f"3.1-d: power factor; {MOTOR_D}", triac.converter_power_factor, {"V": 202.7, "I": 38, "V_s": 260, "I_s": 38}, 0.780, rel=3e-3),
    Row(f"3.1-d: back-EMF over armature volts; {MOTOR_D}", controls.share_of_voltage, {"V": 202.7 - 38 * 0.3, "V_max": 202.7}, 0.944, rel=3e-3),
    Row(f"3.1-e: volts at 1000 rpm and 30 A; {MOTOR_E}", motor.terminal_voltage, {"K_e": 0.09 / rpm(1), "omega": rpm(1000), "I": 30, "R": 0.4, "U_b": 0}, 102.0, rel=EXACT),
    Row(f"3.1-e: angle; {MOTOR_E}", triac.full_converter_angle, {"V": 102, "V_s": 120}, radians(19.2), rel=5e-3),
    Row(f"3.1-e: power; {MOTOR_E}", motor.honest_power, {"V": 102, "I": 30, "eta": 1}, 3060.0, rel=EXACT),
    Row(f"3.1-e: power factor; {MOTOR_E}", triac.converter_power_factor, {"V": 102, "I": 30, "V_s": 120, "I_s": 30}, 0.85, rel=5e-3),
    Row(f"3.1-f: volts at 1200 rpm and 16 A; {MOTOR_E}", motor.terminal_voltage, {"K_e": 0.1 / rpm(1), "omega": rpm(1200), "I": 16, "R": 0.5, "U_b": 0}, 128.0, rel=EXACT),
    Row(f"3.1-f: angle; {MOTOR_E}", triac.full_converter_angle, {"V": 128, "V_s": 230}, radians(51.8), rel=5e-3),
    Row(f"3.1-f: power; {MOTOR_E}", motor.honest_power, {"V": 128, "I": 16, "eta": 1}, 2048.0, rel=EXACT),
    Row(f"3.1-f: power factor; {MOTOR_E}", triac.converter_power_factor, {"V": 128, "I": 16, "V_s": 230, "I_s": 16}, 0.557, rel=5e-3),
    *(
        Row(f"3.1-g: {angle}°; derived", triac.triac_voltage, {"V_s": 1, "alpha": radians(angle)}, share, rel=3e-3)
        for angle, share in ((30, 0.985), (45, 0.953), (60, 0.897), (90, 0.707), (120, 0.442), (135, 0.301), (150, 0.170))
    ),
    Row(f"14.3: line current at 82.2°; {SEMI}", triac.semiconverter_line_current, {"I": 50.23, "alpha": radians(82.2)}, 37.03, rel=1e-3),
    Row(f"14.3: power factor; {SEMI}", triac.converter_power_factor, {"V": 106.38, "I": 50.23, "V_s": 208, "I_s": 37.03}, 0.694, rel=1e-3),
    Row(f"14.3: its angle; {SEMI}", motor.continuous_firing_angle, {"V": 106.38, "V_s": 208}, radians(82.2), rel=1e-3),
    Row("3.2-a: 90 V from 120 V; derived", motor.continuous_firing_angle, {"V": 90, "V_s": 120}, radians(48.2), abs=radians(0.2)),
    Row("3.2-a: 90 V from 115 V; derived", motor.continuous_firing_angle, {"V": 90, "V_s": 115}, radians(42.4), abs=radians(0.2)),
    Row("3.2: 90 V from 108 V; derived", motor.continuous_firing_angle, {"V": 90, "V_s": 108}, radians(31.7), abs=radians(0.2)),
    Row("2.1-b: form factor of a bridge; textbook table, from memory", triac.form_factor, {"V_rms": 120, "V": 108.04}, 1.1107, rel=3e-3),
    Row("2.1-b: its ripple factor; textbooks print 0.482, exact 0.4834", triac.ripple_factor, {"F": 1.1107}, 0.4834, rel=3e-3),
    Row("2.1-b: the 0.482 of textbooks is that of 1.11; derived", triac.ripple_factor, {"F": 1.11}, 0.482, rel=1e-3),
    Row("B4: bridge on 20 ohm; simulated 119.9 V RMS over 107.96 V", triac.form_factor, {"V_rms": 119.9, "V": 107.96}, 1.1107, rel=2e-3),
    Row("7.4-a: capacitor for 1 A; derived from the article's rule, from memory", triac.snubber_capacitance, {"I": 1}, 0.1e-6, rel=EXACT),
    Row("7.4-a: resistor for 110 V and 1 A; derived, exponent", triac.snubber_resistance, {"V": 110, "I": 1}, 11.0, rel=1e-2),
    Row("7.4: resistor for 110 V and 0.1 A; derived, exponent", triac.snubber_resistance, {"V": 110, "I": 0.1}, 313.0, rel=1e-2),
]  # fmt: skip

ROWS = [*SERIES, *SHUNT, *INDUCTION, *INVERTER, *PHASE]
