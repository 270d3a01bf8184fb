"""What is drawn stands where it was put: files read back with pdfplumber and pypdfium2."""

import io
import random

import pdfplumber
import pypdfium2
import pytest

from creasewright.booklet.drawing import Document, Form, FormUse, Group, Item, Page, Pen, Run, Shape, Words
from creasewright.pdf.fonts import text_width
from creasewright.pdf.paint import paint

PT = 72 / 25.4
NEAR = 0.001
"""mm"""
PALETTE = {"INK": "#1F262B", "ACC": "#A01C4E", "paper 1 front": "#D2DFC6"}
SQUARE = (("M", 10, 10), ("L", 60, 10), ("L", 60, 60), ("L", 10, 60), ("Z",))
"""Corner (10, 10), side 50 mm."""


def document(*items: Item, forms: tuple[Form, ...] = (), width: float = 215.9, height: float = 279.4) -> Document:
    return Document("Title", "", "", "en-US", (Page(width, height, items, "1"),), forms, PALETTE)


def written(painted: Document) -> bytes:
    out = io.BytesIO()
    paint(painted, out, b"test")
    return out.getvalue()


def read(painted: Document) -> pdfplumber.page.Page:
    return pdfplumber.open(io.BytesIO(written(painted))).pages[0]


def box_mm(found: dict) -> tuple[float, float, float, float]:
    return found["x0"] / PT, found["top"] / PT, found["x1"] / PT, found["bottom"] / PT


def test_two_hundred_lines_lie_within_a_thousandth_of_a_millimetre() -> None:
    rng = random.Random(7)
    ends = [(rng.uniform(5, 200), rng.uniform(5, 270), rng.uniform(5, 200), rng.uniform(5, 270)) for _ in range(200)]
    page = read(document(*(Shape((("M", x0, y0), ("L", x1, y1)), Pen()) for x0, y0, x1, y1 in ends)))
    found = [[(x / PT, y / PT) for x, y in line["pts"]] for line in page.lines]
    assert len(found) == 200
    for (x0, y0, x1, y1), pts in zip(ends, found, strict=True):
        assert pts == [pytest.approx((x0, y0), abs=NEAR), pytest.approx((x1, y1), abs=NEAR)]


def test_the_page_is_letter_in_every_box() -> None:
    page = read(document())
    # 8 1/2 x 11 in at 72 pt an inch
    assert (page.width, page.height) == (612, 792)
    assert list(page.cropbox) == [0, 0, 612, 792]
    assert list(page.page_obj.attrs["TrimBox"]) == [0, 0, 612, 792]


def test_a_square_of_50_mm_is_50_mm() -> None:
    (rect,) = read(document(Shape(SQUARE, Pen()))).rects
    assert box_mm(rect) == pytest.approx((10, 10, 60, 60), abs=NEAR)


def test_a_group_moves_what_is_in_it_and_groups_add_up() -> None:
    inner = Group((Shape(SQUARE, Pen()),), dx=3, dy=4)
    (rect,) = read(document(Group((inner,), dx=20, dy=30.5))).rects
    assert box_mm(rect) == pytest.approx((33, 44.5, 83, 94.5), abs=NEAR)


def test_a_form_lies_where_it_is_used_whatever_the_height_of_the_page() -> None:
    form = Form("left strip", 100, 300, (Shape(SQUARE, Pen()),))
    for height in (279.4, 297):
        page = read(document(FormUse("left strip", -5, 7, SQUARE), forms=(form,), height=height))
        (rect,) = page.rects
        assert box_mm(rect) == pytest.approx((5, 17, 55, 67), abs=NEAR)


def test_a_form_shows_only_through_its_window() -> None:
    form = Form("strip", 100, 100, (Shape((("M", 0, 0), ("L", 100, 0), ("L", 100, 100), ("L", 0, 100), ("Z",)), fill="ACC"),))
    data = written(document(FormUse("strip", 0, 0, SQUARE), forms=(form,)))
    pixels = pypdfium2.PdfDocument(data)[0].render(scale=PT**-1).to_pil()
    # one pixel a millimetre
    assert pixels.getpixel((35, 35)) == (160, 28, 78)
    assert pixels.getpixel((80, 80)) == pixels.getpixel((5, 5)) == (255, 255, 255)


def test_a_hole_in_an_even_odd_fill_stays_white() -> None:
    hole = (("M", 20, 20), ("L", 50, 20), ("L", 50, 50), ("L", 20, 50), ("Z",))
    for even_odd, inside in ((True, (255, 255, 255)), (False, (160, 28, 78))):
        drawn = document(Shape(SQUARE + hole, fill="ACC", even_odd=even_odd))
        pixels = pypdfium2.PdfDocument(written(drawn))[0].render(scale=PT**-1).to_pil()
        assert pixels.getpixel((35, 35)) == inside
        assert pixels.getpixel((15, 35)) == (160, 28, 78)


def test_a_colour_may_be_shaded() -> None:
    drawn = document(Shape(SQUARE, fill="paper 1 front*0.90"))
    pixels = pypdfium2.PdfDocument(written(drawn))[0].render(scale=PT**-1).to_pil()
    # 0.9 x (210, 223, 198) = (189, 200.7, 178.2)
    assert pixels.getpixel((35, 35)) == pytest.approx((189, 201, 178), abs=1)


@pytest.mark.parametrize(("anchor", "part"), [("start", 0), ("middle", 0.5), ("end", 1)])
def test_words_stand_at_their_anchor(anchor: str, part: float) -> None:
    chars = read(document(Words(100, 50, (Run("hamburg", "Bold", 12),), anchor))).chars
    width = text_width("hamburg", "Bold", 12)
    assert chars[0]["x0"] / PT == pytest.approx(100 - part * width, abs=NEAR)
    assert chars[-1]["x1"] / PT == pytest.approx(100 + (1 - part) * width, abs=0.01)


def test_words_turned_clockwise_run_down_and_the_other_way_up() -> None:
    for turned, sense in ((90, 1), (-90, -1)):
        chars = read(document(Words(100, 100, (Run("abc"),), turned=turned))).chars
        tops = [char["top"] * sense for char in chars]
        assert tops == sorted(tops)
        start = chars[0]["top"] if sense == 1 else chars[0]["bottom"]
        assert start / PT == pytest.approx(100, abs=NEAR)


def test_pens_give_width_colour_dash_and_ends() -> None:
    page = read(document(Shape((("M", 10, 10), ("L", 90, 10)), Pen("ACC", 0.85, (5.2, 2.6)))))
    (line,) = page.lines
    assert line["linewidth"] == 0.85
    assert line["stroking_color"] == pytest.approx((160 / 255, 28 / 255, 78 / 255), abs=1e-4)
    assert line["dash"] == ([5.2, 2.6], 0)


def operators(drawn: Document) -> str:
    return pdfplumber.open(io.BytesIO(written(drawn))).pages[0].page_obj.contents[0].get_data().decode("latin-1")


def test_dashes_end_square_dots_and_solid_lines_round() -> None:
    line = (("M", 10, 10), ("L", 90, 10))
    dashes: tuple[tuple[float, ...], ...] = ((5.2, 2.6), (0.0, 2.2), (0.01, 2.19), ())
    ends = [operators(document(Shape(line, Pen(dash=dash)))).split(" J")[0][-1] for dash in dashes]
    assert ends == ["0", "1", "1", "1"]


def test_a_pen_that_does_not_change_is_not_set_again() -> None:
    line = Shape((("M", 10, 10), ("L", 90, 10)), Pen())
    assert operators(document(line, line, line)).count(" RG") == 1


def test_a_clip_that_ends_brings_back_the_pen_before_it() -> None:
    line = (("M", 10, 10), ("L", 90, 10))
    inner = Group((Shape(line, Pen("ACC")),), clip=SQUARE)
    page = read(document(Shape(line, Pen()), inner, Shape(line, Pen())))
    first, second, third = [tuple(found["stroking_color"]) for found in page.lines]
    assert first == third != second


@pytest.mark.parametrize(
    ("item", "words"),
    [
        (Shape(SQUARE, fill="PUCE"), "no colour 'PUCE'"),
        (FormUse("lid", 0, 0, SQUARE), "no form 'lid'"),
        (Shape((("M", float("nan"), 1), ("L", 1, 1)), Pen()), "no number"),
        (Shape((("M", float("inf"), 1), ("L", 1, 1)), Pen()), "no number"),
    ],
)
def test_what_cannot_be_drawn_is_refused(item: Item, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        written(document(item))
