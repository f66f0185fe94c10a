"""Ways to break a circuit, each with the proof that must catch it. A way that has no place in a circuit gives None."""

from dataclasses import dataclass, replace
from math import inf

from buildsheet.circuit import (
    Capacitor,
    Circuit,
    Contact,
    Device,
    Diode,
    Fuse,
    Link,
    Resistance,
    Source,
    Terminal,
)
from buildsheet.circuit.stored import SAFE_VOLTS
from tests.circuit.small import adding, fuse_first, terminal, welded, wire, with_device, with_wire, without
from tests.circuit.tampering import (
    Break,
    added,
    bridge,
    bridge_kind,
    changed,
    contacts,
    drop,
    drop_at,
    earthed,
    has,
    moving,
    numbered,
    on_battery,
    on_line,
    reversing,
    wire_on,
)


@dataclass(frozen=True)
class Breaking:
    """A way to break a circuit: in words, the proof that catches it, and how it is done."""

    words: str
    proof: str
    of: Break


def _daisy_chain(circuit: Circuit) -> Circuit | None:
    """The motor's frame bonded from the box's stud instead of from the bar."""
    found = next((one for one in circuit.wires if terminal("M1:frame") in (one.a, one.b)), None)
    if found is None or not has(circuit, "U1"):
        return None
    return with_wire(circuit, found.number, a=terminal("U1:stud"), b=terminal("M1:frame"))


def _poles_swapped(circuit: Circuit) -> Circuit | None:
    """Line and neutral changed over at the plug."""
    source = circuit.source[1]
    if len(source.live) != 1 or "3" in circuit.devices["F1"].terminals:  # both poles are fused alike
        return None
    a, b = (f"X1:{pole}" for pole in source.poles)
    first, second = wire_on(circuit, a), wire_on(circuit, b)
    if first is None or second is None:
        return None
    swapped = with_wire(circuit, first.number, a=terminal(b), b=first.b if first.a == terminal(a) else first.a)
    return with_wire(swapped, second.number, a=terminal(a), b=second.b if second.a == terminal(b) else second.a)


def _capacitor(volts: float, bleeder: float | None, farads: float = 470e-6) -> Break:
    """A capacitor over the supply terminals of the drive, with or without a resistor over it."""

    def broken(circuit: Circuit) -> Circuit | None:
        feeds = [end for one in circuit.wires if one.stage == 3 for end in (one.a, one.b) if circuit.devices[end.device].kind == "drive"]
        if len(feeds) < 2:
            return None
        inside: tuple[Capacitor | Resistance, ...] = (Capacitor("1", "2", farads, volts),)
        if bleeder is not None:
            inside = (*inside, Resistance("1", "2", bleeder, bleeder))
        capacitor = Device("C9", "capacitor", "Capacitor", "", ("1", "2"), inside)
        return added(circuit, capacitor, wire(991, str(feeds[0]), "C9:1"), wire(992, str(feeds[1]), "C9:2"))

    return broken


def _capacitor_at_the_pins(circuit: Circuit) -> Circuit | None:
    """A large filter capacitor over the plug's poles, ahead of every switch, with a bleeder that is too slow for pins."""
    if circuit.direct:
        return None
    poles = [f"X1:{pole}" for pole in circuit.source[1].poles]
    inside = (Capacitor("1", "2", 2.2e-6, 187.0), Resistance("1", "2", 1e6, 1e6))
    filtering = Device("C9", "capacitor", "Capacitor", "", ("1", "2"), inside)
    return added(circuit, filtering, wire(991, poles[0], "C9:1"), wire(992, poles[1], "C9:2"))


def _past_the_contactor(circuit: Circuit) -> Circuit | None:
    """Both supply wires of the drive taken from where the supply comes in: the turning motor makes the pins live."""
    first, second = numbered(circuit, 301), numbered(circuit, 302)
    quiet = circuit.devices["M1"].makes_volts <= SAFE_VOLTS
    if circuit.direct or first is None or second is None or quiet:
        return None
    ends = [one.a if one.a.device != "T1" else one.b for one in (first, second)]
    poles = [Terminal("X1", pole) for pole in circuit.source[1].poles]
    moved = circuit
    for one, end, pole in zip((first, second), ends, poles, strict=True):
        moved = with_wire(moved, one.number, a=pole, b=one.b if one.a == end else one.a)
    return moved


def _brake_on_the_wrong_contact(circuit: Circuit) -> Circuit | None:
    """The brake's contact is one that is open at rest."""
    if not has(circuit, "R3"):
        return None
    inside = tuple(replace(part, closed_in=frozenset({"in"})) if isinstance(part, Contact) and part.a == "21" else part for part in circuit.devices["Q2"].inside)
    return with_device(circuit, "Q2", inside=inside)


def _low_but_joined(circuit: Circuit) -> Circuit | None:
    """A knob that is said to be extra-low voltage on a drive that does not separate it."""
    return None if circuit.direct or not has(circuit, "S4") else with_device(circuit, "S4", low=frozenset(circuit.devices["S4"].terminals))


def _thermostat_in_the_feed(circuit: Circuit) -> Circuit | None:
    """A thermostat that cuts the drive's supply instead of the release chain: when it cools, the machine starts."""
    found = numbered(circuit, 301)
    if found is None:
        return None
    cool = Device("F9", "thermostat", "Thermostat", "", ("1", "2"), (Contact("1", "2", frozenset({"cool"}), breaks_dc=inf),),
                  positions=("cool", "hot"), automatic=True)  # fmt: skip
    made = added(circuit, cool, wire(991, "F9:2", str(found.b)))
    return with_wire(made, 301, a=found.a, b=terminal("F9:1"))


def _same_way(circuit: Circuit) -> Circuit | None:
    """The reversing switch joined so that both its places drive the motor the same way."""
    if not has(circuit, "S5"):
        return None
    either = frozenset({"forward", "reverse"})
    inside = tuple(
        replace(p, closed_in=either if p.a in ("1", "3") and p.b == {"1": "2", "3": "4"}[p.a] else frozenset())
        if isinstance(p, Contact) and not p.early
        else p
        for p in circuit.devices["S5"].inside
    )
    return with_device(circuit, "S5", inside=inside)


def _without_middle(circuit: Circuit) -> Circuit | None:
    """A changeover without a middle place and without the mark break-before-make; a capacitor before it would take the volts."""
    return with_device(circuit, "S5", positions=("forward", "reverse"), overlaps=True) if has(circuit, "S5") and not has(circuit, "C1") else None


def _kept_by_the_line(circuit: Circuit) -> Circuit | None:
    """The standstill timer set by the line itself: before the contactor is in."""
    if not has(circuit, "K1"):
        return None
    moved = with_wire(circuit, 215, a=terminal("F1:2"), b=terminal("K1:A1"))
    neutral = wire_on(circuit, "Q2:3")
    assert neutral is not None
    return with_wire(moved, 223, a=neutral.a if neutral.a.device != "Q2" else neutral.b, b=terminal("K1:A2"))


def _reversed_diode(circuit: Circuit) -> Circuit | None:
    return with_device(circuit, "V1", inside=(Diode("K", "A"),)) if has(circuit, "V1") else None


def _knob_swapped(circuit: Circuit) -> Circuit | None:
    """The two ends of the speed knob changed over."""
    first, last = numbered(circuit, 501), numbered(circuit, 503)
    if first is None or last is None:
        return None
    return with_wire(with_wire(circuit, 501, b=last.b), 503, b=first.b)


def _thin(role: str) -> Break:
    def broken(circuit: Circuit) -> Circuit | None:
        found = next((one for one in circuit.wires if one.role == role), None)
        return with_wire(circuit, found.number, ampacity=0.5) if found else None

    return broken


def _thin_protective(circuit: Circuit) -> Circuit | None:
    found = next((one for one in circuit.wires if one.role == "protective"), None)
    return with_wire(circuit, found.number, area=circuit.protective_least / 2) if found and circuit.protective_least else None


def _linked_disconnect(circuit: Circuit) -> Circuit:
    device = circuit.devices["Q1"]
    return with_device(circuit, "Q1", inside=(Link("1", "2"), *device.inside[1:]))


def _no_figure(code: str) -> Break:
    return contacts(code, lambda part: replace(part, breaks_dc=None, early=False))


def _live_poles(circuit: Circuit) -> Circuit | None:
    """A source with two poles that are live, fused in one."""
    source, poles = circuit.source
    if circuit.direct or len(poles.live) > 1 or "3" in circuit.devices["F1"].terminals:
        return None
    return with_device(circuit, source.code, inside=(Source(poles.poles, poles.poles, poles.earth),))


def _between_inverter_and_motor(device: Device) -> Break:
    """A part put into one lead of the motor behind an inverter."""

    def broken(circuit: Circuit) -> Circuit | None:
        found = numbered(circuit, 402)
        if found is None or not has(circuit, "T1") or circuit.devices["T1"].runs_by is None:
            return None
        made = added(circuit, device, wire(991, f"{device.code}:2", str(found.b), "armature"))
        return with_wire(made, 402, a=found.a, b=terminal(f"{device.code}:1"))

    return broken


def _long_post_wire(circuit: Circuit) -> Circuit | None:
    return with_wire(circuit, 101, length=3.0) if circuit.wall_breaker is None else None


def _fuse_last(circuit: Circuit) -> Circuit | None:
    """At a battery the disconnect ahead of the fuse."""
    if circuit.wall_breaker is not None:
        return None
    first, second, third = (numbered(circuit, number) for number in (101, 103, 104))
    if first is None or second is None or third is None:
        return None
    moved = with_wire(circuit, 101, a=terminal("X1:+"), b=terminal("Q1:1"))
    moved = with_wire(moved, 103, a=terminal("Q1:2"), b=terminal("F1:1"))
    return with_wire(moved, 104, a=terminal("F1:2"), b=third.b if third.a == terminal("Q1:2") else third.a)


def _own_field(of: Break) -> Break:
    """Where a field has a supply of its own."""
    return lambda c: of(c) if has(c, "K3", "T3") else None


def _relay_that_senses_volts(circuit: Circuit) -> Circuit:
    """The field relay's coil across what feeds the bridge, and the field's loop past it."""
    before, behind, ahead, back = (numbered(circuit, number) for number in (612, 613, 603, 604))
    assert before is not None
    assert behind is not None
    assert ahead is not None
    assert back is not None
    made = without(with_wire(circuit, 612, b=behind.b), 613)
    made = adding(made, wire(991, str(ahead.a), "K3:A1"), wire(992, str(back.a), "K3:A2"))
    return with_device(made, "K3", in_a_row=False)


def _switch_in_the_field(circuit: Circuit) -> Circuit | None:
    """A switch in the direct current of the field."""
    found = numbered(circuit, 614)
    if found is None:
        return None
    switch = Device("S9", "switch", "Field switch", "", ("1", "2"), (Contact("1", "2", frozenset({"on"})),), positions=("off", "on"))
    made = added(circuit, switch, wire(991, "S9:2", str(found.b), "field"))
    return with_wire(made, 614, b=terminal("S9:1"))


def _field_across_the_drive(circuit: Circuit) -> Circuit | None:
    """The field's two wires on the drive's output: it is strong at full speed only, and nothing proves it."""
    first, second = numbered(circuit, 603), numbered(circuit, 604)
    if first is None or second is None:
        return None
    return with_wire(with_wire(circuit, 603, a=terminal("Q2:2")), 604, a=terminal("Q2:4"))


BREAKINGS = (
    Breaking("cord's protective wire off", "protective conductor", earthed(drop(901))),
    Breaking("box's protective wire off", "protective conductor", earthed(drop(902))),
    Breaking("door's protective wire off", "protective conductor", earthed(drop(903))),
    Breaking("drive's protective wire off", "protective conductor", earthed(drop(904))),
    Breaking("motor's protective wire off", "protective conductor", earthed(drop(905))),
    Breaking("frame's protective wire off", "protective conductor", earthed(drop(906))),
    Breaking("motor bonded from another part", "protective conductor", earthed(_daisy_chain)),
    Breaking("protective wire too thin", "protective conductor", _thin_protective),
    Breaking("protective wire used as a control wire", "protective conductor", earthed(lambda c: with_wire(c, 905, role="control"))),
    Breaking("neutral on the protective bar", "protective conductor", earthed(bridge("Q1:4", "X2:7", "neutral"))),
    Breaking("neutral joined with earth", "short circuit", earthed(bridge("Q1:4", "X2:7", "neutral"))),
    Breaking("fuse ahead of the disconnect", "order", on_line(fuse_first)),
    Breaking("disconnect ahead of the battery's fuse", "order", _fuse_last),
    Breaking("a branch ahead of the fuse", "order", on_line(moving(201, "a", "F1:1"))),
    Breaking("line and neutral changed over at the plug", "order", on_line(_poles_swapped)),
    Breaking("two live poles, one fuse", "order", _live_poles),
    Breaking("disconnect bypassed", "isolation", bridge("Q1:1", "Q1:2", "line")),
    Breaking("disconnect with a pole linked through", "isolation", _linked_disconnect),
    Breaking("disconnect that springs back", "actions", changed("Q1", spring=True)),
    Breaking("emergency stop bypassed", "emergency stop", bridge("S1:11", "S1:12")),
    Breaking("emergency stop that closes when pressed", "emergency stop",
             contacts("S1", lambda part: replace(part, closed_in=frozenset({"pressed"})))),
    Breaking("emergency stop that springs back", "actions", changed("S1", spring=True)),
    Breaking("emergency stop without direct opening", "actions", contacts("S1", lambda part: replace(part, direct=False))),
    Breaking("contactor's poles welded", "restart", welded),
    Breaking("contactor that needs no coil", "restart", changed("Q2", coil=None)),
    Breaking("holding contact bridged", "restart", bridge("Q2:13", "Q2:14")),
    Breaking("start bridged", "restart", bridge("S2:13", "S2:14")),
    Breaking("a switch in the place of start", "actions", changed("S2", spring=False)),
    Breaking("thermostat in the drive's feed", "restart", _thermostat_in_the_feed),
    Breaking("stop bridged", "stopping", bridge_kind("stop")),
    Breaking("overload's trip contact bridged", "stopping", bridge("F3:95", "F3:96")),
    Breaking("poles joined behind the contactor", "short circuit",
             lambda c: bridge("Q2:2", "Q2:4" if "4" in c.devices["Q2"].terminals else "Q1:4", "line")(c)),
    Breaking("drive's output joined", "short circuit", bridge("T1:A+", "T1:A−", "armature")),
    Breaking("motor's terminals joined", "short circuit", bridge("M1:A1", "M1:A2", "armature")),
    Breaking("changeover without a middle", "short circuit", _without_middle),
    Breaking("cord too thin", "conductor protection", on_line(lambda c: with_wire(c, 101, ampacity=1.0))),
    Breaking("wire behind the fuse too thin", "conductor protection", lambda c: with_wire(c, 104, ampacity=0.5)),
    Breaking("control wire too thin", "conductor protection", _thin("control")),
    Breaking("motor's wire too thin", "conductor protection", _thin("armature")),
    Breaking("larger fuse than its wires stand", "conductor protection", changed("F1", trips_at=200.0)),
    Breaking("battery's first wire too long", "conductor protection", _long_post_wire),
    Breaking("fuse that can't break the fault", "breaking capacity", changed("F1", interrupts=1.0)),
    Breaking("fuse of unknown breaking capacity", "breaking capacity", changed("F1", interrupts=None)),
    Breaking("motor fuse that can't break the fault", "breaking capacity", changed("F2", interrupts=1.0)),
    Breaking("charger's fuse that can't break the fault", "breaking capacity", changed("F4", interrupts=1.0)),
    Breaking("a wire off the contactor", "terminals", lambda c: drop(104)(c) if len(c.at(terminal("Q2:1"))) == 1 else None),
    Breaking("a wire off the motor", "terminals", drop_at("M1:A1")),
    Breaking("a wire off the knob", "terminals", drop(502)),
    Breaking("the coil's way back off", "running", drop(208)),
    Breaking("holding contact's wire off", "running", drop(207)),
    Breaking("three wires on one screw", "terminals", bridge("Q2:A1", "S1:12")),
    Breaking("knob's ends changed over", "knob", _knob_swapped),
    Breaking("reversing without a timer", "reversal", reversing(changed("K1", lingers=False))),
    Breaking("standstill timer bridged", "reversal", bridge("K1:15", "K1:16")),
    Breaking("early contact bridged", "reversal", bridge("S5:21", "S5:22")),
    Breaking("early contact that opens with the rest, no DC figure", "opening", lambda c: _no_figure("S5")(c) if has(c, "F2") else None),
    Breaking("timer set before the contactor is in", "reversal", _kept_by_the_line),
    Breaking("both places drive one way", "reversal", _same_way),
    Breaking("contactor without a DC figure", "opening", on_battery(_no_figure("Q2"))),
    Breaking("disconnect without a DC figure", "opening", on_battery(_no_figure("Q1"))),
    Breaking("stop without a DC figure", "opening", on_battery(_no_figure("S3"))),
    Breaking("charger's contact bridged", "charging", bridge("X4:11", "X4:12")),
    Breaking("charging resistor bridged", "pre-charge", bridge("R1:1", "R1:2")),
    Breaking("charging timer bridged", "pre-charge", bridge("K2:15", "K2:18")),
    Breaking("diode the wrong way round", "pre-charge", _reversed_diode),
    Breaking("capacitor without a bleeder", "stored energy", _capacitor(170.0, None)),
    Breaking("bleeder too large", "stored energy", _capacitor(170.0, 100e3)),
    Breaking("capacitor at the plug's pins", "stored energy", _capacitor_at_the_pins),
    Breaking("turning motor on the plug's pins", "stored energy", _past_the_contactor),
    Breaking("contactor behind the inverter", "inverter", _between_inverter_and_motor(Device("Q9", "contactor", "Contactor", "", ("1", "2"), (Contact("1", "2", frozenset({"in"})),), ("out", "in")))),
    Breaking("fuse behind the inverter", "inverter", _between_inverter_and_motor(Device("F9", "motor-fuse", "Fuse", "", ("1", "2"), (Fuse("1", "2"),), interrupts=1e5))),
    Breaking("overload heater behind the inverter", "inverter", _between_inverter_and_motor(Device("F9", "overload", "Overload", "", ("1", "2"), (Resistance("1", "2", 0.1, 0.5),)))),
    Breaking("link of the inverter's run input off", "inverter", drop(504)),
    Breaking("bleed resistor of the motor's capacitor off", "stored energy", lambda c: without(c, 408) if has(c, "R2") and c.devices["R2"].kind == "bleeder" else None),
    Breaking("bleed resistor too large", "stored energy", lambda c: with_device(c, "R2", inside=(Resistance("1", "2", 2e6, 2e6),)) if has(c, "R2") and c.devices["R2"].kind == "bleeder" else None),
    Breaking("run winding's way back off", "running", lambda c: without(c, 404) if has(c, "M1") and "U1" in c.devices["M1"].terminals else None),
    Breaking("brake's wire off", "brake", drop(422)),
    Breaking("brake on a contact that closes with the contactor", "brake", _brake_on_the_wrong_contact),
    Breaking("start resistor bridged", "soft start", lambda c: bridge("R5:1", "R5:2")(c) if has(c, "R5") else None),
    Breaking("run-up timer bridged", "soft start", lambda c: bridge("K4:15", "K4:18")(c) if has(c, "K4") else None),
    Breaking("run-up timer on what the contactor switches", "soft start", lambda c: with_wire(c, 242, a=terminal("R5:1"), b=terminal("K4:A1")) if has(c, "R5") and c.direct else None),
    Breaking("bridging relay's coil off", "soft start", lambda c: drop(244)(c) if has(c, "K5") else None),
    Breaking("start resistor's wire off", "soft start", lambda c: drop(333)(c) if has(c, "R5") else None),
    Breaking("field relay's contact bridged", "field", _own_field(bridge("K3:13", "K3:14"))),
    Breaking("field relay that stays in by itself", "field", _own_field(changed("K3", lingers=True))),
    Breaking("field relay that senses volts", "field", _own_field(_relay_that_senses_volts)),
    Breaking("a switch in the field's wires", "opening", _own_field(_switch_in_the_field)),
    Breaking("field bridged at the motor", "short circuit", _own_field(bridge("M1:E1", "M1:E2", "field"))),
    Breaking("field fed behind the contactor", "running", _own_field(_field_across_the_drive)),
    Breaking("knob of a joined drive called extra-low voltage", "separation", _low_but_joined),
)  # fmt: skip
