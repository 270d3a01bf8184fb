"""The written file read back as geometry: the true one passes, every planted fault is found."""

import io

import pdfplumber
import pytest
from msgspec.structs import replace

from creasewright.booklet.drawing import FormUse, Group, Mark, Shape, Tagged
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize
from creasewright.geometry.plane_transform import Affine
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.pdf_objects import UnreadableFile
from creasewright.readback.read_marks import read_marks
from template_cases import l_shaped, pillow, rectangle, rounded, tray, wheel, written

TEMPLATES = (
    tray(),
    wheel("big wheel", 130),
    l_shaped(),
    rounded("liner", 120, 80, 12),
    rectangle("turned lid", 210, 180, ("D",)),
    pillow(),
)


@pytest.fixture(scope="module")
def tiled():
    return tile_templates(TEMPLATES, PageSize(215.9, 279.4), FontRuler(), TileWords())


def read_back(tiled, pages=None, forms=None):
    pages = tiled.pages if pages is None else pages
    marks = read_marks(written(pages, tiled.forms if forms is None else forms), range(len(pages)))
    return compare(tiled.tiles, TEMPLATES, marks)


def changed_form(tiled, role, change):
    """The forms with one shape changed, or dropped where `change` gives None."""
    return tuple(
        replace(form, items=tuple(new for item in form.items if (new := change(item) if item.role == role else item)))
        for form in tiled.forms
    )


def changed_items(items, change):
    out = []
    for item in items:
        if isinstance(item, Group | Mark | Tagged):
            out.append(replace(item, items=changed_items(item.items, change)))
        else:
            out.append(change(item))
    return tuple(out)


def moved_path(path, dx):
    return tuple((c[0], *(v + dx if k % 2 == 0 else v for k, v in enumerate(c[1:]))) for c in path)


def scaled_path(path, factor):
    return tuple((c[0], *(v * factor for v in c[1:])) for c in path)


def grown_by(path, factor):
    corners = tuple((x * factor, y * factor) for x, y in path.corners)
    return replace(path, corners=corners, clip=tuple(side * factor for side in path.clip))


def test_a_true_file_passes(tiled):
    result = read_back(tiled)
    assert result.true
    assert (result.missing, result.unexpected) == ((), ())
    # an arc and the curve drawn for it are compared as chords, each within 0.005 mm of the arc
    assert result.largest_error_mm < 0.01
    assert result.largest_square_error_mm < 0.001
    assert len(result.tiles) == len(tiled.tiles)


def test_straight_lines_are_where_the_design_puts_them_to_a_ten_thousandth():
    flat = (tray(), l_shaped())
    done = tile_templates(flat, PageSize(210.0, 297.0), FontRuler(), TileWords())
    marks = read_marks(written(done.pages, done.forms), range(len(done.pages)))
    assert compare(done.tiles, flat, marks).largest_error_mm < 2e-4


def test_a_score_moved_by_a_tenth_of_a_millimetre_is_found(tiled):
    forms = changed_form(tiled, "score left wall of tray", lambda shape: replace(shape, path=moved_path(shape.path, 0.1)))
    result = read_back(tiled, forms=forms)
    assert not result.true
    assert result.largest_error_mm == pytest.approx(0.1, abs=1e-3)


def test_a_curved_score_moved_by_a_tenth_of_a_millimetre_is_found(tiled):
    forms = changed_form(tiled, "score upper ear of pillow", lambda shape: replace(shape, path=moved_path(shape.path, 0.1)))
    result = read_back(tiled, forms=forms)
    assert not result.true
    # moved across, the farthest place is an end, where the arc is steepest: 0.1 · sin(38.6°) = 0.0623 off its line
    assert result.largest_error_mm == pytest.approx(0.1, abs=0.04)


def test_a_curved_score_drawn_straight_is_found(tiled):
    def straight(shape):
        return replace(shape, path=(shape.path[0], ("L", *shape.path[-1][-2:])))

    result = read_back(tiled, forms=changed_form(tiled, "score lower ear of pillow", straight))
    assert not result.true
    assert "score lower ear" in {missed.line for missed in result.missing}
    assert len(result.unexpected) == 1


def test_a_missing_curved_score_is_found(tiled):
    result = read_back(tiled, forms=changed_form(tiled, "score upper ear of pillow", lambda shape: None))
    assert {missed.line for missed in result.missing} == {"score upper ear"}


def test_an_outline_drawn_at_99_9_percent_is_found(tiled):
    alone = tile_templates((tray(),), PageSize(215.9, 279.4), FontRuler(), TileWords())
    forms = changed_form(alone, "outline of tray", lambda shape: replace(shape, path=scaled_path(shape.path, 0.999)))
    result = compare(alone.tiles, (tray(),), read_marks(written(alone.pages, forms), range(len(alone.pages))))
    # a tab's corner is (236.3, 266.65) mm and 1 mm of margin from the form's own: 0.001 * hypot(237.3, 267.65) = 0.3577
    assert not result.true
    assert result.largest_error_mm == pytest.approx(0.3577, abs=1e-3)


def test_a_missing_score_is_found_on_every_tile_that_should_show_it(tiled):
    result = read_back(tiled, forms=changed_form(tiled, "score head wall of tray", lambda shape: None))
    found = {(missed.template, missed.line, missed.tile) for missed in result.missing}
    assert {("tray", "score head wall", "T-1"), ("tray", "score head wall", "T-2"), ("tray", "score head wall", "")} == found


def test_a_missing_hole_is_found(tiled):
    result = read_back(tiled, forms=changed_form(tiled, "hole eye of liner", lambda shape: None))
    assert "hole eye" in {missed.line for missed in result.missing}


def test_a_line_too_long_is_found(tiled):
    def longer(shape):
        (_, x0, y0), (_, x1, y1) = shape.path
        return replace(shape, path=(("M", x0, y0), ("L", x1 + (x1 - x0) * 0.1, y1 + (y1 - y0) * 0.1)))

    result = read_back(tiled, forms=changed_form(tiled, "slit slot of liner", longer))
    assert len(result.unexpected) == 1
    assert not result.true


def test_a_page_that_was_left_out_is_found(tiled):
    pages = tiled.pages[:-1]
    marks = read_marks(written(pages, tiled.forms), range(len(pages)))
    result = compare(tiled.tiles, TEMPLATES, marks)
    assert not result.true
    assert any(missed.line == "check square" for missed in result.missing)


def test_a_tile_left_out_of_the_record_leaves_a_gap(tiled):
    tiles = [tile for tile in tiled.tiles if (tile.template, tile.name) != ("tray", "T-4")]
    marks = read_marks(written(tiled.pages, tiled.forms), range(len(tiled.pages)))
    gaps = [missed for missed in compare(tiles, TEMPLATES, marks).missing if not missed.tile]
    assert gaps and {missed.template for missed in gaps} == {"tray"}


def test_a_form_placed_askew_by_a_tenth_is_found(tiled):
    def askew(item):
        return replace(item, dx=item.dx + 0.1) if isinstance(item, FormUse) else item

    pages = (replace(tiled.pages[0], items=changed_items(tiled.pages[0].items, askew)), *tiled.pages[1:])
    result = read_back(tiled, pages=pages)
    assert result.tiles[0].largest_error_mm == pytest.approx(0.1, abs=2e-3)
    assert result.tiles[1].largest_error_mm < 0.01


def test_a_window_cut_too_narrow_is_found(tiled):
    def narrowed(item):
        if not isinstance(item, FormUse):
            return item
        return replace(item, clip=tuple((c[0], *((min(c[1], 150.0), c[2]) if len(c) > 1 else ())) for c in item.clip))

    pages = (replace(tiled.pages[0], items=changed_items(tiled.pages[0].items, narrowed)), *tiled.pages[1:])
    assert not read_back(tiled, pages=pages).true


@pytest.mark.parametrize("side", [50.2, 49.94])
def test_a_check_square_of_another_size_is_found(tiled, side):
    def other(item):
        if not (isinstance(item, Shape) and item.role == "check square"):
            return item
        x, y = item.path[0][1:]
        return replace(item, path=(("M", x, y), ("L", x + side, y), ("L", x + side, y + side), ("L", x, y + side), ("Z",)))

    pages = (replace(tiled.pages[0], items=changed_items(tiled.pages[0].items, other)), *tiled.pages[1:])
    result = read_back(tiled, pages=pages)
    assert result.largest_square_error_mm == pytest.approx(abs(side - 50), abs=1e-3)
    assert not result.true


def test_a_printers_profile_is_undone_before_comparing(tiled):
    marks = read_marks(written(tiled.pages, tiled.forms), range(len(tiled.pages)))
    grown = [replace(page, paths=tuple(grown_by(path, 1.008) for path in page.paths)) for page in marks]
    assert not compare(tiled.tiles, TEMPLATES, grown).true
    assert compare(tiled.tiles, TEMPLATES, grown, Affine(1 / 1.008, 0.0, 0.0, 1 / 1.008, 0.0, 0.0)).true


def test_the_lines_read_are_those_that_a_general_reader_finds(tiled):
    # pdfplumber is an independent reader; it lists what forms draw as well
    data = written(tiled.pages, tiled.forms)
    ours = [(*min(p.corners), *max(p.corners)) for p in read_marks(data, [0])[0].paths if len(p.corners) == 2]
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        lines = [(min(line["pts"]), max(line["pts"]), pdf.pages[0].height) for line in pdf.pages[0].lines]
    theirs = [(a[0], height - a[1], b[0], height - b[1]) for a, b, height in lines]
    upright = [sorted((x0, x1)) + sorted((y0, y1)) for x0, y0, x1, y1 in theirs]
    found = [sorted((x0, x1)) + sorted((y0, y1)) for x0, y0, x1, y1 in ours]
    assert len(upright) > 100
    lost = [one for one in upright if not any(max(abs(a - b) for a, b in zip(one, other, strict=True)) < 1e-3 for other in found)]
    assert lost == []


def test_a_file_that_is_no_pdf_is_told_apart():
    with pytest.raises(UnreadableFile, match="does not end as a PDF ends"):
        read_marks(b"not a pdf", [0])
