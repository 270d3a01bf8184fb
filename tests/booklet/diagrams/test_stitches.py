"""Thread and holes in a plan picture."""

from creasewright.booklet.diagrams.boxes import path_lines
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.plan_view import draw_plan
from creasewright.booklet.diagrams.scene import Facet, FacetEdge, PlanScene, Prick, Stitch
from creasewright.booklet.diagrams.stitches import bow
from creasewright.booklet.drawing import Group, Item, Shape, Words
from creasewright.pdf.fonts import FontRuler

RING = ((0.0, 0.0), (100.0, 0.0), (100.0, 140.0), (0.0, 140.0))


def sheet() -> Facet:
    edges = tuple(FacetEdge(a, b, "cut") for a, b in zip(RING, (*RING[1:], RING[0]), strict=True))
    return Facet(RING, edges, (), "leaf", "leaf", "A", "front", "paper 1 front", None)


def flat(items: tuple[Item, ...]) -> list[Item]:
    found: list[Item] = []
    for item in items:
        found += flat(item.items) if isinstance(item, Group) else [item]
    return found


def test_seen_and_hidden_thread_lie_on_either_side_of_their_line_whichever_way_they_run() -> None:
    for start, end in (((0.0, 0.0), (0.0, 20.0)), ((0.0, 20.0), (0.0, 0.0))):
        assert max(x for x, _ in bow(start, end, hidden=False)) <= 0
        assert min(x for x, _ in bow(start, end, hidden=True)) >= 0
    # 4/3 of the handle is what a cubic's handles need to reach it at its middle
    assert min(x for x, _ in bow((0.0, 0.0), (0.0, 20.0), hidden=False)) < -1.6


def test_each_hole_is_drawn_with_its_number_and_each_stitch_in_its_own_look() -> None:
    spots = ((50.0, 25.0), (50.0, 70.0), (50.0, 115.0))
    scene = PlanScene(
        (sheet(),),
        pricks=tuple(Prick(spot, str(k)) for k, spot in enumerate(spots, start=1)),
        stitches=(Stitch(spots[1], spots[0], True), Stitch(spots[0], spots[2], False), Stitch(spots[2], spots[1], True)),
    )
    items = flat(draw_plan(scene, 88.0, 90.0, FontRuler(), style=NORMAL).items)
    shapes = [item for item in items if isinstance(item, Shape)]
    assert len([item for item in shapes if item.role == "hole"]) == 3
    threads = [item for item in shapes if item.role == "thread"]
    hidden = [item for item in shapes if item.role == "hidden thread"]
    assert (len(threads), len(hidden)) == (1, 2)
    assert all(item.pen is not None and item.pen.dash for item in hidden)
    assert all(item.pen is not None and not item.pen.dash for item in threads)
    texts = {run.text for item in items if isinstance(item, Words) for run in item.runs}
    assert {"1", "2", "3"} <= texts
    assert all(path_lines(item.path) for item in shapes)
