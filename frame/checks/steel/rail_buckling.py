"""Two channels back to back, bent between points held against twisting: do they roll over?

The trade's reduction for long spans is of a single channel, whose shear centre lies off it, so
that any load twists it. Two channels back to back are symmetric both ways and buckle sideways only
as beams do. Lengths m, stresses Pa; numbers or arrays.
"""

import numpy as np

from frame.checks.check import Numbers, Step
from frame.checks.steel.rail_stock import RailStock, stock_steps
from frame.tables.channels import Channel

SOURCE = "AISI S100-16 F2.1, symmetric sections, Cb = 1 (from memory of the standard)"
FULL, LEAST = 2.78, 0.56
"""Elastic over yield stress [1]: nothing is lost from the first on, elastic below the second."""


def warping_constant(channel: Channel) -> float:
    """Warping constant Cw [m6] of two channels back to back, by sectorial areas (Vlasov).

    The four legs make two plates of the whole depth on either side of the backs, with lips turned
    in; mid-lines, sharp corners. The curl of the lips is left out, which lowers it a little.
    """
    h, b, c = _middle_lines(channel)
    legs = 2 * (b / 2) ** 2 * h**3 / 12
    lips = 4 * (h / 2) ** 2 * ((b / 2 + c) ** 3 - (b / 2) ** 3) / 3
    return channel.wall * (legs + lips)


def _middle_lines(channel: Channel) -> tuple[float, float, float]:
    """Depth between the lips, distance of the legs, length of a lip [m]."""
    t = channel.wall
    return channel.depth - t, channel.width - t, channel.lip - t / 2


def doubled_share(stock: RailStock, length: Numbers) -> tuple[Numbers, tuple[Step, ...]]:
    """Share of the bending strength left to two channels back to back [1], and its steps.

    `length` between points held against twisting [m]. Fe = pi / (L S1) sqrt(E I2 (G J +
    pi^2 E Cw / L^2)): Fy from 2.78 Fy on, 10/9 Fy (1 - 10 Fy / (36 Fe)) below, Fe under 0.56 Fy.
    AISI S100-16 F2.1 from memory. The last step is the share, `k_u`.
    """
    channel, Fy, L = stock.channel, stock.yield_stress, np.asarray(length, dtype=float)
    h, b, c = _middle_lines(channel)
    Cw = warping_constant(channel)
    stiff = stock.shear * channel.J + np.pi**2 * stock.elastic * Cw / L**2
    Fe = np.pi / (L * channel.S1) * np.sqrt(stock.elastic * channel.I2 * stiff)
    between = 10 / 9 * (1 - 10 * Fy / (36 * Fe))
    share = np.where(Fe > FULL * Fy, 1.0, np.where(Fe > LEAST * Fy, between, Fe / Fy))
    warping = "t_w*(2*(b_w/2)^2*h_w^3/12 + 4*(h_w/2)^2*((b_w/2 + c_w)^3 - (b_w/2)^3)/3)"
    below = f"10/9*(1 - 10*F_y/(36*F_e)) if F_e > {LEAST}*F_y else F_e/F_y"
    return share, (
        *(s for s in stock_steps(stock, "I2", "J") if s.symbol != "k_s"),
        Step("F_y", "yield stress", "", Fy, "Pa"),
        Step("E", "modulus of elasticity", "", stock.elastic, "Pa"),
        Step("G", "shear modulus", "", stock.shear, "Pa"),
        Step("L_f", "length free to twist", "", L, "m"),
        Step("t_w", "wall", "", channel.wall, "m"),
        Step("h_w", "depth between lips, mid-lines", "", h, "m"),
        Step("b_w", "distance of the legs, mid-lines", "", b, "m"),
        Step("c_w", "length of a lip, mid-line", "", c, "m"),
        Step("C_w", "warping constant", warping, Cw, "m6", "sectorial areas"),
        Step(
            "F_e",
            "stress at which it would buckle sideways",
            "pi/(L_f*S1)*sqrt(E*I2*(G*J + pi^2*E*C_w/L_f^2))",
            Fe,
            "Pa",
            SOURCE,
        ),
        Step(
            "k_u",
            "share left by it",
            f"1 if F_e > {FULL}*F_y else ({below})",
            share,
            "1",
            SOURCE,
        ),
    )
