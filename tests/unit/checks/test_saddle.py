"""The saddle weld: its line by integrals of an angle, its worst point by looking at every one."""

import numpy as np
import pytest
from scipy.integrate import quad

from frame.checks.welds.saddle import SADDLE_THROAT, Saddle, saddle_line, saddle_shape
from frame.checks.welds.weld import FILLET_THROAT, Metal, weld_metal
from tests.step_check import assert_steps, printed

PAIRS = [(0.141, 0.0889), (0.1156, 0.1016), (0.0889, 0.1143), (0.06, 0.1143), (0.0889, 0.0889)]


def counted(Ds: float, Db: float) -> float:
    """Angle round the sleeve at which faces open by 135 deg, from the normals of both pipes."""
    angle = np.linspace(0, np.pi / 2, 200_001)
    y = Ds / 2 * np.sin(angle)
    on = y <= Db / 2
    sleeve = np.stack([np.cos(angle), np.sin(angle), 0 * angle])[:, on]
    across = y[on] / (Db / 2)
    beam = np.stack([0 * across, across, -np.sqrt(1 - across**2)])
    opening = np.pi - np.arccos(np.clip((sleeve * beam).sum(axis=0), -1, 1))
    return float(angle[on][opening <= np.radians(135)].max())


def end_of(Ds: float, Db: float) -> float:
    """How far off the beam's axis the weld counts [m]."""
    line = saddle_line((0.0, 0.0), 0.0, 0.0, 0.0, Saddle(sleeve_od=Ds, beam_od=Db, leg=0.005))
    return float(printed(line.steps, "ye"))


@pytest.mark.parametrize(("Ds", "Db"), PAIRS)
def test_the_line_by_integrals_round_the_sleeve(Ds, Db):
    """Intersection of two cylinders, y = m sin t with m the smaller radius: dx = -y dy / x."""
    R, r = Ds / 2, Db / 2
    m, y_end = min(R, r), R * np.sin(counted(Ds, Db))

    end = np.arcsin(1.0 if y_end > m * (1 - 1e-4) else y_end / m)

    def integral(of):
        def piece(t: float) -> float:
            y, dy = m * np.sin(t), m * np.cos(t)
            x2, z2 = R**2 - y**2, r**2 - y**2
            return of(x2, y) * np.sqrt(dy**2 * (1 + y**2 / x2 + y**2 / z2))

        return 4 * quad(piece, 0, end, limit=400)[0]

    shape = saddle_shape(Ds, Db)
    assert end_of(Ds, Db) == pytest.approx(y_end, rel=1e-4)
    assert shape.length == pytest.approx(integral(lambda x2, y: 1.0), rel=1e-3)
    assert shape.lengthwise == pytest.approx(integral(lambda x2, y: x2), rel=1e-3)
    assert shape.crosswise == pytest.approx(integral(lambda x2, y: y**2), rel=1e-3)


@pytest.mark.parametrize(("Ds", "Db"), PAIRS)
def test_a_full_throat_up_to_there_is_about_the_whole_line_with_its_own_throats(Ds, Db):
    """A fillet of equal legs between faces open by psi has a throat of w cos(psi / 2)."""
    R, r = Ds / 2, Db / 2
    y = min(R, r) * np.sin(np.linspace(-np.pi / 2, np.pi / 2, 40_001))
    x, z = (np.sqrt(np.maximum(c**2 - y**2, 0)) for c in (R, r))
    ds = np.sqrt(np.diff(x) ** 2 + np.diff(y) ** 2 + np.diff(z) ** 2)
    ym, xm = (y[1:] + y[:-1]) / 2, (x[1:] + x[:-1]) / 2
    psi = np.pi / 2 + np.arcsin(np.minimum(ym**2 / (R * r), 1))
    share = np.cos(psi / 2) / np.cos(np.pi / 4)
    shape = saddle_shape(Ds, Db)
    for got, of in ((shape.length, 1.0), (shape.lengthwise, xm**2)):
        assert 0.9 < got / (2 * (of * share * ds).sum()) < 1.3
    whole = 2 * (ym**2 * share * ds).sum() / y.max()
    assert 0.9 < shape.crosswise / end_of(Ds, Db) / whole < 1.5


@pytest.mark.parametrize(("Ds", "Db"), PAIRS)
@pytest.mark.parametrize("moments", [(300.0, 0.0), (0.0, 300.0), (300.0, 200.0), (80.0, 300.0)])
def test_never_less_than_the_worst_point(Ds, Db, moments):
    """Second route: every point of the line under pull, both moments, shear flow and twist."""
    Mi, Mo = moments
    N, V, T = 8e3, 3e3, 250.0
    shape = saddle_shape(Ds, Db)
    end = np.arcsin(end_of(Ds, Db) / (Ds / 2))
    a = np.linspace(-end, end, 2001)
    x, y = Ds / 2 * np.cos(a), Ds / 2 * np.sin(a)
    across = N / shape.length + Mi * x / shape.lengthwise + Mo * y / shape.crosswise
    twist = T * Ds / 2 / (shape.lengthwise + shape.crosswise)
    along = 2 * V / shape.length * np.cos(a) + twist
    line = saddle_line((-N, V), Mi, -Mo, T, Saddle(sleeve_od=Ds, beam_od=Db, leg=0.005))
    worst = np.hypot(across, along).max()
    assert worst <= line.force * (1 + 1e-6)
    assert line.force < 1.3 * worst


def test_throats_by_the_angle_between_the_faces():
    """Equal legs w between faces open by psi have a throat of w cos(psi / 2) (geometry)."""
    assert pytest.approx(np.cos(np.radians(90) / 2), abs=2e-4) == FILLET_THROAT
    assert pytest.approx(np.cos(np.radians(120) / 2)) == SADDLE_THROAT


def test_steps():
    saddle = Saddle(sleeve_od=0.1156, beam_od=0.1016, leg=0.0048, throat=SADDLE_THROAT)
    line = saddle_line((1e3, 2e3), np.array([300.0, 10.0, 0.0]), 200.0, 90.0, saddle)
    check = weld_metal(line, Metal(electrode=480e6, yield_stress=240e6, tensile=400e6, wall=5e-3))
    for index in range(3):
        assert_steps(check, (index,))
