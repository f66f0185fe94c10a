"""Published and derived figures of smoothing and of transformers.

The codes before the colon are those of a collection of check rows, each made from the source named behind it.
"""

from math import radians

from buildsheet.formulas import (
    braking,
    conductors,
    controls,
    motor,
    protection,
    signals,
    smoothing,
    transformer,
)
from tests.formulas.rows import CIRCULAR_MIL, EXACT, INCH, Row, celsius

RIPPLE = "electronic principles textbook, 7th ed., example 4.8"
FILTER = "power-electronics textbook, 4th ed., example 3.12"
RULE = "transformer maker's rule"
B7 = "derived for IEC 60204-1, 6.2.4"
SMOOTHING = [
    Row(f"2.2-a: peak behind 24 V; {RIPPLE}", smoothing.capacitor_peak, {"V": 24, "U_d": 0}, 34.0, rel=1e-2),
    Row(f"2.2-a: ripple; {RIPPLE}", smoothing.full_wave_ripple, {"I": 34 / 5000, "f": 60, "C": 100e-6}, 0.57, rel=1e-2),
    Row("B3: the same circuit, mean; simulated 33.62 V", smoothing.mean_after_ripple, {"V_m": 33.94, "U_r": 0.57}, 33.62, rel=5e-3),
    Row("2.2-b: 5 A on 10 000 µF; derived", smoothing.full_wave_ripple, {"I": 5, "f": 60, "C": 10e-3}, 4.17, rel=5e-3),
    Row("2.2-b: 4.17 V take 10 000 µF; derived", smoothing.capacitance_for_ripple, {"I": 5, "f": 60, "U_r": 4.17}, 10e-3, rel=5e-3),
    Row("B: 4.71 A on 1000 µF; derived beside a simulation of 29.3 V", smoothing.full_wave_ripple, {"I": 4.71, "f": 60, "C": 1e-3}, 39.3, rel=5e-3),
    Row(f"2.2-c: capacitor for 5 %; {FILTER}", smoothing.capacitance_for_ripple_factor, {"f": 60, "R": 500, "r": 0.05}, 126.2e-6, rel=5e-3),
    Row(f"2.2-c: mean; {FILTER}", smoothing.mean_on_resistance, {"V_m": 169.7, "f": 60, "R": 500, "C": 126.2e-6}, 158.5, rel=5e-3),
    Row("B2: the same circuit, mean; simulated 161.0 V, so the book is on the low side", smoothing.mean_on_resistance, {"V_m": 169.7, "f": 60, "R": 500, "C": 126.2e-6}, 161.0, rel=2e-2),
    Row("2.2-d: 10 % of ripple; derived", smoothing.conduction_angle, {"V_m": 1, "U_r": 0.1}, radians(25.8), rel=5e-3),
    Row("2.2-d: as a time at 60 Hz; derived", smoothing.angle_time, {"theta": radians(25.84), "f": 60}, 1.20e-3, rel=5e-3),
    Row("2.4: 4.71 A direct are 10.2 A from the line; simulated", smoothing.rectifier_current, {"I_d": 4.71, "k": 2.17}, 10.2, rel=5e-3),
    Row("4.5-c: factor 1.93 on 5 A; simulated 9.64 A", smoothing.rectifier_current, {"I_d": 5, "k": 1.93}, 9.64, rel=4e-2),
    Row("4.7: a 10 A autotransformer feeds about 4.5 A through a bridge with capacitor, factor 2.2; derived", smoothing.rectifier_current, {"I_d": 4.5, "k": 2.2}, 10.0, rel=2e-2),
    Row(f"4.5-a: volts; {RULE}", smoothing.rectifier_voltage, {"V_d": 24, "k": 0.8}, 20.8, rel=1e-2),
    Row(f"4.5-a: current; {RULE}", smoothing.rectifier_current, {"I_d": 5, "k": 1.8}, 9.0, rel=1e-2),
    Row(f"4.5-a: rating; {RULE}", smoothing.rectifier_rating, {"P_d": 120, "I_d": 5, "k": 1.4}, 182.0, rel=1e-2),
    Row(f"4.5-b: volts; {RULE}", smoothing.rectifier_voltage, {"V_d": 90, "k": 1.1}, 101.0, rel=1e-2),
    Row(f"4.5-b: current; {RULE}", smoothing.rectifier_current, {"I_d": 5, "k": 1.1}, 5.5, rel=1e-2),
    Row(f"4.5-b: rating; {RULE}", smoothing.rectifier_rating, {"P_d": 450, "I_d": 5, "k": 1.2}, 552.0, rel=1e-2),
    Row("2.5-a: 0.3 ohm; derived", smoothing.inrush_peak, {"V_m": 169.7, "R_s": 0.3, "R": 0}, 566.0, rel=5e-3),
    Row("2.5-b: 10 ohm; derived", smoothing.inrush_peak, {"V_m": 169.7, "R_s": 0, "R": 10}, 17.0, rel=5e-3),
    Row("2.5-b: let-through; derived", smoothing.inrush_let_through, {"V_m": 169.7, "C": 1e-3, "R": 10}, 1.44, rel=5e-3),
    Row("2.5-c: 220 V on 44 ohm; power-electronics textbook, 4th ed., example 2.4", smoothing.inrush_peak, {"V_m": 220, "R_s": 0, "R": 44}, 5.0, rel=2e-3),
    Row("2.6-c: 470 µF to 60 V in 5 s; derived", smoothing.bleeder_resistance, {"t": 5, "C": 470e-6, "V_0": 169.7, "V_s": 60}, 10.2e3, rel=5e-3),
    Row("2.6-d: 2200 µF to 50 V in 60 s; derived", smoothing.bleeder_resistance, {"t": 60, "C": 2200e-6, "V_0": 169.7, "V_s": 50}, 22.3e3, rel=5e-3),
    Row(f"B7: 1000 µF, 170 V to 60 V in 5 s; {B7}", smoothing.bleeder_resistance, {"t": 5, "C": 1e-3, "V_0": 170, "V_s": 60}, 4.80e3, rel=5e-3),
    Row(f"B7: rating of that bleeder; {B7}", smoothing.bleeder_rating, {"V": 170, "R": 4.80e3}, 12.0, rel=1e-2),
    Row(f"B7: its heat; {B7}", controls.divider_power, {"V": 170, "R": 4.80e3}, 6.0, rel=1e-2),
    Row(f"B7: at the worst corner, 187 V and 1200 µF; {B7}", smoothing.bleeder_resistance, {"t": 5, "C": 1.2e-3, "V_0": 187, "V_s": 60}, 3.67e3, rel=5e-3),
    Row(f"B7: its heat; {B7}", controls.divider_power, {"V": 187, "R": 3.67e3}, 9.5, rel=5e-3),
    Row("B7: 50 V in 60 s; derived for NEC 460.6", smoothing.bleeder_resistance, {"t": 60, "C": 1e-3, "V_0": 170, "V_s": 50}, 49e3, rel=5e-3),
    Row("B7: its heat; derived for NEC 460.6", controls.divider_power, {"V": 170, "R": 49e3}, 0.6, abs=0.05),
    Row("B7: 1000 µF at 170 V; derived", controls.stored_energy, {"C": 1e-3, "V": 170}, 14.5, abs=0.05),
    Row("4.8: oven capacitor of 1 µF at the peak of 2 kV; derived", controls.stored_energy, {"C": 1e-6, "V": 2828}, 4.0, rel=1e-2),
    Row("7.4: bridge of 200 A over half a sine of 60 Hz; derived", smoothing.surge_let_through, {"I_m": 200, "t": 8.33e-3}, 167.0, rel=5e-3),
    Row("7.4-b: 30 A from 169.7 V; derived", smoothing.thermistor_resistance, {"V_m": 169.7, "I": 30}, 5.66, rel=5e-3),
    Row("7.4-b: joules of the thermistor; derived", controls.stored_energy, {"C": 1e-3, "V": 169.7}, 14.4, rel=5e-3),
]  # fmt: skip

STACK = (1.5 * INCH) ** 2 * 0.95
BOOK_EMF = "basic electrical engineering textbook, example 7.10"
SQUARE = (1.25 * INCH) ** 2
CM2 = 1e-4
TRANSFORMER = [
    Row("pulses: half-way between two measured points; derived", signals.pulse_width, {"V": 57.0, "V_1": 18.0, "w_1": 5e-3, "V_2": 96.0, "w_2": 40e-3}, 22.5e-3, rel=1e-9),
    Row("pulses: 10 ms of 50 ms; derived", signals.duty_of_pulse, {"w": 10e-3, "T": 50e-3}, 0.2, rel=1e-9),
    Row("trade: 5 V on a coupler of 1.2 V and 10 mA wants 380 ohm; common practice, no source", signals.signal_resistor, {"V": 5.0, "U": 1.2, "I": 10e-3}, 380.0, rel=1e-9),
    Row("pulses: a fifth of 5 V is 1 V on a meter; derived", signals.mean_of_pulse, {"V": 5.0, "D": 0.2}, 1.0),
    Row("pulses: 5 V for 3 ms of 8 ms are 1.875 V on a meter; area over period, derived", signals.duty_of_mean, {"V": 15e-3 / 8e-3, "V_l": 5.0}, 3 / 8, rel=EXACT),
    Row("pulses: a timer chip's square wave, half on, 6 V on a meter, is one of 12 V; textbook exercise, from memory", signals.level_of_pulse, {"V": 6.0, "D": 0.5}, 12.0, rel=EXACT),
    Row("pulses: 7.5 % at 50 Hz is the middle of a hobby servo, 1.5 ms; trade figure, from memory", signals.width_of_duty, {"D": 0.075, "f": 50.0}, 1.5e-3, rel=EXACT),
    Row("brakes: twice the plate's 5 A; common practice, no source", braking.largest_braking_current, {"I_n": 5.0, "k": 2.0}, 10.0),
    Row("brakes: 2 s down to 5 %, and 5 % of a coast of 10 s; derived", braking.braked_standstill, {"t_b": 2.0, "t_c": 10.0, "p": 0.05}, 2.5),
    Row("brakes: 277 J that die away with half of 0.96 s are 578 W at first, a fifth of it as rating; derived", braking.pulse_rating, {"W": 277.4, "tau": 0.959, "k": 5.0}, 115.7, rel=1e-3),
    Row("1.1-a: a 10 V motor of 1.5 ohm that stands; exercise data, figure derived", motor.standstill_current, {"V": 10.0, "R_1": 1.5, "R_2": 0.0, "U_b": 0.0}, 6.667, rel=1e-3),
    Row("2.5-b: 17 A that die away with 10 ms are 1.44 A²s, which a fuse of 1 A with 1.44 s lets pass; derived", protection.fuse_for_run_up, {"I_s": 16.97, "tau": 0.010, "k": 1.44}, 1.0, rel=5e-3),
    Row("trade: 120 V on 100 turns are 1.2 V a turn, so 50 turns give 60 V; common practice, no source", transformer.open_voltage, {"N": 50, "v": 1.2}, 60.0),
    Row("trade: the same the other way round; common practice, no source", transformer.turns_at, {"V": 60.0, "v": 1.2}, 50.0),
    Row("4.4: 10 V at full load, 10 % of regulation; a toroid maker's page", transformer.voltage_without_load, {"V": 10.0, "r": 0.1}, 11.0),
    Row("4.1: ten to one in turns is a hundred to one in ohms; derived", transformer.referred_resistance, {"R": 5.0, "V_1": 240.0, "V_2": 24.0}, 0.05, rel=1e-9),
    Row("4.3: 57 turns of 4 mm² in a window of 20 by 38 mm; derived", transformer.fill_of_window, {"N": 57, "a": 4e-6, "A_w": 20e-3 * 38e-3}, 0.3),
    Row("4.3: that window; derived", transformer.window_area, {"w": 20e-3, "h": 38e-3}, 760e-6),
    Row("trade: a 24 V motor on half its volts turns at about half its speed; common practice, no source", transformer.speed_share, {"E": 24.0, "E_1": 12.0}, 0.5),
    Row("3.2: an ideal bridge gives 108.04 V from 120 V; derived", transformer.bridge_input_voltage, {"V": 108.04, "U_d": 0}, 120.0, rel=1e-4),
    Row(f"2.2-a: 34 V behind a capacitor from 24 V; {RIPPLE}", transformer.capacitor_input_voltage, {"V": 34.0, "U_d": 0}, 24.0, rel=5e-3),
    Row("2.1: 400 V diodes for a 120 V line, 10 % above; common practice", transformer.bridge_blocking_voltage, {"V_m": 186.7}, 400.0, rel=0.08),
    Row("trade: 120 V on 100 turns, 50 turns give 60 V, so 2 A ahead are 4 A behind; common practice, no source", transformer.secondary_current, {"I_1": 2.0, "V_1": 120.0, "V_2": 60.0}, 4.0),
    Row("trade: 16 V from 115 V are 16.7 V from 120 V; common practice, no source", transformer.voltage_on_other_line, {"V": 16.0, "V_m": 115.0, "V_n": 120.0}, 16.7, abs=0.05),
    Row("4.3-a: 28 turns of 35.5 mΩ at 10 A lose 3.55 W; derived", transformer.transformer_loss, {"I": 10.0, "R": 0.0355, "P_0": 0.0}, 3.55, rel=1e-2),
    Row("B7: 1000 µF with its tolerance are 1200 µF; derived", transformer.largest_capacitance, {"C": 1e-3, "p": 0.2}, 1.2e-3),
    Row("4.4: 11 V fall to 10 V at 2 A; derived", transformer.resistance_by_regulation, {"V": 10.0, "r": 0.1, "I": 2.0}, 0.5),
    Row("IEC 60063: E12 values lie within 10 % of their marks; derived", transformer.resistance_with_tolerance, {"R": 2970.0, "p": 0.1}, 2700.0),
    Row(f"4.1-a: 495 turns on 0.05 m² for 6600 V; {BOOK_EMF}", transformer.winding_emf, {"f": 50, "N": 495, "B": 1.2, "A": 0.05}, 6600.0, rel=1 / 495),
    Row(f"4.1-a: 16.5 turns for 220 V; {BOOK_EMF}", transformer.winding_emf, {"f": 50, "N": 16.5, "B": 1.2, "A": 0.05}, 220.0, rel=2e-3),
    Row(f"4.1-a: turns for a volt; {BOOK_EMF}", transformer.turns_per_volt, {"f": 50, "B": 1.2, "A": 0.05}, 495 / 6600, rel=1 / 495),
    Row(f"4.1-a: turns of the secondary; {BOOK_EMF}", transformer.turns_for_voltage, {"V": 220, "n": 495 / 6600}, 16.5, rel=EXACT),
    Row("4.1: 37.5 over tesla and cm² at 60 Hz; derived", transformer.turns_per_volt, {"f": 60, "B": 1, "A": CM2}, 37.5, rel=1e-3),
    Row("4.1: 45.0 over tesla and cm² at 50 Hz; derived", transformer.turns_per_volt, {"f": 50, "B": 1, "A": CM2}, 45.0, rel=1e-3),
    Row("4.1: 800 turns over the square inches for 120 V are 0.87 T; a page on salvaged cores", transformer.turns_per_volt, {"f": 60, "B": 0.87, "A": INCH**2}, 800 / 120, rel=5e-3),
    Row("4.1-b: 6.85 over the square inches, 0.85 T; a public transformer handbook", transformer.turns_per_volt, {"f": 60, "B": 0.85, "A": SQUARE}, 4.38, rel=3e-3),
    Row("4.1-b: turns at 220 V; a public transformer handbook", transformer.turns_for_voltage, {"V": 220, "n": 6.85 / 1.5625}, 965.0, rel=3e-3),
    Row("4.1-b: turns at 110 V; a public transformer handbook", transformer.turns_for_voltage, {"V": 110, "n": 6.85 / 1.5625}, 482.0, rel=3e-3),
    Row("4.1-c: net iron of 1.5 × 1.5 in; derived", transformer.net_iron, {"a": 1.5 * INCH, "b": 1.5 * INCH, "k": 0.95}, 13.79 * CM2, rel=3e-3),
    Row("4.1-c: turns for a volt; derived", transformer.turns_per_volt, {"f": 60, "B": 1.2, "A": STACK}, 2.27, rel=3e-3),
    Row("4.1-c: turns at 120 V; derived", transformer.turns_for_voltage, {"V": 120, "n": 2.267}, 272.0, rel=3e-3),
    Row("4.1-d: the same core on 50 Hz, turns at 230 V make 230 V; derived", transformer.winding_emf, {"f": 50, "N": 626, "B": 1.2, "A": STACK}, 230.0, rel=3e-3),
    Row("4.1: a core for 60 Hz takes 1.2 times the turns on 50 Hz; derived", transformer.turns_per_volt, {"f": 50, "B": 1.2, "A": STACK}, 1.2 * 2.267, rel=3e-3),
    Row("4.2-a: 5 × 3 cm; an audio-kit article", transformer.core_rating, {"k": 0.64e8, "A": 15 * CM2}, 144.0, rel=EXACT),
    *(
        Row(f"4.2-b: 10.08 cm², k {k}; {source}", transformer.core_rating, {"k": k * 1e8, "A": 10.08 * CM2}, rating, rel=1e-2)
        for k, rating, source in ((0.64, 65, "an audio-kit article"), (0.75, 76, "the square-inch rule, from memory"), (0.83, 84, "a transformer spreadsheet"), (1.0, 102, "a transformer spreadsheet"))
    ),
    Row("4.3-b: 10 A at 3 A/mm²; derived", transformer.winding_wire_area, {"I": 10, "j": 3e6}, 3.33e-6, rel=2e-3),
    *(
        Row(f"4.3: {mils} circular mils for an ampere are {j} A/mm²; derived", transformer.winding_wire_area, {"I": 1, "j": j * 1e6}, mils * CIRCULAR_MIL, rel=3e-3)
        for mils, j in ((1000, 1.97), (700, 2.82), (500, 3.95))
    ),
    *(
        Row(f"1A: {gauge} AWG of {area} mm²; ASTM B258-02", transformer.bare_diameter, {"a": area * 1e-6}, mm / 1000, abs=0.6e-6)
        for gauge, mm, area in ((20, 0.812, 0.518), (16, 1.291, 1.309), (12, 2.053, 3.309), (10, 2.588, 5.261))
    ),
    Row("4.3-a: 28 turns of 0.20 m; derived", transformer.winding_length, {"N": 28, "l_m": 0.20}, 5.6, rel=EXACT),
    Row("4.3-a: its resistance at 75 °C; derived", conductors.copper_resistance, {"l": 5.6, "A": 3.31e-6, "T": celsius(75)}, 35.5e-3, rel=1e-2),
    Row("4.3-a: loss at 10 A; derived", motor.copper_loss, {"I_rms": 10, "R": 35.5e-3}, 3.55, rel=1e-2),
    Row("4.4: 11 V to 10 V; a toroid maker's page", transformer.regulation, {"V_nl": 11, "V_fl": 10}, 0.100, rel=1e-9),
    Row("4.4: 3/4 of 500 kVA; textbook Electric Machinery and Transformers, 2nd ed., example 14-24", transformer.transformer_efficiency, {"S": 500e3, "x": 0.75, "k_p": 1, "P_i": 1800, "P_c": 8200}, 0.9832, abs=5e-5),
    Row("4.4: 6.3 V against 5.0 V; the same book, example 14-32", transformer.circulating_current, {"V_1": 6.3, "V_2": 5.0, "R_1": 0.2, "R_2": 0.15}, 3.71, abs=0.005),
    Row("4.4: rated current of that part; the same book, example 14-32", transformer.winding_rated_current, {"S": 10, "V": 11.3}, 0.885, abs=5e-4),
    Row("4.4: which is 420 % of it; the same book, example 14-32", transformer.multiple_of_primary, {"I_n": 0.885, "k": 4.20}, 3.71, abs=0.01),
    Row("4.5-a: 20.8 V and 9.0 A; derived from a transformer maker's rule", transformer.apparent_power, {"V": 20.8, "I": 9.0}, 187.0, rel=1e-2),
    Row("4.5-b: 101 V and 5.5 A; derived from a transformer maker's rule", transformer.apparent_power, {"V": 101.2, "I": 5.5}, 557.0, rel=1e-2),
    Row("4.5-c: 24 V and 9.64 A; simulated", transformer.apparent_power, {"V": 24, "I": 9.64}, 231.0, rel=4e-2),
    Row("4.6-a: ten turns read 8.70 V, line at its nominal voltage; derived", transformer.volts_per_turn, {"V_t": 8.70, "N": 10, "V_n": 120, "V_p": 120}, 0.870, rel=EXACT),
    Row("4.6-a: 24 V and 5 %; derived", transformer.turns_with_allowance, {"V": 24, "v": 0.870, "p": 0.05}, 29.0, abs=1.0),
    Row("4.6: five turns a little over 4 V, 0.85 V for each; a hobby kit page", transformer.volts_per_turn, {"V_t": 4.25, "N": 5, "V_n": 120, "V_p": 120}, 0.85, rel=EXACT),
    Row("4.7-a: line current; derived", transformer.auto_line_current, {"I_2": 5, "x": 0.75}, 3.75, rel=EXACT),
    Row("4.7-a: common current; derived", transformer.auto_common_current, {"I_2": 5, "x": 0.75}, 1.25, rel=EXACT),
    Row("4.7-a: through; derived", transformer.apparent_power, {"V": 90, "I": 5}, 450.0, rel=EXACT),
    Row("4.7-a: built; derived from a transformer maker's glossary", transformer.auto_built_rating, {"V_2": 90, "I_2": 5, "x": 0.75}, 112.5, rel=EXACT),
    Row("4.7-a: dial for 90 V; derived", transformer.dial_fraction, {"V": 90, "V_1": 120}, 0.75, rel=EXACT),
    Row("4.7-b: rated current of 10 kVA at 120 V; machines textbook, from memory", transformer.winding_rated_current, {"S": 10e3, "V": 120}, 83.33, rel=1e-4),
    Row("4.7-b: 1320/1200 V; machines textbook, from memory", transformer.boost_through_rating, {"V_1": 1200, "V_s": 120, "I": 10e3 / 120}, 110e3, rel=EXACT),
    Row("4.7: tap at 117 % of 120 V; usual variable autotransformers give 140 V, from memory", transformer.end_stop_voltage, {"V_1": 120, "x": 1.17, "p": 0}, 140.0, rel=5e-3),
]  # fmt: skip

ROWS = [*SMOOTHING, *TRANSFORMER]
