"""Load cases from unit answers: factors over the unit loads, guys by complementarity."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Protocol

import numpy as np
import numpy.typing as npt

from frame.fem.bow import bow
from frame.fem.cables import solve_taut
from frame.fem.element import Array
from frame.fem.forces import Sections, sections
from frame.fem.response import Response


class Totals(Protocol):
    """Totals of n cases: forces of some members and connections, by their positions.

    Everything is a total: the dead load on the frame that stood when it came on, plus the later
    loads and the whole pull of the guys on the full frame, and where second order is told
    what comes of it.
    """

    @property
    def tensions(self) -> Array:
        """(n, G) pull of the guys [N]; zero for guys not fitted or lost."""
        ...

    @property
    def first_tensions(self) -> Array:
        """(n, G) pull of the guys at first order [N]."""
        ...

    def on_members(self, members: Sequence[int]) -> Array:
        """(n, members, 12) [N, N m] on the set-back ends, local axes, first end then second."""
        ...

    def as_it_stood(self, member: int) -> Array:
        """(n, 3) [N] forces on the first end along and across the member as it stood unloaded.

        Loads keep their direction, so a frame that leans hands down no more and no less of them,
        plumb and level; the forces along and across the leaning member are others, for a part of
        the weight on it acts across it. Guys pull as at second order.
        """
        ...

    def on_connections(self, connections: Sequence[int]) -> Array:
        """(n, connections, 6) [N, N m] on the second nodes, in the connections' axes."""
        ...

    def cut(self, members: Sequence[int], shares: Array) -> Sections:
        """Section forces (n, members, k) at `shares` (k,) of the length, 0 at the first end."""
        ...

    def along(self, members: Sequence[int], stations: int = 5) -> Sections:
        """Section forces (n, members, stations) at evenly spaced stations, ends included."""
        ...


@dataclass(frozen=True, kw_only=True)
class Shapes:
    """Movement and forces of a frame in k shapes, without its guys; as in `Response`.

    `slender` (M, 2): how much N bends a member by its own bow, see `frame.fem.bow`.
    """

    displacements: Array
    member_forces: Array
    connection_forces: Array
    reactions: Array
    slender: Array


class Judge(Protocol):
    """What tells how near to buckling cases are, see `frame.fem.second_order.ritz`."""

    def factors(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Lowest lambda (n,) of cases given by their factors and pulls of first order."""
        ...


@dataclass(frozen=True, kw_only=True)
class Answer:
    """`Totals` of n cases of one model, as read-only arrays; of second order where it has shapes.

    Attributes
    ----------
    response
        The unit answers these are made of.
    factors
        (n, L) over the unit loads.
    tensions
        (n, G) [N]; zero for guys not fitted or lost.
    slack
        (n, G) slack lengths [m] at first order; zero for guys not fitted or lost.
    pulled
        (n, G) [N] at first order, what the unit pulls are added up with; `tensions` if left out.
    shapes, amplitudes
        Shapes that grow at second order, by (n, k); the pull of the guys in them is in both.
    alpha, topples
        How many times the forces act in that, and the cases (n,) that the rack sways over in.
    told
        What tells how near to buckling a case is.
    """

    response: Response
    factors: Array
    tensions: Array
    slack: Array
    pulled: Array | None = None
    shapes: Shapes | None = None
    amplitudes: Array | None = None
    alpha: float = 0.0
    topples: npt.NDArray[np.bool_] | None = None
    told: Judge | None = None

    def only(self, rows: npt.NDArray[np.int64]) -> "Answer":
        """Return some of the cases, by position."""
        names = ("factors", "tensions", "slack", "pulled", "amplitudes", "topples")
        given = {name: getattr(self, name) for name in names}
        return replace(
            self, **{name: value[rows] for name, value in given.items() if value is not None}
        )

    @cached_property
    def lowest(self) -> Array:
        """(n,) lowest factors on the forces at which the rack buckles, where second order is told.

        No more than `alpha` where it topples.
        """
        if self.told is None or self.topples is None:
            raise ValueError("answers of first order know of no buckling")
        found = self.told.factors(self.factors, self.first_tensions, self.response.slackness)
        return np.where(self.topples, np.minimum(found, self.alpha), found)

    @property
    def sways_over(self) -> npt.NDArray[np.bool_]:
        """(n,) whether the rack sways over: no force of such a case means anything."""
        none = np.zeros(len(self.factors), dtype=bool)
        return none if self.topples is None else self.topples

    @property
    def first_tensions(self) -> Array:
        """(n, G) pull of the guys at first order [N]."""
        return self.tensions if self.pulled is None else self.pulled

    @cached_property
    def displacements(self) -> Array:
        """(n, N, 6) [m, rad], global axes; nodes fitted after count from fitting."""
        return self._total("displacements")

    @cached_property
    def member_forces(self) -> Array:
        """(n, M, 12) [N, N m] on the set-back ends, local axes, first end then second.

        Of unit loads and pulls, of the `shapes` by their amplitudes where those are told, and
        of what the axial force adds along the members' own bow.
        """
        total = self._total("member_forces")
        total.flags.writeable = True
        self.bow(np.moveaxis(total, 0, -1))
        total.flags.writeable = False
        return total

    @cached_property
    def connection_forces(self) -> Array:
        """(n, C, 6) [N, N m] on the second nodes, in the connections' axes."""
        return self._total("connection_forces")

    @cached_property
    def reactions(self) -> Array:
        """(n, S, 6) [N, N m] on the frame at the supports, without the anchors."""
        return self._total("reactions")

    def bow(self, forces: Array) -> None:
        """Add to total end forces (M, 12, n), in place, what N does along the members' own bow."""
        if self.shapes is None:
            return
        r = self.response
        both = (
            (r.member_forces, self.factors),
            (r.pull_member_forces, self.first_tensions),
        )
        doubled = [(one[:, :, 6] - one[:, :, 0]).T @ times.T for one, times in both]
        bow(forces, self.alpha / 2 * np.add.reduce(doubled), self.shapes.slender, r.length)

    def terms(self, name: str) -> Iterator[tuple[Array, Array]]:
        """Yield what of a kind, (m, ...), is added up, and how many times, (n, m)."""
        yield getattr(self.response, name), self.factors
        if self.first_tensions.any():
            yield getattr(self.response, f"pull_{name}"), self.first_tensions
        if self.shapes is not None and self.amplitudes is not None:
            yield getattr(self.shapes, name), self.amplitudes

    def on_members(self, members: Sequence[int]) -> Array:
        """(n, members, 12) [N, N m] on the set-back ends, local axes, first end then second."""
        return self.member_forces[:, list(members)]

    def as_it_stood(self, member: int) -> Array:
        """(n, 3) [N] forces on the first end of the member as it stood, see `Totals`."""
        r = self.response
        loads: Array = self.factors @ r.member_forces[:, member, :3]
        return loads + self.tensions @ r.pull_member_forces[:, member, :3]

    def on_connections(self, connections: Sequence[int]) -> Array:
        """(n, connections, 6) [N, N m] on the second nodes, in the connections' axes."""
        return self.connection_forces[:, list(connections)]

    def cut(self, members: Sequence[int], shares: Array) -> Sections:
        """Section forces (n, members, k) at `shares` (k,) of the length, 0 at the first end."""
        at = list(members)
        w = np.tensordot(self.factors, self.response.line_loads[:, at], axes=1)
        return sections(self.member_forces[:, at], w, self.response.length[at], shares)

    def along(self, members: Sequence[int], stations: int = 5) -> Sections:
        """Section forces (n, members, stations) at evenly spaced stations, ends included."""
        return self.cut(members, np.linspace(0.0, 1.0, stations))

    def _total(self, name: str) -> Array:
        each = [np.tensordot(times, one, axes=1) for one, times in self.terms(name)]
        total: Array = np.add.reduce(each)
        total.flags.writeable = False
        return total


def solve(
    response: Response,
    factors: npt.ArrayLike,
    pretension: npt.ArrayLike | None = None,
    *,
    fitted: npt.ArrayLike | None = None,
    lost: int | None = None,
) -> Answer:
    """Solve many cases at once.

    r = e + (D + F) t0 over the fitted guys; t >= 0, s = (D + F) t - r >= 0, t' s = 0.

    Parameters
    ----------
    response
        Unit answers of the model.
    factors
        (n, L) factors over the unit loads, or (L,) for one case.
    pretension
        (G,) [N] in the finished rack in still air; the model's own if left out.
    fitted
        (G,) which guys are there; all if left out.
    lost
        Position of one fitted guy that has parted since: the others keep their unstressed
        lengths, so r stays that of the full set and its row and column drop out.
    """
    rows = np.atleast_2d(np.array(factors, dtype=float))
    G = len(response.slackness)
    t0 = response.pretension if pretension is None else np.asarray(pretension, dtype=float)
    there = np.ones(G, dtype=bool) if fitted is None else np.asarray(fitted, dtype=bool)
    if t0.shape != (G,) or there.shape != (G,) or rows.shape[1] != len(response.displacements):
        raise ValueError("factors, pretension or fitted do not match the model")
    if (t0[there] < 0.0).any():
        raise ValueError("a guy cannot be pretensioned to push")
    A = response.flexibility + np.diag(response.slackness)
    r = rows @ response.stretch + A[:, there] @ t0[there]
    if lost is not None:
        if not there[lost]:
            raise ValueError("the lost guy is not fitted")
        there = there & (np.arange(G) != lost)
    tensions, slack = np.zeros((len(rows), G)), np.zeros((len(rows), G))
    tensions[:, there], slack[:, there] = solve_taut(A[np.ix_(there, there)], r[:, there])
    for array in (rows, tensions, slack):
        array.flags.writeable = False
    return Answer(response=response, factors=rows, tensions=tensions, slack=slack)
