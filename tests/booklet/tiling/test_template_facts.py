"""What a template says beyond its shape."""

import pytest
from msgspec.structs import replace
from test_tile_pages import shapes, texts

from creasewright.booklet.kit_templates import kit_templates
from creasewright.booklet.tiling.given_way import left_of
from creasewright.booklet.tiling.line_key import line_kinds
from creasewright.booklet.tiling.placing import place
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize
from creasewright.geometry.outline import Line
from creasewright.geometry.point import Point
from creasewright.pdf.fonts import FontRuler
from creasewright.reading.settings import TemplateWishes
from section_cases import DESIGNS, context_of, shipped
from small_designs import worked_of
from template_cases import rectangle, tray

LETTER, A4 = PageSize(215.9, 279.4), PageSize(210.0, 297.0)
CARD = "papers: {card: {sheet: [400 mm, 400 mm], caliper: 0.3 mm, grammage: 120}}"
PRINTED = "papers: {card: {sheet: [400 mm, 400 mm], caliper: 0.3 mm, grammage: 120, front: one-way}}"
WINGS = """
materials: {glue: {kind: glue}}
blanks:
  base: {height: 120 mm, width: 160 mm}
  wing: {outline: [[0 mm, 0 mm], [40 mm, 20 mm], [40 mm, 90 mm], [0 mm, 90 mm]]}
  other wing: {mirror of: wing}
steps:
  - {lay: base, up: front}
  - {join: wing, onto: base, meet: {left: left, tail: tail}}
  - {join: other wing, onto: base, meet: {right: right, tail: tail}}
"""


def test_a_mirror_pair_of_plain_card_shares_one_template():
    (wing,) = kit_templates(context_of(worked_of(WINGS, CARD), "templates"))
    assert wing.letters == ("B", "C")
    assert wing.count == "cut 1, and as many mirrored"
    assert wing.note == (
        "Cut on the middle of the outline; the cut list tells its use. For C turn it over. "
        "To use it again, paste it on heavy card."
    )


def test_a_mirror_pair_of_printed_paper_has_two():
    found = kit_templates(context_of(worked_of(WINGS, PRINTED), "templates"))
    assert [template.letters for template in found] == [("B",), ("C",)]
    assert {template.count for template in found} == {"cut 1"}


def of(design, wishes="needed", system="mm"):
    context = replace(context_of(shipped(design, system), "templates"), wishes=TemplateWishes(wishes))
    return {template.key: template for template in kit_templates(context)}


def test_straight_pieces_have_templates_only_on_wish():
    assert of("swap-day-card") == {}
    assert list(of("swap-day-card", "all")) == ["card"]


def test_on_wish_every_piece_has_a_template_besides_the_cutting_aids():
    letters = {letter for template in of("seed-swap-folio", "all").values() for letter in template.letters}
    assert letters == {piece.letter for piece in shipped("seed-swap-folio", "mm").pieces}


def test_a_cloth_shows_where_its_boards_lie():
    cloth = of("garden-journal")["case cloth"]
    # three boards, four sides each
    assert len(cloth.places) == 12
    assert {score.look for score in cloth.places} == {"place"}
    assert line_kinds([place(cloth, 0.0, 0.0, 0.0)])[-1] == "place"


def test_fold_lines_give_way_to_the_places_that_are_cut_out():
    """Both spine board edges are folds: their lines are left in the turn-ins alone, where no board lies."""
    cloth = of("garden-journal")["case cloth"]
    uprights = [score for score in cloth.scores if "/" in score.name]
    assert {score.name for score in uprights} == {"joint 1/spine board", "spine board/joint 2"} and len(uprights) == 4
    heads = {float(place.start.y) for place in cloth.places if place.start.y == place.end.y}
    for score in uprights:
        low, high = sorted((float(score.start.y), float(score.end.y)))
        assert high <= min(heads) + 1e-9 or low >= max(heads) - 1e-9
    assert not [score for score in cloth.scores if score.look == "score"]


@pytest.mark.parametrize(
    ("cuts", "left"),
    [
        ([((20, 0), (80, 0))], [(0, 20), (80, 100)]),
        ([((80, 0), (20, 0))], [(0, 20), (80, 100)]),
        ([((-5, 0), (40, 0)), ((70, 0), (120, 0))], [(40, 70)]),
        ([((0, 0), (100, 0))], []),
        ([((20, 1), (80, 1))], [(0, 100)]),  # beside it
        ([((50, -20), (50, 20))], [(0, 100)]),  # across it
        ([((100, 0), (150, 0))], [(0, 100)]),  # beyond it
    ],
)
def test_what_is_left_of_a_line_beside_cuts_on_it(cuts, left):
    along = Line(Point(0, 0), Point(100, 0))
    rest = left_of(along, [Line(Point(*a), Point(*b)) for a, b in cuts])
    assert [(line.start.x, line.end.x) for line in rest] == left


def test_the_grain_is_told_where_the_design_asks_for_it():
    assert {template.grain for template in of("garden-journal", "all").values()} <= {None, 0.0, 90.0}
    boards = of("garden-journal", "all")["front board"]
    assert boards.grain == {"height": 0.0, "width": 90.0, None: None}[
        next(blank for blank in shipped("garden-journal", "mm").blanks if blank.name == "front board").grain
    ]


def test_edges_have_the_names_that_the_steps_use():
    # glued along its tail: the reader's word is bottom
    folder = of("seed-swap-folio", "all")
    named = {name for template in folder.values() for name, _, _ in template.edge_names}
    assert named
    assert named <= {"top", "bottom", "left", "right", "top left", "top right", "bottom left", "bottom right"}


@pytest.mark.parametrize("design", DESIGNS)
def test_an_edge_has_the_name_of_the_side_that_it_lies_at(design):
    """As the template's page shows it: with the front up, its top at the top."""
    for template in of(design, "all").values():
        xs, ys = [x for x, _ in template.polygon], [y for _, y in template.polygon]
        middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        for name, a, b in template.edge_names:
            x, y = (float(a.x) + float(b.x)) / 2, (float(a.y) + float(b.y)) / 2
            level = abs(float(a.y) - float(b.y)) < 0.01
            # a slanted edge, and one of a panel at the far side of a fold, are held to what their own panel says of them
            if level and not {"left", "right"} & set(name.split()):
                assert {"top": y < middle[1], "bottom": y > middle[1]}[name], (template.key, name)
            assert not (level and name in ("left", "right"))
            assert min(xs) <= x <= max(xs)


def test_panels_too_narrow_for_their_names_are_named_beside_with_a_leader():
    (cloth,) = of("garden-journal").values()
    done = tile_templates((cloth,), A4, FontRuler(), TileWords())
    names = [text for page in done.pages for text in texts(page, "label")]
    for name in ("spine board", "joint 1", "joint 2"):
        assert names.count(name) == 1
    assert sum(len(shapes(page, "leader dot")) for page in done.pages) >= 3
    # three panels of that name lie along the second page's head; they share it
    assert [texts(page, "label").count("top turn-in") for page in done.pages] == [1, 1]


def test_a_template_for_several_pieces_says_how_to_use_it_again():
    assert "heavy card" in of("seed-swap-folio", "all")["seed card"].note
    assert of("seed-packet-envelope")["envelope"].note == "Cut on the middle of the outline; the cut list tells its use."


def test_the_key_names_the_lines_of_the_page_and_no_others():
    done = tile_templates((tray(),), LETTER, FontRuler(), TileWords())
    assert texts(done.pages[0], "key") == ["cut", "fold toward you", "fold away from you", "fold both ways"]
    plain = tile_templates((rectangle("card", 100, 80),), LETTER, FontRuler(), TileWords())
    assert texts(plain.pages[0], "key") == ["cut"]


def test_a_joined_template_has_its_diagonal_ringed_at_both_ends():
    lid = rectangle("lid", 300, 200)
    done = tile_templates((lid,), LETTER, FontRuler(), TileWords())
    rings = [ring for page in done.pages for ring in shapes(page, "diagonal ring")]
    assert len(rings) == 2
    # sqrt(300² + 200²) = 360.555
    said = [text for page in done.pages for text in texts(page) if "ring in" in text]
    assert said and all(text.endswith("360.6 mm") for text in said)


def test_a_template_on_one_page_has_no_diagonal():
    done = tile_templates((rectangle("card", 100, 80),), LETTER, FontRuler(), TileWords())
    assert shapes(done.pages[0], "diagonal ring") == []


def test_grain_and_edge_names_are_written_in_the_drawing():
    template = rectangle("card", 120, 90)
    (x0, y0), (x1, y1) = template.polygon[2], template.polygon[3]
    told = replace(template, grain=90.0, edge_names=(("bottom", Point(x0, y0), Point(x1, y1)),))
    done = tile_templates((told,), LETTER, FontRuler(), TileWords())
    said = texts(done.pages[0], "label")
    assert "grain" in said
    assert "bottom edge" in said
