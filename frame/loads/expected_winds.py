"""Winds as they are expected: the real weight, the median wind and how unevenly it strikes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.loads.cases import CaseTable, WindCase, case_table
from frame.loads.combinations import WHOLE_WIND
from frame.loads.uneven import Unevenness
from frame.tables.expected import spreads

FloatArray = npt.NDArray[np.float64]
WIND, ONE_SIDED, CASE_B = "wind", "one_sided", "case_b"
"""Keys of the uncertain inputs of the wind."""


@dataclass(frozen=True)
class ExpectedTable:
    """A table of cases at the medians, with what changes where a gust strikes more or less evenly.

    Loads are linear in either unevenness with the other held: `even`, what either adds and what
    both together add, (4, cases, unit loads) per velocity pressure.
    """

    table: CaseTable
    parts: FloatArray

    def per_pressure(
        self, case: npt.NDArray[np.int64], one_sided: FloatArray, case_b: FloatArray
    ) -> FloatArray:
        """Return factors (n, loads) per velocity pressure of cases struck so unevenly, (n,)."""
        even, either, other, both = (part[case] for part in self.parts)
        a, b = one_sided[:, None], case_b[:, None]
        found: FloatArray = even + a * either + b * other + a * b * both
        return found


def expected_table(
    winds: Callable[[Unevenness], Sequence[WindCase]], unit_loads: Sequence[str]
) -> ExpectedTable:
    """Cross the real weight with every wind, however unevenly gusts may strike."""

    def made(one_sided: float, case_b: float) -> CaseTable:
        some = winds(Unevenness(one_sided=one_sided, case_b=case_b))
        return case_table(WHOLE_WIND[:1], some, unit_loads)

    a, b = spreads()[ONE_SIDED].high, spreads()[CASE_B].high
    even, one, other, both = (
        made(*uneven).per_pressure for uneven in ((0.0, 0.0), (a, 0.0), (0.0, b), (a, b))
    )
    parts = (even, (one - even) / a, (other - even) / b, (both - one - other + even) / (a * b))
    middle = made(spreads()[ONE_SIDED].median, spreads()[CASE_B].median)
    return ExpectedTable(middle, np.stack(parts))
