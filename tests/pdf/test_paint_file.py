"""The file as a whole: its wishes to the printer, labels, outline, bytes."""

import hashlib
import io
import os
import subprocess
import sys
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from creasewright.booklet.drawing import Bookmark, Document, Form, FormUse, Group, Page, Pen, Run, Shape, Tagged, Words
from creasewright.pdf.paint import paint

ROOT = Path(__file__).parents[2]
BOX = (("M", 10.0, 10.0), ("L", 60.0, 10.0), ("L", 60.0, 60.0), ("Z",))


def pack() -> Document:
    words = Tagged("P", (Words(20, 80, (Run("Cut to 4\u20643⁄16 in × 7\u20641⁄2 in "), Run("ä ½ é → ′″", "Bold"))),))
    link = Tagged("P", (Words(20, 90, (Run("see the templates"),)),), link="templates")
    figure = Tagged("Figure", (Group((Shape(BOX, Pen(), "ACC"),), 5, 5, clip=BOX),), alt="a triangle")
    return Document(
        "Seed <swap> & folio — “große” ∞",
        "M. Maker",
        "A pattern pack",
        "en-GB",
        (
            Page(215.9, 279.4, (), "", (Bookmark("cover", "Cover"),)),
            Page(215.9, 279.4, (words, link, figure), "1", (Bookmark("steps", "Schritte ✂"), Bookmark("step 1", "Step 1", 1))),
            Page(215.9, 279.4, (), "2"),
            Page(210, 297, (FormUse("strip", 5, 5, BOX),), "T-1", (Bookmark("templates", "Templates"),)),
            Page(210, 297, (FormUse("strip", -50, 5, BOX),), "T-2"),
        ),
        (Form("strip", 300, 200, (Shape(BOX, Pen()), Words(20, 20, (Run("in the form"),)))),),
        {"INK": "#1F262B", "ACC": "#A01C4E"},
    )


def written(document: Document, digest: bytes = b"one") -> bytes:
    out = io.BytesIO()
    paint(document, out, digest)
    return out.getvalue()


@pytest.fixture(scope="module")
def data() -> bytes:
    return written(pack())


@pytest.fixture(scope="module")
def pdf(data: bytes) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(data))


def test_the_syntax_is_clean(pdf: pikepdf.Pdf) -> None:
    assert pdf.check_pdf_syntax() == []


def test_the_viewer_is_asked_not_to_scale(pdf: pikepdf.Pdf) -> None:
    # ISO 32000-2, table 147
    wishes = pdf.Root.ViewerPreferences
    assert wishes.PrintScaling == "/None"
    assert [str(each) for each in wishes.Enforce] == ["/PrintScaling"]
    assert wishes.Duplex == "/Simplex"
    assert wishes.DisplayDocTitle is True
    assert wishes.PickTrayByPDFSize is True
    assert wishes.NumCopies == 1


def test_the_file_says_what_it_is(pdf: pikepdf.Pdf) -> None:
    assert pdf.pdf_version == "1.7"
    assert str(pdf.docinfo.Title) == "Seed <swap> & folio — “große” ∞"
    assert str(pdf.docinfo.Author) == "M. Maker"
    assert str(pdf.Root.Lang) == "en-GB"
    with pdf.open_metadata() as metadata:
        assert metadata["dc:title"] == "Seed <swap> & folio — “große” ∞"
        assert metadata["dc:creator"] == ["M. Maker"]
        assert "pdfuaid:part" not in metadata


def test_every_font_is_embedded_and_there_is_no_other(pdf: pikepdf.Pdf) -> None:
    fonts = [each for each in pdf.objects if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == "/Font"]
    assert fonts
    for font in fonts:
        assert "Lato" in str(font.BaseFont)
        assert "/FontFile2" in font.FontDescriptor
        assert "/ToUnicode" in font


def test_page_labels_are_the_printed_numbers(data: bytes) -> None:
    document = pypdfium2.PdfDocument(data)
    assert [document.get_page_label(k) for k in range(5)] == ["", "1", "2", "T-1", "T-2"]


def test_the_outline_leads_to_the_pages(pdf: pikepdf.Pdf) -> None:
    with pdf.open_outline() as outline:
        found = [(entry.title, [inner.title for inner in entry.children]) for entry in outline.root]
        targets = [pikepdf.Page(entry.destination[0]).index for entry in outline.root]
    assert found == [("Cover", []), ("Schritte ✂", ["Step 1"]), ("Templates", [])]
    assert targets == [0, 1, 3]


def test_a_link_leads_to_its_bookmark(pdf: pikepdf.Pdf) -> None:
    (annotation,) = pdf.pages[1].Annots
    assert annotation.Subtype == "/Link"
    assert pikepdf.Page(annotation.Dest[0]).index == 3
    assert str(annotation.Contents) == "see the templates"
    left, bottom, _, top = map(float, annotation.Rect)
    # the words begin at x = 20 mm, with their baseline 90 mm from the head of a page of 279.4 mm
    assert left == pytest.approx(20 / 25.4 * 72, abs=0.001)
    assert bottom < (279.4 - 90) / 25.4 * 72 < top


def test_a_form_is_in_the_file_once(pdf: pikepdf.Pdf) -> None:
    forms = [each for each in pdf.objects if isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Form"]
    assert len(forms) == 1


def test_text_reads_as_it_was_written(data: bytes) -> None:
    text = pypdfium2.PdfDocument(data)[1].get_textpage().get_text_range()
    assert "4 3⁄16 in × 7 1⁄2 in" in text
    assert "ä ½ é → ′″" in text


def test_the_same_document_gives_the_same_bytes(data: bytes) -> None:
    assert written(pack()) == data


def test_another_process_with_another_hash_seed_gives_the_same_bytes(data: bytes) -> None:
    script = "import hashlib, test_paint_file as t; print(hashlib.sha256(t.written(t.pack())).hexdigest())"
    paths = os.pathsep.join([str(ROOT / "generator"), str(Path(__file__).parent)])
    for seed in ("1", "4711"):
        environment = {**os.environ, "PYTHONPATH": paths, "PYTHONHASHSEED": seed, "TZ": "Asia/Tokyo"}
        run = subprocess.run([sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=True)
        assert run.stdout.strip() == hashlib.sha256(data).hexdigest()


def test_another_digest_gives_another_identifier(data: bytes, pdf: pikepdf.Pdf) -> None:
    other = pikepdf.open(io.BytesIO(written(pack(), b"two")))
    assert bytes(other.trailer.ID[0]) != bytes(pdf.trailer.ID[0])


def test_a_link_to_a_bookmark_that_is_nowhere_is_refused() -> None:
    link = Tagged("P", (Words(20, 90, (Run("see"),)),), link="nowhere")
    with pytest.raises(ValueError, match="bookmarks that no page has: nowhere"):
        written(Document("t", "", "", "en", (Page(210, 297, (link,), "1"),), (), {"INK": "#000000"}))


def test_two_bookmarks_with_one_key_are_refused() -> None:
    page = Page(210, 297, (), "1", (Bookmark("a", "A"), Bookmark("a", "B")))
    with pytest.raises(ValueError, match="two bookmarks 'a'"):
        written(Document("t", "", "", "en", (page,), (), {}))
