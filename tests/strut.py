"""A strut channel for tests: values as printed in the load tables common to its makers."""

from scipy.constants import foot, inch, lbf, psi

from frame.checks.steel.rail_stock import RailStock
from frame.tables.channels import Channel

KSI = 1000 * psi

STRUT = Channel(
    name="1-5/8 x 1-5/8 12 ga",
    depth=1.625 * inch,
    width=1.625 * inch,
    wall=0.105 * inch,
    area=0.557 * inch**2,
    weight=1.89 * lbf / foot,
    I1=0.185 * inch**4,
    S1=0.202 * inch**3,
    I2=0.237 * inch**4,
    S2=0.292 * inch**3,
    J=0.00205 * inch**4,
    source="load tables after MFMA-4, from memory",
)
STOCK = RailStock(
    channel=STRUT,
    yield_stress=33 * KSI,
    allowable_stress=25 * KSI,
    elastic=29000 * KSI,
    shear=11200 * KSI,
)
