"""The hay barn's post and the ground that holds it, by hand."""

from math import hypot, pi, sqrt

import numpy as np

from tests.published.hay_barn.given import (
    BURIED,
    FIRM,
    HEIGHT,
    ON_TOP,
    POST,
    TOP_OUT,
    E,
    Inputs,
    Pipe,
    Wind,
    pipe_use,
)


def cu(given: Inputs) -> float:
    """Undrained strength [ksi]."""
    return FIRM * given["clay"] / 144 / 1000


def rubs(given: Inputs) -> float:
    """Area of the buried pipe that rubs: the earth touches four fifths of it. [in2]"""
    return 0.8 * pi * 4 * (BURIED - TOP_OUT)


def turning(w: Wind, g: Inputs) -> float:
    """Half of cu round the pipe (alpha method, API RP 2A, from memory) and under its foot."""
    grip = 0.5 * cu(g)
    return w.swing / (grip * rubs(g) * 2 + grip * 2 * pi * 2**3 / 3)


def pressed_down(w: Wind, g: Inputs) -> float:
    """9 cu on the closed foot (Skempton 1951), half of cu round the pipe."""
    holds = 9 * cu(g) * pi * 4 + 0.5 * cu(g) * rubs(g)
    return (ON_TOP + POST + w.press) / holds


def pulled_up(w: Wind, g: Inputs) -> float:
    """Own weight, and half of cu on the four fifths of the pipe that rub."""
    return max(-w.press, 0) / (ON_TOP + POST + 0.5 * cu(g) * rubs(g))


def grown(w: Wind, g: Inputs) -> float:
    """Second order of a cantilever held 1.4 R below the counted ground, R^4 = E I / 67 cu."""
    pipe = Pipe(g["wall"])
    R = (E * pipe.inertia / (67 * cu(g))) ** 0.25
    euler = pi**2 * E * pipe.inertia / (4 * (HEIGHT + TOP_OUT + 1.4 * R) ** 2)
    return 1 / (1 - min(max(ON_TOP + w.press, 0) / euler, 0.9))


def sideways(w: Wind, g: Inputs) -> float:
    """Broms 1964, clay, short free-headed: 9 cu on 1.25 widths, turning about a point below.

    Shear is nil f = H / p below the counted top; the g beneath it turn over two equal halves.
    """
    across, along = w.bending(HEIGHT)
    shear = abs(w.side + w.post_drag)
    arm = hypot(across, along) * grown(w, g) / shear + TOP_OUT
    p, length = 9 * cu(g) * 1.25 * 4, BURIED - TOP_OUT
    # H (arm + f / 2) = p (length - f)2 / 4, a quadratic in f
    a, b, c = 1 / 4, -(length / 2 + arm), length**2 / 4
    f = (-b - sqrt(b * b - 4 * (a - 1 / 2) * c)) / (2 * (a - 1 / 2))
    return shear / (p * f)


def leaning(w: Wind, g: Inputs) -> float:
    """Up to half of its strength a pile's movement stays in proportion, past it it grows without
    (Broms 1964, working loads of a third to a half of the ultimate, from memory).
    """
    return 2 * sideways(w, g)


def in_ground(g: Inputs) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Depths [in] and moments in the buried post under H = 1 and M = 1 at grade.

    Beam on springs 67 cu (Davisson 1970), by finite differences E I w'''' + k w = 0.
    """
    n = 114
    step, EI = BURIED / n, E * Pipe(g["wall"]).inertia
    matrix, right = np.zeros((n + 5, n + 5)), np.zeros((n + 5, 2))
    for i in range(n + 1):
        matrix[i + 2, i : i + 5] = np.array([1, -4, 6, -4, 1]) * EI / step**4
        matrix[i + 2, i + 2] += 67 * cu(g) if i * step >= TOP_OUT else 0
    slope, shear = np.array([0, 1, -2, 1, 0]), np.array([-1, 2, 0, -2, 1])
    matrix[0, :5], right[0, 1] = slope, step**2 / EI
    matrix[1, :5], right[1, 0] = shear, 2 * step**3 / EI
    matrix[-1, -5:], matrix[-2, -5:] = slope, shear
    w = np.linalg.solve(matrix, right)
    moments = EI * (w[1:-3] - 2 * w[2:-2] + w[3:-1]) / step**2
    return np.arange(n + 1) * step, moments[:, 0], moments[:, 1]


def post(w: Wind, g: Inputs) -> float:
    """The buried post where it is bent most; friction takes the twist out below the top 9 in."""
    pipe, fy = Pipe(g["wall"]), g["yield"]
    across, along = (m * grown(w, g) for m in w.bending(HEIGHT))
    shear = abs(w.side + w.post_drag)
    depths, by_shear, by_moment = in_ground(g)
    moments = np.hypot(by_shear * shear + by_moment * abs(across), by_moment * along)
    twists = w.swing * np.minimum(1, (BURIED - depths) / (BURIED - TOP_OUT))
    fe = pi**2 * E * pipe.inertia / pipe.A / HEIGHT**2
    axial = ON_TOP + POST / 2 + w.press
    share = abs(axial) / (pipe.A * fy * (0.658 ** (fy / fe) if axial > 0 else 1))
    return max(
        pipe_use(pipe, fy, float(M), float(T), shear, share)
        for M, T in zip(moments, twists, strict=True)
    )
