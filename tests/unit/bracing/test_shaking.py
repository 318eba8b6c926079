"""Frequencies against hand values, the full eigenvalue problem, and a rocking mass followed."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.linalg import block_diag, eigh

from frame.bracing.shaking import play_give, shaking, stability
from frame.fem.model import AFTER, Model, Support
from frame.fem.response import respond
from frame.fem.stage import stage
from frame.fem.swaying import Body, at_most
from frame.idealize.build import Idealized
from frame.loads.gust import flexible_gust_effect, mean_wind
from frame.loads.terrain import terrain
from frame.solved.blocks import Block
from frame.solved.situation import situations
from tests.builders import FOOT, INCH, POUND, blocks_of, case, case_blocks, changed, every_bracing
from tests.unit.fem.builders import FIXED, member, node

G = 9.80665  # BIPM, The International System of Units, 9th ed., appendix 4


def post(inertia: float, weight: float) -> Body:
    """A pipe post 10 ft high on a rigid base, a weight [lb] on top, a line along x at its head."""
    pipe = {"E": 29e6 * POUND / INCH**2, "Iy": inertia, "Iz": inertia}
    model = Model(
        nodes=(node((0, 0, 0)), node((0, 0, 10 * FOOT))),
        members=(replace(member(0, 1), **pipe),),
        supports=(Support(node=0, fixed=FIXED),),
    )
    mass, line = np.zeros((2, 6, 6)), np.zeros((12, 1))
    mass[1, :3, :3] = np.eye(3) * weight * POUND / G
    line[6] = 1.0
    return Body.of(stage(model, AFTER), mass, line)


@pytest.mark.parametrize(
    ("inertia", "weight", "expected"),
    # Nominal I of 4 in and 3 in standard pipe, 7.23 and 3.02 in4 (ASTM A53 dimensions).
    # 4 in, 400 lb: k = 3 x 29e6 x 7.23 / 120^3 = 364 lb/in, f = sqrt(364 x 386.1 / 400) / 2 pi.
    [(7.23, 400, 2.983), (7.23, 800, 2.109), (3.02, 400, 1.928), (3.02, 800, 1.363)],
)
def test_weight_on_a_post(inertia: float, weight: float, expected: float) -> None:
    body = post(inertia * INCH**4, weight)
    assert body.frequencies([], np.zeros(0), 2) == pytest.approx([expected] * 2, rel=1e-3)


def test_spring_at_the_head_of_a_post_and_half_of_it_gone() -> None:
    # The post's own k = 364 lb/in: as much again raises f by sqrt 2; half of it gone, by sqrt 1/2.
    k = 364.0 * POUND / INCH
    body = post(7.23 * INCH**4, 400)
    assert body.frequencies([0], np.array([k]), 2) == pytest.approx([2.983, 4.219], rel=1e-3)
    assert body.frequencies([0], np.array([-k / 2]), 1) == pytest.approx([2.109], rel=1e-3)
    assert body.give([0], [0], np.array([k])) == pytest.approx(0.5 / k, rel=1e-3)


def exact(block: Block) -> np.ndarray:
    """Three lowest frequencies from the full matrices, by LAPACK."""
    at = stage(block.with_band(block.band[0]), AFTER, taut=block.fitted)
    T = at.T.toarray()
    mass = T.T @ block_diag(*block.frame.free_sway.node_mass) @ T
    mu = eigh(mass, T.T @ at.K.toarray() @ T, eigvals_only=True)[::-1][:3]
    return 1 / (2 * pi * np.sqrt(mu))


@pytest.mark.parametrize(("name", "bracing"), every_bracing())
def test_whole_racks_against_the_full_problem(name: str, bracing: tuple[str, ...]) -> None:
    blocks = [
        b for b in case_blocks(name, bracing) if b.state.soil == "soft" and b.state.guys != "stiff"
    ]
    expected = min(tuple(exact(b)) for b in blocks)
    found = shaking(blocks)
    assert found.at_rest[0] == pytest.approx(expected[0], rel=1e-4)
    assert found.at_rest == pytest.approx(expected, rel=5e-3)
    if found.slack:
        # One-way guys only ever add stiffness, play only takes it away.
        assert found.slack[0] <= found.at_rest[0] * (1 + 1e-9)
    assert found.play is None or found.play <= found.at_rest[0] * (1 + 1e-9)
    assert found.lowest == min(f for f in (*found.at_rest, *found.slack, found.play) if f)
    for block in blocks:
        # Sums of shapes only stiffen: never under, and so near that 1.2 Hz is surely over 1.
        slack = block.frame.free_sway.body.frequencies([], np.zeros(0), 1)[0]
        most = at_most(block.frame.response, block.frame.free_sway.node_mass)
        assert slack * (1 - 1e-6) <= most <= 1.1 * slack


def test_guyed_above_unguyed_heavier_below_lighter() -> None:
    bare = shaking(case_blocks("boat_shed"))
    guyed = shaking(case_blocks("boat_shed", ("guys",)))
    assert guyed.at_rest[0] > 1.2 * bare.at_rest[0]
    assert guyed.slack == pytest.approx(bare.at_rest)
    heavy = shaking(blocks_of(changed("boat_shed", ('"49 lb"', '"98 lb"'))))
    assert heavy.at_rest[0] < bare.at_rest[0]
    wide = shaking(blocks_of(changed("boat_shed", ('"1/8 in"', '"1/4 in"'))))
    assert wide.at_rest == pytest.approx(bare.at_rest)
    assert wide.play < bare.play < bare.at_rest[0]


def test_mass_of_the_deck() -> None:
    """Eight panels of 41 x 69 in and 49 lb, half an inch apart, against plates by hand."""
    block = case_blocks("boat_shed")[0]
    rack, tilt = block.frame.rack, block.frame.ideal.tilt
    panels = block.frame.free_sway.node_mass - without_panels(block).frame.free_sway.node_mass
    assert panels[:, 0, 0].sum() * G == pytest.approx(8 * 49 * POUND, rel=1e-9)
    # About the beam: plates 69 in high, middles 34.75 in up and down the slope, parallel axes.
    m = 49 * POUND / G
    expected = 8 * m * ((69 * INCH) ** 2 / 12 + (34.75 * INCH) ** 2)
    nodes = np.array([n.xyz for n in block.frame.ideal.model.nodes])
    up = np.array([0, np.cos(tilt), np.sin(tilt)])
    along = (nodes - [0, 0, rack.posts.height]) @ up
    found = (panels[:, 0, 0] * along**2).sum() + panels[:, 3, 3].sum()
    assert found == pytest.approx(expected, rel=1e-3)


def without_panels(block: Block) -> Block:
    """The same frame with nothing of the panels' weight on it."""
    model = block.frame.ideal.model
    loads = tuple(
        replace(u, nodes=()) if u.name == "panel weight" else u for u in model.unit_loads
    )
    ideal: Idealized = replace(block.frame.ideal, model=replace(model, unit_loads=loads))
    frame = replace(block.frame, ideal=ideal, response=respond(ideal.model))
    return replace(block, frame=frame)


@pytest.mark.parametrize("slop", [0.002, 0.01, 0.05])
def test_period_of_a_mass_that_rocks_through_play(slop: float) -> None:
    # Followed through time: unit inertia, moment nil within the play, k beyond it.
    k, moment = 400.0, 2.0

    def moved(_: float, y: np.ndarray) -> list[float]:
        return [y[1], -k * (y[0] - np.clip(y[0], -slop, slop))]

    def crossing(_: float, y: np.ndarray) -> float:
        return y[0]

    crossing.terminal, crossing.direction = True, -1  # type: ignore[attr-defined]
    quarter = solve_ivp(
        moved, (0, 50), [slop + moment / k, 0.0], events=crossing, max_step=1e-3, rtol=1e-9
    )
    period = 4 * quarter.t_events[0][0]
    give = 1 / k + play_give(slop, np.array([moment]), np.array([1 / k]))[0]
    assert 2 * pi * np.sqrt(give) == pytest.approx(period, rel=1e-4)


def swaying(block: Block) -> tuple[np.ndarray, np.ndarray]:
    """All frequencies and shapes of the bare frame."""
    lines = np.zeros((6 * len(block.frame.ideal.model.nodes), 0))
    body = Body.of(block.frame.response.at, block.frame.free_sway.node_mass, lines)
    return body.swaying([], np.zeros(0))


def test_shapes_are_of_unit_energy_and_square_to_each_other() -> None:
    block = case_blocks("boat_shed")[0]
    frequency, shapes = swaying(block)
    low = shapes[:, :3]
    assert low.T @ block.frame.response.at.K @ low == pytest.approx(np.eye(3), abs=1e-5)
    mass = (
        low.T @ block_diag(*block.frame.free_sway.node_mass) @ low * (2 * pi * frequency[0]) ** 2
    )
    assert mass == pytest.approx(np.diag((frequency[0] / frequency[:3]) ** 2), abs=1e-5)


def test_area_that_faces_the_wind_and_what_even_wind_drives() -> None:
    # Everything moved level by 1 m: A sin(tilt) across the beam, nothing along it. Eight panels of
    # 41 x 69 in.
    block = case_blocks("boat_shed")[0]
    level = np.zeros((6 * len(block.frame.ideal.model.nodes), 2))
    level[0::6, 0] = level[1::6, 1] = 1.0
    area = 8 * 41 * 69 * INCH**2 * np.sin(block.frame.ideal.tilt)
    assert block.frame.free_sway.wind_on(level)[1] == pytest.approx([0.0, area], abs=1e-9)
    share, facing = block.frame.free_sway.wind_on(swaying(block)[1])
    assert share.sum() == pytest.approx(1.0)
    # A rack alike left and right: shapes along the beam take nothing, one takes most.
    assert np.sort(share)[-1] > 0.8
    assert (facing >= 0.0).all()


def test_gust_factor_of_slow_racks() -> None:
    # The sway across the beam by hand: panels and steel above the post's middle go level. At 35
    # deg, where wind pushes along more than down.
    block = case_blocks("boat_shed")[2]
    frequency, shapes = swaying(block)
    nodes = np.array([n.xyz for n in block.frame.ideal.model.nodes])
    high = nodes[:, 2] > block.frame.rack.posts.height / 2
    moving = block.frame.free_sway.node_mass[high, 0, 0].sum()
    share, facing = block.frame.free_sway.wind_on(shapes)
    sway = int(share.argmax())
    assert share[sway] > 0.95
    area = 8 * 41 * 69 * INCH**2 * np.sin(block.frame.ideal.tilt)
    assert facing[sway] * (2 * pi * frequency[sway]) ** 2 == pytest.approx(area / moving, rel=0.15)
    site, ground = block.frame.rack.site, terrain("C")
    for slower in (1.5, 2.5):
        # As stiff as slower^-2: shapes of unit energy grow by slower.
        rate = frequency[sway] / slower
        found = block.frame.free_sway.flexible(frequency / slower, shapes * slower)
        wind = mean_wind(site.map_gust, block.frame.free_sway.outlines()[0], ground)
        # CN at 30 and 37.5 deg, Fig. 27.3-4, clear flow: the least mean is case B from behind,
        # of 2.5 and 0.5, and of 2.4 and 0.6.
        air = 1.226 * 1.5 * area * wind / (2 * moving * 2 * pi * rate)
        with_air, steel_only = (
            max(
                flexible_gust_effect(rate, site.map_gust, o, ground, d)
                for o in block.frame.free_sway.outlines()
            )
            for d in (0.01 + air, 0.01)
        )
        assert found == pytest.approx(with_air, rel=0.03)
        assert found < 0.8 * steel_only


def _states(now):
    return now.solved.factors, now.solved.tensions


@pytest.mark.parametrize("bracing", [(), ("guys",)])
def test_worst_case_for_buckling(bracing: tuple[str, ...]) -> None:
    nows = situations(case_blocks("boat_shed", bracing))
    found = stability(nows)
    every = [n.block.shapes.factors(*_states(n), n.block.response.slackness) for n in nows]
    assert found.factor == pytest.approx(min(f.min() for f in every), rel=1e-9)
    assert found.words in {w for n in nows for w in n.table.words}
    assert found.gust in (0.0, case("boat_shed").site.map_gust)
