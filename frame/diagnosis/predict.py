"""What each reading would be for given values of the unknowns."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from frame.diagnosis.forward import Forward, Moved
from frame.diagnosis.stiffness import Stiffness
from frame.diagnosis.unknowns import (
    BEAM_WALL,
    BOW,
    GROUND,
    GUY_GIVE,
    GUY_PULL,
    LEAN_ACROSS,
    LEAN_ALONG,
    PLAY,
    POST_WALL,
    REST,
    REST_UNLOADED,
    SCALE_PRESS,
    SCALE_PULL,
    SCALE_PUSH,
    SKEW,
    SLEEVE,
    TURN,
)

Values = Mapping[str, float]
"""Value of every unknown by its key, SI or 1."""


@dataclass(frozen=True)
class Yard:
    """A rack with the unknowns at some values: what is read off it."""

    forward: Forward
    values: Values

    @property
    def moved(self) -> Moved:
        """Its elastic movements."""
        return self.forward.moved(stiffness_of(self.values))

    @property
    def single(self) -> float:
        """1 where the beam may tilt on one post, 0 where several posts hold it level."""
        return float(len(self.forward.rack.posts.positions) == 1)

    @property
    def slop(self) -> float:
        """Tilt the play allows each way [rad]."""
        return self.values[PLAY] / self.forward.rack.sleeve.length

    def droop(self, side: int, *, loaded: bool) -> float:
        """Return how far a beam end is below the beam at its post [m]; side 0 left, 1 right."""
        sign, arm = (1.0, -1.0)[side], self.forward.rack.arms[side]
        elastic = self.moved.droop if loaded else self.moved.unloaded
        rest = self.values[REST if loaded else REST_UNLOADED]
        tilted = sign * arm * (rest + self.values[LEAN_ALONG]) * self.single
        return elastic[side] + tilted + self.values[BOW] + sign * self.values[SKEW]

    def lift(self, side: int) -> float:
        """Height a beam end lifts till the sleeve binds [m]."""
        sign, arm = (1.0, -1.0)[side], self.forward.rack.arms[side]
        return arm * (self.slop + sign * self.values[REST]) * self.single

    def level(self, *, pressed: bool) -> float:
        """Slope of the beam at its post, left end down [rad]."""
        moved, lean = self.moved, self.values[LEAN_ALONG]
        if not pressed:
            return lean + moved.rolled + self.values[REST] * self.single
        force = self.forward.measured.press * self.values[SCALE_PRESS]
        return lean + moved.rolled + self.slop * self.single + force * moved.pressed

    def pushed(self) -> float:
        """Spring-back of the right beam end under the push [m]."""
        return self.moved.pushed * self.forward.measured.push * self.values[SCALE_PUSH]

    def stayed(self) -> float:
        """Return what of its movement stays when the push is let go [m]."""
        return self.forward.rack.arms[1] * self.values[TURN] * self.single

    def top_pulled(self) -> float:
        """Movement of the post top under the pull [m]."""
        return self.moved.pulled * self.forward.measured.pull * self.values[SCALE_PULL]

    def leaned(self, way: int) -> float:
        """Out of plumb over the height of the plumb line [m]; 0 to the left, 1 to the low edge."""
        lean = self.values[(LEAN_ALONG, LEAN_ACROSS)[way]]
        height = self.forward.rack.posts.height
        return self.forward.measured.lean_height * (lean + self.moved.leaned[way] / height)


PREDICTED: dict[str, Callable[[Yard], float]] = {
    "droop_left": lambda y: y.droop(0, loaded=True),
    "droop_right": lambda y: y.droop(1, loaded=True),
    "unloaded_left": lambda y: y.droop(0, loaded=False),
    "unloaded_right": lambda y: y.droop(1, loaded=False),
    "top_moved": Yard.top_pulled,
    "end_moved": lambda y: y.pushed() + y.stayed(),
    "end_stayed": Yard.stayed,
    "lift_left": lambda y: y.lift(0),
    "lift_right": lambda y: y.lift(1),
    "level": lambda y: y.level(pressed=False),
    "level_pressed": lambda y: y.level(pressed=True),
    "shakes": lambda y: y.moved.shakes,
    "lean_along": lambda y: y.leaned(0),
    "lean_across": lambda y: y.leaned(1),
    "guy_pull": lambda y: y.moved.guys,
    "beam_wall": lambda y: y.forward.rack.beam.pipe.wall * y.values[BEAM_WALL],
    "post_wall": lambda y: y.forward.rack.posts.pipe.wall * y.values[POST_WALL],
    "play": lambda y: y.values[PLAY],
}
"""How each reading follows, by its key in `frame.tables.readings`."""


def stiffness_of(values: Values) -> Stiffness:
    """Return the stiffness of the frame at some values."""
    return Stiffness(
        ground=values[GROUND],
        beam_wall=values[BEAM_WALL],
        post_wall=values[POST_WALL],
        sleeve=values[SLEEVE],
        guy_pull=values.get(GUY_PULL, 1.0),
        guy_give=values.get(GUY_GIVE, 1.0),
    )
