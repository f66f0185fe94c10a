"""One pass from project to design: pure, in the order in which one thing rests on another."""

from buildsheet.design.alone import work_alone
from buildsheet.design.design import Design
from buildsheet.design.heat import work_box, work_heat
from buildsheet.design.load import work_coast, work_load, work_turning
from buildsheet.design.places import places_of
from buildsheet.design.sizes import work_sizes
from buildsheet.formulas.motor import loss_torque
from buildsheet.formulas.protection import full_bridge_average
from buildsheet.motors.magnet_dc import point, runaway
from buildsheet.project import Project
from buildsheet.reference import region
from buildsheet.sizing.places import fit
from buildsheet.worksheet import Worksheet


def work(project: Project) -> Design:
    """Works a project as far as it goes: a file with a motor alone has a motor, and nothing that follows from a load."""
    sheet = Worksheet()
    here = region(project.site.region if project.site else "north-america")
    if project.motor is None:
        return Design(project, here, sheet)
    motor = project.motor.constants(sheet)
    load = work_load(project, sheet)
    if project.power is None or project.supply is None or load is None:
        return Design(
            project,
            here,
            sheet,
            motor,
            load,
            work_alone(sheet, here, motor) if project.power is None else None,
        )
    tolerance = sheet.pick("rule.p", here.tables["rules"], "value", "line tolerance", key="line tolerance")
    applied = project.power.applied(sheet, project.supply, tolerance)
    sheet.work(
        "drive.V_full",
        full_bridge_average,
        "most average volts that a bridge on this line gives",
        V=applied.voltage,
        U_d=applied.drop,
    )
    points = (
        point(sheet, "low", "at the lowest speed", applied, motor, load.motor_low, load.motor_torque),
        point(sheet, "high", "at the highest speed", applied, motor, load.motor_high, load.motor_torque),
    )
    box = work_box(project, sheet, applied, points)
    sizes = work_sizes(project, here, sheet, applied, points, box[3])
    heat = work_heat(project, sheet, motor, points, box)
    fastest = runaway(sheet, applied, motor)
    turning = work_turning(project, sheet, load, fastest)
    coast = work_coast(
        project,
        sheet,
        load,
        sheet.work(
            "coast.T_0", loss_torque, "torque of the motor's own losses", K_t=motor.K_t, I_0=motor.I_0
        ),
    )
    places = places_of(project, sheet, sizes, applied)
    seats = fit(places, project.on_hand, sheet)
    return Design(
        project,
        here,
        sheet,
        motor,
        load,
        None,
        applied,
        points,
        sizes,
        heat,
        fastest,
        coast,
        turning,
        places,
        seats,
    )
