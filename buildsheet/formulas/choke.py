"""A choke in a row with a winding."""

from buildsheet.citations import derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import Henry, Ohm


@formula(
    source=derivation("inductances in a row add up, where their fields do not meet"),
    limits={"L_1": (0, 10), "L_2": (0, 10)},
    leaves_out="an iron core that saturates: a choke has less inductance at a large direct current than its mark says",
)
def inductance_in_a_row(L_1: Henry, L_2: Henry) -> Henry:
    """Two inductances in a row.

    >>> round(inductance_in_a_row(L_1=2e-3, L_2=8e-3), 6)
    0.01
    """
    return L_1 + L_2


@formula(source=derivation("resistances in a row add up"), limits={"R_1": (0, 1e5), "R_2": (0, 1e5)})
def resistance_in_a_row(R_1: Ohm, R_2: Ohm) -> Ohm:
    """Two resistances in a row.

    >>> resistance_in_a_row(R_1=2.0, R_2=180.0)
    182.0
    """
    return R_1 + R_2
