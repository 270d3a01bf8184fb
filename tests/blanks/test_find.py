"""References within one blank."""

import pytest

from blanks.test_shape_designs import BAG, BOOKLET, ENVELOPE, FOLIO, POT, STEP, TRAY
from blanks.written_blanks import one, shaped
from creasewright.blanks.find import find_panels, find_pieces, panel_edges
from creasewright.blanks.quality import blank_quality

ALBUM = """
height: 170 mm
across: [front tab: 25 mm, {repeat: 3, of: [gap: 3 mm, up: 10 mm, down: 10 mm]}, end gap: 3 mm, back tab: 25 mm]
"""


def panels(blank, text):
    return [panel.name for panel in find_panels(blank, text)]


def pieces(blank, text):
    return [piece.name for piece in find_pieces(blank, text)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("up 2", ["up 2"]),
        ("each up", ["up 1", "up 2", "up 3"]),
        ("last up", ["up 3"]),
        ("up 2 to last", ["up 2", "up 3"]),
        ("up 1 to 2", ["up 1", "up 2"]),
        ("each front tab", ["front tab"]),
        ("up", []),
        ("cover", []),
    ],
)
def test_panels_of_a_repeat(text, expected):
    assert panels(one(ALBUM), text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("each gap/up", ["gap 1/up 1", "gap 2/up 2", "gap 3/up 3"]),
        ("each up/gap", ["gap 1/up 1", "gap 2/up 2", "gap 3/up 3"]),
        ("each down/gap", ["down 1/gap 2", "down 2/gap 3"]),
        ("last down/end gap", ["down 3/end gap"]),
        ("front tab/gap 1", ["front tab/gap 1"]),
        ("gap 1/front tab", ["front tab/gap 1"]),
        ("front tab", ["front tab/gap 1"]),
        ("up 2", []),  # it hangs on two scores
        ("up/back tab", []),
    ],
)
def test_scores_of_a_repeat(text, expected):
    assert pieces(one(ALBUM), text) == expected


def test_a_mirrored_strip_answers_to_both_orders():
    strip = shaped(FOLIO)["right strip"]
    assert pieces(strip, "flap/page") == pieces(strip, "page/flap") == ["page/flap"]


def test_a_map_name_and_the_band_behind_it_both_find_the_panel():
    sheet = shaped(BOOKLET)["sheet"]
    assert panels(sheet, "one") == panels(sheet, "bottom b") == ["one"]
    assert panels(sheet, "top") == ["seven", "six", "five", "four"]
    assert [(p.first, p.second) for p in find_pieces(sheet, "eight/one")] == [("eight", "one")]
    assert len(find_pieces(sheet, "a/b")) == 2
    assert [(p.first, p.second) for p in find_pieces(sheet, "a/b in top")] == [("seven", "six")]


def test_pieces_of_a_line_in_a_band_of_the_bag():
    bag = shaped(BAG)["bag"]
    assert [(p.first, p.second) for p in find_pieces(bag, "side a/side b in upper")] == [("upper side a", "upper side b")]
    assert [(p.first, p.second) for p in find_pieces(bag, "upper/lower in front")] == [("upper front", "lower front")]
    assert find_pieces(bag, "upper/lower in back") == ()
    assert len(find_pieces(bag, "rim/upper")) == 7
    assert pieces(bag, "each toe back") == ["toe back 1", "toe back 2"]


def test_a_flap_gives_its_seam_and_each_of_them_all_seams():
    tray = shaped(TRAY)["tray"]
    assert pieces(tray, "each tab") == ["tab 1", "tab 2", "tab 3", "tab 4"]
    assert pieces(tray, "each side wall") == ["side wall 1", "side wall 2"]
    assert pieces(tray, "head wall") == ["head wall"]
    assert pieces(tray, "base/head wall") == ["head wall"]
    assert len(find_pieces(shaped(POT)["pot"], "each wall")) == 6


def test_an_anchored_panel_with_one_score_stands_for_it():
    envelope = shaped(ENVELOPE)["envelope"]
    assert pieces(envelope, "bottom flap") == ["bottom fold"]
    assert pieces(envelope, "pocket") == []
    card = shaped(STEP)["card"]
    assert pieces(card, "card fold") == ["card fold 1", "card fold 2"]


def test_the_blank_itself_is_all_its_panels():
    assert len(find_panels(shaped(FOLIO)["connector"], "connector")) == 3


def test_edges_of_a_panel_by_side():
    flap = shaped(FOLIO)["left strip"].panel("flap")
    # the slope from [28, 0] to [0, 108] faces mostly left; the left side has two edges, the head one of 55 - 28
    assert len(panel_edges(flap, "left")) == 2
    (head,) = panel_edges(flap, "head")
    assert head.end.x - head.start.x == 27
    assert panel_edges(flap, "middle") == ()


def test_qualities_of_blanks_bands_panels_and_scores():
    strip = shaped(FOLIO)["left strip"]
    assert blank_quality(strip, "width", None) == 265
    assert blank_quality(strip, "left", "centre") == 160
    assert blank_quality(strip, "right", "page") == 160
    assert blank_quality(strip, "length", "flap/page") == 150
    assert blank_quality(strip, "length", "head of flap") == 27
    assert blank_quality(strip, "width", "nowhere") is None
    bag = shaped(BAG)["bag"]
    assert blank_quality(bag, "tail", "lower") == 25 + 170 + 30
    assert blank_quality(bag, "height", "upper side a") == 170
