"""The pieces to cut: what shares a letter and what does not, and how many."""

from small_designs import worked_of

PAPERS = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"
SLANTED = "{height: 100 mm, across: [flap: 40 mm, page: 80 mm], corners: {head-left: {cut: [10 mm, 30 mm]}}}"


def letters(body: str, papers: str = PAPERS) -> list[tuple[str, int, str | None]]:
    return [(piece.letter, piece.count, piece.mirror) for piece in worked_of(body, papers).pieces]


def test_a_mirror_pair_takes_two_letters_that_name_each_other():
    assert letters(f"blanks:\n  strip: {SLANTED}\n  image: {{mirror of: strip}}\n") == [("A", 1, "B"), ("B", 1, "A")]


def test_a_blank_equal_to_the_mirror_image_of_another_is_counted_with_it():
    # the image of the image is the strip itself; a symmetric board equals its own image
    body = f"""
blanks:
  strip: {SLANTED}
  image: {{mirror of: strip}}
  again: {{mirror of: image}}
  board: {{width: 50 mm, height: 40 mm}}
  other board: {{mirror of: board}}
"""
    assert letters(body) == [("A", 2, "B"), ("B", 1, "A"), ("C", 2, None)]


def test_a_block_and_its_mirrored_block_share_out_their_hands():
    body = f"""
blanks:
  strip: {SLANTED}
  image: {{mirror of: strip}}
assemblies:
  block: {{steps: [{{place: strip, onto: page of image, by: page of strip, meet: centre}}]}}
  pair:
    parts: {{one: block, other: mirrored block}}
    steps: [{{turn: one}}, {{turn: other}}]
"""
    # each block has one of each hand, the mirrored one as well: two of each
    assert letters(body) == [("A", 2, "B"), ("B", 2, "A")]


def test_the_same_shape_in_another_paper_or_grain_takes_its_own_letter():
    papers = "papers: {card: {sheet: [600 mm, 600 mm]}, kraft: {sheet: [600 mm, 600 mm]}}"
    body = """
blanks:
  a: {paper: card, width: 50 mm, height: 40 mm}
  b: {paper: kraft, width: 50 mm, height: 40 mm}
  c: {paper: card, width: 50 mm, height: 40 mm, grain: width}
  d: {paper: card, width: 50 mm, height: 40 mm}
"""
    assert letters(body, papers) == [("A", 2, None), ("B", 1, None), ("C", 1, None)]
    named = {piece.letter: piece.names for piece in worked_of(body, papers).pieces}
    assert named["A"] == ("a", "d")


def test_a_score_or_a_hole_more_makes_another_piece():
    body = """
blanks:
  a: {height: 40 mm, across: [x: 20 mm, y: 30 mm]}
  b: {width: 50 mm, height: 40 mm}
  c: {width: 50 mm, height: 40 mm, holes: {eye: {at: [10 mm, 10 mm], across: 3 mm}}}
"""
    assert [count for _, count, _ in letters(body)] == [1, 1, 1]


def test_numbered_parts_are_counted_and_named_once():
    body = """
blanks:
  page: {width: 80 mm, height: 60 mm}
  leaf: {width: 60 mm, height: 60 mm}
parts: {page: 1, leaf: 5}
steps: [{place: each leaf, onto: page, meet: centre}]
"""
    found = worked_of(body, PAPERS).pieces
    assert [(piece.letter, piece.count, piece.names) for piece in found] == [("A", 1, ("page",)), ("B", 5, ("leaf",))]


def test_more_makers_need_more_sheets_but_the_same_pieces_each():
    body = "blanks: {page: {width: 80 mm, height: 60 mm}}\n"
    one, nine = (worked_of(body, PAPERS, makers=makers) for makers in (1, 9))
    assert [(p.letter, p.count) for p in one.pieces] == [(p.letter, p.count) for p in nine.pieces] == [("A", 1)]
    assert (one.makers, nine.makers) == (1, 9)


def test_a_print_that_must_stand_differently_makes_two_letters():
    papers = "papers: {card: {sheet: [600 mm, 600 mm], front: one-way}}"
    body = """
blanks: {page: {width: 80 mm, height: 60 mm}}
parts: {page: 2}
steps: [{lay: page 1}, {lay: page 2, head: right}]
finished: {upright: [page 1, page 2]}
"""
    assert [(piece.letter, piece.count) for piece in worked_of(body, papers).pieces] == [("A", 1), ("B", 1)]
