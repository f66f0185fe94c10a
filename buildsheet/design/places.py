"""The places of the machine, from plug to tool, each with its needs and how to ask for it at the counter."""

from buildsheet.design.design import Sizes
from buildsheet.formulas import protection
from buildsheet.project import Project
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.waist import Applied
from buildsheet.units import METRE, WATT
from buildsheet.worksheet import Value, Worksheet, unknown

POT_SLACK = 0.2  # a potentiometer's own tolerance
LINE_SLACK = 0.1  # the line's tolerance


def places_of(
    project: Project,
    sheet: Worksheet,
    sizes: Sizes,
    applied: Applied,
) -> tuple[Place, ...]:
    """Every place, in the order of the power path."""
    supply, power = project.supply, project.power
    if supply is None or power is None:
        return ()
    line = supply.voltage
    peak = sheet.work(
        "line.V_peak",
        protection.peak_voltage,
        "peak of the line at the top of its tolerance",
        V=applied.highest,
    )
    length = (
        project.runs.cord
        if project.runs
        else unknown("runs.cord", METRE, "no cord length in the file", "length of the cord")
    )
    volts = Need("voltage", "≥", line, "volts, line side")
    two_poles = Need("poles", "=", "2-pole", "poles")
    alternating = Need("supply", "=", "AC", "kind of supply")
    found = [
        Place(
            "cord", "cord", "Line cord with plug",
            (Need("current", "≥", supply.breaker, "amperes"), volts, Need("length", "≥", length, "length")),
            ("cord with moulded three-pin plug, ", sizes.cord.gauge, ", hard service, ", length), "X1",
            "an appliance cord of the same gauge with a ground pin, uncut and unburnt", safety=True,
        ),
        Place(
            "disconnect", "disconnect", "Disconnect",
            (Need("current", "≥", sizes.disconnect_need, "amperes"), volts, two_poles, alternating),
            ("two-pole rotary disconnect that can be locked off, ", sizes.disconnect, ", ", line, " AC"), "Q1",
            "a two-pole motor switch with a marked off position", safety=True,
        ),
        Place(
            "line-fuse", "fuse", "Line fuse",
            (Need("current", "=", sizes.line_fuse, "amperes"), volts, Need("breaking", "≥", sizes.fault_at_fuse, "breaking capacity"),
             Need("lag", "=", "time-lag", "kind")),
            ("class CC time-lag fuse, ", sizes.line_fuse, ", ", line, " AC, breaks at least ", sizes.fault_at_fuse, ", and its finger-safe holder; two spares"), "F1",
            "a supplementary fuse whose mark gives at least that breaking capacity", safety=True,
        ),
        Place(
            "contactor", "contactor", "Contactor of the no-volt release",
            (Need("current", "≥", sizes.contactor, "amperes"), volts, two_poles, alternating),
            ("two-pole contactor with one auxiliary contact, ", sizes.contactor, " motor rating, coil ", line), "Q2",
            "a three-pole motor contactor with its third pole as auxiliary contact", safety=True,
        ),
        Place(
            "emergency-stop", "emergency stop", "Emergency stop",
            (volts,), ("red latching mushroom button on a yellow plate, one normally closed direct-opening contact, ", line), "S1",
            "nothing else", safety=True,
        ),
        Place("stop", "stop button", "Stop button", (volts,), ("black push button, one normally closed contact, ", line), "S3",
              "a button of an old motor starter, once its contact is measured"),
        Place("start", "start button", "Start button", (volts,), ("white push button, one normally open contact that springs back, ", line), "S2",
              "a button of an old motor starter, once its contact is measured"),
        Place(
            "drive", "drive", "DC drive",
            (), ("phase-controlled DC drive, ", line, " in, ", applied.ceiling, " DC out, ", power.rated), "T1",
            "the drive named in your file; another one changes this packet",
        ),
        Place(
            "motor-fuse", "fuse", "Motor fuse, marked for DC",
            (Need("current", "=", sizes.motor_fuse, "amperes"), Need("voltage", "≥", peak, "volts, peak of the line"),
             Need("supply", "=", "DC", "kind of supply"), Need("breaking", "≥", sizes.fault_at_fuse, "breaking capacity")),
            ("time-lag fuse with a DC rating printed on it, ", sizes.motor_fuse, ", at least ", peak, " DC, breaks at least ", sizes.fault_at_fuse, " DC, and holder"), "F2",
            "nothing that has no DC figure on it", safety=True,
        ),
        *_overload(project, sizes),
        *_potentiometer(project, sheet, sizes, line),
        *_fan(project, line),
        Place("enclosure", "enclosure", "Box", (), ("steel enclosure, sealed, ", *_box(project)), "U1", "a larger one"),
        Place("ground-bar", "ground bar", "Protective bar", (), ("copper or brass bar with eight screws, bolted to bare metal",), "X2",
              "studs M5 with toothed washers, one wire each", safety=True),
    ]  # fmt: skip
    return tuple(found)


def _box(project: Project) -> tuple[Value | str, ...]:
    return (
        (project.box.width, " × ", project.box.height, " × ", project.box.depth)
        if project.box
        else ("size not known",)
    )


def _overload(project: Project, sizes: Sizes) -> tuple[Place, ...]:
    overload = project.controls.overload if project.controls else None
    if overload is None or overload.by != "relay":
        return ()
    needs = (Need("current", "≥", sizes.overload_need, "top of its range"),)
    say = (
        "bimetal motor overload relay, suitable for DC, range up to ",
        sizes.overload_range,
        ", with a normally closed trip contact and manual reset",
    )
    return (
        Place(
            "overload",
            "overload relay",
            "Motor overload relay",
            needs,
            say,
            "F3",
            "a three-pole relay with its poles in series",
            safety=True,
        ),
    )


def _potentiometer(project: Project, sheet: Worksheet, sizes: Sizes, line: Value) -> tuple[Place, ...]:
    power = project.power
    if power is None:
        return ()
    needs = (
        Need("resistance", "=", power.potentiometer, "resistance", POT_SLACK),
        Need("taper", "=", "linear", "taper"),
        Need("power", "≥", sizes.pot_power, "power"),
        Need("voltage", "≥", line, "insulation of its case"),
    )
    say = (
        power.potentiometer,
        " linear potentiometer, ",
        sheet.pick(
            "S4.P_n",
            "bench_limits",
            "value",
            "usual rating of a sturdy potentiometer",
            key="potentiometer power",
        ),
        ", plastic shaft, insulated for ",
        line,
        ", with knob",
    )
    return (
        Place(
            "potentiometer",
            "potentiometer",
            "Speed potentiometer",
            needs,
            say,
            "S4",
            "the one of the drive's old machine, if it reads the same",
        ),
    )


def _fan(project: Project, line: Value) -> tuple[Place, ...]:
    fan = project.controls.fan if project.controls else None
    if fan is None:
        return ()
    needs = (
        Need("voltage", "=", line, "volts", LINE_SLACK),
        Need("power", "≤", _or_unknown(fan.power), "power"),
    )
    return (
        Place(
            "fan",
            "fan",
            "Fan on the drive",
            needs,
            ("axial fan, ", line, " AC, with finger guards"),
            "M2",
            "any axial fan of this voltage",
        ),
    )


def _or_unknown(power: Value) -> Value:
    return power if power.known else unknown("fan.P", WATT, "not in the file")
