import re

import pytest

from booklet.sections.kit_cases import PACKS, kit, worked_for
from creasewright.booklet.cutting_way import STRAIGHT, TEMPLATE, WHOLE_SHEET, cutting_way
from creasewright.booklet.diagrams.boxes import box_of, path_lines
from creasewright.booklet.diagrams.scales import scale_named
from creasewright.booklet.hidden_letters import letter_spot
from creasewright.booklet.piece_marks import marked_parts
from creasewright.booklet.sections import cut_list
from creasewright.folding.state import GlueArea, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import dot
from creasewright.units.ruler import mark_in_words, pair_in_words
from section_cases import TRADE_WORDS, context_of, items_of, said, shapes
from small_designs import with_steps, worked_of


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_every_piece_is_there_with_its_number_and_size(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "cut list", system, page, makers)
    text = said(cut_list.build(context))
    for piece in context.worked.pieces:
        assert pair_in_words(piece.blank.width, piece.blank.height, context.worked.ruler) in text
        assert f" {piece.count * makers} " in text
        if makers > 1:
            assert f"{piece.count} each × {makers}" in text


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_drawings_are_true_outlines_at_the_scale_named(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "cut list", system, page, makers)
    section = cut_list.build(context)
    (name,) = re.findall(r"drawings (1:[0-9.]+)", said(section))
    scale = scale_named(name)[1]
    outlines = shapes(section, "outline of ")
    assert len(outlines) == len(context.worked.pieces)
    for outline, piece in zip(outlines, context.worked.pieces, strict=True):
        box = box_of(spot for chain in path_lines(outline.path) for spot in chain)
        assert box.width == pytest.approx(float(piece.blank.width) * scale, abs=0.01)
        assert box.height == pytest.approx(float(piece.blank.height) * scale, abs=0.01)


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_a_crafter_meets_no_trade_word_and_no_other_unit(design: str, system: str, page: str, makers: int) -> None:
    text = said(cut_list.build(kit(design, "cut list", system, page, makers))).lower()
    assert not [word for word in TRADE_WORDS if word in text]
    words = set(re.findall(r"[a-z]+", text))
    assert not words & {"head", "tail"}
    if system == "mm":
        assert not re.search(r"\d in\b", text)


def test_a_mirror_pair_names_each_other_and_shares_its_template_turned_over() -> None:
    text = said(cut_list.build(kit("seed-swap-folio", "cut list")))
    assert "a mirror pair with B" in text and "a mirror pair with A" in text


def test_what_is_off_the_ruler_s_marks_is_told() -> None:
    # the liner's height comes from a diagonal: no sixteenth of an inch
    context = kit("seed-packet-envelope", "cut list")
    liner = context.worked.pieces[1].blank
    assert not mark_in_words(liner.height, context.worked.ruler).exact
    text = said(cut_list.build(context))
    assert f"not on a mark: {float(liner.height) / 25.4:.3f} in" in text and text.count("not on a mark") == 1
    assert "not on a mark" not in said(cut_list.build(kit("seed-swap-folio", "cut list")))


def test_the_way_of_cutting_follows_from_the_outline() -> None:
    ways = {}
    for design in ("seed-swap-folio", "seed-packet-envelope", "plant-diary", "swap-day-card"):
        worked = worked_for(design, "in", 1)
        ways |= {(design, piece.letter): cutting_way(piece.blank, worked.papers[piece.blank.paper]) for piece in worked.pieces}
    assert ways["plant-diary", "A"].kind == WHOLE_SHEET
    assert ways["swap-day-card", "A"].kind == STRAIGHT
    assert ways["seed-packet-envelope", "A"].kind == ways["seed-packet-envelope", "B"].kind == TEMPLATE
    assert [cut.template for cut in ways["seed-swap-folio", "A"].aids] == ["slope template"]
    assert ways["seed-swap-folio", "E"].corners_alike == pytest.approx(6.35)  # 1/4 in


def test_a_corner_that_nothing_tells_asks_for_a_template() -> None:
    cut = worked_of("blanks: {card: {width: 80 mm, height: 50 mm, corners: {head-left: {cut: [10 mm, 10 mm]}}}}")
    assert cutting_way(cut.pieces[0].blank, cut.papers[cut.pieces[0].blank.paper]).kind == TEMPLATE
    one = worked_of("blanks: {card: {width: 80 mm, height: 50 mm, corners: {head-left: {round: 8 mm}}}}")
    way = cutting_way(one.pieces[0].blank, one.papers[one.pieces[0].blank.paper])
    assert way.kind == STRAIGHT and [corner for corner, _ in way.rounded] == ["head-left"] and way.corners_alike is None


def test_pieces_of_a_letter_that_are_scored_apart_are_marked_apart_in_the_list() -> None:
    text = said(cut_list.build(kit("seed-swap-folio", "cut list")))
    assert "A1 front block: as drawn" in text
    assert "A2 back block: behind" in text
    assert "30 × B2 back block" in said(cut_list.build(kit("seed-swap-folio", "cut list", makers=30)))
    # one connector, one treatment; its two sides are alike, so that none of them has a name
    assert "Connector 1 3/4 × 5 1/2 in letter on the side underneath Kraft card" in text


def test_what_is_common_to_all_letters_is_said_once_above_the_table() -> None:
    folio = said(cut_list.build(kit("seed-swap-folio", "cut list")))
    above = "There it stays hidden. Behind is the same place underneath in the drawing (seed side): turn it over like a page."
    assert folio.index(above) < folio.index("Left strip")
    assert folio.count("stays hidden") == 2  # it does there, and of E no place does
    # both trays are pencilled on the side that is drawn: nothing is left to say under their sizes
    box = said(cut_list.build(kit("seedling-box", "cut list")))
    assert "at the dot if it has one. There it stays hidden." in box and "as drawn" not in box and "ehind" not in box
    # envelope and liner behind
    envelope = said(cut_list.build(kit("seed-packet-envelope", "cut list")))
    told = "but behind, on the side underneath in the drawing (back side or plain side), the piece turned over like a page."
    assert told in envelope and envelope.count("behind") == 1
    # of the card only the plate's letter is not as drawn, and its sides are alike: no word is told that no row has
    card = said(cut_list.build(kit("welcome-card", "cut list")))
    assert "On the side underneath in the drawing, it goes in the same place: turn it over like a page." in card
    assert "ehind" not in card


def test_of_an_only_piece_the_table_says_where_its_letter_is_pencilled() -> None:
    diary = said(cut_list.build(kit("plant-diary", "cut list")))
    assert "pencil A lightly and rub it out when a step says so: no place stays hidden" in diary
    assert "pencil A at the grey letter, front side" in said(cut_list.build(kit("bulb-pillow", "cut list")))


def test_a_corner_is_left_to_the_step_that_cuts_it() -> None:
    section = cut_list.build(kit("seed-swap-folio", "cut list"))
    text = said(section)
    assert text.count("its corners are cut in the steps") == 3  # A, B and E; D has no such step
    assert text.count("then round the corners, 1/4 in") == 1 and "slope template" not in text
    assert len(shapes(section, "line cut later")) == 2 + 4  # one slope on A and B, four corners of E


def test_a_letter_hides_where_glue_covers_it_or_is_said_to_be_rubbed_out() -> None:
    worked = worked_for("seed-swap-folio", "in", 1)
    assert worked.finished is not None
    state = worked.finished.state
    for piece in worked.pieces:
        spot = letter_spot(worked, piece)
        assert (spot is None) == (piece.letter == "E")  # cards are put in, not glued
        if spot is None:
            continue
        for mark, parts in marked_parts(worked, piece):
            for part in parts:
                assert any(_covers(state, area, (part, spot.panel), spot.sides[mark]) for area in state.glue)
    section = cut_list.build(kit("seed-swap-folio", "cut list"))
    assert "Lightly: no place on the piece stays hidden, so rub its letter out when a step says so." in said(section)
    assert "Seed card 3 7/8 × 5 in letter lightly" in said(section)
    letters = [item for item in items_of(section) if getattr(item, "role", "") == "pencilled letter"]
    assert len(letters) == 4


def test_boards_of_one_letter_hide_it_in_one_place_though_their_names_differ() -> None:
    worked = worked_for("garden-journal", "in", 1)
    boards = worked.pieces[0]
    assert boards.parts == ("front board", "back board")
    # cloth is glued over the whole of their outer sides, cloth turned in and lining over the inner ones
    spot = letter_spot(worked, boards)
    assert spot is not None and spot.panel == "front board" and list(spot.sides) == ["A"]
    assert [round(at / 25.4, 3) for at in spot.at] == [2.5, 3.875]  # the middle of 5 × 7 3/4 in
    assert "no place stays hidden" not in said(cut_list.build(kit("garden-journal", "cut list")))


def _covers(state: State, area: GlueArea, face: PanelKey, side: str) -> bool:
    """Whether adhesive touches this side of the panel: told by the order of the layers."""
    if area.panel == face:
        return area.side == side
    if area.onto != face:
        return False
    stack = next(stack for stack in state.body_of(face[0]).stacks if face in stack.order and area.panel in stack.order)
    above = stack.order.index(area.panel) > stack.order.index(face)
    front_is_high = dot(front_normal(state.placed[face]), stack.normal) > 0
    return side == ("front" if above == front_is_high else "back")


def test_print_direction_points_to_the_top_where_the_design_asks_for_it() -> None:
    for design in ("seed-swap-folio", "swap-day-card"):
        worked = worked_for(design, "in", 1)
        piece = worked.pieces[0]
        assert cut_list.print_degrees(piece, worked.papers[piece.blank.paper]) == 0


@pytest.mark.parametrize(
    ("papers", "told"),
    [("front: all-over", True), ("back: all-over", True), ("front: one-way, back: all-over", False), ("grammage: 200", False)],
)
def test_a_print_without_a_top_is_said_to_have_none_where_a_piece_may_lie_any_way(papers: str, told: bool) -> None:
    slip = with_steps("slip: {width: 60 mm, height: 40 mm}", "{lay: slip}")
    worked = worked_of(slip, f"papers: {{card: {{sheet: [600 mm, 600 mm], {papers}}}}}")
    assert ("any way its print has no top" in said(cut_list.build(context_of(worked, "cut list")))) is told
