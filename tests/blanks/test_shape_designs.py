"""The blanks of the design language's constructions."""

from math import isclose, sqrt

import pytest

from blanks.written_blanks import shaped
from creasewright.geometry.loops import loop_area

FOLIO = """
measures:
  {page width: 105 mm, page height: 150 mm, pocket: 55 mm, hinge tab: 20 mm, border: 9 mm, slope: [28 mm, 108 mm], spine: 5 mm}
blanks:
  left strip:
    height: page height
    across: [flap: pocket, page: page width, centre: page width]
    corners: {head-left: {cut: slope, template: slope template}}
  right strip: {mirror of: left strip}
  connector: {height: page height, across: [back tab: hinge tab, spine: spine, front tab: hinge tab]}
  cover mat: {width: page width - hinge tab - 2 * border, height: page height - 2 * border, corners: {all: {round: 6 mm}}}
  seed card: {width: 103 mm, height: 140 mm, corners: {all: {round: 6 mm}}}
"""

BOOKLET = """
measures: {long: 297 mm, short: 210 mm}
blanks:
  sheet:
    across: [a: long / 4, b: long / 4, c: long / 4, d: long / 4]
    down: [top: short / 2, bottom: short / 2]
    slits: {heart: {on: top/bottom, over: [b, c]}}
    panels: |
      seven six five four
      eight one two three
"""

CARDS = """
measures: {face: 95 mm, tall: 205 mm, short by: 1 mm, gate: 64.5 mm}
blanks:
  card: {height: tall, across: [inner: face - short by, middle: face, cover: face]}
  gate card: {height: tall, across: [left gate: gate, back: 130 mm, right gate: gate]}
"""

ENVELOPE = """
measures:
  wide: 154 mm
  high: 111 mm
  lap: 10 mm
  side: up((wide + high) / sqrt(2) + 2 * lap)
  reach: (side - (wide + high) / sqrt(2)) / 2
blanks:
  envelope:
    width: side
    height: side
    scores:
      left fold: {across: head-right, at: high / sqrt(2) + 2 * reach}
      top fold: {across: head-left, at: wide / sqrt(2) + 2 * reach}
      right fold: {across: tail-left, at: high / sqrt(2) + 2 * reach}
      bottom fold: {across: tail-right, at: wide / sqrt(2) + 2 * reach}
    cut away: all crossings
    corners: {head-left: {round: 25 mm}, head-right: {round: 10 mm}, tail-left: {round: 10 mm}, tail-right: {round: 10 mm}}
    panels: {pocket: centre, top flap: head-left, left flap: head-right, bottom flap: tail-right, right flap: tail-left}
  liner: {like: [pocket of envelope, top flap of envelope], seen from: back, turned: -45, inset: 6 mm}
"""

TRAY = """
measures: {length: 120 mm, breadth: 85 mm, depth: 35 mm, lid depth: 20 mm, tab: 12 mm}
blanks:
  tray:
    base: {width: length, height: breadth}
    flaps:
      head wall: {at: head of base, depth: depth}
      tail wall: {at: tail of base, depth: depth}
      side wall: {at: [left of base, right of base], depth: depth}
      tab: {at: [ends of head wall, ends of tail wall], depth: tab, ends: 75}
  lid: {same as: tray, where: {length: length + 3 mm, breadth: breadth + 2 mm, depth: lid depth}}
"""

BAG = """
measures: {face: 110 mm, half: 30 mm, tall: 200 mm, rim: 25 mm, seam: 15 mm, ease: 1 mm}
blanks:
  bag:
    across: [seam: seam, front: face, side a: half, side b: half, back: face, side c: half, side d: half]
    down: [rim: rim, upper: tall - half, lower: half, foot: half]
    scores:
      upper/lower: {over: [seam, front, side a, side d]}
      gusset: {line: [head-right, tail-left], over: [lower side a, lower side c]}
      gusset back: {line: [head-left, tail-right], over: [lower side b, lower side d]}
      toe: {line: [head-left, tail-right], over: [foot side a, foot side c]}
      toe back: {line: [head-right, tail-left], over: [foot side b, foot side d]}
      seam gusset: {line: [tail-right of lower seam, [left of seam, tail of lower - seam]]}
      seam toe: {line: [head-right of foot seam, [left of seam, head of foot + seam]]}
  base card: {width: face - ease, height: 2 * half - ease}
"""

POT = """
measures: {side: 45 mm, depth: 55 mm, tab: 10 mm, flare: 0}
blanks:
  pot:
    base: {sides: 6, side: side}
    flaps:
      wall: {at: each edge of base, depth: depth, ends: 90 + flare}
      tab: {at: first end of each wall, depth: tab, ends: 40}
"""

STEP = """
measures: {wide: 105 mm, tall: 148 mm, high: 30 mm, deep: 45 mm, step: 40 mm, margin: (wide - step) / 2}
blanks:
  card:
    across: [side a: margin, strip: step, side b: margin]
    down: [wall: tall - high, top: deep, front: high, floor: tall - deep]
    scores: {side a/strip: none, strip/side b: none, wall/top: {over: [strip]}, top/front: {over: [strip]},
             front/floor: {over: [strip]}, card fold: {from: head, at: tall, over: [side a, side b]}}
    slits: {slit: {on: [side a/strip, strip/side b], over: [top, front]}}
    panels: {wall: mid head, floor: mid tail, top: centre of top strip, front: centre of front strip}
"""


def names(blank):
    return [panel.name for panel in blank.panels]


@pytest.mark.parametrize(
    ("source", "counts"),
    [
        (FOLIO, {"left strip": 3, "right strip": 3, "connector": 3, "cover mat": 1, "seed card": 1}),
        (BOOKLET, {"sheet": 8}),
        (CARDS, {"card": 3, "gate card": 3}),
        (ENVELOPE, {"envelope": 5, "liner": 2}),
        (TRAY, {"tray": 9, "lid": 9}),
        (POT, {"pot": 13}),
        (STEP, {"card": 4}),
    ],
)
def test_each_construction_has_its_panels(source, counts):
    blanks = shaped(source)
    assert {name: len(blank.panels) for name, blank in blanks.items()} == counts


@pytest.mark.parametrize("source", [FOLIO, BOOKLET, CARDS, ENVELOPE, TRAY, BAG, POT, STEP])
def test_the_panels_fill_the_outline(source):
    for blank in shaped(source).values():
        assert isclose(sum(panel.area for panel in blank.panels), loop_area(blank.outline.edges), rel_tol=1e-6)


def test_the_folio_strip_is_265_by_150_with_two_scores():
    strip = shaped(FOLIO)["left strip"]
    assert (strip.width, strip.height) == (265, 150)  # 55 + 105 + 105
    assert names(strip) == ["flap", "page", "centre"]
    assert [(piece.name, piece.first, piece.second) for piece in strip.pieces] == [
        ("flap/page", "flap", "page"),
        ("page/centre", "page", "centre"),
    ]
    assert strip.cutouts[0].template == "slope template"
    assert strip.cutouts[0].panel == "flap"
    # 55 * 150 less the corner 28 * 108 / 2
    assert isclose(strip.panel("flap").area, 8250 - 1512)


def test_the_right_strip_lies_the_other_way_round():
    strip = shaped(FOLIO)["right strip"]
    assert [(piece.score, piece.first, piece.second) for piece in strip.pieces] == [
        ("page/flap", "page", "flap"),
        ("centre/page", "centre", "page"),
    ]
    assert [(band.name, band.start) for band in strip.bands] == [("centre", 0), ("page", 105), ("flap", 210)]
    assert strip.mirror_of == "left strip"
    assert strip.cutouts[0].what == "head-right corner"


def test_the_booklet_has_a_slit_instead_of_its_middle_score():
    sheet = shaped(BOOKLET)["sheet"]
    assert names(sheet) == ["seven", "six", "five", "four", "eight", "one", "two", "three"]
    assert len(sheet.pieces) == 8  # the wheel of eight pages: each meets two others, over six upright and two level pieces
    assert [(float(slit.start.x), float(slit.end.x)) for slit in sheet.slits] == [(74.25, 222.75)]
    assert sorted(piece.name for piece in sheet.pieces if piece.score == "top/bottom") == ["top/bottom 1", "top/bottom 2"]


def test_the_envelope_has_a_pocket_of_154_by_111_and_four_flaps():
    envelope = shaped(ENVELOPE)["envelope"]
    assert sorted(names(envelope)) == ["bottom flap", "left flap", "pocket", "right flap", "top flap"]
    assert isclose(envelope.panel("pocket").area, 154 * 111, rel_tol=1e-9)
    lengths = {piece.score: piece for piece in envelope.pieces}
    for name, long in (("left fold", 111), ("top fold", 154)):
        piece = lengths[name]
        assert isclose(sqrt((piece.end.x - piece.start.x) ** 2 + (piece.end.y - piece.start.y) ** 2), long)


def test_the_liner_is_the_pocket_and_its_flap_moved_in_and_upright():
    liner = shaped(ENVELOPE)["liner"]
    assert isclose(float(liner.width), 154 - 2 * 6)  # both sides of the pocket are 6 mm in
    assert liner.source is not None and liner.source.panels == ("pocket", "top flap")
    assert [piece.score for piece in liner.pieces] == ["top fold"]
    piece = liner.pieces[0]
    assert isclose(float(piece.start.y), float(piece.end.y))  # turned by 45 it lies level
    assert piece.first == "top flap"


def test_the_bag_has_the_cells_and_triangles_of_its_gussets():
    bag = shaped(BAG)["bag"]
    found = names(bag)
    for name in ("upper front", "foot front", "left part of foot side a", "right part of foot side a", "rim seam", "upper back"):
        assert name in found
    assert len(found) == len(set(found))
    assert len([score for score in bag.scores if score.name == "gusset 1"]) == 1
    assert all(piece.first != piece.second for piece in bag.pieces)


def test_the_pot_has_six_walls_clockwise_from_the_tail():
    pot = shaped(POT)["pot"]
    # check-values 10.12: a hexagon of side 1 has an area of 2.598 076
    assert isclose(pot.panel("base").area, 2.598076 * 45 * 45, rel_tol=1e-6)
    boxes = {panel.name: panel.polygon for panel in pot.panels}
    base_tail = max(y for _, y in boxes["base"])
    assert min(y for _, y in boxes["wall 1"]) == pytest.approx(base_tail)
    assert sum(x for x, _ in boxes["wall 2"]) < sum(x for x, _ in boxes["wall 6"])


def test_the_step_card_keeps_four_panels_and_five_score_pieces():
    card = shaped(STEP)["card"]
    assert sorted(names(card)) == ["floor", "front", "top", "wall"]
    assert sorted(piece.score for piece in card.pieces) == ["card fold", "card fold", "front/floor", "top/front", "wall/top"]


def test_the_tray_sides_are_numbered_in_the_order_written():
    tray = shaped(TRAY)["tray"]
    assert (tray.width, tray.height) == (120 + 70, 85 + 70)
    assert {piece.first: piece.second for piece in tray.pieces if piece.score == "side wall 1"} == {"side wall 1": "base"}
    assert {piece.first: piece.second for piece in tray.pieces if piece.score == "side wall 2"} == {"base": "side wall 2"}
    assert len([panel for panel in tray.panels if panel.name.startswith("tab ")]) == 4
