"""Prints on panels in space: the lattice lies in the panel's plane and is foreshortened with it."""

from math import atan2, cos, hypot, pi, sin, sqrt

from creasewright.booklet.diagrams.face_view import Face
from creasewright.booklet.diagrams.hidden_surface import Region
from creasewright.booklet.diagrams.motif_shapes import SHAPES, MotifShape
from creasewright.booklet.diagrams.motifs import clipped_group, is_thin, lattice_places, places_set, stamp
from creasewright.booklet.diagrams.paper_fill import rings_path
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine, Motif, Spot
from creasewright.booklet.diagrams.shade import shaded
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at
from creasewright.booklet.drawing import Group
from creasewright.geometry.rigid_transform import exact_cos_sin

STEEPEST = 0.16
"""A panel foreshortened to less than this share of its area shows no print."""
TOO_SLENDER = 0.8
"""Nor does one on which a motif would be squeezed to less than this share of the least that its style allows."""


def motif_of_face(
    face: Face, region: Region, view: SpaceView, to_page: Affine, scale: float, taken: Room, style: PictureStyle
) -> Group | None:
    """Every motif that reaches into what is seen of the face and stands off what is taken, seen through it; None if there is none.

    `to_page` carries view mm to page mm and enlarges by `scale`.
    """
    motif = face.motif
    if motif is None or not region:
        return None
    carry = print_to_page(face, motif, view, to_page, scale)
    if abs(carry[0] * carry[3] - carry[1] * carry[2]) < STEEPEST:
        return None
    held = held_open(carry, style.slender)
    if held is None:
        return None
    visible = [tuple(moved(to_page, spot) for spot in ring) for ring in region]
    if is_thin(visible, style):
        return None
    shape = SHAPES[motif.kind]
    back = inverse(carry)
    rings = [[moved(back, spot) for spot in ring] for ring in visible]
    halves = {turn: _half_box(shape, placed(held, (0.0, 0.0), turn, style.motif)) for turn in shape.turns}
    places = [(moved(carry, place), turn) for place, turn in lattice_places(shape, rings, style)]
    places = places_set(visible, places, halves, taken)
    colour = shaded(f"paper {motif.tone} motif", face.outward)
    stamps = {turn: stamp(motif, colour, placed(held, (0.0, 0.0), turn, 1.0), style) for turn in {turn for _, turn in places}}
    return clipped_group([(stamps[turn], spot) for spot, turn in places], rings_path(visible))


def print_to_page(face: Face, motif: Motif, view: SpaceView, to_page: Affine, scale: float) -> Affine:
    """From the print frame, in page mm (blank mm times the scale, so that motifs keep their size), to the page."""
    facet = face.facet
    x_axis, y_axis, start = (seen_at(view, spot) for spot in (facet.axis_x, facet.axis_y, facet.polygon[0]))
    plane: Affine = (*x_axis, *y_axis, *start)
    a, b, c, d, e, f = times(to_page, times(plane, motif.to_view))
    return a / scale, b / scale, c / scale, d / scale, e, f


def held_open(carry: Affine, least: float) -> Affine | None:
    """The map of a face widened where it squeezes most, so that nothing becomes narrower than `least` of its width; None where that
    would widen it too much to look true."""
    a, b, c, d, e, f = carry
    p, q, r = a * a + b * b, a * c + b * d, c * c + d * d
    squeezed = sqrt(max((p + r) / 2 - hypot((p - r) / 2, q), 0.0))
    if squeezed >= least:
        return carry
    if squeezed < TOO_SLENDER * least:
        return None
    way = atan2(2 * q, p - r) / 2 + pi / 2
    x, y = cos(way), sin(way)
    u, v = (a * x + c * y) / squeezed, (b * x + d * y) / squeezed
    more = least - squeezed
    return a + more * u * x, b + more * v * x, c + more * u * y, d + more * v * y, e, f


def placed(carry: Affine, place: Spot, turn: float, size: float) -> Affine:
    """The map of one motif: turned, enlarged, set at its lattice place, carried to the page."""
    co, si = exact_cos_sin(turn)
    return times(carry, (co * size, si * size, -si * size, co * size, *place))


def _half_box(shape: MotifShape, lies: Affine) -> Spot:
    """Half the width and height of a motif's box on the page."""
    a, b, c, d, _, _ = lies
    w, h = shape.half_width, shape.half_height
    return abs(a) * w + abs(c) * h, abs(b) * w + abs(d) * h


def moved(by: Affine, spot: Spot) -> Spot:
    a, b, c, d, e, f = by
    return a * spot[0] + c * spot[1] + e, b * spot[0] + d * spot[1] + f


def times(outer: Affine, inner: Affine) -> Affine:
    """First `inner`, then `outer`."""
    a, b, c, d, _, _ = outer
    x, y = moved(outer, (inner[4], inner[5]))
    return (
        a * inner[0] + c * inner[1],
        b * inner[0] + d * inner[1],
        a * inner[2] + c * inner[3],
        b * inner[2] + d * inner[3],
        x,
        y,
    )


def inverse(by: Affine) -> Affine:
    a, b, c, d, e, f = by
    size = a * d - b * c
    p, q, r, s = d / size, -b / size, -c / size, a / size
    return p, q, r, s, -(p * e + r * f), -(q * e + s * f)
