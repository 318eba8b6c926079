"""The cut plan of a rack: where splices may be, from which pipe, solved again."""

import numpy as np
import pytest

from frame.checks.steel.pipe import Forces, interaction
from frame.parts.steel.pipes import beam_length, round_pipe
from frame.shop.cutting.cut_plan import Cutting, pile_plan, sticks_of
from frame.shop.cutting.fitting import fits, strength
from frame.shop.cutting.splice_zones import cut_out, kept_clear, merged, splice_use, zones
from frame.shop.ground import Ground
from frame.shop.job import Wanted, make_job
from frame.shop.pile_words import again_words
from frame.solved.blocks import blocks
from frame.solved.frames import solve_frames
from frame.solved.situation import situations
from frame.verdict.inspect import inspect
from tests.builders import INCH, case, changed

FOOT = 12 * INCH
STICKS = """
[[sticks]]
pipe = "3-1/2 in nominal"
steel = "A53 B"
length = "9 ft"
count = 2
cost = "20 each"
bad = ["3 ft to 3 ft 6 in"]
[[sticks]]
pipe = "3-1/2 in nominal"
steel = "A53 B"
length = "11 ft"
[[sticks]]
pipe = "3-1/2 in nominal"
steel = "A53 B"
length = "6 ft"
wall = "0.15 in"
"""
BRACING = ("knees", "guys")


@pytest.fixture(scope="module")
def rack():
    return changed("orchard_wall", more=STICKS)


@pytest.fixture(scope="module")
def result(rack):
    return inspect(rack, BRACING).result


@pytest.fixture(scope="module")
def job(rack, result):
    return make_job(rack, BRACING, Wanted(), result)


def beam_of(job):
    (group,) = [g for g in job.cuts.groups if "C" in g.letters]
    return group


def test_sticks_are_read_as_written(rack) -> None:
    found = sticks_of(rack)
    assert [round(s.length / FOOT, 6) for _, s in found] == [9, 9, 11, 6]
    assert found[0][1].bad == ((pytest.approx(3 * FOOT), pytest.approx(3.5 * FOOT)),)
    assert found[3][0].wall == pytest.approx(0.15 * INCH)
    assert found[3][0].basis == "measured"


def test_the_beam_is_spliced_where_it_may_be_and_checked_again(job) -> None:
    """No stick is 14 ft long, so one splice is the least: 11 ft, and the rest off a 9 ft one."""
    group = beam_of(job)
    plan = group.plan
    assert plan is not None
    assert plan.bought == 0
    assert plan.splices == 1
    cut_from = {c.stick for c in plan.cuts}
    assert not any(group.pipes[s].wall < 0.2 * INCH for s in cut_from)
    allowed = job.cuts.zones["C"]
    for at in plan.splices_of(group.letters.index("C")):
        assert any(a - 1e-6 <= at <= b + 1e-6 for a, b in allowed)
    assert job.cuts.again.beam.splices == job.cuts.beam_splices
    rows = [r for r in job.again.rows if r.part == "beam at splice"]
    assert rows
    assert max(r.utilisation for r in rows) <= job.cuts.cutting.share + 1e-6


def test_zones_lie_where_every_case_leaves_the_splice_half_idle(rack, job) -> None:
    """Sections cut anew at random places of the zones, in every case of every block."""
    share = job.cuts.cutting.share
    draw = np.random.default_rng(1)
    found = blocks(solve_frames(rack, (BRACING,), rack.tilts), BRACING, rack.tilts)
    places = [
        a + draw.random() * (b - a) - rack.beam.length / 2
        for a, b in job.cuts.zones["C"]
        for _ in range(6)
    ]
    pipe = round_pipe(rack.beam.pipe).spliced(rack.beam.splice_efficiency)
    for now in situations(found):
        model = now.block.frame.ideal.model
        for x in places:
            for m in model.members_of("beam"):
                left, right = (model.nodes[n].xyz[0] for n in model.members[m].ends)
                if not left <= x <= right:
                    continue
                at = now.answer.cut([m], np.array([(x - left) / (right - left)]))
                forces = Forces(N=at.N, My=at.My, Mz=at.Mz, Vy=at.Vy, Vz=at.Vz, T=at.T)
                check = interaction(pipe, forces, beam_length(now))
                assert np.max(check.demand) <= share * 1.02


def test_zones_keep_clear_of_whatever_is_welded_or_clamped_on(job) -> None:
    for piece in job.pieces:
        for low, high in job.cuts.zones.get(piece.letter, ()):
            assert low >= piece.od
            assert high <= piece.length - piece.od
            for mark in piece.marks:
                assert not low - piece.od < mark.at < high + piece.od, mark.name


def test_thin_pipe_only_where_the_use_leaves_room(rack) -> None:
    thin = sticks_of(rack)[3][0]
    beam = next(p for p in make_job(rack, BRACING).pieces if p.name == "beam")
    ratio = strength(thin) / strength(rack.beam.pipe)
    assert ratio < 1
    assert fits(rack, beam, 0.9 * ratio, thin)
    assert not fits(rack, beam, 1.1 * ratio, thin)
    assert not fits(rack, beam, 1.3, thin)
    assert fits(rack, beam, 1.3, rack.beam.pipe)


def test_nothing_is_spliced_where_splices_may_carry_nothing(rack, result) -> None:
    plan = pile_plan(
        rack, make_job(rack, BRACING).pieces, 1, result, Cutting(share=0.02, seconds=5)
    )
    assert plan is not None
    assert not plan.zones["C"]
    group = next(g for g in plan.groups if "C" in g.letters)
    assert group.plan is not None
    assert group.plan.splices == 0


def test_stretches_are_cut_and_joined() -> None:
    assert merged([(1, 2), (0, 1), (3, 4)]) == ((0, 2), (3, 4))
    assert cut_out(((0, 2), (3, 4)), ((0.5, 1), (1.5, 3.5))) == ((0, 0.5), (1, 1.5), (3.5, 4))


def test_a_post_is_never_spliced_at_grade_or_in_its_sleeve() -> None:
    rack = case("orchard_wall")
    post = make_job(rack, BRACING).pieces[0]
    along = splice_use(rack, BRACING, 0.5)["post"]
    sleeve = post.mark("foot of the sleeve").at
    for low, high in zones(post, along, share=10.0):
        assert not low <= post.mark("grade").at <= high
        assert high < sleeve
    assert all(a < b for a, b in kept_clear(post))


def test_sleeve_pipe_is_bought_cut_to_the_foot_not_in_whole_lengths(job) -> None:
    """One sleeve of 12 in and what its saddle takes: 14 in and a cut; a yard cuts 2 ft."""
    (group,) = [g for g in job.cuts.groups if g.name == "sleeve"]
    assert group.plan is not None
    (stick,) = {c.stick for c in group.plan.cuts}
    assert group.pile.sticks[stick].length == pytest.approx(2 * FOOT)
    (post,) = [g for g in job.cuts.groups if "A" in g.letters]
    new = [s for s in post.pile.sticks if not s.at_hand]
    assert new[0].length == pytest.approx(21 * FOOT)


def test_what_the_splices_use_is_what_the_rack_solved_again_says(job) -> None:
    """The beam: looked up between stations, against the check of the splices built in."""
    rows = [r for r in job.again.rows if r.part == "beam at splice"]
    worst = max(r.utilisation for r in rows)
    assert job.cuts.uses["C"] == pytest.approx(worst, rel=0.05, abs=0.01)
    assert any("splices of C use" in said for said in again_words(job))


def test_a_post_may_be_spliced_but_not_where_posts_differ() -> None:
    """Short sticks make a post of two; on a slope along the beam each post is of one length."""
    pipe = 'pipe = { od = "114.3 mm", wall = "5.4 mm" }\nsteel = "A53 B"\n'
    short = changed("wash_house", more=f'\n[[sticks]]\n{pipe}length = "2.6 m"\ncount = 4\n')
    bracing = ("knees", "ties")
    level = make_job(short, bracing, Wanted(), inspect(short, bracing).result)
    assert level.cuts is not None
    assert level.cuts.zones["A"]
    ground = Ground(0.1, "left")
    falls = make_job(short, bracing, Wanted(ground=ground), level.result)
    assert falls.cuts is not None
    posts = {p.letter for p in falls.pieces if p.name.startswith("post")}
    assert len(posts) == 2
    assert not posts & set(falls.cuts.zones)
