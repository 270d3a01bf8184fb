"""A drawing as DXF (release 2010, text): millimetres, named layers, curves as arcs and bulges. The only door to ezdxf.

The library is loaded when a drawing is written and not before, since it takes about as long to load as a pack takes to make. y runs
up in a DXF file, so heights are counted from the tail, and what turns clockwise as seen has a negative bulge.
"""

from io import StringIO
from math import degrees, tan
from typing import Any

from creasewright.cutfiles.cut_drawing import BOTH_WAYS, CUT, HOLE, LAYERS, MARK, MOUNTAIN, UNFOLDED, VALLEY, CutDrawing, Stroke
from creasewright.geometry.outline import Arc, Edge, arc_sweep
from creasewright.geometry.point import Point

COLOURS = {CUT: 7, VALLEY: 5, MOUNTAIN: 1, BOTH_WAYS: 6, UNFOLDED: 8, HOLE: 3, MARK: 30}
"""Colour numbers of DXF: 7 black or white, 5 blue, 1 red, 6 magenta, 8 grey, 3 green, 30 orange."""
RELEASE, MILLIMETRES = "R2010", 4


def dxf_bytes(drawing: CutDrawing) -> bytes:
    """The same drawing gives the same bytes: the library's dates and identifiers are fixed."""
    from ezdxf import filemanagement
    from ezdxf._options import options
    from ezdxf.enums import TextEntityAlignment

    options.write_fixed_meta_data_for_testing = True
    document = filemanagement.new(RELEASE, units=MILLIMETRES)
    for layer in LAYERS:
        document.layers.add(layer, color=COLOURS[layer])
    space = document.modelspace()
    for stroke in drawing.strokes:
        _add_stroke(space, stroke, drawing.height)
    for ring in drawing.rings:
        space.add_circle(_up(ring.centre, drawing.height), ring.across / 2, dxfattribs={"layer": ring.layer})
    for one in drawing.captions:
        text = space.add_text(one.text, height=one.high, dxfattribs={"layer": MARK})
        text.set_placement((one.x, drawing.height - one.y), align=TextEntityAlignment.CENTER)
    out = StringIO()
    document.write(out)
    encoded: bytes = document.encode(out.getvalue())
    return encoded


def _add_stroke(space: Any, stroke: Stroke, height: float) -> None:
    """A lone edge as LINE or ARC; edges in a row as one LWPOLYLINE with bulges."""
    attributes = {"layer": stroke.layer}
    if len(stroke.edges) > 1 or stroke.closed:
        points = [(*_up(edge.start, height), _bulge(edge)) for edge in stroke.edges]
        if not stroke.closed:
            points.append((*_up(stroke.edges[-1].end, height), 0.0))
        space.add_lwpolyline(points, format="xyb", close=stroke.closed, dxfattribs=attributes)
        return
    edge = stroke.edges[0]
    if isinstance(edge, Arc):
        radius, start, sweep = arc_sweep(edge)
        # angles run anticlockwise there, as does every ARC
        first, last = sorted((degrees(-start), degrees(-start - sweep)))
        space.add_arc(_up(edge.centre, height), radius, first, last, dxfattribs=attributes)
    else:
        space.add_line(_up(edge.start, height), _up(edge.end, height), dxfattribs=attributes)


def _bulge(edge: Edge) -> float:
    """The tangent of a quarter of the arc's angle; 0 for a line."""
    return -tan(arc_sweep(edge)[2] / 4) if isinstance(edge, Arc) else 0.0


def _up(at: Point, height: float) -> tuple[float, float]:
    return float(at.x), height - float(at.y)
