"""The structure tree: present, complete, and every marked content known to the parent tree (ISO 32000-1, 14.7)."""

import io
import re

import pikepdf
import pytest

from creasewright.booklet.drawing import (
    Bookmark,
    Document,
    Form,
    FormUse,
    Group,
    Item,
    Mark,
    Page,
    Pen,
    Run,
    Shape,
    Tagged,
    Words,
)
from creasewright.pdf.paint import paint

SQUARE = (("M", 0.0, 0.0), ("L", 30.0, 0.0), ("L", 30.0, 20.0), ("L", 0.0, 20.0), ("Z",))


def line(text: str, y: float = 50) -> Words:
    return Words(20, y, (Run(text),))


def pdf_of(*pages: tuple[Item, ...], forms: tuple[Form, ...] = ()) -> pikepdf.Pdf:
    out = io.BytesIO()
    made = tuple(Page(210, 297, items, str(k + 1), (Bookmark(f"p{k}", f"page {k}"),)) for k, items in enumerate(pages))
    paint(Document("t", "a", "s", "en", made, forms, {"INK": "#000000"}), out, b"")
    return pikepdf.open(io.BytesIO(out.getvalue()))


def shape_of(element: pikepdf.Object) -> list:
    """Kind and kids: numbers are marked content, `link` an annotation, lists are elements."""
    kids = []
    for kid in element.K:
        if isinstance(kid, int):
            kids.append(kid)
        elif kid.get("/Type") == "/OBJR":
            kids.append("link")
        elif kid.get("/Type") == "/MCR":
            kids.append(int(kid.MCID))
        else:
            kids.append(shape_of(kid))
    return [str(element.S)[1:], *kids]


def content_of(page: pikepdf.Page) -> str:
    return page.Contents.read_bytes().decode("latin-1")


TABLE = Tagged(
    "Table",
    (
        Tagged("TR", (Tagged("TH", (line("Piece"),), scope="Column"), Tagged("TH", (line("Size"),), scope="Column"))),
        Mark((Shape((("M", 0, 0), ("L", 100, 0)), Pen()),)),
        Tagged("TR", (Tagged("TD", (line("A"),)), Tagged("TD", (Group((line("5 in"),), 40, 0),)))),
    ),
)
FIGURE = Tagged("Figure", (Group((Shape(SQUARE, Pen()),), 20, 100),), alt="the strip, front side up, ½ scale")
PAGES = (
    (Tagged("H1", (line("Steps"),)), Shape(SQUARE, Pen()), Tagged("P", (line("Fold"), line("and open"))), FIGURE),
    (TABLE, Tagged("P", (line("back to the steps"),), link="p0"), FormUse("f", 0, 0, SQUARE)),
)
FORMS = (Form("f", 50, 50, (Tagged("Figure", (Shape(SQUARE, Pen()), Mark((line("50 mm"),))), alt="in a form"),)),)


@pytest.fixture(scope="module")
def pdf() -> pikepdf.Pdf:
    return pdf_of(*PAGES, forms=FORMS)


def test_the_tree_says_what_was_tagged(pdf: pikepdf.Pdf) -> None:
    assert shape_of(pdf.Root.StructTreeRoot.K) == [
        "Document",
        ["H1", 0],
        ["P", 1],
        ["Figure", 2],
        ["Table", ["TR", ["TH", 0], ["TH", 1]], ["TR", ["TD", 2], ["TD", 3]]],
        ["P", ["Link", "link", 4]],
    ]
    assert pdf.Root.MarkInfo.Marked is True
    assert pdf.check_pdf_syntax() == []


def test_every_marked_content_is_on_the_parent_tree(pdf: pikepdf.Pdf) -> None:
    nums = pdf.Root.StructTreeRoot.ParentTree.Nums
    tree = {int(nums[k]): nums[k + 1] for k in range(0, len(nums), 2)}
    for index, page in enumerate(pdf.pages):
        assert page.StructParents == index
        assert page.Tabs == "/S"
        marked = [(kind, int(mcid)) for kind, mcid in re.findall(r"/(\w+) <</MCID (\d+)>> BDC", content_of(page))]
        parents = tree[index]
        assert [mcid for _, mcid in marked] == list(range(len(parents)))
        for kind, mcid in marked:
            assert f"/{kind}" == parents[mcid].S
            assert mcid in [kid for kid in parents[mcid].K if isinstance(kid, int)]
    (annotation,) = pdf.pages[1].Annots
    assert tree[int(annotation.StructParent)].S == "/Link"
    assert int(pdf.Root.StructTreeRoot.ParentTreeNextKey) == len(tree)


def test_all_content_is_either_tagged_or_an_artifact(pdf: pikepdf.Pdf) -> None:
    for page in pdf.pages:
        depth = 0
        for row in content_of(page).split("\n"):
            depth += row.endswith((" BDC", " BMC"))
            if row.endswith((" S", " f", " B", "ET", "Do Q")) or "Tj" in row:
                assert depth >= 1, row
            depth -= row == "EMC"
        assert depth == 0


def test_a_form_carries_no_marked_content_of_its_own(pdf: pikepdf.Pdf) -> None:
    (form,) = pdf.pages[1].Resources.XObject.values()
    assert b"MCID" not in form.read_bytes()
    assert b"BMC" not in form.read_bytes()


def test_a_figure_has_its_alternative_text_and_its_box(pdf: pikepdf.Pdf) -> None:
    figure = pdf.Root.StructTreeRoot.K.K[2]
    assert str(figure.Alt) == "the strip, front side up, ½ scale"
    # the square's corners (20, 100) and (50, 120) mm on a page 297 mm high, y up
    expected = [v / 25.4 * 72 for v in (20, 297 - 120, 50, 297 - 100)]
    assert [float(v) for v in figure.A.BBox] == pytest.approx(expected, abs=0.001)


def test_table_heads_say_what_they_head(pdf: pikepdf.Pdf) -> None:
    head = pdf.Root.StructTreeRoot.K.K[3].K[0].K[0]
    assert head.A.Scope == "/Column"


def test_marks_within_a_tagged_item_are_artifacts() -> None:
    shape = Shape(SQUARE, Pen())
    pdf = pdf_of((Tagged("P", (line("a"), Mark((shape,)), line("b"))),))
    # the paragraph's two lines are two pieces of content, the mark between them none
    assert shape_of(pdf.Root.StructTreeRoot.K) == ["Document", ["P", 0, 1]]
    assert content_of(pdf.pages[0]).count("/Artifact BMC") == 1


def test_a_tagged_item_that_shows_nothing_is_left_out() -> None:
    pdf = pdf_of((Tagged("P", ()), Tagged("L", (Tagged("LI", ()),))))
    assert shape_of(pdf.Root.StructTreeRoot.K) == ["Document"]


def test_a_figure_without_words_for_it_is_refused() -> None:
    with pytest.raises(ValueError, match="without an alternative text"):
        pdf_of((Tagged("Figure", (Shape(SQUARE, Pen()),)),))
