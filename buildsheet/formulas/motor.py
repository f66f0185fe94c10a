"""Direct-current motors with permanent magnets: constants from plate and bench, and the straight lines that follow."""

from math import acos, pi, sqrt

from buildsheet.citations import Citation, derivation, memory, practice
from buildsheet.formulas.formula import Constant, formula
from buildsheet.units import (
    KELVIN,
    Ampere,
    Henry,
    Hertz,
    Kelvin,
    NewtonMetre,
    NewtonMetrePerAmpere,
    Number,
    Ohm,
    Radian,
    RadianPerSecond,
    Second,
    Share,
    Volt,
    VoltSecondPerRadian,
    Watt,
)

ARMATURE = derivation("armature equation, any textbook on DC machines")
COPPER_ZERO = Constant(
    38.65, KELVIN, "T_Cu", memory("IEC 60034-1", "the 234.5 °C rule for copper: 273.15 K less 234.5 K")
)


@formula(source=ARMATURE, limits={"I": (0, 1000), "R": (0, 1e6)})
def back_emf(V: Volt, I: Ampere, R: Ohm, U_b: Volt) -> Volt:
    """Voltage that the turning armature makes, from the volts at its terminals, its current and its brushes' drop.

    >>> back_emf(V=90.0, I=5.0, R=1.5, U_b=0.0)
    82.5
    """
    return V - I * R - U_b


@formula(
    source=ARMATURE,
    limits={"omega": (0.01, 7000)},
    leaves_out="weaker magnets when hot, about 0.2 % for each kelvin",
)
def back_emf_constant(E: Volt, omega: RadianPerSecond) -> VoltSecondPerRadian:
    """Volts for each radian per second, from a back-EMF at a known speed.

    >>> round(back_emf_constant(E=82.5, omega=180.6416), 4)
    0.4567
    """
    return E / omega


@formula(source=ARMATURE)
def torque_constant(K_e: VoltSecondPerRadian) -> NewtonMetrePerAmpere:
    """Torque for each ampere; in SI units the same number as the back-EMF constant.

    >>> torque_constant(K_e=0.4567)
    0.4567
    """
    return K_e


@formula(source=ARMATURE)
def slope_resistance(V_1: Volt, I_1: Ampere, V_2: Volt, I_2: Ampere) -> Ohm:
    """Armature resistance from two currents with the rotor held: the slope leaves the brush drop out.

    >>> round(slope_resistance(V_1=3.2, I_1=1.0, V_2=6.2, I_2=3.0), 6)
    1.5
    """
    return (V_2 - V_1) / (I_2 - I_1)


@formula(source=ARMATURE)
def brush_drop(V_1: Volt, I_1: Ampere, R: Ohm) -> Volt:
    """What is left of a held-rotor reading after the resistance: the drop of both brushes.

    >>> round(brush_drop(V_1=3.2, I_1=1.0, R=1.5), 6)
    1.7
    """
    return V_1 - I_1 * R


@formula(source=ARMATURE, limits={"omega_0": (0.01, 7000)})
def free_run_constant(
    V: Volt, I_0: Ampere, R: Ohm, U_b: Volt, omega_0: RadianPerSecond
) -> VoltSecondPerRadian:
    """Back-EMF constant from a free run at a known voltage.

    >>> round(free_run_constant(V=90.0, I_0=0.481, R=1.5, U_b=0.0, omega_0=195.5), 4)
    0.4567
    """
    return (V - I_0 * R - U_b) / omega_0


@formula(
    source=derivation("drops along the path of the current add"), limits={"U_d": (0, 1000), "U_b": (0, 1000)}
)
def path_drop(U_d: Volt, U_b: Volt) -> Volt:
    """Constant drops along the path of the armature current: the converter's junctions and the brushes.

    >>> path_drop(U_d=2.2, U_b=1.5)
    3.7
    """
    return U_d + U_b


@formula(source=derivation("definition of efficiency"), limits={"V": (0.01, 1e4), "I": (1e-4, 1e4)})
def plate_efficiency(P: Watt, V: Volt, I: Ampere) -> Share:
    """What the plate claims: power out over volts times amperes.

    >>> round(plate_efficiency(P=372.85, V=90.0, I=5.0), 4)
    0.8286
    """
    return P / (V * I)


@formula(
    source=derivation("definition of efficiency"), limits={"eta": (0.05, 1)}, leaves_out="short-time ratings"
)
def honest_power(V: Volt, I: Ampere, eta: Share) -> Watt:
    """Power that volts, amperes and a believable efficiency leave for the shaft.

    >>> honest_power(V=120.0, I=10.0, eta=0.7)
    840.0
    """
    return V * I * eta


@formula(source=ARMATURE, limits={"E": (0.01, 1e4)}, leaves_out="iron loss that grows with speed")
def loss_current(E: Volt, I: Ampere, P: Watt) -> Ampere:
    """Current that friction, air and iron take, from the rated point: electrical power less shaft power, over E.

    >>> round(loss_current(E=82.5, I=5.0, P=372.85), 4)
    0.4806
    """
    return (E * I - P) / E


@formula(source=ARMATURE, limits={"K_t": (1e-5, 100), "T": (0, 1e4)}, leaves_out="a jam")
def armature_current(T: NewtonMetre, K_t: NewtonMetrePerAmpere, I_0: Ampere) -> Ampere:
    """Average armature current for a torque at the shaft.

    >>> round(armature_current(T=2.064, K_t=0.4567, I_0=0.481), 2)
    5.0
    """
    return T / K_t + I_0


@formula(source=ARMATURE)
def emf_at_speed(K_e: VoltSecondPerRadian, omega: RadianPerSecond) -> Volt:
    """Back-EMF at a speed.

    >>> round(emf_at_speed(K_e=0.4567, omega=180.6416), 1)
    82.5
    """
    return K_e * omega


@formula(source=ARMATURE)
def terminal_voltage(K_e: VoltSecondPerRadian, omega: RadianPerSecond, I: Ampere, R: Ohm, U_b: Volt) -> Volt:
    """Average volts at the motor for a speed and a current.

    >>> round(terminal_voltage(K_e=0.4567, omega=180.6416, I=5.0, R=1.5, U_b=0.0), 1)
    90.0
    """
    return K_e * omega + I * R + U_b


@formula(source=ARMATURE, limits={"K_e": (1e-5, 100)})
def speed_at_voltage(V: Volt, I: Ampere, R: Ohm, U_b: Volt, K_e: VoltSecondPerRadian) -> RadianPerSecond:
    """Speed on smooth volts at a current.

    >>> round(speed_at_voltage(V=90.0, I=0.481, R=1.5, U_b=0.0, K_e=0.4567) * 30 / 3.14159265)
    1867
    """
    return (V - I * R - U_b) / K_e


@formula(source=ARMATURE, limits={"K_e": (1e-5, 100)})
def speed_of_emf(E: Volt, K_e: VoltSecondPerRadian) -> RadianPerSecond:
    """Speed at which the armature makes this back-EMF.

    >>> round(speed_of_emf(E=82.5, K_e=0.4567), 1)
    180.6
    """
    return E / K_e


@formula(source=ARMATURE, limits={"R": (1e-4, 1e5)})
def held_rotor_current(V: Volt, R: Ohm) -> Ampere:
    """Current with the rotor held: all the voltage over the resistance.

    >>> held_rotor_current(V=90.0, R=1.5)
    60.0
    """
    return V / R


@formula(source=derivation("Joule heat"), limits={"R": (0, 1e6)})
def copper_loss(I_rms: Ampere, R: Ohm) -> Watt:
    """Heat in a winding; it goes by the RMS current.

    >>> copper_loss(I_rms=5.0, R=1.5)
    37.5
    """
    return I_rms**2 * R


@formula(source=COPPER_ZERO.source, limits={"T_1": (233.15, 473.15), "T_2": (233.15, 473.15)})
def resistance_at_temperature(R_1: Ohm, T_1: Kelvin, T_2: Kelvin) -> Ohm:
    """Resistance of a copper winding at another temperature.

    >>> round(resistance_at_temperature(R_1=1.5, T_1=298.15, T_2=373.15), 3)
    1.934
    """
    return R_1 * (T_2 - COPPER_ZERO) / (T_1 - COPPER_ZERO)


@formula(
    source=derivation("impedance of a coil, Z² = R² + (2·π·f·L)²"),
    limits={"f": (1, 1e4), "I": (1e-6, 1e3)},
    leaves_out="iron that saturates at working current, so that the working value is lower",
)
def winding_inductance(V: Volt, I: Ampere, R: Ohm, f: Hertz) -> Henry:
    """Inductance of an armature from a low alternating voltage with the rotor held.

    >>> round(winding_inductance(V=12.0, I=2.9619, R=1.5, f=60.0), 4)
    0.01
    """
    Z: Ohm = V / I
    return sqrt(Z**2 - R**2) / (2 * pi * f)


@formula(
    source=derivation("copper heat goes with the square of the RMS current"),
    limits={"F": (0.99, 10), "F_rated": (0.99, 10)},
)
def current_derated_by_form_factor(I_rated: Ampere, F_rated: Number, F: Number) -> Ampere:
    """Average current that heats a winding no more than its rating does, on a supply with another form factor.

    >>> round(current_derated_by_form_factor(I_rated=5.0, F_rated=1.05, F=1.40), 6)
    3.75
    """
    return I_rated * F_rated / F


@formula(
    source=derivation("equal copper heat over a cycle"),
    leaves_out="a cycle longer than the winding's time constant, 10 to 30 min",
)
def duty_current(I: Ampere, t_on: Second, t_off: Second) -> Ampere:
    """Steady current that heats as much as one that runs part of the time.

    >>> duty_current(I=6.0, t_on=900.0, t_off=2700.0)
    3.0
    """
    return I * sqrt(t_on / (t_on + t_off))


@formula(
    source=practice("full torque on its own fan only down to this share of base speed"),
    limits={"n_share": (0, 1)},
)
def lowest_speed_on_own_fan(omega: RadianPerSecond, n_share: Share) -> RadianPerSecond:
    """Lowest speed at which a motor with a fan on its shaft may give full torque for long.

    >>> lowest_speed_on_own_fan(omega=180.0, n_share=0.6)
    108.0
    """
    return omega * n_share


@formula(source=ARMATURE, leaves_out="drag that grows with speed")
def loss_torque(K_t: NewtonMetrePerAmpere, I_0: Ampere) -> NewtonMetre:
    """Torque that friction, air and iron take.

    >>> round(loss_torque(K_t=0.4567, I_0=0.481), 3)
    0.22
    """
    return K_t * I_0


@formula(
    source=Citation("textbooks on power electronics, semiconverter", "V = √2·V_s/π·(1 + cos α), solved for α"),
    limits={"V_s": (1, 1000), "V": (0, 1000)},
    leaves_out="gaps in the current: it holds while the current never stops",
)
def continuous_firing_angle(V: Volt, V_s: Volt) -> Radian:
    """Firing angle of a half-controlled bridge for an average voltage, current without gaps.

    >>> round(continuous_firing_angle(V=81.03, V_s=120.0), 3)
    1.047
    """
    x: Number = pi * V / (sqrt(2) * V_s) - 1
    return acos(x)


@formula(
    source=Citation("textbooks on power electronics, step-down chopper", "V = D·V_b, with the drops of both paths"),
    limits={"V_b": (1, 1000), "V": (0, 1000)},
    leaves_out="gaps in the current: it holds while the current never stops",
)
def continuous_duty(V: Volt, V_b: Volt, U_d: Volt, U_f: Volt) -> Share:
    """Duty of a chopper for an average voltage, current without gaps; drops of the switch and of the diode.

    >>> continuous_duty(V=12.0, V_b=24.0, U_d=0.0, U_f=0.0)
    0.5
    """
    return (V + U_f) / (V_b - U_d + U_f)


@formula(source=derivation("Ohm's law in an armature that stands"), limits={"V": (0, 1e4), "R_1": (1e-4, 1e4), "R_2": (0, 1e4), "U_b": (0, 10)}, leaves_out="inductance, which rounds the first milliseconds; a battery that sags")
def standstill_current(V: Volt, R_1: Ohm, R_2: Ohm, U_b: Volt) -> Ampere:
    """Current of a standing armature R_1 that is put on a voltage behind a resistance R_2.

    >>> round(standstill_current(V=10.0, R_1=1.5, R_2=0.0, U_b=0.0), 3)
    6.667
    """
    return (V - U_b) / (R_1 + R_2)


@formula(source=derivation("back-EMF goes with speed while the current, and so the field, is the same"), limits={"E": (0.1, 1e4), "E_1": (0, 1e4)})
def speed_share(E: Volt, E_1: Volt) -> Share:
    """Speed that there is over the speed that was asked for, from the back-EMF that the voltage leaves and the one wanted.

    >>> speed_share(E=20.0, E_1=22.0)
    1.1
    """
    return E_1 / E
