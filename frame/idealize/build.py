"""From a rack to its frame: the one builder that everything uses."""

from dataclasses import dataclass, replace

from frame.fem.model import Model
from frame.idealize.actions import add_pushes, add_weights, add_wind
from frame.idealize.braces import add_knees, add_stays
from frame.idealize.deck import Slope, add_rails, add_ties
from frame.idealize.draft import Draft
from frame.idealize.drag import add_drag
from frame.idealize.lines import add_guys
from frame.idealize.posts import add_beam, add_posts
from frame.idealize.state import State
from frame.idealize.surcharge import add_surcharges
from frame.rack.rack import KNEES, STAYS, TIES, Rack


@dataclass(frozen=True, kw_only=True)
class Idealized:
    """A rack at one tilt with some of its bracing, as a frame.

    `marks` finds a node by what it is ("beam end, left", "post lug", "rail 2 lower end"); several
    marks may share a node.
    """

    rack: Rack
    tilt: float
    bracing: tuple[str, ...]
    state: State
    model: Model
    marks: dict[str, int]


def build(rack: Rack, tilt: float, bracing: tuple[str, ...], state: State) -> Idealized:
    """Build the frame of `rack` at `tilt` [rad] with the named kinds of bracing fitted.

    Axes: x along the beam, y across it, z up; origin at grade under the beam's middle; the panels
    face -y. Each post runs to the beam's centre line, the sleeve stiffens nothing (safe side).
    """
    slope, fitted = Slope(tilt), _fit(rack, bracing)
    draft = _structure(rack, slope, bracing, state)
    add_weights(draft, fitted, slope)
    add_wind(draft, fitted, slope)
    add_drag(draft, fitted)
    add_pushes(draft, rack)
    add_surcharges(draft, fitted, slope)
    return Idealized(
        rack=rack, tilt=tilt, bracing=bracing, state=state, model=draft.freeze(), marks=draft.marks
    )


def on_other_ground(ideal: Idealized, soil: str) -> Idealized:
    """Build the same rack at the other end of the soil's band; its loads stay."""
    state = replace(ideal.state, soil=soil)
    draft = _structure(ideal.rack, Slope(ideal.tilt), ideal.bracing, state)
    model = replace(draft.freeze(), unit_loads=ideal.model.unit_loads)
    return replace(ideal, state=state, model=model)


def _structure(rack: Rack, slope: Slope, bracing: tuple[str, ...], state: State) -> Draft:
    """Put together all parts, without their loads."""
    fitted = _fit(rack, bracing)
    draft = Draft()
    add_posts(draft, rack, state)
    add_beam(draft, rack, state)
    add_rails(draft, rack, slope)
    add_knees(draft, fitted)
    add_ties(draft, fitted, slope)
    add_stays(draft, fitted)
    add_guys(draft, rack, bracing, state)
    return draft


def _fit(rack: Rack, bracing: tuple[str, ...]) -> Rack:
    """Return the rack with only the stiff bracing that is fitted; its nodes stay as they are."""
    return replace(
        rack,
        knees=rack.knees if KNEES in bracing else None,
        ties=rack.ties if TIES in bracing else None,
        stays=rack.stays if STAYS in bracing else None,
    )
