"""Published and derived figures of direct-current motors, of speed references, stored charge and cooling.

The codes before the colon are those of a collection of check rows, each made from the source named behind it; the
derivations there are older than this package. "derived" means from textbook relations, by hand or by a simulation.
"""

from math import hypot, radians

from buildsheet.formulas import controls as c
from buildsheet.formulas import cooling as k
from buildsheet.formulas import motor as m
from buildsheet.formulas import protection as p
from buildsheet.formulas import starting as b
from tests.formulas.rows import (
    CUBIC_FOOT_PER_MINUTE,
    EXACT,
    HORSEPOWER,
    INCH,
    Row,
    celsius,
    rpm,
)

K = 0.4567  # V·s/rad of the motor of row 1.2
HOUR = 3600.0
SLIPS = "an exercise of a homework site, its figures derived"

CONSTANTS = [
    Row(f"1.1-a: no-load speed; {SLIPS}", m.speed_at_voltage, {"V": 10, "I": 0, "R": 1.5, "U_b": 0, "K_e": 12 / rpm(1000)}, rpm(833.3), rel=5e-3),
    Row(f"1.1-a: held current; {SLIPS}", m.held_rotor_current, {"V": 10, "R": 1.5}, 6.667, rel=5e-3),
    Row(f"1.1-a: current of the held torque; {SLIPS}", m.armature_current, {"T": 0.8, "K_t": 0.12, "I_0": 0}, 6.667, rel=5e-3),
    Row(f"1.1-a: current at 0.6 N·m; {SLIPS}", m.armature_current, {"T": 0.6, "K_t": 0.12, "I_0": 0}, 5.0, rel=5e-3),
    Row(f"1.1-a: speed at 5 A; {SLIPS}", m.speed_at_voltage, {"V": 10, "I": 5, "R": 1.5, "U_b": 0, "K_e": 12 / rpm(1000)}, rpm(208.3), rel=5e-3),
    Row("1.1-b: 460 V at 120 A; a tutor site", m.back_emf, {"V": 460, "I": 120, "R": 0.15, "U_b": 0}, 442.0, rel=EXACT),
    Row("1.1-b: 460 V at 84.0 A; a tutor site", m.back_emf, {"V": 460, "I": 84.0, "R": 0.15, "U_b": 0}, 447.4, rel=EXACT),
    Row("1.1-c: textbook chapter on DC motors, example 2.1", m.back_emf, {"V": 220, "I": 30, "R": 0.75, "U_b": 0}, 197.5, rel=EXACT),
    Row("1.1-d: at 500 rpm, from 90 V at 1200 rpm; forum data, derived", m.emf_at_speed, {"K_e": 90 / rpm(1200), "omega": rpm(500)}, 37.5, rel=EXACT),
    Row("1.1-d: 0.80 ohm in series holds twice 50 A; forum thread", m.held_rotor_current, {"V": 100, "R": 0.2 + 0.80}, 100.0, rel=EXACT),
    Row("1.2-a: derived", m.back_emf_constant, {"E": 82.5, "omega": rpm(1725)}, 0.4567, rel=2e-3),
    Row("1.2-a: volts for 1000 rpm; derived", m.emf_at_speed, {"K_e": K, "omega": rpm(1000)}, 47.83, rel=2e-3),
    Row("1.2-a: speed for one volt; derived", m.speed_of_emf, {"E": 1, "K_e": K}, rpm(20.91), rel=2e-3),
    Row("1.2-a: 64.7 oz·in for an ampere; derived", m.torque_constant, {"K_e": K}, 64.7 * 4.4482216152605 / 16 * INCH, rel=2e-3),
    Row("1.2-b: loss torque; derived", m.loss_torque, {"K_t": K, "I_0": 0.481}, 0.2195, rel=5e-3),
    Row("1.2-b: loss current; derived", m.loss_current, {"E": 82.5, "I": 5, "P": 0.5 * HORSEPOWER}, 0.481, rel=5e-3),
    Row("1.2-b: no-load speed; derived", m.speed_at_voltage, {"V": 90, "I": 0.481, "R": 1.5, "U_b": 0, "K_e": K}, rpm(1867), rel=5e-3),
    Row("1.2-b: constant of that free run; derived", m.free_run_constant, {"V": 90, "I_0": 0.481, "R": 1.5, "U_b": 0, "omega_0": rpm(1867)}, 0.4567, rel=5e-3),
    Row("1.2-b: held current; derived", m.held_rotor_current, {"V": 90, "R": 1.5}, 60.0, rel=5e-3),
    Row("1.2-b: current of the held torque; derived", m.armature_current, {"T": 27.18, "K_t": K, "I_0": 0.481}, 60.0, rel=5e-3),
    Row("1.2-c: efficiency of the plate; derived", m.plate_efficiency, {"P": 0.5 * HORSEPOWER, "V": 90, "I": 5}, 0.829, rel=5e-3),
    Row("1.2-d: rated torque on 45 V; derived", m.speed_at_voltage, {"V": 45, "I": 5, "R": 1.5, "U_b": 0, "K_e": K}, rpm(784), rel=5e-3),
    Row("1.2-d: volts for 784 rpm and 5 A; derived", m.terminal_voltage, {"K_e": K, "omega": rpm(784), "I": 5, "R": 1.5, "U_b": 0}, 45.0, rel=5e-3),
    Row("1.3-a: slope of two held readings; derived", m.slope_resistance, {"V_1": 3.2, "I_1": 1.0, "V_2": 6.2, "I_2": 3.0}, 1.50, rel=EXACT),
    Row("1.3-a: what the slope leaves; derived", m.brush_drop, {"V_1": 3.2, "I_1": 1.0, "R": 1.5}, 1.7, rel=EXACT),
    Row("1.3-b: turned by a drill; derived", m.back_emf_constant, {"E": 47.83, "omega": rpm(1000)}, 0.4567, rel=1e-3),
    Row("1.4-a: 80 ohm at 20 °C is 100 ohm after a rise of 63.6 K; physics forum", m.resistance_at_temperature, {"R_1": 80, "T_1": celsius(20), "T_2": celsius(20 + 63.6)}, 100.0, rel=2e-3),
    Row("1.4-b: derived", m.resistance_at_temperature, {"R_1": 1.5, "T_1": celsius(25), "T_2": celsius(100)}, 1.934, rel=2e-3),
    Row("1.4-c: 60.3 K over 27 °C; derived", m.resistance_at_temperature, {"R_1": 1.5, "T_1": celsius(25), "T_2": celsius(27 + 60.3)}, 1.86, rel=5e-3),
    Row("1.5-a: power in, 'peak' label; a woodworker's page prints 1.6 hp", m.honest_power, {"V": 120, "I": 10, "eta": 1.0}, 1.61 * HORSEPOWER, rel=1e-2),
    Row("1.5-a: power out; the same prints 1.1 hp", m.honest_power, {"V": 120, "I": 10, "eta": 0.7}, 1.13 * HORSEPOWER, rel=1e-2),
    Row("1.5-b: 4.5 hp would need 28 A even without losses; a forum test", p.current_of_power, {"P": 4.5 * HORSEPOWER, "V": 120}, 28.0, rel=1e-2),
    Row("1.5-c: most from 120 V and 15 A; derived", m.honest_power, {"V": 120, "I": 15, "eta": 0.7}, 1.69 * HORSEPOWER, rel=3e-3),
    Row("1.6-a: 0.25 H from its 94.25 ohm at 60 Hz; exam solution", m.winding_inductance, {"V": 0.6 * hypot(20, 94.25), "I": 0.6, "R": 20, "f": 60}, 0.25, rel=5e-3),
    Row("3.5-e: torque ×0.75 on form factor 1.40; derived", m.current_derated_by_form_factor, {"I_rated": 1, "F_rated": 1.05, "F": 1.40}, 0.75, rel=EXACT),
    Row("3.5-e: heat ×1.778; derived", m.copper_loss, {"I_rms": 1.40 / 1.05, "R": 1}, 1.778, rel=5e-4),
    Row("3.5-a: 5 A at form factor 1.455; two simulations: 7.28 and 7.27 A", p.current_by_heat, {"I": 5, "F": 1.455}, 7.28, rel=2e-2),
    Row("8-h: 0.5 hp at 75 % from 12 V; derived", p.current_of_power, {"P": 0.5 * HORSEPOWER / 0.75, "V": 12}, 41.4, rel=5e-3),
    Row("9-c: peak in the brake resistor; derived, simulated", m.copper_loss, {"I_rms": 8.25, "R": 8.5}, 579.0, rel=5e-3),
    Row("9-d: with 40 ohm; value of a drive manual, derived", m.copper_loss, {"I_rms": 1.988, "R": 40}, 158.0, rel=5e-3),
    Row("A9: drip-proof DC motor, 60 % of 1725 rpm; a maker's table", m.lowest_speed_on_own_fan, {"omega": rpm(1725), "n_share": 0.60}, rpm(1035), rel=EXACT),
]  # fmt: skip

LINE = [
    Row("2.1-a: peak of 120 V; derived", p.peak_voltage, {"V": 120}, 169.7, rel=5e-4),
    Row("2.1-a: bridge on 120 V; derived, simulated 107.96", p.full_bridge_average, {"V": 120, "U_d": 0}, 108.04, rel=5e-4),
    Row("2.1-c: 120 V and 10 %; derived", p.highest_voltage, {"V": 120, "p": 0.10}, 132.0, rel=1e-3),
    Row("2.1-c: peak of that; derived", p.peak_voltage, {"V": 132}, 186.7, rel=1e-3),
    Row("2.3: two junctions of 1.1 V at 5 A; derived", k.bridge_loss, {"U_d": 2.2, "I": 5}, 11.0, rel=EXACT),
    Row("2.3: two junctions of 1.0 V at 25 A; derived", k.bridge_loss, {"U_d": 2.0, "I": 25}, 50.0, rel=EXACT),
    Row("2.5-b: 1000 µF at 169.7 V; simulated 14.40 J", c.stored_energy, {"C": 1000e-6, "V": 169.7}, 14.4, rel=5e-3),
    Row("2.5-c: power-electronics textbook, 4th ed., example 2.4", c.stored_energy, {"C": 0.1e-6, "V": 220}, 2.42e-3, rel=2e-3),
    Row("2.5-c: the same, 139.6 V left after 2 µs", c.discharge_time, {"R": 44, "C": 0.1e-6, "V_0": 220, "V_s": 139.6}, 2e-6, rel=2e-3),
    Row("2.6-a: bleeder design sheet", c.discharge_time, {"R": 50, "C": 195e-6, "V_0": 1500, "V_s": 320}, 15.06e-3, rel=1e-3),
    Row("2.6-a: energy; the same", c.stored_energy, {"C": 195e-6, "V": 1500}, 219.4, rel=1e-3),
    Row("2.6-a: power at first; the same", c.divider_power, {"V": 1500, "R": 50}, 45e3, rel=1e-3),
    Row("2.6-b: to 50 V; derived", c.discharge_time, {"R": 10e3, "C": 2200e-6, "V_0": 169.7, "V_s": 50}, 26.9, rel=5e-3),
    Row("2.6-b: to 60 V; derived", c.discharge_time, {"R": 10e3, "C": 2200e-6, "V_0": 169.7, "V_s": 60}, 22.9, rel=5e-3),
    Row("2.6-b: heat of the bleeder; derived", c.divider_power, {"V": 169.7, "R": 10e3}, 2.88, rel=5e-3),
    Row("2.6-c: 10.2 kohm brings it to 60 V in 5 s; derived", c.discharge_time, {"R": 10.2e3, "C": 470e-6, "V_0": 169.7, "V_s": 60}, 5.0, rel=5e-3),
    Row("2.6-c: heat of the bleeder; derived", c.divider_power, {"V": 169.7, "R": 10.2e3}, 2.8, rel=1e-2),
    Row("2.6-d: 22.3 kohm brings it to 50 V in 60 s; derived", c.discharge_time, {"R": 22.3e3, "C": 2200e-6, "V_0": 169.7, "V_s": 50}, 60.0, rel=5e-3),
    Row("E6.4: 4.80 kohm, 170 V to 60 V in 5 s after IEC 60204-1, 6.2.4; computed", c.discharge_time, {"R": 4.80e3, "C": 1000e-6, "V_0": 170, "V_s": 60}, 5.0, rel=5e-3),
    Row("3.2: 90 V is 0.75 of the line; pairing of motor and line in two drive manuals", c.share_of_voltage, {"V": 90, "V_max": 120}, 0.75, rel=EXACT),
    Row("3.2: 108 V is the line less 10 %; the same", p.lowest_voltage, {"V": 120, "p": 0.10}, 108.0, rel=EXACT),
]  # fmt: skip

KNOB = [
    Row("5-d: 10 kohm, 10 to 85 %; derived", c.divider_total, {"R_p": 10e3, "a": 0.10, "b": 0.85}, 13.33e3, rel=1e-3),
    Row("5-d: low end; derived", c.bottom_resistor, {"R_s": 13.33e3, "a": 0.10}, 1.333e3, rel=1e-3),
    Row("5-d: high end; derived", c.top_resistor, {"R_s": 13.33e3, "b": 0.85}, 2.000e3, rel=1e-3),
    Row("5-e: 5 kohm, 20 to 90 %; derived", c.divider_total, {"R_p": 5e3, "a": 0.20, "b": 0.90}, 7.143e3, rel=1e-3),
    Row("5-e: low end; derived", c.bottom_resistor, {"R_s": 7.143e3, "a": 0.20}, 1.429e3, rel=1e-3),
    Row("5-e: high end; derived", c.top_resistor, {"R_s": 7.143e3, "b": 0.90}, 714.0, rel=1e-3),
    Row("5-g: 1 kohm at 200 V is a 40 W part; a physics problem site", c.divider_power, {"V": 200, "R": 1e3}, 40.0, rel=EXACT),
]  # fmt: skip

COOLING = [
    Row("6.1-a: worked example of an enclosure calculation sheet after VDE 0660 part 500", k.free_box_area, {"h": 2.0, "w": 0.8, "d": 0.6}, 5.712, rel=EXACT),
    Row("6.1-b: free; derived", k.free_box_area, {"h": 0.40, "w": 0.30, "d": 0.20}, 0.444, rel=5e-3),
    Row("6.1-b: on a wall; derived", k.wall_box_area, {"h": 0.40, "w": 0.30, "d": 0.20}, 0.396, rel=5e-3),
    Row("6.1-b: rise, free; derived", k.box_rise, {"P": 40, "k": 5.5, "A": 0.444}, 16.4, rel=5e-3),
    Row("6.1-b: rise, on a wall; derived", k.box_rise, {"P": 40, "k": 5.5, "A": 0.396}, 18.4, rel=5e-3),
    Row("6.1-c: area of a 48 × 36 × 16 in box; derived", k.free_box_area, {"h": 48 * INCH, "w": 36 * INCH, "d": 16 * INCH}, 3.42, rel=5e-3),
    Row("6.1-c: 300 W in that box by a distributor's chart: 30 °F", k.box_rise, {"P": 300, "k": 5.5, "A": 3.42}, 16.7, rel=8e-2),
    Row("6.2-a: 200 W at 10 K; derived", k.air_flow, {"P": 200, "dT": 10, "k_h": 1}, 35.1 * CUBIC_FOOT_PER_MINUTE, rel=2e-2),
    Row("6.2-a: the same in m³/h; derived", k.air_flow, {"P": 200, "dT": 10, "k_h": 1}, 59.6 / HOUR, rel=2e-2),
    Row("6.2-b: 100 W at 35 K; derived", k.air_flow, {"P": 100, "dT": 35, "k_h": 1}, 5.0 * CUBIC_FOOT_PER_MINUTE, rel=1e-2),
    Row("6.2-c: 5000 ft; a fan catalogue's density table", k.air_share, {"h": 1524}, 0.832, rel=3e-3),
    Row("6.2: 10 000 ft; a fan catalogue's density table", k.air_share, {"h": 3048}, 0.688, rel=3e-3),
    *(
        Row(f"6.2: pressure at {height} m by the standard atmosphere; memory", k.air_share, {"h": height}, share, rel=1e-3)
        for height, share in ((500, 0.942), (1000, 0.887), (1500, 0.835), (2000, 0.785), (3000, 0.692))
    ),
    *(
        Row(f"6.2: m³/h for 1 W and 1 K at {height} m; derived", k.air_flow, {"P": 1, "dT": 1, "k_h": share}, flow / HOUR, rel=5e-3)
        for height, share, flow in ((500, 0.942, 3.15), (1000, 0.887, 3.35), (1500, 0.835, 3.56), (2000, 0.785, 3.79))
    ),
    Row("6.3-a: a web worked example prints 26", k.heat_sink_resistance, {"T_j": celsius(125), "T_a": celsius(25), "P": 3.5, "R_jc": 2, "R_cs": 0.5}, 26.1, rel=5e-3),
    Row("6.3-a: 20 K/W gives 103.8 °C; the same prints 104", k.heat_sink_resistance, {"T_j": celsius(103.8), "T_a": celsius(25), "P": 3.5, "R_jc": 2, "R_cs": 0.5}, 20.0, rel=5e-3),
    Row("6.3-b: 88 °C at the junction; a course handout", k.heat_sink_resistance, {"T_j": celsius(88), "T_a": celsius(25), "P": 3.9, "R_jc": 3.125, "R_cs": 0}, 13.0, rel=1e-2),
    Row("6.3-b: 76 °C at the case; the same", k.temperature_after_rise, {"T_a": celsius(25), "dT": 3.9 * 13}, celsius(76), abs=0.76),
    Row("6.3-e: derived", k.heat_sink_resistance, {"T_j": celsius(125), "T_a": celsius(40), "P": 11, "R_jc": 1.2, "R_cs": 0.2}, 6.3, rel=1e-2),
    Row("1.4-a: what 83.6 °C leaves over 20 °C; physics forum", k.allowed_rise, {"T_max": celsius(83.6), "T_a": celsius(20)}, 63.6, rel=1e-9),
]  # fmt: skip

# Power Electronics, 4th ed. (Rashid), example 5.2: half of the time on, 220 V, gives 110 V on the load.
CONTINUOUS = [
    Row("3.1-a: semiconverter on 120 V, 81.03 V at 60 degrees; derived, and 81.00 V by a simulation in time", m.continuous_firing_angle, {"V": 81.03, "V_s": 120.0}, radians(60), rel=1e-3),
    Row("3.1-a: semiconverter on 120 V, 54.02 V at 90 degrees; derived", m.continuous_firing_angle, {"V": 54.02, "V_s": 120.0}, radians(90), rel=1e-3),
    Row("example 5.2: 110 V of 220 V, duty one half", m.continuous_duty, {"V": 110.0, "V_b": 220.0, "U_d": 0.0, "U_f": 0.0}, 0.5, rel=EXACT),
]  # fmt: skip

STARTS = [
    Row("D1: 260 V, 0.4 ohm, 125 % of 50 A; DOE-HDBK-1011, electrical science", b.start_resistor, {"V": 260, "U_b": 0, "I": 62.5, "R_1": 0.4}, 3.76, rel=EXACT),
    Row("D1: 125 % of 50 A; the same", b.allowed_start_current, {"I_n": 50, "k": 1.25}, 62.5, rel=EXACT),
    Row("1.1-d: 100 V, 0.2 ohm, twice 50 A; forum thread", b.start_resistor, {"V": 100, "U_b": 0, "I": 100, "R_1": 0.2}, 0.80, rel=EXACT),
]
ROWS = [*CONSTANTS, *LINE, *KNOB, *COOLING, *CONTINUOUS, *STARTS]
