"""Permanent-magnet DC motor: what its plate and a bench test say, and its operating point."""

from typing import Literal

from pydantic import Field

from buildsheet.formulas import mechanics
from buildsheet.formulas import motor as f
from buildsheet.given.bench import AlternatingTest, Asked, FreeRun, HeldRotor, OldRun, Plate, Spun
from buildsheet.given.fields import (
    Flags,
    Henries,
    Inertias,
    Ohms,
    Speeds,
)
from buildsheet.given.model import Given
from buildsheet.sizing.waist import SOLVED, Applied, Point, Wave
from buildsheet.units import AMPERE, NUMBER, OHM, VOLT_SECOND_PER_RADIAN, Unit
from buildsheet.waveforms import NotSolved
from buildsheet.worksheet import Model, Value, Worksheet, unknown


class MagnetDC(Given):
    """A DC motor whose field is made by magnets."""

    kind: Literal["magnet-dc"] = Field(description="Kind of motor.")
    plate: Plate | None = Field(None, description="What the nameplate says.")
    spun: Spun | None = Field(None, description="Volts when turned at a known speed.")
    held: HeldRotor | None = Field(None, description="Two readings with the rotor held.")
    winding: Ohms = Field(
        description="Armature resistance, if it was measured otherwise.", examples=["1.5 ohm"]
    )
    free_run: FreeRun | None = Field(None, description="A run without load at a low voltage.")
    alternating: AlternatingTest | None = Field(None, description="Low-voltage AC test for the inductance.")
    inductance: Henries = Field(description="Armature inductance, if known.", examples=["10 mH"])
    inertia: Inertias = Field(
        description="Moment of inertia of the rotor and what stays on its shaft.", examples=["0.004 kg·m²"]
    )
    rotor: Speeds = Field(
        description="Speed that the rotor is proven for, from its plate or its old machine.",
        examples=["4000 rpm"],
    )
    rotor_basis: Literal["plate", "maker's data"] | None = Field(None, description="How that is proven.")
    old_run: OldRun | None = Field(
        None, description="What the motor's old machine ran it at, which proves that speed for its rotor."
    )
    ask: Asked | None = Field(
        None, description="A question: what it would do at these volts and this torque."
    )
    protector: Literal["none", "manual reset", "self-resetting"] | None = Field(
        None, description="Thermal protector inside the motor. Unanswered keeps the packet a draft."
    )
    double_insulated: Flags = Field(None, description="Whether the old appliance was double insulated.")
    cooling: Literal["own fan", "fan on the flywheel", "none"] | None = Field(
        None, description="What cools it."
    )
    pulley: Literal["set screw", "key", "left-hand thread", "right-hand thread"] | None = Field(
        None, description="How the pulley sits."
    )

    def constants(self, sheet: Worksheet) -> "Constants":
        """Works out what plate and bench say; where both say it, both stand on the sheet and the bench is used."""
        resistance, drop = self._resistance(sheet)
        no_load = self._no_load_current(sheet, resistance, drop)
        constant = self._constant(sheet, resistance, drop)
        torque = sheet.work("motor.K_t", f.torque_constant, "torque for each ampere", K_e=constant)
        hot = sheet.assume("motor.T_w", "winding temperature")
        cold = sheet.assume("motor.T_b", "bench temperature")
        hot_resistance = sheet.work(
            "motor.R_hot",
            f.resistance_at_temperature,
            "resistance of the warm armature",
            R_1=resistance,
            T_1=cold,
            T_2=hot,
        )
        inductances = self._inductances(sheet, resistance)
        self._plate_power(sheet)
        return Constants(resistance, hot_resistance, drop, constant, torque, no_load, inductances)

    def proven_speed(self, sheet: Worksheet) -> tuple[Value, str]:
        """The speed that the rotor is proven for, and by what: its plate or maker, or what its old machine ran it at."""
        if self.old_run is None:
            return sheet.take(self.rotor), self.rotor_basis or ""
        run = self.old_run
        proven = sheet.work(
            "motor.omega_old",
            mechanics.speed_behind_belt,
            "motor speed in its old machine",
            v=run.speed,
            d=run.roller,
            d_1=run.driver,
            d_2=run.driven,
        )
        return proven, "ran at it in the old machine"

    def _resistance(self, sheet: Worksheet) -> tuple[Value, Value]:
        if self.held:
            h = self.held
            label = "armature resistance, from two currents"
            slope = (
                sheet.unsolved("motor.R_a", OHM, "the volts must rise with the amperes", label)
                if h.impossible
                else sheet.work(
                    "motor.R_a", f.slope_resistance, label,
                    V_1=h.voltage_1, I_1=h.current_1, V_2=h.voltage_2, I_2=h.current_2,
                )
            )  # fmt: skip
            return slope, sheet.work(
                "motor.U_b", f.brush_drop, "drop of both brushes", V_1=h.voltage_1, I_1=h.current_1, R=slope
            )
        return sheet.take(self.winding), sheet.assume("motor.U_b", "brush drop")

    def _constant(self, sheet: Worksheet, resistance: Value, drop: Value) -> Value:
        plate = unknown(
            "motor.K_e_plate", VOLT_SECOND_PER_RADIAN, "no nameplate", "back-EMF constant by the plate"
        )
        if self.plate:
            emf = self._rated_emf(sheet, self.plate, resistance, drop)
            plate = sheet.work(
                "motor.K_e_plate",
                f.back_emf_constant,
                "back-EMF constant by the plate",
                E=emf,
                omega=self.plate.speed,
            )
        if self.free_run and self.free_run.current.known:
            run = self.free_run
            sheet.work("motor.K_e_run", f.free_run_constant, "back-EMF constant by the free run",
                       V=run.voltage, I_0=run.current, R=resistance, U_b=drop, omega_0=run.speed)  # fmt: skip
        if self.spun and self.spun.voltage.known and self.spun.speed.known:
            return sheet.work(
                "motor.K_e",
                f.back_emf_constant,
                "back-EMF constant, spun",
                E=self.spun.voltage,
                omega=self.spun.speed,
            )
        return sheet.values.get("motor.K_e_run", plate)

    @staticmethod
    def _rated_emf(sheet: Worksheet, plate: Plate, resistance: Value, drop: Value) -> Value:
        if "motor.E_n" in sheet.values:  # a Value has no truth of its own, so no `or` here
            return sheet.values["motor.E_n"]
        return sheet.work(
            "motor.E_n",
            f.back_emf,
            "back-EMF at the rated point",
            V=plate.voltage,
            I=plate.current,
            R=resistance,
            U_b=drop,
        )

    def _no_load_current(self, sheet: Worksheet, resistance: Value, drop: Value) -> Value:
        if self.free_run and self.free_run.current.known:
            return sheet.take(self.free_run.current.relabelled("current of the motor running free", "I_0"))
        if self.plate:
            emf = self._rated_emf(sheet, self.plate, resistance, drop)
            return sheet.work(
                "motor.I_0",
                f.loss_current,
                "current that its own losses take",
                E=emf,
                I=self.plate.current,
                P=self.plate.power,
            )
        return unknown(
            "motor.I_0", AMPERE, "no free run and no nameplate", "current of the motor running free"
        )

    def _plate_power(self, sheet: Worksheet) -> None:
        """What the plate claims against what volts, amperes and a believable efficiency leave."""
        if self.plate is None or not self.plate.power.known:
            return
        sheet.work(
            "motor.eta_n",
            f.plate_efficiency,
            "efficiency that the plate claims",
            P=self.plate.power,
            V=self.plate.voltage,
            I=self.plate.current,
        )
        believed = sheet.assume("motor.eta_b", "believable efficiency")
        sheet.work(
            "motor.P_h",
            f.honest_power,
            "power to plan with",
            V=self.plate.voltage,
            I=self.plate.current,
            eta=believed,
        )

    def _inductances(self, sheet: Worksheet, resistance: Value) -> tuple[Value, Value]:
        """Least and greatest inductance: the same value twice when it was measured, else the assumed band."""
        if self.inductance.known:
            found = sheet.take(self.inductance)
            return found, found
        if self.alternating:
            a = self.alternating
            found = sheet.work("motor.L_a", f.winding_inductance, "armature inductance, by the AC test",
                               V=a.voltage, I=a.current, R=resistance, f=a.frequency)  # fmt: skip
            return found, found
        return sheet.assume("motor.L_low", "low inductance"), sheet.assume("motor.L_high", "high inductance")


class Constants:
    """The constants of the motor as Values: cold and hot resistance, brush drop, K_e, K_t, free-running current, inductances."""

    __slots__ = ("K_e", "K_t", "L", "R", "R_hot", "U_b", "I_0")  # noqa: RUF023  in the order of the constructor

    def __init__(
        self, R: Value, R_hot: Value, U_b: Value, K_e: Value, K_t: Value, I_0: Value, L: tuple[Value, Value]
    ):
        self.R, self.R_hot, self.U_b, self.K_e, self.K_t, self.I_0, self.L = R, R_hot, U_b, K_e, K_t, I_0, L


CONTINUOUS = "the current never stops here either, so the two agree"
GAPS = "that holds for a current without gaps; here it stops in each pulse, and the motor's own voltage stands on the terminals meanwhile, so the pulse is shorter"


def point(
    sheet: Worksheet, tag: str, label: str, applied: Applied, motor: Constants, omega: Value, torque: Value
) -> Point:
    """The operating point at a speed and a shaft torque. Form factor, RMS, peak and supply current are the worst of the
    inductance band; unknown inputs give unknown results."""
    current = sheet.work(
        f"{tag}.I_a", f.armature_current, f"armature current, {label}", T=torque, K_t=motor.K_t, I_0=motor.I_0
    )
    emf = sheet.work(f"{tag}.E", f.emf_at_speed, f"back-EMF, {label}", K_e=motor.K_e, omega=omega)
    terminal = sheet.work(
        f"{tag}.V_a",
        f.terminal_voltage,
        f"volts at the motor, {label}",
        K_e=motor.K_e,
        omega=omega,
        I=current,
        R=motor.R_hot,
        U_b=motor.U_b,
    )
    drops = {
        symbol: sheet.work(
            f"{tag}.{symbol}", f.path_drop, f"drops along the path, {label}", U_d=drop, U_b=motor.U_b
        )
        for symbol, drop in applied.drops.items()
    }
    wave, inductance, refusal = _worst(applied, motor, emf, current, tuple(drops.values()))
    asked = {**applied.inputs, **drops, "R": motor.R_hot, "L": inductance, "E": emf, "I_a": current}
    missing = tuple(value for value in asked.values() if not value.known)
    setting = applied.setting
    book = applied.textbook(
        sheet, f"{tag}.{setting.symbol}_t", label, terminal, tuple(applied.drops.values())
    )
    differs = "" if wave is None else CONTINUOUS if wave.continuous else GAPS
    solved = f"the current in the armature over {applied.period}"
    model = Model(applied.shape, asked, solved, SOLVED, book, differs)

    def out(symbol: str, unit: Unit, name: str, number: float | None) -> Value:
        if number is None:
            why = f"needs {missing[0].label}" if missing else refusal
            return sheet.unsolved(f"{tag}.{symbol}", unit, why, f"{name}, {label}", missing)
        return sheet.solved(f"{tag}.{symbol}", number, unit, model, f"{name}, {label}")

    drawn = (
        out("I_b", AMPERE, "current drawn from the battery", wave.line_average)
        if wave is not None and applied.direct
        else None
    )
    return Point(
        tag, label, omega, torque, current, emf, terminal,
        out("I_rms", AMPERE, "armature current as heat feels it", wave.rms_current if wave else None),
        out("I_peak", AMPERE, "peak armature current", wave.peak_current if wave else None),
        out("F", NUMBER, "form factor", wave.form_factor if wave else None),
        out("I_line", AMPERE, "supply current, RMS", wave.line_current if wave else None),
        drawn,
        out(setting.symbol, setting.unit, setting.name, applied.set_to(wave) if wave else None),
        inductance,
        wave,
    )  # fmt: skip


def _worst(
    applied: Applied, motor: Constants, emf: Value, current: Value, drops: tuple[Value, ...]
) -> tuple[Wave | None, Value, str]:
    """The solution with the greatest form factor over the inductance band, and why there is none."""
    needed = (*applied.inputs.values(), *drops, motor.R_hot, emf, current, *motor.L)
    if not all(value.known for value in needed):
        return None, motor.L[0], ""
    found: list[tuple[float, Wave, Value]] = []
    for inductance in dict.fromkeys(motor.L):
        try:
            wave = applied.wave(
                float(motor.R_hot),
                float(inductance),
                float(emf),
                float(current),
                tuple(float(drop) for drop in drops),
            )
        except NotSolved as refusal:
            return None, inductance, str(refusal)
        found.append((wave.form_factor, wave, inductance))
    _, worst, inductance = max(found, key=lambda one: one[0])
    return worst, inductance, ""


def runaway(sheet: Worksheet, applied: Applied, motor: Constants) -> Value:
    """Speed with the power device shorted, the supply at its highest and no load on the shaft."""
    emf = applied.loose_emf(sheet, motor.R, motor.L[0], motor.I_0, motor.U_b)
    return sheet.work("runaway.omega", f.speed_of_emf, "motor speed at runaway", E=emf, K_e=motor.K_e)


__all__ = ["Constants", "MagnetDC", "point", "runaway"]
