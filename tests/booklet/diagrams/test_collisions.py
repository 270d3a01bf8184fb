"""The collision test itself: what it must find and what it must let pass. The ruler: 10 pt is 1 mm a character."""

from booklet.square_ruler import SquareRuler
from creasewright.booklet.diagrams.collisions import overlaps
from creasewright.booklet.drawing import Group, Pen, Run, Shape, Words

RULER = SquareRuler()


def words(text: str, x: float, y: float, role: str = "label") -> Words:
    return Words(x, y, (Run(text, "Regular", 10),), role=role)


def line(x0: float, y0: float, x1: float, y1: float, role: str = "line cut") -> Shape:
    return Shape((("M", x0, y0), ("L", x1, y1)), Pen(), role=role)


def test_words_over_words_are_found() -> None:
    assert overlaps([words("head", 0, 5), words("tail", 3, 5)], RULER) == ["label “head” overlaps label “tail”"]


def test_words_side_by_side_pass() -> None:
    assert overlaps([words("head", 0, 5), words("tail", 4, 5)], RULER) == []


def test_words_over_a_line_are_found_wherever_their_groups_move_them() -> None:
    assert overlaps([Group((words("head", 0, 5),), 10, 10), line(12, 0, 12, 20)], RULER) == ["label “head” overlaps line cut"]
    assert overlaps([Group((words("head", 0, 5),), 10, 10), line(2, 0, 2, 20)], RULER) == []


def test_a_letter_belongs_to_its_tag_and_a_name_does_not() -> None:
    box = Shape((("M", 0, 0), ("L", 5, 0), ("L", 5, 5), ("L", 0, 5), ("Z",)), Pen(), "WHITE", role="tag box")
    assert overlaps([box, words("B", 2, 3, "tag")], RULER) == []
    assert overlaps([box, words("B", 2, 3)], RULER) == ["label “B” overlaps tag box"]


def test_words_over_a_motif_are_found_and_over_plain_paper_pass() -> None:
    square = (("M", 0, 0), ("L", 5, 0), ("L", 5, 5), ("L", 0, 5), ("Z",))
    assert overlaps([Shape(square, None, "paper 1 motif", role="motif"), words("B", 2, 3)], RULER) == ["label “B” overlaps motif"]
    assert overlaps([Shape(square, None, "paper 1 front", role="paper strip/page"), words("B", 2, 3)], RULER) == []


def test_a_line_hidden_by_a_clip_is_no_collision() -> None:
    window = (("M", 0, 0), ("L", 3, 0), ("L", 0, 3), ("Z",))
    clipped = Group((line(0, 2.6, 10, 2.6),), clip=window)
    assert overlaps([clipped, words("abc", 2, 3)], RULER) == []
    assert overlaps([clipped, words("a", 0, 2.8)], RULER) == ["label “a” overlaps line cut"]


def test_what_leaves_the_picture_is_found() -> None:
    assert overlaps([words("head", 7, 5), line(0, 0, 0, 12)], RULER, 10, 10) == [
        "label “head” leaves the picture",
        "line cut leaves the picture",
    ]


def test_an_arrow_aslant_is_where_its_ink_is_not_where_its_box_is() -> None:
    aslant = (("M", 0, 0), ("L", 20, 20), ("L", 18, 22), ("Z",))
    arrow = Shape(aslant, Pen("ACC"), "WHITE", role="slide arrow")
    assert overlaps([arrow, words("a", 14, 3)], RULER) == []
    assert overlaps([arrow, words("a", 10, 11)], RULER) == ["label “a” overlaps slide arrow"]
