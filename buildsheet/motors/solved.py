"""A waveform becomes an operating point: the worst of the inductance band, and its figures as Values."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from buildsheet.sizing.waist import SOLVED, Steered, Wave
from buildsheet.units import AMPERE, NUMBER, Unit
from buildsheet.waveforms import NotSolved
from buildsheet.worksheet import Model, Value, Worksheet

CONTINUOUS = "the current never stops here either, so the two agree"


@dataclass(frozen=True, slots=True)
class Found:
    """The solution with the greatest form factor over the inductance band, its inductance, and why there is none."""

    wave: Wave | None
    inductance: Value
    refusal: str = ""


def worst(
    applied: Steered, inductances: tuple[Value, Value], circuit: tuple[Value, Value, Value], drops: tuple[Value, ...]
) -> Found:
    """The worst solution of a circuit of (resistance, back-EMF, average current); none while anything is unknown."""
    needed = (*applied.inputs.values(), *drops, *circuit, *inductances)
    if not all(value.known for value in needed):
        return Found(None, inductances[0])
    R, E, current = (float(value) for value in circuit)
    return worst_of(inductances, lambda L: applied.wave(R, L, E, current, tuple(float(drop) for drop in drops)))


def worst_of(inductances: tuple[Value, Value], wave: Callable[[float], Wave]) -> Found:
    """The worst over a band of inductances of what `wave` solves for each."""
    found: list[tuple[float, Wave, Value]] = []
    for inductance in dict.fromkeys(inductances):
        try:
            solved = wave(float(inductance))
        except NotSolved as refusal:
            return Found(None, inductance, str(refusal))
        found.append((solved.form_factor, solved, inductance))
    _, solved, inductance = max(found, key=lambda one: one[0])
    return Found(solved, inductance)


@dataclass(frozen=True, slots=True)
class Solved:
    """A solved waveform on its way to the worksheet: under which tag and label, from what was asked, against the hand
    formula for `terminal` volts."""

    sheet: Worksheet
    tag: str
    label: str
    applied: Steered
    found: Found
    asked: Mapping[str, Value]
    terminal: Value

    def figures(self) -> tuple[Value, Value, Value, Value, Value | None, Value, Value, Wave | None]:
        """RMS and peak current, form factor, supply current RMS and average, the setting, the inductance, the wave: as a
        Point takes them."""
        applied, wave = self.applied, self.found.wave
        setting, model = applied.setting, self._model()
        drawn = (
            self.out(model, "I_b", AMPERE, "current drawn from the battery", wave.line_average)
            if wave is not None and applied.direct
            else None
        )
        return (
            self.out(model, "I_rms", AMPERE, "armature current as heat feels it", wave.rms_current if wave else None),
            self.out(model, "I_peak", AMPERE, "peak armature current", wave.peak_current if wave else None),
            self.out(model, "F", NUMBER, "form factor", wave.form_factor if wave else None),
            self.out(model, "I_line", AMPERE, "supply current, RMS", wave.line_current if wave else None),
            drawn,
            self.out(model, setting.symbol, setting.unit, setting.name, applied.set_to(wave) if wave else None),
            self.found.inductance,
            wave,
        )

    def _model(self) -> Model:
        applied, wave = self.applied, self.found.wave
        key = f"{self.tag}.{applied.setting.symbol}_t"
        book = applied.textbook(self.sheet, key, self.label, self.terminal, tuple(applied.drops.values()))
        differs = "" if wave is None else CONTINUOUS if wave.continuous else applied.gaps
        return Model(applied.shape, self.asked, f"the current in the armature over {applied.period}", SOLVED, book, differs)

    def out(self, model: Model, symbol: str, unit: Unit, name: str, number: float | None) -> Value:
        """One figure as a Value, unknown with its reason when there is no solution."""
        if number is None:
            missing = tuple(value for value in self.asked.values() if not value.known)
            why = f"needs {missing[0].label}" if missing else self.found.refusal
            return self.sheet.unsolved(f"{self.tag}.{symbol}", unit, why, f"{name}, {self.label}", missing)
        return self.sheet.solved(f"{self.tag}.{symbol}", number, unit, model, f"{name}, {self.label}")
