"""A transformer or a dial ahead of a bridge: its stop, its winding, its rush, and whether the capacitor behind it is worth it."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, derivation, memory, practice
from buildsheet.design import Design
from buildsheet.reference import table
from buildsheet.sizing.finding import Finding, Said

RUSH = Citation("toroid makers' pages on inrush", "8 to 15 times the rated current, more for the first cycle")
HEAT = derivation("copper heat goes with the square of the RMS current")
SAME = 0.02  # a form factor that changes by less is the same


FAR = 1.1  # a stop this far above what the fastest speed needs guards little


def stop(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A stop that lets the dial go well past the fastest speed."""
    del circuit
    power, applied, high = design.project.power, design.applied, design.point("high")
    if power is None or applied is None or high is None or power.control is None or not power.control.stands:
        return
    asked, most = power.reach(applied, high)
    if asked.known and most.known and float(most) > float(asked) * FAR:
        yield Finding("stop-too-high", "heed", "WARNING", Said.of("The stop lets the dial go to {0}; the fastest speed needs {1}.", most, asked), "At the stop the machine runs above the speed that it was planned for.",
                      "Set the stop where the fastest speed is, and write power: limit anew.", practice("a limit at what is needed"), ("T2",), key="power.limit")  # fmt: skip


def winding(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """The new winding: its turns against the work, its wire against the current, its copper against the window."""
    del circuit
    values = design.sheet.values
    own = {name: values.get(f"power.rewound.{name}") for name in ("turns", "wire")}
    turns, wire, fill = values.get("T2.N"), values.get("T2.a"), values.get("T2.fill")
    if turns is None or wire is None or fill is None:
        return
    wound = own["turns"]
    if wound is not None and not wound.known:
        yield Finding("turns-unknown", "stop", "NOTICE", Said.of("The file does not say how many turns you wind; the work asks for {0} or the next whole number.", turns) if turns.known else Said.of("The file does not say how many turns you wind."), "The greatest speed follows from them.",
                      "Write power: rewound: turns.", HEAT, ("T2",), key="power.rewound.turns", unknown=(wound,))  # fmt: skip
    copper = own["wire"]
    if copper is not None and copper.known and wire.known and copper < wire:
        yield Finding("winding-too-thin", "stop", "WARNING", Said.of("The new winding's wire has {0} of copper; the work's current asks for {1}.", copper, wire), "It overheats inside, where nobody sees it.",
                      "Take thicker wire, or two side by side.", table("current_density").source, ("T2",), key="power.rewound.wire")  # fmt: skip
    most = table("bench_limits").cell("window fill", "value")
    if fill.known and float(fill) > most.si:
        yield Finding("window-too-full", "stop", "NOTICE", Said.of(f"The copper would take {{0}} of the window; {most.printed} is the most that hands get in.", fill), "The last layers do not fit, or their insulation is torn.",
                      "Take a larger core or thinner wire, if its current allows it.", practice("window fill of hand-wound transformers"), ("T2",), key="power.rewound.turns")  # fmt: skip
    yield Finding("simple-separation", "note", "WARNING", Said.of("A core that is wound at home separates only simply: a worn spot makes its low voltage live."), "It has passed no test of its insulation, and nobody sealed it.",
                  "Core on the protective conductor, no touching behind it, insulation measured before each season.", memory("IEC 61558-1", "simple separation, and safe separation by double insulation"), ("T2",), electric=True, step="motor")  # fmt: skip


ASIDE = 0.1  # a speed further than this from the one asked for is another one


def there(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """The speed that a fixed voltage gives, against the one that was asked for."""
    del circuit
    share = design.sheet.values.get("there.k")
    speed = design.project.machine.speed if design.project.machine is not None else None
    if share is None or not share.known or speed is None:
        return
    if float(share) > 1 + ASIDE or float(share) < 1 - ASIDE:
        yield Finding("speed-of-its-own", "stop", "WARNING", Said.of("At this work the voltage gives {0} of the speed that was asked for.", share), "Nothing sets the speed while it runs; every size was worked for another one.",
                      "Write the speed that there is, change the turns or the pulleys.", derivation("the back-EMF that the voltage leaves sets the speed"), ("T2",), key="machine.speed")  # fmt: skip
    if speed.low.known and speed.high.known and float(speed.low) < float(speed.high):
        yield Finding("one-speed-only", "stop", "NOTICE", Said.of("The file asks for speeds from {0} to {1}; a fixed voltage gives one.", speed.low, speed.high), "Nothing sets the speed while it runs.",
                      "Write one speed, or take a way of powering with a knob.", practice("fixed supplies"), ("T2",), key="machine.speed")  # fmt: skip


def primary_fuse(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """The fuse ahead of a transformer against its rating."""
    del circuit
    sizes, supplied, values = design.sizes, design.supplied, design.sheet.values
    rated = values.get("power.rated") if "T2.S" in values else None
    rated = rated if rated is not None and rated.known else values.get("T2.S_high")
    if sizes is None or supplied is None or rated is None or not rated.known or not sizes.line_fuse.known or not supplied.voltage.known:
        return
    most = table("transformer_fuses").cell("secondary fused at 125 %", "factor").si * float(rated) / float(supplied.voltage)
    if float(sizes.line_fuse) > most:
        yield Finding("fuse-above-transformer", "stop", "WARNING", Said.of("The line fuse is {0}; for a transformer of {1} that is more than two and a half times its primary current.", sizes.line_fuse, rated), "A shorted turn burns before the fuse blows.",
                      "Take a larger transformer, or less load.", table("transformer_fuses").source, ("F1", "T2"), key="power.rated")  # fmt: skip
    needed = values.get("T2.S")
    if needed is not None and needed.known and needed > rated:
        yield Finding("transformer-too-small", "stop", "WARNING", Said.of("The work takes {0}; the transformer is good for {1}.", needed, rated), "It overheats.",
                      "Take a larger one, or lower the load; without a capacitor it is less.", HEAT, ("T2",), key="power.rated")  # fmt: skip


def rush(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Iron on the line takes many times its current in the first half-wave."""
    del circuit
    if design.sizes is None or design.sizes.outfit.idle is None:
        return
    yield Finding("iron-rush", "note", "NOTICE", Said.of("At switch-on the iron may take ten times its current and more, for a moment."), "A fast fuse blows and a breaker may trip, now and then, though nothing is wrong.",
                  "Keep to the time-lag fuse. A breaker that trips at one start in ten is the rush; one that trips at each is a fault.", RUSH, ("T2", "F1"))  # fmt: skip


def capacitor(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Whether the capacitor helps: the same work without it, against what the motor stands."""
    del circuit
    values, heat = design.sheet.values, design.heat
    hard = max((point for point in design.points if point.rms.known), key=lambda point: float(point.rms), default=None)  # the one that was solved without it
    heat_of = values.get("heat.P_R2")
    limit_of = table("bench_limits").cell("bleeder heat", "value")
    if heat_of is not None and heat_of.known and float(heat_of) > limit_of.si:
        yield Finding("capacitor-costs", "stop", "WARNING", Said.of(f"The resistor that must empty the capacitor burns {{0}} all the time; {limit_of.printed} is the most.", heat_of), "It scorches the box, and a capacitor that is not emptied kills.",
                      "Take a smaller capacitor, or none.", practice("bleeders"), ("C1", "R2"), key="power.capacitor")  # fmt: skip
    bare, ahead, bare_ahead = values.get("bare.F"), values.get("T2.I_2"), values.get("bare.I_2")
    if bare is None or ahead is None or bare_ahead is None or heat is None or hard is None or hard.form_factor is None:
        return
    if not (bare.known and ahead.known and heat.allowed_current.known and heat.duty_current.known and hard.form_factor.known):
        return
    stood = float(heat.allowed_current) * float(hard.form_factor) / float(bare)
    gain = float(bare) - float(hard.form_factor)
    if gain < SAME:
        yield Finding("capacitor-idle", "heed", "NOTICE", Said.of("The capacitor does not smooth this motor's current: its form factor is {0} without and {1} with it.", bare, hard.form_factor), "It holds a charge that kills, and gives nothing for it.",
                      "Leave it out: take power: capacitor out of the file.", HEAT, ("C1",), key="power.capacitor")  # fmt: skip
    elif float(heat.duty_current) <= stood:
        yield Finding("capacitor-needless", "heed", "NOTICE", Said.of("The motor would stand this work without the capacitor too: form factor {0} without, {1} with it. Ahead of the bridge it takes the current from {2} to {3}.", bare, hard.form_factor, bare_ahead, ahead),
                      "It warms iron, brush and fuse, and holds a charge that kills; what it gives is a quieter, cooler motor.",
                      "Leave it out, unless the motor's hum disturbs: take power: capacitor out of the file.", HEAT, ("C1",), key="power.capacitor")  # fmt: skip
    else:
        yield Finding("capacitor-needed", "note", "NOTICE", Said.of("Without the capacitor the form factor would be {0} instead of {1}, and this work would overheat the motor.", bare, hard.form_factor), "It is worth its place here.", "Keep it.", HEAT, ("C1",))  # fmt: skip


def rectified(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A capacitor's voltage without load is far above the average that the motor runs on."""
    del circuit
    sizes, motor = design.sizes, design.project.motor
    plate = motor.plate if motor is not None else None
    most = sizes.outfit.direct_most if sizes is not None else None
    if most is None or plate is None or not most.known or not plate.voltage.known or "C1.I_C" not in design.sheet.values:
        return
    if float(most) > float(plate.voltage) * 1.1:
        yield Finding("capacitor-above-motor", "heed", "WARNING", Said.of("With the capacitor the bridge reaches {0}; the motor's plate says {1}.", most, plate.voltage), "A capacitor lifts the voltage towards the peak: the same place of the dial that gave the right speed without it runs the motor away with it.",
                      "Set the stop with the capacitor in place, by the meter, and check the runaway column of sheet 10.", memory("rectifiers with capacitor input charge to the peak"), ("C1", "M1"), key="power.limit")  # fmt: skip
