"""One pass from project to design: pure, in the order in which one thing rests on another."""

from dataclasses import replace

from buildsheet.controls.supplies import from_battery, from_outlet
from buildsheet.design.alone import work_alone, work_asked
from buildsheet.design.battery import work_battery
from buildsheet.design.braking import work_braking
from buildsheet.design.design import Design
from buildsheet.design.field import work_field
from buildsheet.design.heat import work_box, work_heat
from buildsheet.design.load import work_coast, work_inertia, work_load, work_turning, work_wait
from buildsheet.design.places import places_of
from buildsheet.design.sizes import work_sizes
from buildsheet.formulas.controls import diode_braking_current, plugging_current
from buildsheet.motors.brushed import BrushedMachine, BrushedMotor
from buildsheet.motors.series import SeriesMachine
from buildsheet.project import Project
from buildsheet.reference import Region, region
from buildsheet.sizing.places import fit
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point, Steered
from buildsheet.worksheet import Worksheet


def work(project: Project) -> Design:
    """Works a project as far as it goes: a file with a motor alone has a motor, and nothing that follows from a load."""
    sheet = Worksheet()
    here = region(project.site.region if project.site else "north-america")
    if project.motor is None:
        return Design(project, here, sheet)
    motor = project.motor.constants(sheet)
    asked = work_asked(sheet, motor, project.motor.ask) if isinstance(motor, BrushedMachine) and isinstance(project.motor, BrushedMotor) else ()
    load = work_load(project, sheet)
    supplied = _supplied(project, here, sheet)
    if project.power is None or supplied is None or load is None:
        alone = work_alone(sheet, here, motor) if project.power is None and isinstance(motor, BrushedMachine) else None
        return Design(project, here, sheet, motor, load, alone, asked)
    choke = project.controls.choke if project.controls else None
    if choke is not None:
        motor.behind_choke(sheet, choke.inductance, choke.resistance)
    applied = project.power.applied(sheet, supplied)
    motor.connect(sheet, applied)
    field = work_field(project, here, sheet, supplied, motor)
    points = (
        motor.point(sheet, "low", "at the lowest speed", applied, load.motor_low, load.motor_torque_low),
        motor.point(sheet, "high", "at the highest speed", applied, load.motor_high, load.motor_torque_high),
    )
    box = work_box(project, sheet, applied, points, field)
    inertia = work_inertia(project, sheet, load)
    sizes = work_sizes(project, here, sheet, supplied, applied, points, box[3], motor, field)
    heat = work_heat(project, sheet, motor, load, points, box)
    fastest = motor.runaway(sheet, applied)
    turning = work_turning(project, sheet, load, fastest)
    nothing_holds = isinstance(motor, SeriesMachine) and not isinstance(applied, Steered)  # with light work it nears runaway
    coast = work_coast(sheet, fastest if nothing_holds else load.motor_high, inertia, motor.losses(sheet))
    if project.machine is not None and project.machine.reverse and isinstance(motor, BrushedMachine):
        _work_reversal(sheet, motor, applied, points[1])
    sizes = replace(sizes, wait=work_wait(project, sheet, coast) if motor.reversal.winding is not None else None, braking=work_braking(project, sheet, motor, load, coast))
    places = places_of(project, here, sheet, supplied, sizes)
    return Design(
        project, here, sheet, motor, load,
        asked=asked,
        supplied=supplied,
        applied=applied,
        points=points,
        sizes=sizes,
        heat=heat,
        runaway=fastest,
        coast=coast,
        stored=work_battery(project, sheet, supplied, points),
        turning=turning,
        places=places,
        seats=fit(places, project.on_hand, sheet),
    )  # fmt: skip


def _work_reversal(sheet: Worksheet, motor: BrushedMachine, applied: Applied, fastest: Point) -> None:
    """What current would flow if the leads of a motor with brushes were changed over while it turns."""
    if fastest.emf is None:
        return
    label = "current of a reversal at speed"
    sheet.work("motor.I_plug", plugging_current, label, V=fastest.terminal, E=fastest.emf, R=motor.R)
    drop = next(iter(applied.drops.values()), None)
    if drop is not None:
        label = "current of the turning motor through the diodes that feed it, its leads changed over"
        sheet.work("motor.I_self", diode_braking_current, label, E=fastest.emf, U_d=drop, R=motor.R)


def _supplied(project: Project, here: Region, sheet: Worksheet) -> Supplied | None:
    """What feeds the machine: that which its way of powering runs on."""
    if project.fed_by == "battery":
        return from_battery(project.battery, sheet) if project.battery is not None else None
    return from_outlet(project.supply, here, sheet) if project.supply is not None else None
