"""What anastruct 1.7 does, and why it is fenced in: each habit pinned."""

from math import sqrt

import numpy as np
from anastruct.fem.system import SystemElements

from tests.unit.fem.plane import close


def system(points, load, EA=1e8, EI=1e5):
    s = SystemElements(EA=EA, EI=EI)
    s.add_element(points)
    s.add_support_fixed(1)
    load(s)
    s.solve()
    return s


def test_habit_movements_and_end_forces_are_positive_right_down_and_counterclockwise():
    s = system([[0, 0], [1, 0]], lambda s: s.point_load(2, Fx=1.0, Fy=3.0))
    close(s.system_displacement_vector[3:5], [1 / 1e8, -3 / (3 * 1e5)])
    assert s.system_displacement_vector[5] > 0  # an end pushed up turns counterclockwise
    close(s.element_map[1].element_force_vector, [-1, 3, -3, 1, -3, 0], scale=3)


def test_habit_end_forces_lack_those_of_a_held_element():
    """A cantilever of 2 m under 10 N/m: root moment w L^2 / 2, root shear w L."""
    s = system([[0, 0], [2, 0]], lambda s: s.q_load(0.0, 1, rotation=0.0, q_perp=10.0))
    e = s.element_map[1]
    close(e.element_force_vector + e.element_primary_force_vector, [0, -20, 20, 0, 0, 0], scale=20)


def test_habit_vertical_point_load_acts_up():
    """Pulling a 45 degree bar up and to the right stretches it; both parts pull alike."""
    s = system([[0, 0], [1, 1]], lambda s: s.point_load(2, Fx=10.0, Fy=10.0))
    close(s.get_element_results(1)["Nmax"], 10 * sqrt(2))
    close(s.get_node_displacements(2)["uy"], 10 * sqrt(2) / 1e8)


def test_habit_distributed_load_along_the_second_axis_acts_down():
    s = system([[0, 0], [1, 1]], lambda s: s.q_load(0.0, 1, rotation=0.0, q_perp=10.0))
    assert s.get_element_results(1)["Nmin"] < 0
    assert s.get_node_displacements(2)["uy"] < 0
    s = system([[0, 0], [1, 1]], lambda s: s.q_load(10.0, 1, rotation=0.0))
    assert s.get_element_results(1)["Nmax"] > 0
    assert s.get_node_displacements(2)["ux"] > 0


def test_habit_moment_loads_turn_counterclockwise():
    s = system([[0, 0], [2, 0]], lambda s: s.moment_load(2, Tz=10.0))
    assert s.get_node_displacements(2)["uy"] > 0


def test_habit_vertices_are_single_precision():
    s = system([[0, 0], [1 / 3, 0]], lambda s: s.point_load(2, Fx=1.0))
    assert s.element_map[1].l == float(np.float32(1 / 3)) != 1 / 3


def test_habit_nodes_in_one_place_merge_and_bars_double():
    s = SystemElements(EA=1e8, EI=1e5)
    s.add_element([[0, 0], [1, 0]])
    s.add_element([[0, 0], [1 + 1e-9, 0]])
    assert len(s.node_map) == 2


def test_habit_a_second_load_replaces_the_first():
    s = system([[0, 0], [1, 0]], lambda s: (s.point_load(2, Fx=5.0), s.point_load(2, Fx=2.0)))
    close(s.get_node_displacements(2)["ux"], 2 / 1e8)


def test_habit_a_release_spreads_at_a_joint_of_two():
    """One end let go at a node of two elements frees the other one too."""
    s = SystemElements(EA=1e8, EI=1e5)
    s.add_element([[0, 0], [1, 0]])
    s.add_element([[1, 0], [2, 0]], spring={1: 0})
    assert s.element_map[1].springs == {2: 0}


def test_habit_a_finite_spring_between_elements_is_wrong():
    """Cantilever of 1 m + 1 m with a spring in the middle: statics gives P (8/3EI + 1/k)."""
    s = SystemElements(EA=1e8, EI=1e5)
    s.add_element([[0, 0], [1, 0]])
    s.add_element([[1, 0], [2, 0]], spring={1: 1e5})
    s.add_support_fixed(1)
    s.point_load(3, Fy=-100.0)
    s.solve()
    exact = 100 * (8 / (3 * 1e5) + 1 / 1e5)
    assert abs(-s.get_node_displacements(3)["uy"] / exact - 1) > 0.05


def test_habit_truss_elements_do_not_spread_a_release():
    s = SystemElements(EA=1e8, EI=1e5)
    s.add_element([[0, 0], [1, 0]])
    s.add_element([[1, 0], [2, 0]])
    s.add_truss_element([[1, -1], [1, 0]], EA=1.0)
    s.add_support_fixed(1)
    s.add_support_fixed(s.find_node_id([1, -1]))
    s.point_load(3, Fy=-100.0)
    s.solve()
    close(-s.get_node_displacements(3)["uy"], 100 * 8 / (3 * 1e5), rel=1e-4)
