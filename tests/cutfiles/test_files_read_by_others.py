"""SVG and DXF of every built-in design, read by libraries that no one here made and by their bare group codes.

The library that writes DXF is not its only reader: the corners and bulges are also summed from the group codes themselves, by the
area of a polygon (shoelace formula) and of circular segments, r²/2 (θ - sin θ) with θ = 4 atan(bulge)
(Autodesk, DXF Reference: LWPOLYLINE, group 42).
"""

import io
from math import atan, hypot, sin

import ezdxf
import ezdxf.path
import pytest
from shapely import LineString, Polygon, hausdorff_distance
from svgelements import SVG, Circle, Group, Path, Shape

from creasewright.checked import checked
from creasewright.cutfiles.cut_drawing import LAYERS
from creasewright.cutfiles.perforation import Perforation
from creasewright.cutfiles.write_dxf import dxf_bytes
from creasewright.cutfiles.write_svg import svg_bytes
from creasewright.geometry.edges import edge_length
from creasewright.geometry.outline import chain_of, flattened
from creasewright.machine_files import drawings_of, read_again
from creasewright.places import built_in_designs
from creasewright.reading.settings import MakerSettings, Tools

FINE = 0.0005
"""mm between a curve and its chords here."""
CASES = [(name, units) for name in built_in_designs() for units in ("in", "mm")]


@pytest.fixture(scope="module", params=CASES, ids=" ".join)
def design(request):
    name, units = request.param
    done = checked(built_in_designs()[name], units, 1, {}, MakerSettings(), Tools())
    return done, drawings_of(done, None)


def svg_layers(data):
    """Shapes by layer, in mm: 25.4 of the reader's units make an inch."""
    svg = SVG.parse(io.BytesIO(data), ppi=25.4)
    found = {}
    for group in svg.select(lambda element: isinstance(element, Group) and element.id in {one.replace(" ", "-") for one in LAYERS}):
        found[group.id.replace("-", " ")] = [one for one in group.select() if isinstance(one, Shape)]
    return svg, found


def points_of(path):
    found = []
    for segment in path.segments():
        count = 1 if type(segment).__name__ in ("Move", "Line", "Close") else 400
        found += [(p.x, p.y) for p in (segment.point(k / count) for k in range(1, count + 1)) if p is not None]
    return found


def off(one, other):
    """The farthest that either lies from the other, mm."""
    return hausdorff_distance(one, other)


def test_an_svg_reader_finds_every_piece_at_its_size_and_place(design):
    done, drawn = design
    for one in drawn[: len(done.worked.pieces)]:
        blank = next(piece.blank for piece in done.worked.pieces if piece.letter == one.facts["letter"])
        svg, layers = svg_layers(svg_bytes(one.drawing))
        # the reader takes a millimetre as 0.0393701 in, which is 5e-7 too long
        assert (svg.width, svg.height) == pytest.approx((float(blank.width), float(blank.height)), abs=1e-3)
        outline = Polygon(points_of(Path(layers["cut"][0])))
        assert off(outline.exterior, Polygon(flattened(blank.outline.edges, FINE)).exterior) < 0.01
        holes = sorted((h.cx, h.cy, 2 * h.rx) for h in layers.get("hole", []) if isinstance(h, Circle))
        wanted = sorted((float(h.centre.x), float(h.centre.y), float(h.across)) for h in blank.holes)
        assert holes == [pytest.approx(hole, abs=1e-5) for hole in wanted]
        if blank.wrap is None:
            scores = sum(Path(path).length() for name, paths in layers.items() if name.startswith("score") for path in paths)
            assert scores == pytest.approx(sum(edge_length(score.edge) for score in blank.scores), rel=1e-6, abs=1e-3)


def test_a_dxf_reader_finds_the_same_lines_on_the_same_layers(design):
    for one in design[1]:
        document = ezdxf.read(io.StringIO(dxf_bytes(one.drawing).decode()))
        assert document.header["$INSUNITS"] == 4  # DXF Reference, header variables: 4 is the millimetre
        assert set(LAYERS) <= {layer.dxf.name for layer in document.layers}
        assert document.audit().errors == []
        height = one.drawing.height
        wanted = {(s.layer, s.closed, LineString([at for e in s.edges for at in chain_of(e, FINE)])) for s in one.drawing.strokes}
        for entity in document.modelspace().query("LINE ARC LWPOLYLINE"):
            chain = LineString([(at.x, height - at.y) for at in ezdxf.path.make_path(entity).flattening(FINE)])
            closed = entity.dxftype() == "LWPOLYLINE" and entity.closed
            near = min((w for w in wanted if w[:2] == (entity.dxf.layer, closed)), key=lambda w: off(w[2], chain))
            assert off(near[2], chain) < 0.01
            wanted.remove(near)
        assert not wanted


def test_the_group_codes_alone_give_each_outlines_area(design):
    done, drawn = design
    for one in drawn[: len(done.worked.pieces)]:
        blank = next(piece.blank for piece in done.worked.pieces if piece.letter == one.facts["letter"])
        lines = dxf_bytes(one.drawing).decode().splitlines()
        text = [(int(code), value.strip()) for code, value in zip(lines[::2], lines[1::2], strict=True)]
        start = next(k for k, pair in enumerate(text) if pair == (0, "LWPOLYLINE"))
        end = next(k for k in range(start + 1, len(text)) if text[k][0] == 0)
        entity = text[start:end]
        assert (8, "cut") in entity
        assert (70, "1") in entity
        corners = []
        for code, value in entity:
            if code == 10:
                corners.append([float(value), 0.0, 0.0])
            elif code in (20, 42):
                corners[-1][code // 20] = float(value)
        area = 0.0
        for (x0, y0, bulge), (x1, y1, _) in zip(corners, corners[1:] + corners[:1], strict=True):
            area += (x0 * y1 - x1 * y0) / 2
            if bulge:
                angle = 4 * atan(bulge)
                radius = hypot(x1 - x0, y1 - y0) / (2 * sin(angle / 2))
                area += radius * radius / 2 * (angle - sin(angle))
        # clockwise as seen, so negative where y runs up
        assert -area == pytest.approx(Polygon(flattened(blank.outline.edges, 1e-5)).area, rel=1e-6)


def test_no_line_is_drawn_twice(design):
    for one in design[1]:
        chains = [(s.layer, LineString(chain_of(edge, FINE))) for s in one.drawing.strokes for edge in s.edges]
        for k, (layer, chain) in enumerate(chains):
            if layer == "mark":
                continue
            for other, beside in chains[k + 1 :]:
                if other != "mark" and chain.envelope.intersects(beside.envelope):
                    assert chain.intersection(beside).length < 0.01, (one.name, layer, other)


def test_all_cuts_of_a_sheet_are_those_of_its_pieces(design):
    """What is drawn once counts once, so a sheet's cuts are no longer than its pieces' outlines, and cover each of them."""
    done, drawn = design
    outlines = {one.facts["letter"]: one.drawing for one in drawn if one.facts["what"] == "piece"}
    sheets = [one for one in drawn if one.facts["what"] == "sheet"]
    plans = [sheet for plan in done.plans for sheet in plan.sheets]
    for one, plan in zip(sheets, plans, strict=True):
        cuts = [LineString(chain_of(e, FINE)) for s in one.drawing.strokes if s.layer == "cut" for e in s.edges]
        whole = sum(edge_length(e) for p in plan.placements for s in outlines[p.key].strokes if s.layer == "cut" for e in s.edges)
        assert sum(cut.length for cut in cuts) <= whole + 0.01
        for placement in plan.placements:
            left, head = float(placement.x), float(placement.y)
            rectangle = (left, head, left + float(placement.width), head + float(placement.height))
            inside = [c for c in cuts if c.bounds[0] > rectangle[0] - 0.01 and c.bounds[2] < rectangle[2] + 0.01]
            inside = [c for c in inside if c.bounds[1] > rectangle[1] - 0.01 and c.bounds[3] < rectangle[3] + 0.01]
            assert inside
        for cut in cuts:
            x0, y0, x1, y1 = cut.bounds
            assert min(x0, y0) > -0.01
            assert x1 < one.drawing.width + 0.01
            assert y1 < one.drawing.height + 0.01


def test_our_own_readers_agree_and_perforated_files_read_back_true(design):
    done, _ = design
    worst = 0.0
    for how in (None, Perforation(3.0, 1.5)):
        for one in drawings_of(done, how):
            for kind, write in (("svg", svg_bytes), ("dxf", dxf_bytes)):
                result = read_again(one.drawing, kind, write(one.drawing))
                assert result.true, (one.name, kind, result)
                worst = max(worst, result.largest_error_mm)
    assert worst < 0.00001


def test_the_same_drawing_gives_the_same_bytes(design):
    one = design[1][0].drawing
    assert dxf_bytes(one) == dxf_bytes(one)
    assert svg_bytes(one) == svg_bytes(one)
