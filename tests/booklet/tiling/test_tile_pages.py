"""What stands on a template page."""

import itertools
from math import hypot

import pytest
from msgspec.structs import replace

from creasewright.blanks.blank import Blank, Hole, Panel, Score
from creasewright.booklet.diagrams import line_code
from creasewright.booklet.drawing import FormUse, Group, Mark, Shape, Tagged, Words
from creasewright.booklet.tiling.template import TemplateFacts, TemplateScore, from_blank
from creasewright.booklet.tiling.template_form import fitted_dash, score_pen
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords, millimetres
from creasewright.booklet.tiling.window import PageSize, window_of
from creasewright.geometry.outline import flattened
from creasewright.geometry.point import Point
from creasewright.pdf.fonts import FontRuler
from creasewright.problems import NOWHERE
from template_cases import outline_of, rectangle, rounded, template_of, tray, wheel

LETTER, A4 = PageSize(215.9, 279.4), PageSize(210.0, 297.0)
MIXED = (
    tray(),
    rectangle("long strip", 304.8, 114.3, ("S",)),
    rounded("liner", 120, 80, 12),
    wheel("wheel", 30),
    template_of("slope", outline_of([(0, 0), (90, 0), (90, 40), (0, 80)]), ()),
    rectangle("narrow", 12, 180, ("N",)),
)


@pytest.fixture(scope="module", params=[LETTER, A4], ids=["letter", "A4"])
def tiled(request):
    return request.param, tile_templates(MIXED, request.param, FontRuler(), TileWords())


def flat(items):
    for item in items:
        if isinstance(item, Group | Tagged | Mark):
            yield from flat(item.items)
        else:
            yield item


def shapes(page, role):
    return [item for item in flat(page.items) if isinstance(item, Shape) and item.role == role]


def texts(page, role=""):
    return [
        "".join(run.text for run in w.runs) for w in flat(page.items) if isinstance(w, Words) and (not role or w.role == role)
    ]


def corners(shape):
    return [command[-2:] for command in shape.path if command[0] != "Z"]


def test_every_page_has_one_check_square_of_50_mm_in_its_window(tiled):
    size, done = tiled
    window = window_of(size)
    for page in done.pages:
        (square,) = shapes(page, "check square")
        xs, ys = zip(*corners(square), strict=True)
        assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((50, 50), abs=1e-9)
        assert min(xs) > window.left and max(xs) < window.right and min(ys) > window.head and max(ys) < window.tail
    assert set(done.squares_over) == {"nothing"}


def test_the_square_is_5_mm_clear_of_every_line_of_the_templates(tiled):
    size, done = tiled
    by_key = {template.key: template for template in MIXED}
    for tile in done.tiles:
        (square,) = shapes(done.pages[tile.page_index], "check square")
        left, head = corners(square)[0]
        border = [(left + u * 50 / 40, head + v * 50 / 40) for u in range(41) for v in range(41) if u in (0, 40) or v in (0, 40)]
        points = [(x * 72 / 25.4, (size.height - y) * 72 / 25.4) for x, y in border]
        a, b, c, d, e, f = tile.to_blank.floats()
        on_blank = [(a * x + c * y + e, b * x + d * y + f) for x, y in points]
        template = by_key[tile.template]
        outline = template.polygon
        for p, q in [*zip(outline, outline[1:] + outline[:1], strict=True), *[(s.start, s.end) for s in template.scores]]:
            for k in range(101):
                x, y = p[0] + (q[0] - p[0]) * k / 100, p[1] + (q[1] - p[1]) * k / 100
                u, v = zip(*on_blank, strict=True)
                gap = hypot(max(min(u) - x, x - max(u), 0), max(min(v) - y, y - max(v), 0))
                assert gap >= 5 - 1e-6


def test_nothing_is_inked_nearer_than_7_mm_to_the_edge_of_the_paper(tiled):
    size, done = tiled
    for page in done.pages:
        for item in flat(page.items):
            for x, y in corners(item) if isinstance(item, Shape) else ([(item.x, item.y)] if isinstance(item, Words) else []):
                assert 7.2 <= x <= size.width - 7.2 and 7.2 <= y <= size.height - 7.2


def test_words_lie_apart_from_each_other(tiled):
    _, done = tiled
    ruler = FontRuler()
    for page in done.pages:
        boxes = []
        for words in flat(page.items):
            if not isinstance(words, Words) or words.turned:
                continue
            wide = sum(ruler.width(run.text, run.face, run.size) for run in words.runs)
            left = words.x - {"start": 0, "middle": wide / 2, "end": wide}[words.anchor]
            boxes.append((left, words.y - ruler.cap_height(words.runs[0].face, words.runs[0].size), left + wide, words.y, words))
        for k, one in enumerate(boxes):
            for other in boxes[:k]:
                apart = one[0] >= other[2] or other[0] >= one[2] or one[1] >= other[3] or other[1] >= one[3]
                assert apart, (page.label, one[4], other[4])


def test_a_joined_edge_carries_two_combs_whose_middle_ticks_meet(tiled):
    size, done = tiled
    window = window_of(size)
    pages = {tile.name: done.pages[tile.page_index] for tile in done.tiles if tile.template == "tray"}
    assert list(pages) == ["T-1", "T-2", "T-3", "T-4"]
    for one, other, sides, axis in (("T-1", "T-2", ("right", "left"), 1), ("T-1", "T-3", ("tail", "head"), 0)):
        middles = []
        for name, side, pitch in ((one, sides[0], 1.0), (other, sides[1], 0.9)):
            ticks = sorted(corners(shape)[0][axis] for shape in shapes(pages[name], f"comb {side}"))
            assert len(ticks) == 22
            for comb in (ticks[:11], ticks[11:]):
                assert [b - a for a, b in itertools.pairwise(comb)] == pytest.approx([pitch] * 10)
            middles.append((ticks[5], ticks[16]))
        assert middles[0] == pytest.approx(middles[1])
    assert window.height > 0


def test_grey_strips_lie_only_where_a_neighbour_follows(tiled):
    _, done = tiled
    names = {tile.name: texts(done.pages[tile.page_index], "strip words") for tile in done.tiles if tile.template == "tray"}
    assert names == {
        "T-1": ["lay T-2 on this strip", "lay T-3 on this strip"],
        "T-2": ["lay T-4 on this strip"],
        "T-3": ["lay T-4 on this strip"],
        "T-4": [],
    }


def test_a_page_has_one_name_in_its_head_its_foot_its_map_and_its_bookmark(tiled):
    _, done = tiled
    for number, page in enumerate(done.pages, 1):
        name = f"T-{number}"
        assert page.label == name
        assert texts(page, "tile name") == texts(page, "page number") == [name]
        shown = texts(page, "map name")
        assert not shown or name in shown
        assert all(title.title == name for title in page.bookmarks if title.level == 2)


def test_each_template_is_one_form_used_on_all_its_pages(tiled):
    _, done = tiled
    uses = [item for page in done.pages for item in flat(page.items) if isinstance(item, FormUse)]
    assert len(uses) == len(done.pages)
    assert {use.name for use in uses} == {form.name for form in done.forms}
    roles = [shape.role for form in done.forms for shape in form.items]
    assert len(roles) == len(set(roles))
    assert {"outline of tray", "score left wall of tray", "slit slot of liner", "hole eye of liner"} <= set(roles)


def test_each_template_says_its_own_long_measure(tiled):
    _, done = tiled
    said = [text for page in done.pages for text in texts(page)]
    for length in ("298.5 mm", "304.8 mm", "120 mm", "60 mm", "90 mm"):
        assert any(text.endswith(f"{length}") and ("edge to edge" in text or "point to point" in text) for text in said), length
    # in the narrow strip no line has room for its words: they stand with its labels, or in the foot where it is alone
    assert any("180 mm" in text for text in said)


def test_pieces_that_share_a_page_keep_their_own_tags(tiled):
    _, done = tiled
    pages = {tile.template: done.pages[tile.page_index] for tile in done.tiles}
    assert {"L", "N", "W"} <= {text for key in ("liner", "narrow", "wheel") for text in texts(pages[key], "tag")}


def test_pages_are_numbered_and_lead_to_their_bookmarks(tiled):
    _, done = tiled
    assert [page.label for page in done.pages] == [f"T-{k}" for k in range(1, len(done.pages) + 1)]
    titles = [mark.title for page in done.pages for mark in page.bookmarks if mark.level == 1]
    assert titles[0] == "Template T: tray"
    targets = {mark.key for page in done.pages for mark in page.bookmarks}
    links = {item.link for page in done.pages for item in page.items if isinstance(item, Tagged) and item.link}
    assert links <= targets


def test_the_square_lies_over_scores_where_no_place_is_clear():
    scores = tuple(TemplateScore(f"s{k}", Point(20.0 * k, 0.0), Point(20.0 * k, 210.0), "valley") for k in range(1, 9))
    done = tile_templates((rectangle("pleats", 180, 210, scores=scores),), LETTER, FontRuler(), TileWords())
    assert done.squares_over == ("scores",)
    (square,) = shapes(done.pages[0], "check square")
    assert square.pen.width < 0.4
    # no line has room for its words between the pleats: the foot says the long measure
    assert any("Check its length: edge to edge 210 mm." in text for text in texts(done.pages[0], "text"))


def test_no_templates_make_no_pages():
    done = tile_templates((), LETTER, FontRuler(), TileWords())
    assert (done.pages, done.forms, done.tiles) == ((), (), ())


def test_a_dashed_line_ends_with_a_whole_dash():
    dash = fitted_dash((5.2, 2.6), 100.0)
    # 12 periods and a dash: 12 * 7.8 + 5.2 = 98.8, stretched by 100 / 98.8
    assert dash == pytest.approx((5.2 * 100 / 98.8, 2.6 * 100 / 98.8), abs=1e-4)


def test_valley_and_mountain_are_told_apart_by_dashes():
    assert len(score_pen("valley", 100.0).dash) == 2
    assert len(score_pen("mountain", 100.0).dash) == 6  # dash, dot, dot
    assert len(score_pen("both", 100.0).dash) == 4


@pytest.mark.parametrize(("look", "kind"), [("valley", "valley"), ("mountain", "mountain"), ("score", "fold line")])
def test_a_line_means_the_same_on_templates_and_in_pictures(pack_layout, look, kind):
    """One look and one wording each: of the marks of the pack, and of the key on the page."""
    said = next(section for section in pack_layout.sections if section.key == "print it true").text(f"mark {kind}").text
    assert said.strip().endswith(TileWords().kind(look))
    pen = score_pen(look, 100.0)
    assert pen.width == line_code.WIDTHS[look]
    if look in line_code.DASHES:
        assert pen.dash == pytest.approx(line_code.dashed(line_code.DASHES[look], 100.0 * 72 / 25.4), abs=1e-3)


def test_a_line_that_is_pressed_only_is_solid_short_of_its_ends_and_marked_at_them():
    end, gap, middle, other = (part * 25.4 / 72 for part in score_pen("score", 100.0).dash)
    assert gap == pytest.approx(line_code.STOPS_SHORT, abs=1e-4) and other == gap
    # the second time round the pattern the bit at the end just fits
    assert end + gap + middle + other + end == pytest.approx(100.0, abs=1e-3)
    assert score_pen("score", 4.0).dash == ()


def test_lengths_are_told_to_a_tenth_of_a_millimetre():
    assert [millimetres(mm) for mm in (265, 298.45, 196.85, 0.04)] == ["265 mm", "298.5 mm", "196.9 mm", "0 mm"]


def blank_of(corners_):
    outline = outline_of(corners_)
    polygon = flattened(outline.edges)
    panel = Panel("strip", outline, polygon, 100.0 * 40)
    holes = (Hole("eye", Point(10.0, 20.0), 4.0),)
    scores = (Score("flap", Point(30.0, 0.0), Point(30.0, 40.0)),)
    return Blank("strip", "leaf", NOWHERE, 100, 40, outline, holes, (), scores, (panel,), ())


def test_a_mirrored_template_shows_the_blank_from_its_back():
    facts = TemplateFacts(("A",), "strip", "cut 1", "printed side up", "leaf", {"flap": "mountain"})
    blank = blank_of([(0, 0), (100, 0), (100, 40), (20, 40)])
    seen = from_blank(blank, facts, mirrored=True)
    assert seen.mirrored
    assert seen.holes[0].centre == Point(90.0, 20.0)  # 100 - 10
    assert (seen.scores[0].start.x, seen.scores[0].look) == (70.0, "mountain")
    assert set(seen.polygon) == {(100.0, 0.0), (0.0, 0.0), (0.0, 40.0), (80.0, 40.0)}
    twice = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(seen.polygon, seen.polygon[1:] + seen.polygon[:1], strict=True))
    assert twice > 0  # still clockwise as seen, y down


def test_the_tick_that_meets_tells_how_far_a_join_is_off(tiled):
    """P. Vernier, 1631: the foot says what the third tick means; here the comb laid on is moved by so much."""
    _, done = tiled
    pages = {tile.name: done.pages[tile.page_index] for tile in done.tiles if tile.template == "tray"}
    lower, laid = (
        sorted(corners(shape)[0][1] for shape in shapes(pages[name], f"comb {side}"))[:11]
        for name, side in (("T-1", "right"), ("T-2", "left"))
    )
    meets = min(range(11), key=lambda k: abs(laid[k] + 0.3 - lower[k]))
    assert abs(meets - 5) == 3
    foot = " ".join(run.text for item in flat(pages["T-1"].items) if isinstance(item, Words) for run in item.runs)
    assert "If the third tick from them meets instead, the join is 0.3 mm off." in " ".join(foot.split())


@pytest.mark.parametrize("size", [LETTER, A4])
def test_the_longest_foot_has_room_on_its_lines(size):
    note = "Cut on the middle of the outline; the cut list tells its use. To use it again, paste it on heavy card."
    large = replace(tray(), note=note, whole_size="11\u20641\u20448 × 8\u20647\u20448 in")
    done = tile_templates((large,), size, FontRuler(), TileWords())
    assert len(done.pages) == 4
    for page in done.pages:
        foot = " ".join(run.text for item in flat(page.items) if isinstance(item, Words) for run in item.runs)
        assert "The whole template measures 11" in foot and "8 in." in foot
