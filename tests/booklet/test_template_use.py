"""How a template is laid on the piece that is cut straight, and what comes off; outlines in mm, y down."""

from itertools import pairwise

import pytest

from booklet.sections.kit_cases import kit
from creasewright.blanks.blank import Blank
from creasewright.booklet.sections import cut_list, materials, score_guide
from creasewright.booklet.template_use import TemplateUse, template_use
from creasewright.geometry.outline import Arc, Line, Outline
from creasewright.geometry.point import Point
from creasewright.problems import NOWHERE
from section_cases import DESIGNS, said
from template_cases import outline_of


def use_of(outline: Outline) -> TemplateUse:
    """Of a piece cut from 100 by 60 mm."""
    return template_use(Blank("piece", "leaf", NOWHERE, 100, 60, outline, (), (), (), (), ()))


@pytest.mark.parametrize(
    ("corners", "sides", "off"),
    [
        # two corners cut off, at the top
        ([(20, 0), (80, 0), (100, 20), (100, 60), (0, 60), (0, 20)], {"left", "right", "head", "tail"}, (2, 0, 0)),
        # a point at the top: both corners of it, and no edge to lay there
        ([(50, 0), (100, 30), (100, 60), (0, 60), (0, 30)], {"left", "right", "tail"}, (2, 0, 0)),
        # a notch in the right side
        ([(0, 0), (100, 0), (100, 20), (80, 30), (100, 40), (100, 60), (0, 60)], {"left", "right", "head", "tail"}, (0, 1, 0)),
        # a rhombus: four tips, no edge
        ([(50, 0), (100, 30), (50, 60), (0, 30)], set(), (4, 0, 0)),
        # narrower at the right by one strip, which holds two corners
        ([(0, 0), (90, 0), (100, 30), (90, 60), (0, 60)], {"left", "head", "tail"}, (2, 0, 0)),
    ],
)
def test_edges_to_lie_on_and_what_comes_off(
    corners: list[tuple[float, float]], sides: set[str], off: tuple[int, int, int]
) -> None:
    use = use_of(outline_of(corners))
    assert (set(use.sides), (use.corners, use.notches, use.others)) == (sides, off)
    assert use.straight and not use.curved


def test_a_curve_that_touches_a_side_parts_what_comes_off_there() -> None:
    # two half discs of radius 25 on a strip: they touch the top at x = 25 and x = 75; between them one notch, two corners outside
    points = [Point(0.0, 25.0), Point(50.0, 25.0), Point(100.0, 25.0)]
    bows = tuple(Arc(a, b, Point((a.x + b.x) / 2, 25.0), True) for a, b in pairwise(points))
    sides = (points[-1], Point(100.0, 60.0), Point(0.0, 60.0), points[0])
    outline = Outline((*bows, *(Line(a, b) for a, b in pairwise(sides))))
    use = use_of(outline)
    assert (use.corners, use.notches, use.others) == (2, 1, 0)
    assert set(use.sides) == {"left", "right", "tail"}
    assert use.curved and not use.straight  # the straight edges are cut by the trimmer


def test_the_cut_list_tells_how_a_template_is_used() -> None:
    envelope = said(cut_list.build(kit("seed-packet-envelope", "cut list")))
    assert "A on its front side, edge on edge on all four sides; B on its sprig side" in envelope
    assert "edge on edge at the left, right and bottom." in envelope
    assert "straight lines with knife and ruler, curves with scissors" in envelope
    assert "What comes off: of A four corners and four notches; of B two corners." in envelope
    box = said(cut_list.build(kit("seedling-box", "cut list")))
    assert "with knife and ruler" in box and "scissors" not in box
    # a cutting aid is told of in its step
    assert "By template" not in said(cut_list.build(kit("seed-swap-folio", "cut list")))


@pytest.mark.parametrize("design", DESIGNS)
def test_a_pin_is_in_the_tools_where_something_is_pricked_with_it(design: str) -> None:
    guide = score_guide.build(kit(design, "score guide"))
    pricked = guide is not None and "pricked with a pin" in said(guide)
    assert ("Pin," in said(materials.build(kit(design, "materials")))) == pricked
    assert ("with the pin" in said(cut_list.build(kit(design, "cut list")))) == pricked
