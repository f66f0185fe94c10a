"""The places of the machine, from supply to tool, each with its needs and how to ask for it at the counter."""

from buildsheet.controls.extras import bar_screws
from buildsheet.design.design import Bleeder, Sizes, WireSize
from buildsheet.design.field_places import field_places
from buildsheet.design.needs import LINE_SLACK, NEVER_USED, TEN_TIMES, TWO_PIECES, kind_need, volts_need
from buildsheet.design.soft_start import soft_start_places
from buildsheet.formulas.choice import larger_of
from buildsheet.project import Project
from buildsheet.reference import Region, table
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import row_of
from buildsheet.sizing.supply import Supplied
from buildsheet.units import METRE, WATT
from buildsheet.ways.way import Way
from buildsheet.worksheet import Value, Worksheet, unknown


def places_of(
    project: Project, region: Region, sheet: Worksheet, supplied: Supplied, sizes: Sizes
) -> tuple[Place, ...]:
    """Every place, in the order of the power path."""
    power = project.power
    if power is None:
        return ()
    found = [
        *(_line(project, region, supplied, sizes) if supplied.guard is not None else _battery(sheet, supplied, sizes)),
        *_release(power, supplied, sizes),
        *sizes.outfit.places,
        *_motor_side(project, sheet, supplied, sizes),
        *field_places(project, sheet, supplied, sizes),
        *_stops(project, supplied),
        *_fan(project, supplied),
        *_extras(project, supplied),
        Place("enclosure", "enclosure", "Box", (), (f"{_box_kind(project)}, ", *_box(project)), "U1", "a larger one"),
    ]  # fmt: skip
    if supplied.earthed:
        screws = bar_screws(project.extras, project.machine.movable_metal if project.machine is not None else ())
        found.append(
            Place(
                "earth-bar", "earth bar", "Protective bar", (), (f"copper or brass bar with {'ten' if screws == 10 else screws} screws, bolted to bare metal",), "X2",
                "studs M5 with toothed washers, one wire each", safety=True,
            )
        )  # fmt: skip
    return tuple(found)


def _current(supplied: Supplied) -> str:
    return " AC" if supplied.alternating else " DC"


ONE_POLE = Need("poles", "=", "1-pole", "poles", also=("2-pole", "3-pole"))
TWO_POLES = Need("poles", "=", "2-pole", "poles", also=("3-pole",))


def _disconnect(supplied: Supplied, sizes: Sizes) -> Place:
    volts = volts_need(supplied)
    return Place(
        "disconnect", "disconnect", "Disconnect",
        (Need("current", "≥", sizes.disconnect_need, "amperes"), volts, TWO_POLES, kind_need(supplied)),
        ("two-pole rotary disconnect that can be locked off, ", sizes.disconnect, ", ", volts.value, _current(supplied)), "Q1",
        "a two-pole motor switch with a marked off position" if supplied.alternating else "nothing without a DC figure on it",
        safety=True, proof="its rows of sheet 8: OL off, near 0 on, on both poles, ten times in a row",
    )  # fmt: skip


def _line(project: Project, region: Region, supplied: Supplied, sizes: Sizes) -> tuple[Place, ...]:
    """Cord, disconnect and line fuses of a machine with a plug."""
    words, volts, cord, guard = region.words, volts_need(supplied), sizes.cord, supplied.guard
    if cord is None or guard is None:
        return ()
    length = (
        project.runs.cord
        if project.runs
        else unknown("runs.cord", METRE, "no cord length in the file", "length of the cord")
    )
    both = supplied.poles > 1
    return (
        Place(
            "cord", "cord", "Line cord with plug",
            (Need("current", "≥", guard, "amperes"), volts, Need("length", "≥", length, "length"), _gauge(region, cord)),
            (f"{words['cord']}, ", cord.gauge, f", {words['cord-kind']}, ", length), "X1",
            f"an appliance cord of the same size with its {words['earth-pin']}, uncut and unburnt", safety=True,
            proof="no cut, burn or stiff place over its whole length, plug not browned, bonds of sheet 8 in band",
        ),
        _disconnect(supplied, sizes),
        Place(
            "line-fuse", "fuse", "Line fuses, one in each pole" if both else "Line fuse",
            (Need("current", "=", sizes.line_fuse, "amperes"), volts, kind_need(supplied), Need("breaking", "≥", sizes.fault_at_fuse, "breaking capacity"),
             Need("lag", "=", "time-lag", "kind"), NEVER_USED, *((TWO_PIECES,) if both else ())),
            ("two of: " if both else "", f"{words['line-fuse']}, ", sizes.line_fuse, ", ", supplied.voltage, " AC, breaks at least ", sizes.fault_at_fuse,
             f", and {'a two-pole' if both else 'its'} finger-safe holder; two spares"), "F1",
            words["line-fuse-else"], safety=True,
        ),
    )  # fmt: skip


def _battery(sheet: Worksheet, supplied: Supplied, sizes: Sizes) -> tuple[Place, ...]:
    """Fuse at the post, disconnect, and the charger's socket with its fuse, of a machine on a battery."""
    volts = Need("voltage", "≥", supplied.highest, "volts")
    breaks = Need("breaking", "≥", supplied.fault, "breaking capacity")
    direct = Need("supply", "=", "DC", "kind of supply")
    style = sheet.pick(
        "F1.V_n",
        "battery_fuses",
        "voltage",
        "voltage of that kind of fuse",
        where="breaks", at_least=sizes.line_fuse_breaks,
    )
    kind = style.parent.cell.row if hasattr(style.parent, "cell") else "fuse for DC"
    found = [
        Place(
            "line-fuse", "fuse", "Battery fuse",
            (Need("current", "=", sizes.line_fuse, "amperes"), volts, direct, breaks, NEVER_USED),
            (f"{kind}, ", sizes.line_fuse, ", at least ", supplied.highest, " DC, breaks at least ", supplied.fault, " DC, with its closed holder that draws the fuse out, on a board beside the battery; two spares"), "F1",
            "nothing that has no DC breaking capacity on it", safety=True,
        ),
        _disconnect(supplied, sizes),
    ]  # fmt: skip
    if sizes.charger_fuse is not None:
        found += [
            Place(
                "charger-fuse", "fuse", "Charger fuse",
                (Need("current", "=", sizes.charger_fuse, "amperes"), volts, direct, breaks, NEVER_USED),
                (f"{kind}, ", sizes.charger_fuse, ", at least ", supplied.highest, " DC, breaks at least ", supplied.fault, " DC, with its closed holder that draws the fuse out, beside the other"), "F4",
                "nothing that has no DC breaking capacity on it", safety=True,
            ),
            Place(
                "charger-inlet", "charger inlet", "Charger socket", (Need("current", "≥", sizes.charger_fuse, "amperes"), volts, direct),
                ("panel socket for the charger's plug, ", sizes.charger_fuse, ", with a contact for ", supplied.highest, " DC that opens while the plug is in"), "X4",
                "a socket with a separate microswitch that the plug pushes", safety=True, proof=f"its contacts clean, and {TEN_TIMES}",
            ),
        ]  # fmt: skip
    if sizes.precharge is not None:
        found += [
            Place(
                "charging-timer", "timer", "Charging timer",
                (Need("coil", "=", supplied.voltage, "coil", LINE_SLACK), Need("delay", "=", "on-delay", "kind of delay"), volts, direct,
                 Need("contact", "=", "normally open", "contact", also=("changeover",)), Need("range", "≥", sizes.precharge.time, "longest time")),
                ("on-delay timer relay, up to ", sizes.precharge.time, ", coil ", supplied.voltage, " DC, one normally open or changeover contact for ", supplied.highest, " DC"), "K2",
                "the same with several ranges, set to this one",
            ),
            Place(
                "charging-resistor", "resistor", "Charging resistor",
                (Need("resistance", "=", sizes.precharge.resistor, "resistance", LINE_SLACK), Need("power", "≥", sizes.precharge.power, "power")),
                ("wire-wound resistor in a metal case, ", sizes.precharge.resistor, ", ", sizes.precharge.power), "R1", "two of half the value in a row",
            ),
            Place(
                "diode", "diode", "Diodes, two in a row",
                (Need("current", "≥", sizes.precharge.diode_current, "amperes"), Need("voltage", "≥", sizes.precharge.diode_voltage, "volts"), TWO_PIECES),
                ("two of: silicon diode, ", sizes.precharge.diode_current, ", ", sizes.precharge.diode_voltage, ", with insulated leads or a screw block"), "V1", "any larger ones",
            ),
        ]  # fmt: skip
    return tuple(found)


def _release(power: Way, supplied: Supplied, sizes: Sizes) -> tuple[Place, ...]:
    """Contactor and buttons of the no-volt release."""
    volts, kind, current = volts_need(supplied), kind_need(supplied), _current(supplied)
    category = Need("category", "=", "AC-3", "use category", also=("AC-4", "motor-rated"))
    if not supplied.alternating:
        category = Need("category", "=", "DC-1", "use category", also=("DC-3", "DC-5"))
        if power.switches_motor:  # a motor that is switched off while it runs up feeds the arc
            category = Need("category", "=", "DC-3", "use category", also=("DC-5",))
    closed, opened = (
        Need("contact", "=", "normally closed", "contact"),
        Need("contact", "=", "normally open", "contact"),
    )
    direct = () if supplied.alternating else (kind,)  # on AC its volts say enough
    return (
        Place(
            "contactor", "contactor", "Contactor of the no-volt release",
            (Need("current", "≥", sizes.contactor, "amperes"), volts, TWO_POLES if supplied.alternating else ONE_POLE, kind, Need("coil", "=", supplied.voltage, "coil", LINE_SLACK),
             Need("auxiliary", "=", "auxiliary contact" if sizes.braking is None else "auxiliary contacts of both kinds", "auxiliary contact"), category),
            (f"{'two' if supplied.alternating else 'one'}-pole contactor with {'one auxiliary contact' if sizes.braking is None else 'two auxiliary contacts, one open and one closed at rest, the closed one a mirror contact for direct current'}, ", sizes.contactor, " motor rating" if supplied.alternating else " DC motor load (category DC-3)" if power.switches_motor else " DC on each pole",
             ", coil ", supplied.voltage, current), "Q2",
            "a three-pole motor contactor with its third pole as auxiliary contact" if supplied.alternating else "nothing without a DC figure on it",
            safety=True, proof=f"contacts bright, armature falls back by itself, {TEN_TIMES}",
        ),
        Place(
            "emergency-stop", "emergency stop", "Emergency stop",
            (volts, kind, closed, Need("opening", "=", "direct opening", "way of opening")),
            ("red latching mushroom button on a yellow plate, one normally closed direct-opening contact, ", volts.value, current), "S1",
            "nothing else", safety=True, proof=f"latches at every press, {TEN_TIMES}",
        ),
        Place("stop", "stop button", "Stop button", (volts, *direct, closed), ("black push button, one normally closed contact, ", volts.value, current), "S3",
              "a button of an old motor starter, once its contact is measured"),
        Place("start", "start button", "Start button", (volts, *direct, opened),
              ("white push button, one normally open contact that springs back, ", volts.value, current), "S2",
              "a button of an old motor starter, once its contact is measured"),
    )  # fmt: skip


def _motor_side(project: Project, sheet: Worksheet, supplied: Supplied, sizes: Sizes) -> tuple[Place, ...]:
    """Motor fuse, overload relay, and what a machine that runs both ways needs."""
    peak = sizes.motor_fuse_volts
    breaks = Need("breaking", "≥", sizes.fault_at_fuse, "breaking capacity")
    found: list[Place] = []
    if sizes.motor_fuse is not None:
        found.append(
            Place(
                "motor-fuse", "fuse", "Motor fuse, marked for DC",
                (Need("current", "=", sizes.motor_fuse, "amperes"), Need("voltage", "≥", peak, "volts, DC"),
                 Need("supply", "=", "DC", "kind of supply"), Need("lag", "=", "time-lag", "kind"), breaks, NEVER_USED),
                ("time-lag fuse with a DC rating printed on it, ", sizes.motor_fuse, ", at least ", peak, " DC, breaks at least ", sizes.fault_at_fuse, " DC, and holder"), "F2",
                "nothing that has no DC figure on it", safety=True,
            )
        )  # fmt: skip
    if sizes.bleeder is not None:
        found += _capacitor(sizes.bleeder)
    if sizes.soft_start is not None:
        found += soft_start_places(sizes.soft_start, supplied, sizes.line_fuse)
    if sizes.braking is not None:
        brake = sizes.braking
        found.append(
            Place(
                "brake-resistor", "resistor", "Braking resistor",
                (Need("resistance", "=", brake.resistor, "resistance", LINE_SLACK), Need("power", "≥", brake.rating, "power")),
                ("wire-wound resistor, ", brake.resistor, ", ", brake.rating, " or more, on stand-offs with air round it; it carries ", brake.current, " at the start of each stop"), "R3",
                "two of half the value in a row", safety=True, proof="reads its value, and no turn of it is burnt",
            )
        )  # fmt: skip
    choke = project.controls.choke if project.controls else None
    if choke is not None:
        found.append(
            Place(
                "choke", "choke", "Choke in the motor's lead",
                (Need("inductance", "≥", choke.inductance, "inductance"), Need("current", "≥", sizes.overload_need, "amperes, by heat")),
                ("iron-cored choke with an air gap for direct current, ", choke.inductance, ", ", sizes.overload_need, " or more"), "L1",
                "the choke of the drive board's old machine",
            )
        )  # fmt: skip
    overload = project.controls.overload if project.controls else None
    if overload is not None and overload.by == "relay":
        found.append(
            Place(
                "overload", "overload relay", "Motor overload relay",
                (Need("current", "≥", sizes.overload_need, "top of its range"), Need("poles", "=", "3-pole", "poles"),
                 Need("reset", "=", "manual reset", "reset"), *(() if supplied.alternating else (volts_need(supplied), kind_need(supplied)))),
                (f"three-pole bimetal motor overload relay{', suitable for DC' if sizes.motor_fuse is not None else ''}, range up to ", sizes.overload_range,
                 ", with a normally closed trip contact", *(() if supplied.alternating else (" for ", supplied.highest, " DC")), " and manual reset"), "F3",
                "nothing with fewer poles: the current passes all three", safety=True,
                proof="trips at its test lever, and all three heaters read near 0",
            )
        )  # fmt: skip
    if sizes.wait is not None:
        guard = sizes.motor_fuse if sizes.motor_fuse is not None else sizes.line_fuse
        load = sheet.work("S5.I_need", larger_of, "reversing switch, at least", a=guard, b=sizes.overload_need)
        volts, kind = (Need("voltage", "≥", peak, "volts, DC"), " DC") if sizes.motor_fuse is not None else (volts_need(supplied), _current(supplied))
        found += [
            Place(
                "reversing-switch", "reversing switch", "Direction switch",
                (Need("current", "≥", load, "amperes"), volts, TWO_POLES,
                 Need("centre", "=", "centre off", "middle position"), Need("auxiliary", "=", "auxiliary contact", "early contact")),
                ("cam switch, two-pole changeover, 1-0-2, ", load, ", ", volts.value, f"{kind}, with a contact that is closed in 1 and 2 and opens first on leaving them"), "S5",
                "a drum switch of an old machine, once every contact is measured in all three positions", safety=True,
                proof="its rows of sheet 8 in band in all three positions, and the early contact opens before the others",
            ),
            Place(
                "standstill-timer", "timer", "Standstill timer",
                (Need("coil", "=", supplied.voltage, "coil", LINE_SLACK), Need("delay", "=", "true off-delay", "kind of delay"), kind_need(supplied),
                 Need("contact", "=", "normally closed", "contact", also=("changeover",)), Need("range", "≥", sizes.wait, "longest time")),
                ("true off-delay timer relay, keeps its time without supply, up to ", sizes.wait, ", coil ", supplied.voltage, _current(supplied),
                 ", one normally closed or changeover contact"), "K1",
                "nothing that needs supply to keep its time: pulling the plug would cut the wait short", safety=True,
                proof="set to its time by a watch, also with the plug pulled",
            ),
        ]  # fmt: skip
    return tuple(found)


def _capacitor(bleeder: Bleeder) -> tuple[Place, ...]:
    """The motor's own capacitor, and the resistor that empties it."""
    return (
        Place(
            "motor-capacitor", "capacitor", "Motor's capacitor",
            (Need("capacitance", "=", bleeder.capacitor, "capacitance", LINE_SLACK), Need("voltage", "≥", bleeder.volts, "volts AC")), ("the motor's own capacitor, ", bleeder.capacitor, ", ", bleeder.volts, " AC, in its insulating cap"), "C1",
            "a new one of the same microfarads and no fewer volts, of the same kind: for starting or for running",
            safety=True, proof="neither bulged nor wet, its cap whole, and its microfarads within a tenth of its mark",
        ),
        Place(
            "bleed-resistor", "resistor", "Bleed resistor across the capacitor",
            (Need("resistance", "=", bleeder.resistor, "resistance", LINE_SLACK), Need("power", "≥", bleeder.power, "power"), Need("voltage", "≥", bleeder.crest, "volts")),
            (f"resistor, {row_of(bleeder.resistor)}, ", bleeder.power, " or more, for ", bleeder.crest, " or more, with insulated leads"), "R2", "two of half the value in a row, which share the volts", safety=True,
        ),
    )  # fmt: skip


def _stops(project: Project, supplied: Supplied) -> tuple[Place, ...]:
    """Guard switch, thermostat, foot pedal: what stands in the chain beside the buttons."""
    asked = project.controls.also_stops if project.controls else ()
    volts, current = volts_need(supplied), _current(supplied)
    marked = (volts, *(() if supplied.alternating else (kind_need(supplied),)))
    closed, opened = Need("contact", "=", "normally closed", "contact"), Need("contact", "=", "normally open", "contact")
    made = {
        "guard switch": Place(
            "guard-switch", "guard switch", "Guard switch", (*marked, closed, Need("opening", "=", "direct opening", "way of opening")),
            ("guard position switch whose contact the guard pushes open, marked for direct opening, ", volts.value, current), "S6",
            "nothing that a spring alone opens", safety=True, proof=f"opens before a finger reaches in, {TEN_TIMES}",
        ),
        "thermostat": Place(
            "thermostat", "thermostat", "Thermostat in the box", (*marked, closed),
            ("bimetal thermostat that opens a little below the hottest air that the drive stands, one normally closed contact, ", volts.value, current), "F6",
            "the one of the old machine, once its temperature is read by a thermometer",
        ),
        "foot pedal": Place(
            "foot-pedal", "foot pedal", "Foot pedal", (*marked, opened),
            ("foot switch with a hood over it, one contact closed while it is pressed, ", volts.value, current, ", with its own cable"), "S7",
            "nothing without a hood: a falling tool must not press it", safety=True, proof=f"springs back by itself, {TEN_TIMES}",
        ),
    }  # fmt: skip
    return tuple(place for name, place in made.items() if name in asked)


def _gauge(region: Region, size: WireSize) -> Need:
    """The size of a cable, or any thicker one of the region's wires."""
    areas = table(region.tables["wire"])
    least = areas.cell(size.gauge, "area").si if size.gauge else float("inf")
    thicker = tuple(key for key in areas.rows if areas.cell(key, "area").si > least)
    return Need("gauge", "=", size.gauge or "not known", "size", also=thicker)


def _box_kind(project: Project) -> str:
    """The box as the file names it; its heat is worked as if it were sealed, which is the careful side."""
    box = project.box
    material = box.material if box and box.material else "steel"
    openings = {"sealed": "sealed", "vented": "with covered vents", "fan": "with a fan and filter", None: "sealed"}
    return f"{material} enclosure, {openings[box.openings if box else None]}"


def _box(project: Project) -> tuple[Value | str, ...]:
    return (
        (project.box.width, " × ", project.box.height, " × ", project.box.depth)
        if project.box
        else ("size not known",)
    )


def _extras(project: Project, supplied: Supplied) -> tuple[Place, ...]:
    """What the builder adds: each is one that is there or is bought, for this supply."""
    made = []
    for number, extra in enumerate(project.extras, 1):
        name = extra.name or extra.what
        say = (f"{name}, ", supplied.voltage, _current(supplied), ", ", extra.power, "" if extra.body != "metal" else ", metal, with a screw for its protective conductor")
        needs = (Need("voltage", "=", supplied.voltage, "volts", LINE_SLACK), Need("power", "≤", extra.power, "power"))
        made.append(Place(f"extra-{number}", extra.what, f"{name[0].upper()}{name[1:]}", needs, say, "", "any of this voltage that takes no more"))
    return tuple(made)


def _fan(project: Project, supplied: Supplied) -> tuple[Place, ...]:
    fan = project.controls.fan if project.controls else None
    if fan is None:
        return ()
    power = fan.power if fan.power.known else unknown("controls.fan.power", WATT, "not in the file", "power of the fan")
    needs = (
        Need("voltage", "=", supplied.voltage, "volts", LINE_SLACK),
        kind_need(supplied),
        Need("power", "≤", power, "power"),
    )
    say = ("axial fan, ", supplied.voltage, _current(supplied), ", with finger guards")
    return (Place("fan", "fan", "Fan on the drive", needs, say, "M2", "any axial fan of this voltage"),)
