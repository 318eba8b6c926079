"""Channel rails and tie rails: bending both ways, twist of the open section, slots, buckling.

Axis 1-1 lies in the slot face (bending under load square to the panels), axis 2-2 is the axis of
symmetry, square to the slot face (bending along the beam).
"""

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.checks.steel.rail_stock import OMEGA, RailStock, stock_steps
from frame.named.limit_state import LimitState
from frame.tables.channels import Channel

BUCKLING = "AISC 360-22 E3-2, E3-3, E4-3 and H1-1; from memory of the standard"
TORSION = "AISC 360-22 H3.3 with St Venant torsion of an open section; from memory of the standard"
TWIST_NOTE = (
    "stress from warping of the open section is left out: keep the load over the back of the "
    "channel, or tie the rails so that they cannot roll"
)


def bending(
    stock: RailStock,
    M1: Numbers,
    M2: Numbers,
    unbraced_factor: Numbers,
    why: tuple[Step, ...] = (),
) -> Check:
    """Bending of a rail about both axes at once, summed without regard to where each peaks.

    Parameters
    ----------
    stock : Stock
        Section and steel.
    M1, M2 : float or array
        Moments about axes 1-1 and 2-2 [N m], any sign: the trade gives one strength for both.
    unbraced_factor : float or array
        Share of the strength left by twisting between points held against it [1], see
        `frame.tables.channels`; nan for a span beyond its table, which is not covered.
    why : steps
        That lead to this share, the last of them `k_u`; none where it is read off a table.

    Returns
    -------
    Check
        Interaction M1/Ma1 + M2/Ma2 [1], Ma = allowable stress x S x slot factor x unbraced factor.

    Notes
    -----
    Source: MFMA-4 (allowable stress in bending 25 ksi for marked channel) and, of a single
    channel, the reduction for unbraced length common to channel makers, from memory. Nominal
    strength is first yield at the nominal yield stress, without credit for cold forming. Covered:
    0 < unbraced factor <= 1. Not covered: the sides of the channel crushed or sheared over its
    U-bolt; the web crippling of AISI S100 G5 is of flat bearings, not of a channel on a round pipe
    (from memory of the standard). Where the stock is what is expected of it, allowable and
    nominal are one.
    """
    k = np.multiply(unbraced_factor, stock.slot_factor)
    reach = [stock.allowable_stress * s * k for s in (stock.channel.S1, stock.channel.S2)]
    demand = np.abs(M1) / reach[0] + np.abs(M2) / reach[1]
    read = Step("k_u", "share left by twisting over the unbraced length", "", unbraced_factor, "1")
    steps = (
        *stock_steps(stock, "S1", "S2"),
        Step("F_a", "bending stress counted on", "", stock.allowable_stress, "Pa", stock.source),
        *(why or (read,)),
        Step("M1", "moment about axis 1-1", "", M1, "N m"),
        Step("M2", "moment about axis 2-2", "", M2, "N m"),
        Step("M_a1", "allowable moment about 1-1", "F_a*S1*k_s*k_u", reach[0], "N m"),
        Step("M_a2", "allowable moment about 2-2", "F_a*S2*k_s*k_u", reach[1], "N m"),
        Step("use", "sum of both", "abs(M1)/M_a1 + abs(M2)/M_a2", demand, "1"),
    )
    covered = np.greater(unbraced_factor, 0.0) & np.less_equal(unbraced_factor, 1.0)
    return Check(
        name=LimitState.RAIL_BENDING,
        demand=demand,
        allowable=1.0,
        nominal=stock.plastic * stock.yield_stress / stock.allowable_stress,
        unit="1",
        source=stock.source,
        steps=steps,
        covered=covered,
    )


def twist(stock: RailStock, torque: Numbers, length: Numbers) -> Check:
    """Twist of the open channel between points held against it.

    Parameters
    ----------
    stock : Stock
        Section and steel.
    torque : float or array
        Largest torque carried along the rail, about its shear centre [N m].
    length : float or array
        Length over which this torque acts [m]; gives the rotation, not the strength.

    Returns
    -------
    Check
        Torque against torsional strength 0.6 Fy J / t [N m], safety factor 1.67; `extra` holds the
        rotation over `length` [rad].

    Notes
    -----
    Source: AISC 360-22 H3.3 (Fn = 0.6 Fy in shear), shear stress T t / J of a thin open section
    (St Venant). Warping stress is not included (it is no part of this limit state) and warping
    stiffness is not credited. The slot factor lowers J.
    """
    channel = stock.channel
    J = channel.J * stock.slot_factor
    nominal = stock.plastic_twist * 0.6 * stock.yield_stress * J / channel.wall
    allowable, demand = nominal / stock.safety, np.abs(torque)
    steps = (
        *stock_steps(stock, "J", "wall"),
        Step("F_y", "yield stress", "", stock.yield_stress, "Pa"),
        Step("T", "torque", "", torque, "N m"),
        Step("k_p", "full yield over first", "", stock.plastic_twist, "1"),
        Step("T_n", "torque at shear yield", "k_p*0.6*F_y*k_s*J/wall", nominal, "N m", TORSION),
        Step("T_a", "torque counted on", f"T_n/{stock.safety:g}", allowable, "N m"),
        Step("use", "use", "abs(T)/T_a", demand / allowable, "1"),
    )
    return Check(
        name=LimitState.RAIL_TWIST,
        demand=demand,
        allowable=allowable,
        nominal=nominal,
        unit="N m",
        source=TORSION,
        steps=steps,
        note=TWIST_NOTE,
        extra={"rotation": demand * length / (stock.shear * J)},
    )


def shear_centre_bound(channel: Channel) -> float:
    """Distance from centroid to shear centre [m], not less than the true one: the depth.

    For lipped channels 1-5/8 in. wide and 13/16 to 3-1/4 in. deep; integrating the shear flow of
    their thin-walled shapes gives 0.82 to 0.94 of the depth. A larger distance lowers the critical
    stress, so this is the safe side. Two channels back to back have it at the centroid (symmetry).
    """
    return 0.0 if channel.doubled else channel.depth


def tie_rail(
    stock: RailStock,
    P: Numbers,
    M1: Numbers,
    M2: Numbers,
    length: Numbers,
) -> Check:
    """Tie rail (or a rail under axial force): tension or buckling with bending.

    Parameters
    ----------
    stock : Stock
        Section and steel.
    P : float or array
        Axial force, tension positive [N].
    M1, M2 : float or array
        Largest moments about axes 1-1 and 2-2 [N m].
    length : float or array
        Length between points held sideways and against twist [m], effective length factor 1.

    Returns
    -------
    Check
        AISC 360-22 H1-1a/b sum [1]; `extra`: slenderness about 1-1 [1], critical stress Fn [Pa].

    Notes
    -----
    Source: AISC 360-22 D2 (yield), E3, E4 (flexural-torsional, axis of symmetry 2-2), F for first
    yield Fy S, H1; ASD factor 1.67 throughout. Safe simplifications: warping stiffness is left out
    of E4-3, the slot factor lowers area and section moduli. Local buckling of the legs is not
    checked: their lips must be whole. Limits: 12 and 14 gauge lipped channel, length > 0.
    """
    # Buckling on the whole section, as the slots are short; strength on the slotted one.
    stress, buckling = _buckling_stress(stock, length)
    A = stock.channel.area * stock.slot_factor
    Pn = np.where(np.greater(P, 0.0), stock.yield_stress, stress) * A
    Mn = [stock.yield_stress * s * stock.slot_factor for s in (stock.channel.S1, stock.channel.S2)]
    axial = np.abs(P) / Pn
    bend = np.abs(M1) / Mn[0] + np.abs(M2) / Mn[1]
    demand, ultimate = _h1(OMEGA * axial, OMEGA * bend), _h1(axial, bend)
    with np.errstate(divide="ignore", invalid="ignore"):
        nominal = np.where(demand > 0.0, demand / ultimate, OMEGA)
    steps = (
        *buckling,
        Step("S1", "section modulus about 1-1", "", stock.channel.S1, "m3"),
        Step("S2", "section modulus about 2-2", "", stock.channel.S2, "m3"),
        Step("P", "axial force, tension positive", "", P, "N"),
        Step("M1", "moment about axis 1-1", "", M1, "N m"),
        Step("M2", "moment about axis 2-2", "", M2, "N m"),
        Step("P_n", "axial strength", "k_s*A*(F_y if P > 0 else F_n)", Pn, "N"),
        Step("M_n1", "moment at yield about 1-1", "F_y*k_s*S1", Mn[0], "N m"),
        Step("M_n2", "moment at yield about 2-2", "F_y*k_s*S2", Mn[1], "N m"),
        Step("p", "axial use", "1.67*abs(P)/P_n", OMEGA * axial, "1"),
        Step("m", "bending use", "1.67*(abs(M1)/M_n1 + abs(M2)/M_n2)", OMEGA * bend, "1"),
        Step("use", "together", "p/2 + m if 0.2 > p else p + 8/9*m", demand, "1", BUCKLING),
    )
    return Check(
        name=LimitState.TIE_RAIL,
        demand=demand,
        allowable=1.0,
        nominal=nominal,
        unit="1",
        source=BUCKLING,
        steps=steps,
        covered=np.greater(length, 0.0),
        extra={"slenderness": length / _radii(stock.channel)[0], "buckling_stress": stress},
    )


def _h1(axial: Numbers, bend: Numbers) -> np.ndarray:
    return np.where(np.less(axial, 0.2), axial / 2 + bend, axial + 8 / 9 * bend)


def _radii(channel: Channel) -> tuple[float, float]:
    return (channel.I1 / channel.area) ** 0.5, (channel.I2 / channel.area) ** 0.5


def _buckling_stress(stock: RailStock, length: Numbers) -> tuple[np.ndarray, tuple[Step, ...]]:
    """Critical stress Fn [Pa] of the whole section, AISC 360-22 E3 with Fe from E3-4 and E4-3."""
    channel, Fy = stock.channel, stock.yield_stress
    r1, r2 = _radii(channel)
    y0 = shear_centre_bound(channel)
    L = np.asarray(length, dtype=float)
    with np.errstate(divide="ignore", invalid="ignore"):
        Fe1, Fe2 = (np.pi**2 * stock.elastic / (L / r) ** 2 for r in (r1, r2))
        r0 = (y0**2 + r1**2 + r2**2) ** 0.5
        Fez = stock.shear * channel.J / (channel.area * r0**2)
        H = 1 - y0**2 / r0**2
        both = Fe2 + Fez
        Fet = both / (2 * H) * (1 - np.sqrt(1 - 4 * Fe2 * Fez * H / both**2))
        Fe = np.minimum(Fe1, Fet)
        Fn = np.where(Fy / Fe > 2.25, 0.877 * Fe, 0.658 ** (Fy / Fe) * Fy)
    root = "F_2z/(2*H)*(1 - sqrt(1 - 4*F_e2*F_ez*H/F_2z^2))"
    steps = (
        *stock_steps(stock, "area", "I1", "I2", "J", "depth"),
        Step("F_y", "yield stress", "", Fy, "Pa"),
        Step("E", "modulus of elasticity", "", stock.elastic, "Pa"),
        Step("G", "shear modulus", "", stock.shear, "Pa"),
        Step("L", "length between points held", "", length, "m"),
        Step("A", "area", "area", channel.area, "m2"),
        Step("r1", "radius of gyration about 1-1", "sqrt(I1/A)", r1, "m"),
        Step("r2", "radius of gyration about 2-2", "sqrt(I2/A)", r2, "m"),
        Step("F_e1", "Euler stress about 1-1", "pi^2*E/(L/r1)^2", Fe1, "Pa"),
        Step("F_e2", "Euler stress about 2-2", "pi^2*E/(L/r2)^2", Fe2, "Pa"),
        Step(
            "y_0",
            "centroid to shear centre, bound",
            "0" if channel.doubled else "depth",
            y0,
            "m",
        ),
        Step("r_0", "polar radius about the shear centre", "sqrt(y_0^2 + r1^2 + r2^2)", r0, "m"),
        Step("F_ez", "torsional buckling stress, no warping", "G*J/(A*r_0^2)", Fez, "Pa"),
        Step("H", "flexural constant", "1 - y_0^2/r_0^2", H, "1"),
        Step("F_2z", "sum of stresses", "F_e2 + F_ez", both, "Pa"),
        Step("F_et", "flexural-torsional stress", root, Fet, "Pa", "AISC 360-22 E4-3"),
        Step("F_e", "elastic buckling stress", "min(F_e1, F_et)", Fe, "Pa"),
        Step(
            "F_n",
            "critical stress",
            "0.877*F_e if F_y/F_e > 2.25 else 0.658^(F_y/F_e)*F_y",
            Fn,
            "Pa",
            "AISC 360-22 E3-2, E3-3",
        ),
    )
    return Fn, steps
