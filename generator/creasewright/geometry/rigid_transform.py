"""Moves of a rigid thing in space: a rotation and a shift. x right, y to the tail, z down through the sheet (right-handed)."""

from math import cos, hypot, radians, sin, sqrt
from typing import NamedTuple

Vector = tuple[float, float, float]
Matrix = tuple[float, float, float, float, float, float, float, float, float]
"""Rows one after the other."""

UNIT: Matrix = (1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)


class Rigid(NamedTuple):
    """Maps p to `turn` p + `shift`."""

    turn: Matrix
    shift: Vector


STILL = Rigid(UNIT, (0.0, 0.0, 0.0))

LIKE_A_PAGE: Matrix = (-1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, -1.0)
"""Turned over about the head-tail line."""
LIKE_A_PAD: Matrix = (1.0, 0.0, 0.0, 0.0, -1.0, 0.0, 0.0, 0.0, -1.0)
"""Turned over about the left-right line."""


def rotate(m: Matrix, v: Vector) -> Vector:
    x, y, z = v
    return (m[0] * x + m[1] * y + m[2] * z, m[3] * x + m[4] * y + m[5] * z, m[6] * x + m[7] * y + m[8] * z)


def apply(move: Rigid, v: Vector) -> Vector:
    x, y, z = v
    m, s = move
    return (
        m[0] * x + m[1] * y + m[2] * z + s[0],
        m[3] * x + m[4] * y + m[5] * z + s[1],
        m[6] * x + m[7] * y + m[8] * z + s[2],
    )


def times(a: Matrix, b: Matrix) -> Matrix:
    return (
        a[0] * b[0] + a[1] * b[3] + a[2] * b[6],
        a[0] * b[1] + a[1] * b[4] + a[2] * b[7],
        a[0] * b[2] + a[1] * b[5] + a[2] * b[8],
        a[3] * b[0] + a[4] * b[3] + a[5] * b[6],
        a[3] * b[1] + a[4] * b[4] + a[5] * b[7],
        a[3] * b[2] + a[4] * b[5] + a[5] * b[8],
        a[6] * b[0] + a[7] * b[3] + a[8] * b[6],
        a[6] * b[1] + a[7] * b[4] + a[8] * b[7],
        a[6] * b[2] + a[7] * b[5] + a[8] * b[8],
    )


def transposed(m: Matrix) -> Matrix:
    return (m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8])


def compose(a: Rigid, b: Rigid) -> Rigid:
    """First b, then a."""
    return Rigid(times(a.turn, b.turn), apply(a, b.shift))


def inverse(a: Rigid) -> Rigid:
    back = transposed(a.turn)
    x, y, z = rotate(back, a.shift)
    return Rigid(back, (-x, -y, -z))


def exact_cos_sin(degrees: float) -> tuple[float, float]:
    """Without the last-digit noise at the quarter turns, so that flat folds stay exactly flat."""
    quarter = degrees / 90
    if quarter == int(quarter):
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    return cos(radians(degrees)), sin(radians(degrees))


def about_axis(axis: Vector, degrees: float) -> Matrix:
    """Rotation by the right-hand rule about a unit vector (Rodrigues' formula)."""
    c, s = exact_cos_sin(degrees)
    x, y, z = axis
    k = 1 - c
    return (
        c + x * x * k, x * y * k - z * s, x * z * k + y * s,
        y * x * k + z * s, c + y * y * k, y * z * k - x * s,
        z * x * k - y * s, z * y * k + x * s, c + z * z * k,
    )  # fmt: skip


def about_line(start: tuple[float, float], end: tuple[float, float], degrees: float) -> Rigid:
    """Rotation about the line through two points of the plane z = 0, by the right-hand rule along start to end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    turn = about_axis((dx / length, dy / length, 0.0), degrees)
    x, y, z = rotate(turn, (start[0], start[1], 0.0))
    return Rigid(turn, (start[0] - x, start[1] - y, -z))


def about_vertical(degrees: float) -> Matrix:
    """Clockwise as seen from above (y towards the viewer)."""
    c, s = exact_cos_sin(degrees)
    return (c, -s, 0.0, s, c, 0.0, 0.0, 0.0, 1.0)


def dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def minus(a: Vector, b: Vector) -> Vector:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def norm(a: Vector) -> float:
    return sqrt(dot(a, a))


def same_place(a: Rigid, b: Rigid) -> bool:
    """Whether two placements are one, but for the noise of rotations."""
    return norm(minus(a.shift, b.shift)) < 1e-3 and all(abs(p - q) < 1e-6 for p, q in zip(a.turn, b.turn, strict=True))
