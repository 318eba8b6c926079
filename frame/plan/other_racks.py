"""What another kind of rack would reach, where the best of this kind falls short: solved."""

from collections.abc import Iterator
from dataclasses import dataclass

from frame.casefile.write import Edits, Value, Where, edited
from frame.changes.series import written_length
from frame.errors import FrameError
from frame.plan.standing import Asked, Standing, stand
from frame.rack.rack import Rack
from frame.sizing.arrangements import APART


@dataclass(frozen=True, kw_only=True)
class OtherRack:
    """Another kind of rack, in words, and what it stands with the plan's last bracing."""

    words: str
    standing: Standing


def other_kinds(end: Standing, name: str, *, ranged: bool = True) -> tuple[OtherRack, ...]:
    """Solve the plan's end with two posts, and with a row or a column of panels less.

    `ranged`: see `frame.plan.standing.Asked`.
    """
    found = []
    for words, edits in _ways(end.rack):
        try:
            text = edited(end.text, edits)
            made = stand(text, end.bracing, Asked(name=name, ranged=ranged))
        except FrameError:
            continue
        found.append(OtherRack(words=words, standing=made))
    return tuple(found)


def _ways(rack: Rack) -> Iterator[tuple[str, Edits]]:
    panels = rack.panels
    if len(rack.posts.positions) == 1:
        apart: dict[Where, Value] = {
            ("post", "count"): 2,
            ("post", "spacing"): written_length(APART[1] * rack.beam.length, rack.units),
        }
        yield "two posts", apart
    if panels.up > 1:
        words = (
            f"{panels.up - 1} row{'s' * (panels.up > 2)} of panels up the slope, not {panels.up}"
        )
        yield words, {("panels", "up"): panels.up - 1}
