"""Motifs on faces seen aslant: never squeezed below the least that the style allows."""

from math import cos, radians, sin

import pytest

from creasewright.booklet.diagrams.cover_picture import COVER
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.scene import Affine
from creasewright.booklet.diagrams.space_motifs import TOO_SLENDER, held_open, times


def squeezed(by: float, turn: float) -> Affine:
    """A map that squeezes by a factor along a direction `turn` degrees off x, then turns by as much again, and moves."""
    co, si = cos(radians(turn)), sin(radians(turn))
    there, back = (co, si, -si, co, 7.0, 9.0), (co, -si, si, co, 0.0, 0.0)
    return times(there, times(there, times((by, 0.0, 0.0, 1.0, 0.0, 0.0), back)))


@pytest.mark.parametrize("turn", [0, 15, 45, 90, 130])
def test_a_squeeze_is_held_at_the_least_along_its_own_direction(turn: float) -> None:
    held = held_open(squeezed(0.45, turn), 0.5)
    assert held is not None
    assert held[:4] == pytest.approx(squeezed(0.5, turn)[:4])
    assert held[4:] == squeezed(0.45, turn)[4:]


@pytest.mark.parametrize("turn", [0, 15, 45, 90, 130])
def test_a_face_nearly_edge_on_shows_no_print_and_one_seen_well_its_true_one(turn: float) -> None:
    assert held_open(squeezed(0.99 * 0.5 * TOO_SLENDER, turn), 0.5) is None
    assert held_open(squeezed(0.51, turn), 0.5) == squeezed(0.51, turn)
    assert held_open(squeezed(0.2, turn), NORMAL.slender) == squeezed(0.2, turn)


def test_motifs_of_the_cover_are_larger_than_those_of_the_steps() -> None:
    assert COVER.motif == pytest.approx(2.0 * NORMAL.motif)
