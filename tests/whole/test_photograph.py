"""The designer's photograph on the cover: what may be one, what is kept of it, where it stands."""

import io
import os
from pathlib import Path

import pikepdf
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from creasewright.booklet.drawing import Document, Page, Picture, Tagged
from creasewright.cli import main
from creasewright.pdf.paint import paint
from creasewright.photograph import LONGEST, photograph
from creasewright.problems import ProblemsFound, Where
from creasewright.reading.design import Text

SMALL = """creasewright: 1
title: Seed note
photo: note.jpg
papers:
  leaf: {sheet: letter, grammage: 90, caliper: 0.1 mm}
blanks:
  note: {paper: leaf, width: 4 in, height: 3 in}
"""


def named(name: str) -> Text:
    return Text(name, Where("note.yaml", 3, 8))


def picture(width: int = 60, height: int = 40, kind: str = "JPEG", **kept: object) -> bytes:
    out = io.BytesIO()
    image = Image.new("RGB", (width, height), (20, 120, 40))
    image.paste((250, 250, 250), (0, 0, width // 2, height))  # its left half is light
    image.save(out, kind, **kept)
    return out.getvalue()


def beside(folder: Path, content: bytes, name: str = "note.jpg") -> Path:
    (folder / name).write_bytes(content)
    design = folder / "note.yaml"
    design.write_text(SMALL.replace("note.jpg", name), encoding="utf-8")
    return design


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_a_photograph_keeps_its_shape_and_becomes_a_jpeg(tmp_path: Path, kind: str):
    found = photograph(beside(tmp_path, picture(kind=kind)), named("note.jpg"))
    assert (found.width, found.height) == (60, 40)
    assert Image.open(io.BytesIO(found.jpeg)).format == "JPEG"


def test_a_large_one_is_made_small(tmp_path: Path):
    found = photograph(beside(tmp_path, picture(4000, 3000)), named("note.jpg"))
    assert (found.width, found.height) == (LONGEST, LONGEST * 3 // 4)


def test_it_stands_upright_and_tells_nothing_of_the_camera(tmp_path: Path):
    exif = Image.Exif()
    exif[0x0112] = 6  # Exif 2.32, 4.6.4: row 0 is the right side, column 0 the top
    exif[0x010F] = "A camera"
    found = photograph(beside(tmp_path, picture(exif=exif)), named("note.jpg"))
    shown = Image.open(io.BytesIO(found.jpeg))
    assert shown.size == (40, 60)
    light, dark = shown.getpixel((20, 10)), shown.getpixel((20, 50))
    assert light[0] > 200 > 100 > dark[0]
    assert not dict(shown.getexif())
    assert b"A camera" not in found.jpeg


@pytest.mark.parametrize("name", ["../note.jpg", "/etc/note.jpg", "C:\\note.jpg", "in/../../note.jpg", "..\\note.jpg"])
def test_nothing_outside_of_the_folder_is_opened(tmp_path: Path, name: str):
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "note.jpg").write_bytes(picture())
    with pytest.raises(ProblemsFound, match="folder"):
        photograph(inner / "note.yaml", named(name))


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="no links on this system")
def test_a_link_that_leads_out_is_refused(tmp_path: Path):
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "secret.jpg").write_bytes(picture())
    (inner / "note.jpg").symlink_to(tmp_path / "secret.jpg")
    with pytest.raises(ProblemsFound, match="leads out"):
        photograph(inner / "note.yaml", named("note.jpg"))


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "cannot be read as JPEG or PNG"),
        (b"creasewright: 1\n", "cannot be read as JPEG or PNG"),
        (picture()[:400], "cannot be read as JPEG or PNG"),
        (picture(kind="GIF"), "cannot be read as JPEG or PNG"),
        (b"\x00" * 30_000_001, "larger than 30 MB"),
    ],
)
def test_what_is_no_photograph_is_told_at_its_place(tmp_path: Path, content: bytes, words: str):
    with pytest.raises(ProblemsFound, match=words) as found:
        photograph(beside(tmp_path, content), named("note.jpg"))
    assert found.value.problems[0].where == Where("note.yaml", 3, 8)


def test_one_that_would_fill_the_memory_is_refused_before_it_is_unpacked(tmp_path: Path):
    out = io.BytesIO()
    Image.new("1", (30_000, 3_000)).save(out, "PNG")  # 90 million dots in a few kB
    with pytest.raises(ProblemsFound, match="30000 × 3000 dots"):
        photograph(beside(tmp_path, out.getvalue()), named("note.jpg"))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_a_damaged_file_is_a_photograph_or_a_fault(tmp_path: Path, data: st.DataObject):
    content = bytearray(picture(kind=data.draw(st.sampled_from(["JPEG", "PNG"]))))
    for place in data.draw(st.lists(st.integers(0, len(content) - 1), max_size=12)):
        content[place] = data.draw(st.integers(0, 255))
    try:
        found = photograph(beside(tmp_path, bytes(content)), named("note.jpg"))
    except ProblemsFound:
        return
    assert found.width >= 1 <= found.height


def test_it_is_placed_where_the_page_says_and_once_in_the_file(tmp_path: Path):
    shown = Tagged("Figure", (Picture(30, 50, 60, 40),), alt="A photograph of the note.")
    found = photograph(beside(tmp_path, picture()), named("note.jpg"))
    out = io.BytesIO()
    paint(Document("", "", "", "en", (Page(200, 100, (shown,), "1"),), (), {"INK": "#1F262B"}, photograph=found), out, b"x")
    with pikepdf.open(out) as pdf:
        forms = pdf.pages[0].Resources.XObject
        (image,) = [form for form in forms.values() if form.Subtype == "/Image"]
        assert (image.Width, image.Height, image.read_raw_bytes().rstrip(b"\n")) == (60, 40, found.jpeg.rstrip(b"\n"))
        matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0]
        for operands, operator in pikepdf.parse_content_stream(pdf.pages[0]):
            if str(operator) == "cm":
                a, b, c, d, e, f = (float(x) for x in operands)
                p, q, r, s, t, u = matrix
                matrix = [a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u]
            if str(operator) == "Do":
                break
    mm = 72 / 25.4
    assert matrix == pytest.approx([60 * mm, 0, 0, 40 * mm, 30 * mm, (100 - 50 - 40) * mm], abs=1e-3)


def test_a_cover_with_a_photograph(tmp_path: Path):
    design = beside(tmp_path, picture(300, 200))
    for folder in ("one", "two"):
        assert main(["pack", str(design), "--quiet", "--anyway", "--out", str(tmp_path / folder)]) == 0
    one, two = ((tmp_path / folder / "note-letter-in.pdf").read_bytes() for folder in ("one", "two"))
    assert one == two
    with pikepdf.open(io.BytesIO(one)) as pdf:
        forms = [page.Resources.get("/XObject", pikepdf.Dictionary()).values() for page in pdf.pages]
        assert [k for k, of_page in enumerate(forms) if any(form.Subtype == "/Image" for form in of_page)] == [0]


def test_its_fault_is_told_with_the_others(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    design = beside(tmp_path, b"no picture")
    design.write_text(design.read_text(encoding="utf-8").replace("4 in", "4 apples"), encoding="utf-8")
    assert main(["check", str(design)]) == 2
    said = capsys.readouterr().err
    assert "cannot be read as JPEG or PNG" in said
    assert "apples" in said
