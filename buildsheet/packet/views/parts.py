"""Parts: what each place needs, what is there for it, and what to buy."""

from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from buildsheet.circuit import Circuit
from buildsheet.packet.ink import Ink, capital
from buildsheet.packet.views import power
from buildsheet.packet.views.facts import limit
from buildsheet.packet.views.wires import colour_names, cores, insulation
from buildsheet.packet.words import say
from buildsheet.plan import Plan
from buildsheet.plan.cuts import on_a_plug
from buildsheet.sizing.places import Judged, Seat
from buildsheet.worksheet import Value


def _need(one: Judged, ink: Ink) -> str:
    value = (
        ink.text(one.need.value).replace(" ", "\u202f")
        if isinstance(one.need.value, Value)
        else one.need.value
    )
    return f"{one.need.label} {'' if one.need.op == '=' else one.need.op + chr(0x202F)}{value}"


def _had(one: Judged, ink: Ink) -> str:
    if one.had is None:
        return "not marked"
    return str(ink.print(one.had)) if isinstance(one.had, Value) else one.had


def salvage_rows(plan: Plan, ink: Ink) -> list[list[object]]:
    """Places with a part on hand: rating by rating."""
    found: list[list[object]] = []
    for seat in plan.design.seats:
        if seat.part is None:
            continue
        price = f", {seat.part.price}" if seat.part.price else ""
        for index, one in enumerate(seat.judged or ()):
            name = Markup("<b>{}</b> {}{}").format(seat.place.code, seat.place.label, price) if index == 0 else ""
            margin = str(ink.print(one.margin)) if one.margin is not None and one.margin.known else ""
            found.append([name, _need(one, ink), _had(one, ink), margin, {"met": "good", "not met": "not good", "not known": "not known"}[one.result],
                          seat.verdict if index == 0 else ""])  # fmt: skip
        if seat.verdict == "fits with a condition":
            found.append(["", Markup("<b>Stays when it shows</b> {}").format(seat.place.proof), "", "", "", ""])
        if not seat.judged:
            found.append(
                [Markup("<b>{}</b> {}").format(seat.place.code, seat.place.label), "", "", "", "", "there"]
            )
    return found


def buying(plan: Plan) -> list[Seat]:
    """Places whose part has to be bought."""
    return [seat for seat in plan.design.seats if not seat.usable]


def buy_rows(plan: Plan, ink: Ink) -> list[list[object]]:
    """The buying list: how to say it, what else will do."""
    return [
        [
            Markup("<b>{}</b>").format(seat.place.code),
            capital(say(seat, ink)),
            seat.place.or_else,
            Markup('<span class="blank" style="width:12mm"></span>'),
        ]
        for seat in buying(plan)
    ]


def wire_buys(plan: Plan, ink: Ink) -> list[list[object]]:
    """Wire, cables and what goes on their ends, as the wire list asks for them."""
    if plan.circuit is None or plan.stopped:
        return []
    volts = insulation(plan, ink)
    rows: list[list[object]] = []
    for size, same in groupby((cut for cut in plan.cuts if not cut.cable), key=lambda cut: cut.size):
        lengths = ", ".join(f"{ink.print(cut.total)} {colour_names(cut, plan)}" for cut in same)
        rows.append(["", f"Wire {size}, {volts}: {lengths}", "the substitutes of sheet 6", ""])
    for cut in plan.cuts:
        if cut.cable:
            say = f"Flexible cable {cut.cable}, {cores(cut)}, {volts}, {ink.print(cut.total)}: {colour_names(cut, plan)}"
            mixed = "all cores of the larger size; " if len(cut.cores) > 1 else ""
            rows.append(["", say, f"{mixed}more cores, the spare ones cut back and taped", ""])
    count = ends(plan.circuit)
    rows.append(["", f"{count.screws} crimp terminals or ferrules for screws, and a few to practise on", "", ""])
    if count.studs:
        rows.append(["", f"{count.studs} ring terminals with toothed washers, for studs, frames and battery posts", "nothing that slips on", ""])
    if count.lugs:
        rows.append(["", f"{count.lugs} heat-shrink sleeves for the soldered lugs of the speed knob", "", ""])
    return rows


@dataclass(frozen=True, slots=True)
class Ends:
    """Ends of wires by what goes on them: under a screw, on a stud or frame, soldered to a lug."""

    screws: int
    studs: int
    lugs: int


def ends(circuit: Circuit) -> Ends:
    """Every end that somebody has to make: all but those that are moulded into the plug."""
    plug, _ = circuit.source
    found = [end for wire in circuit.wires for end in (wire.a, wire.b) if not (end.device == plug.code and on_a_plug(wire, circuit))]
    studs = sum(circuit.devices[end.device].metal == end.name or circuit.devices[end.device].kind == "battery" for end in found)
    lugs = sum(circuit.devices[end.device].kind == "potentiometer" for end in found)
    return Ends(len(found) - studs - lugs, studs, lugs)


def tools(plan: Plan, ink: Ink) -> list[str]:
    """Tools and meters, with the ratings that the tests ask for; an instrument only when a reading wants it."""
    used = power.instruments(plan, ink)
    supplied = plan.design.supplied
    found = [f"two-lead multimeter, category III {limit('meter', ink)}, true RMS, with insulated clips"]
    if "clamp" in used:
        found.append("clamp meter for AC and DC, true RMS: for the currents of sheet 9, no wire is opened; a phone that films its display, in a clear bag tied fast")
    if "tester" in used:
        found.append(f"outlet tester with a button for the {plan.design.region.words['residual-current-device']}")
    if supplied is None or supplied.earthed:
        found.append(f"{limit('bonding battery', ink)} battery with a {limit('bonding fuse', ink)} fuse in its lead, a {limit('bonding lamp', ink)} lamp and two clips: for the bonding test")
    if plan.circuit is not None and (supplied is None or supplied.live):
        found.append(f"insulation tester, {limit('insulation voltage', ink)}, if you can borrow one with somebody who knows it")
    if "tachometer" in used:
        found.append("tachometer; or chalk mark, watch with seconds, and a second person to count turns at the slowest speed")
    hand = [*(["stopwatch"] if "stopwatch" in used else []), *(["straightedge for the pulleys"] if plan.project.belts else [])]
    return [
        *found,
        "crimping tool for insulated terminals, wire stripper, torque screwdriver, soldering iron",
        "drill, step drill, file; bushings and strain relief for every hole that a cable passes",
        ", ".join([*hand, "padlock for the disconnect", "labels of sheet 14", "pen"]),
    ]
