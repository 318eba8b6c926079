"""Winds as they are expected: the real weight, the median wind and how unevenly it strikes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.loads.cases import WHOLE_WIND, CaseTable, WindCase, case_table
from frame.loads.uneven import Unevenness
from frame.tables.expected import Variant, spreads, values, variants

WIND, ONE_SIDED, ACROSS = "wind", "one_sided", "across"
"""Keys of the uncertain inputs of the wind."""


@dataclass(frozen=True)
class ExpectedTable:
    """A table of cases at the medians, with what changes where a gust strikes more or less evenly.

    `uneven` (kinds, cases, unit loads) per velocity pressure, `kind` (variants,) which of them
    each variant of the inputs takes.
    """

    table: CaseTable
    uneven: npt.NDArray[np.float64]
    kind: npt.NDArray[np.int64]

    def per_pressure(
        self, case: npt.NDArray[np.int64], variant: npt.NDArray[np.int64]
    ) -> npt.NDArray[np.float64]:
        """Return factors (n, loads) per velocity pressure of cases in their variants (n,)."""
        found: npt.NDArray[np.float64] = self.uneven[self.kind[variant], case]
        return found


def wind_share(variant: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
    """Velocity pressure expected over the coded one [1], in each variant (n,)."""
    found: npt.NDArray[np.float64] = values(WIND)[variant]
    return found


def expected_table(
    winds: Callable[[Unevenness], Sequence[WindCase]], unit_loads: Sequence[str]
) -> ExpectedTable:
    """Cross the real weight with every wind, one table for each way that gusts may strike."""
    middle = {key: spreads()[key].median for key in (ONE_SIDED, ACROSS)}
    kinds = [Variant("", high=False)]
    kinds += [Variant(key, high) for key in middle for high in (False, True)]
    at = [variants().index(kind) for kind in kinds]
    tables = [
        case_table(
            WHOLE_WIND[:1],
            winds(Unevenness(**{key: float(values(key)[i]) for key in middle})),
            unit_loads,
        )
        for i in at
    ]
    kind = np.zeros(len(variants()), dtype=np.int64)
    kind[at] = np.arange(len(at))
    return ExpectedTable(tables[0], np.stack([t.per_pressure for t in tables]), kind)
