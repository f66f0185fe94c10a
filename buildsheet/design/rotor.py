"""A home-made part that turns: the speed it stands by the stress in it, and the speed at which it is spun once to prove it."""

from buildsheet.design.design import Spin, Turning
from buildsheet.formulas import mechanics, rotor
from buildsheet.formulas.choice import larger_of
from buildsheet.given.machine import TurningPart
from buildsheet.given.rotor import HomeMade
from buildsheet.worksheet import Value, Worksheet


def work_homemade(
    sheet: Worksheet, key: str, part: TurningPart, made: HomeMade, maximum: Value, runaway: Value
) -> Turning:
    """The part on its shaft, which turns at `maximum` and at `runaway`; its lines are entered under `key`.

    It is worked as a disc with a hole, which bears more at the hole than any other round shape of one piece.
    """
    name = part.part
    density, strength, poisson, least = (
        sheet.pick(f"{key}.{symbol}", "rotor_materials", column, f"{label} of {made.material}", key=made.material)
        for symbol, column, label in (
            ("rho", "density", "density"), ("sigma", "strength", "strength"), ("nu", "poisson", "ratio of Poisson"),
            ("k_min", "factor", "least factor of safety"),
        )
    )  # fmt: skip
    factor = sheet.take(made.factor) if made.factor.known else least
    share = sheet.work(f"{key}.q", rotor.bore_share, f"hole over rim of the {name}", d_i=made.bore, d=part.diameter)
    shape = sheet.work(f"{key}.c", rotor.bored_disc_factor, f"stress at the hole of the {name} over that of a thin ring", nu=poisson, q=share)
    rim = sheet.work(f"{key}.v", rotor.allowed_rim_speed, f"rim speed that the {name} stands", sigma=strength, k=factor, c=shape, rho=density)
    stands = sheet.work(f"{key}.omega", mechanics.speed_for_surface_speed, f"speed that the {name} stands", v=rim, d=part.diameter)
    fastest = sheet.work(f"{key}.omega_f", larger_of, f"fastest that the {name} can turn", a=maximum, b=runaway)
    over = sheet.pick(f"{key}.k_s", "bench_limits", "value", "spin test over the fastest", key="spin test factor")
    speed = sheet.work(f"{key}.omega_s", rotor.spin_test_speed, f"speed of the spin test of the {name}", omega=fastest, k=over)
    proof = None
    if made.spin_test is not None:
        proof = sheet.work(
            f"{key}.p", rotor.proof_of_spin_test, f"stress in the spin test of the {name} over that at its fastest",
            omega_t=made.spin_test.speed, omega=fastest,
        )  # fmt: skip
    return Turning(name, "", stands, maximum, runaway, Spin(made, factor, least, speed, proof))
