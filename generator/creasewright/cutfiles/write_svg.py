"""A drawing as SVG 1.1: millimetres, one group for each layer, curves as circular arcs (W3C SVG 1.1, 8.3.8)."""

from collections.abc import Iterable
from math import pi
from xml.sax.saxutils import escape, quoteattr

from creasewright.cutfiles.cut_drawing import (
    BOTH_WAYS,
    CUT,
    HOLE,
    LAYERS,
    MARK,
    MOUNTAIN,
    UNFOLDED,
    VALLEY,
    Caption,
    CutDrawing,
    Stroke,
)
from creasewright.geometry.outline import Arc, Edge, arc_sweep
from creasewright.geometry.point import Number, Point

COLOURS = {
    CUT: "#000000", VALLEY: "#0000ff", MOUNTAIN: "#ff0000", BOTH_WAYS: "#a000a0", UNFOLDED: "#808080", HOLE: "#008000",
    MARK: "#ff8000",
}  # fmt: skip
"""Plain and far apart: machine programs tell layers by their colour."""
HAIRLINE = 0.1
"""mm"""
TYPE_SIZE = 1 / 0.72
"""Of type over its capitals' height, for most plain faces (common practice, no source)."""


def svg_bytes(drawing: CutDrawing) -> bytes:
    size = f'width="{number(drawing.width)}mm" height="{number(drawing.height)}mm"'
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" {size} viewBox="0 0 {number(drawing.width)} {number(drawing.height)}">',
        f"<title>{escape(printable(drawing.title))}</title>",
    ]
    for layer in LAYERS:
        items = list(layer_items(drawing, layer))
        if items:
            pen = f'fill="none" stroke="{COLOURS[layer]}" stroke-width="{HAIRLINE}"'
            lines += [f"<g id={quoteattr(layer.replace(' ', '-'))} {pen}>", f"<title>{layer}</title>", *items, "</g>"]
    return ("\n".join([*lines, "</svg>"]) + "\n").encode()


def layer_items(drawing: CutDrawing, layer: str) -> Iterable[str]:
    for stroke in drawing.strokes:
        if stroke.layer == layer:
            yield f'<path d="{path_data(stroke)}"/>'
    for ring in drawing.rings:
        if ring.layer == layer:
            yield f'<circle cx="{number(ring.centre.x)}" cy="{number(ring.centre.y)}" r="{number(ring.across / 2)}"/>'
    if layer == MARK:
        yield from map(caption, drawing.captions)


def path_data(stroke: Stroke) -> str:
    """A closed path's last straight edge is drawn by `Z`."""
    edges = stroke.edges
    commands = [f"M {place(edges[0].start)}"]
    for k, edge in enumerate(edges):
        if isinstance(edge, Arc) or not (stroke.closed and k == len(edges) - 1):
            commands.append(edge_data(edge))
    return " ".join([*commands, "Z"] if stroke.closed else commands)


def edge_data(edge: Edge) -> str:
    if not isinstance(edge, Arc):
        return f"L {place(edge.end)}"
    radius, _, sweep = arc_sweep(edge)
    return f"A {number(radius)} {number(radius)} 0 {int(abs(sweep) > pi)} {int(sweep > 0)} {place(edge.end)}"


def caption(one: Caption) -> str:
    style = f'font-family="sans-serif" font-size="{number(one.high * TYPE_SIZE)}" text-anchor="middle" fill="{COLOURS[MARK]}" stroke="none"'
    return f'<text x="{number(one.x)}" y="{number(one.y)}" {style}>{escape(printable(one.text))}</text>'


def place(at: Point) -> str:
    return f"{number(at.x)} {number(at.y)}"


def number(value: Number) -> str:
    """mm to a millionth."""
    text = f"{float(value):.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def printable(text: str) -> str:
    return "".join(sign for sign in text if sign.isprintable())
