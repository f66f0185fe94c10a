"""Home-made parts that turn: what each stands and how it is spun once before it is used, for the sheet of speeds; what is
looked at before first power."""

from buildsheet.packet.ink import Ink
from buildsheet.packet.views.facts import limit
from buildsheet.plan import Plan


def rows(plan: Plan, ink: Ink) -> list[list[object]]:
    """Each home-made part: material, factor of safety, what it stands, the speed of its spin test, and whether it was spun."""
    return [
        [
            part.name, part.spin.given.material, str(ink.print(part.spin.factor)), str(ink.measured(part.rated)), str(ink.measured(part.spin.speed)),
            f"{part.spin.given.spin_test.date}, {part.spin.given.spin_test.by}, {ink.measured(part.spin.given.spin_test.speed)}" if part.spin.given.spin_test else "not yet: not to be used",
        ]
        for part in plan.design.turning
        if part.spin is not None
    ]  # fmt: skip


def procedure(plan: Plan, ink: Ink) -> list[str]:
    """How a part is spun once; nothing without a home-made one."""
    if not any(part.spin is not None for part in plan.design.turning):
        return []
    time, first = limit("spin test time", ink), limit("spin test first speed", ink)
    return [
        "Not in this machine: at that speed its guard is not made for a burst, and it can't reach it. On a bench shaft of its own, by belt from a motor that stands the speed, balanced first.",
        "A shield all round the plane of rotation, open nowhere towards people, doors or windows: sand bags, an earth bank, or thick planks backed by them. If you are not sure that it holds a burst, don't spin it: buy a part that is marked.",
        "Nobody in the plane of rotation, at no speed, whatever the shield; nobody nearer than the switch. It is started, read and stopped from afar: tachometer fixed, supply by a plug out of the line of the part.",
        f"Up in steps, the first at {first} of the speed of the test; after each one stop, wait for standstill, and look. A change of sound or a shake ends it.",
        f"Hold the speed of the test for {time}. Stop, wait for standstill, unplug. Look at hole, rim and joints with a lens; measure hole and rim again: nothing cracked, nothing grown, nothing out of true.",
        "Write date, name, speed, shield and what was found under turning: homemade: spin_test, and run check again. Dropped, drilled, turned down, soaked or mended it is spun again.",
    ]  # fmt: skip


def looks(plan: Plan) -> list[tuple[str, str]]:
    """A step before first power: (what is done, when it is right)."""
    names = [part.name for part in plan.design.turning if part.spin is not None]
    if not names:
        return []
    return [(f"Look with a lens at what is home-made: {', '.join(names)}. Hole, rim, joints.", "nothing is cracked, and each is as it was when it was spun: not drilled, turned, dropped or soaked since.")]
