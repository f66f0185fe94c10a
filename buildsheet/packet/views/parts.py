"""Parts: what each place needs, what is there for it, and what to buy."""

from markupsafe import Markup

from buildsheet.packet.ink import Ink, capital
from buildsheet.packet.views.facts import limit
from buildsheet.packet.views.wires import cuts
from buildsheet.packet.words import say
from buildsheet.plan import Plan
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
        for index, one in enumerate(seat.judged or ()):
            name = Markup("<b>{}</b> {}").format(seat.place.code, seat.place.label) if index == 0 else ""
            margin = str(ink.print(one.margin)) if one.margin is not None and one.margin.known else ""
            found.append([name, _need(one, ink), _had(one, ink), margin, {"met": "good", "not met": "not good", "not known": "not known"}[one.result],
                          seat.verdict if index == 0 else ""])  # fmt: skip
        if not seat.judged:
            found.append(
                [Markup("<b>{}</b> {}").format(seat.place.code, seat.place.label), "", "", "", "", "there"]
            )
    return found


def buying(plan: Plan) -> list[Seat]:
    """Places whose part has to be bought."""
    return [seat for seat in plan.design.seats if seat.part is None or seat.verdict != "fits"]


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
    """Wire, terminals and sleeves that the wire list asks for."""
    if plan.circuit is None or plan.stopped:
        return []

    rows: list[list[object]] = [
        [
            "",
            Markup("Wire {}, {}, in all {}").format(row[1], row[0], row[3]),
            "the substitutes of sheet 6",
            "",
        ]
        for row in cuts(plan, ink)
    ]
    ends = sum(2 for wire in plan.circuit.wires if wire.cable != "W1")
    rows.append(["", f"{ends} crimp terminals or ferrules for these ends, and a few to practise on", "-", ""])
    return rows


def tools(ink: Ink) -> list[str]:
    """Tools and meters, with the ratings that the tests ask for."""
    return [
        f"two-lead multimeter, category III {limit('meter', ink)}, true RMS, with insulated clips",
        f"{limit('bonding battery', ink)} battery with a {limit('bonding fuse', ink)} fuse in its lead, a {limit('bonding lamp', ink)} lamp and two clips: for the bonding test",
        "crimping tool for insulated terminals, wire stripper, torque screwdriver",
        "drill, step drill, file; bushings and strain relief for every hole that a cable passes",
        "padlock for the disconnect; labels of sheet 14; pen",
    ]
