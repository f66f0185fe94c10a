"""Variable autotransformer and bridge: a dial taps the winding, a bridge makes direct voltage of it. It separates nothing; its
limit is a stop, not a mark; it starts from zero only.
"""

from collections.abc import Iterator
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Resistance
from buildsheet.citations import practice
from buildsheet.formulas.protection import current_of_power
from buildsheet.formulas.transformer import dial_fraction, voltage_on_other_line
from buildsheet.given.fields import Amperes, Volts
from buildsheet.reference import Region
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.ohms import usual
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import spelt
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.ways.bridge import Bridged, BridgeWay
from buildsheet.ways.fitted_bridge import BridgeOutfit, Iron, size_bridge
from buildsheet.ways.way import Beside, Control, Outfit, Setting, Trial, Words
from buildsheet.worksheet import Value, Worksheet

STOPS = practice("dials whose scale ends at 130 V and whose winding ends at 150 V")

LINE, COMMON, BRUSH = "1", "2", "3"


class VariableAutotransformer(BridgeWay):
    """A dial on the line, and a bridge behind it."""

    printed: ClassVar[str] = "Variable autotransformer"
    noun: ClassVar[str] = "autotransformer"
    icon: ClassVar[str] = "autotransformer"
    first: ClassVar[tuple[str, str, str]] = ("T2", LINE, COMMON)
    stands_as: ClassVar[tuple[str, ...]] = ("variable autotransformer", "bridge")
    control: ClassVar[Control | None] = Control("dial", "zero", "its stop", stands=True)
    separates: ClassVar[str] = " An autotransformer separates nothing: at zero of its dial, too, the bridge and the motor hang on the line."
    limits_air: ClassVar[str] = "iron limit"

    way: Literal["variable-autotransformer"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage on its plate.", examples=["120 V"])
    rated: Amperes = Field(description="Current that its brush may carry for long, on its plate.", examples=["10 A"])
    limit: Volts = Field(description="Its output at the stop, measured without load.", examples=["95 V"])
    limit_at: Volts = Field(description="Line voltage at that moment; the nominal one when it is left out.", examples=["118 V"])
    limited_by: Literal["mechanical stop", "taps", "mark on the scale"] | None = Field(
        None, description="What keeps the dial from going further. A mark is none."
    )

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def waits_for_zero(self) -> bool | None:
        return True  # the zero contact, which this program wires, holds start back

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        del beside
        if self.limited_by not in (None, "mark on the scale"):
            return
        found = "The file does not say what keeps the dial from going further." if self.limited_by is None else "Only a mark on the scale keeps the dial from going further."
        yield Finding("limit-not-enforced", "stop", "WARNING", Said.of(found), "A sleeve or a curious hand turns it past the mark, to the end of its winding, which can lie above the line: everything that turns runs beyond its speed.",
                      "Screw a stop to the dial's plate that its pointer runs against, or feed it from taps, and write power: limited_by.", STOPS, ("T2",), key="power.limited_by")  # fmt: skip

    @property
    def live_controls(self) -> bool | None:
        """Never: its dial is turned by an insulated shaft, and no wire leads to it."""
        return False

    def winding_resistance(self, sheet: Worksheet) -> Value:
        return sheet.known_or_assumed(self.windings, "autotransformer resistance")

    def open_voltages(self, sheet: Worksheet, supplied: Supplied) -> tuple[Value, Value]:
        measured_at = self.limit_at if self.limit_at.known else supplied.voltage
        most = sheet.work("T2.V_stop", voltage_on_other_line, "output at the stop, on the nominal line", V=self.limit, V_m=measured_at, V_n=supplied.voltage)
        loose = sheet.work("T2.V_stop_max", voltage_on_other_line, "output at the stop, line at the top of its tolerance", V=self.limit, V_m=measured_at, V_n=supplied.highest)
        return most, loose

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        if not isinstance(applied, Bridged):
            raise TypeError("not what this way applies")
        sizes = size_bridge(sheet, region, supplied, applied, points, share)
        dials = [(point, sheet.work(f"{point.tag}.x", dial_fraction, f"dial over the line, {point.label}", V=point.setting, V_1=supplied.voltage)) for point in points]
        idle = sheet.work("T2.I_0", current_of_power, "current that its iron takes, at the least", P=sheet.values.get("power.idle~", self.idle), V=supplied.voltage)
        ohms = usual("winding of an autotransformer")
        iron = Iron(
            "autotransformer", "Variable autotransformer", (LINE, COMMON, BRUSH, COMMON), (LINE, BRUSH, COMMON),
            (Resistance(BRUSH, COMMON, 0.0, 0.5, "zero"), Resistance(LINE, BRUSH, *ohms, "zero"),
             Resistance(LINE, BRUSH, 0.0, ohms[1], "up"), Resistance(BRUSH, COMMON, *ohms, "up")),
            ("zero", "up"), "panel",
        )  # fmt: skip
        needs = (Need("current", "≥", sizes.fuse, "amperes at the brush"), Need("voltage", "=", supplied.voltage, "line voltage", 0.1))
        say: Words = ("variable autotransformer for ", supplied.voltage, ", brush rated ", sizes.fuse, " or more at every place of the dial, open frame or case, with a mechanical stop")
        own = (
            Place("autotransformer", "autotransformer", "Variable autotransformer", needs, say, "T2", "a larger one", safety=True, proof="its brush is whole and bears on clean copper over the whole turn; nothing is burnt"),
            Place("zero-contact", "microswitch", "Contact at zero on the dial",
                  (Need("voltage", "≥", supplied.voltage, "volts"), Need("contact", "=", "normally open", "contact", also=("changeover",))),
                  ("microswitch with roller, ", supplied.voltage, " AC, that a cam on the dial's shaft presses at zero only, closed while it is pressed"), "S8", "one that sits on the dial already, once it is measured at zero and beside it"),
        )  # fmt: skip
        low, high = dials[0], dials[-1]
        settings = (
            Setting("Stop of the dial", (applied.most, " by the meter at its output, nothing behind it, on the nominal line: its scale is no measure, and its end may be above the line")),
            Setting("Dial", (low[0].setting, " open, at ", low[1], " of the line, for the slowest speed; ", high[0].setting, ", at ", high[1], ", for the fastest"), turned=False),
        )
        trials = (
            Trial("F5", f"T2 · {BRUSH}", f"T2 · {COMMON}", "; then turn the dial slowly to its stop", "the volts rise evenly from nothing, and the dial cannot be turned past its stop.",
                  "dial at its stop", (applied.most, " on a line of ", supplied.voltage, ", in proportion on another"), note="More than that: set the stop. Turn the dial back to zero."),
        )
        return BridgeOutfit(iron, sizes, supplied, own, settings, f"stop at {spelt(self.limit)}", idle, trials, zero=True, brush=self.rated)
