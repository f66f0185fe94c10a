"""The places of a field's own supply: bridge, resistor, relay, fuse."""

from buildsheet.design.design import Sizes
from buildsheet.design.needs import LINE_SLACK, NEVER_USED, TEN_TIMES, TWO_PIECES, kind_need, volts_need
from buildsheet.formulas.transformer import bridge_blocking_voltage
from buildsheet.project import Project
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.supply import Supplied
from buildsheet.worksheet import Worksheet


def field_places(project: Project, sheet: Worksheet, supplied: Supplied, sizes: Sizes) -> tuple[Place, ...]:
    """Bridge, resistor, relay and fuse of a field's own supply."""
    field = sizes.field
    if field is None:
        return ()
    volts = volts_need(supplied)
    guard = sizes.line_fuse if sizes.field_fuse is None else sizes.field_fuse  # what a short behind the bridge has to blow
    blocks = sheet.work("T3.V_need", bridge_blocking_voltage, "voltage that each diode of the field's bridge should block", V_m=sizes.motor_fuse_volts)
    found = [
        Place(
            "field-bridge", "bridge", "Bridge of the field",
            (Need("current", "≥", guard, "amperes"), Need("voltage", "≥", blocks, "volts that it blocks")),
            ("single-phase bridge rectifier with an insulated metal base, ", guard, " or more, blocks ", blocks, " or more, bolted flat to the box with heat paste"), "T3",
            "four diodes of these figures on insulated heat sinks", safety=True, proof="each of its four diodes reads one way only on the diode range",
        )
    ]  # fmt: skip
    if field.resistor is not None and field.rating is not None:
        found.append(
            Place(
                "field-resistor", "resistor", "Resistor in a row with the field",
                (Need("resistance", "=", field.resistor, "resistance", LINE_SLACK), Need("power", "≥", field.rating, "power")),
                ("wire-wound resistor in a metal case, ", field.resistor, ", ", field.rating, " or more, on bare metal with air round it; it is on as long as the disconnect is"), "R4",
                "two of half the value in a row, each of half the watts", safety=True, proof="reads its value, and no turn of it is burnt",
            )
        )  # fmt: skip
    if project.controls is not None and project.controls.field_relay:
        found.append(
            Place(
                "field-relay", "relay", "Field relay",
                (Need("pulls_in", "≤", field.asked, "pulls in at"), Need("falls_out", "≥", field.opens, "falls out at"), Need("current", "≥", field.most, "amperes for long"),
                 volts, Need("contact", "=", "normally open", "contact")),
                ("current relay with a coil for direct current and an armature that a finger can push, in by ", field.asked, ", out by ", field.opens, " as the current falls, carries ", field.most, " for long, one normally open contact for ", supplied.voltage, " AC"), "K3",
                "nothing that senses volts: it stays in when the field's winding opens", safety=True,
                proof=f"its two currents read on a battery with a variable resistor, {TEN_TIMES}",
            )
        )  # fmt: skip
    if sizes.field_fuse is not None:
        both = supplied.poles > 1
        found.append(
            Place(
                "field-fuse", "fuse", "Field fuses, one in each pole" if both else "Field fuse",
                (Need("current", "=", sizes.field_fuse, "amperes"), volts, kind_need(supplied), Need("breaking", "≥", sizes.fault_at_fuse, "breaking capacity"),
                 Need("lag", "=", "time-lag", "kind"), NEVER_USED, *((TWO_PIECES,) if both else ())),
                ("two of: " if both else "", "time-lag fuse, ", sizes.field_fuse, ", ", supplied.voltage, " AC, breaks at least ", sizes.fault_at_fuse, f", and {'a two-pole' if both else 'its'} finger-safe holder; two spares"), "F7",
                "nothing larger", safety=True,
            )
        )  # fmt: skip
    return tuple(found)
