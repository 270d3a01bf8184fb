"""Facets of a panel that curved scores have bent: flat strips between rulings, with no line where two of them meet."""

from creasewright.booklet.diagrams.plan_facets import fill_of, motif_of
from creasewright.booklet.diagrams.scene import Affine, Facet3, Spot3
from creasewright.booklet.shown_parts import ShownParts
from creasewright.folding.bent_solid import BentStrip, bent_strips
from creasewright.folding.solid_points import raised
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.rigid_transform import Vector, minus, norm, rotate

COARSE = 0.3
"""mm: how far off a strip's side a corner of a curve is left out, so that strips are flat."""
STEP = 0.05
"""mm along the flat sheet over which its directions are taken."""


def bent_facets(state: State, body: Body, key: PanelKey, parts: ShownParts) -> list[Facet3]:
    """The strips of one bent panel in the body's view, at their true places: all are of one layer, so that none is moved."""
    return [_facet(state, body, key, strip, parts) for strip in bent_strips(state, key, COARSE)]


def _facet(state: State, body: Body, key: PanelKey, strip: BentStrip, parts: ShownParts) -> Facet3:
    curved, blank = state.curved[key], state.blanks[key[0]]
    paper = parts.paper(blank)
    front_side = curved.up < 0
    n = len(strip.flat)
    x, y = sum(p[0] for p in strip.flat) / n, sum(p[1] for p in strip.flat) / n

    def along(dx: float, dy: float) -> Spot3:
        """Where a direction of the flat sheet points in the strip, in the view."""
        ahead, behind = (curved.point(x + sign * dx * STEP, y + sign * dy * STEP) for sign in (1, -1))
        return _unit(rotate(body.view, rotate(state.placed[key].turn, minus(ahead, behind))))

    x0, y0 = strip.flat[0]
    own: Affine = (1.0, 0.0, 0.0, 1.0, -x0, -y0)
    turn = parts.turn(key[0])
    return Facet3(
        polygon=tuple(rotate(body.view, raised(c, n, -curved.under)) for c, n in zip(strip.corners, strip.normals, strict=True)),
        part=key[0],
        panel=key[1],
        letter=parts.letter(key[0]),
        side="front" if front_side else "back",
        normal=_unit(rotate(body.view, rotate(state.placed[key].turn, curved.normal(x, y)))),
        fill=fill_of(paper, front_side),
        back_fill=fill_of(paper, not front_side),
        motif=motif_of(paper, front_side, turn, own),
        back_motif=motif_of(paper, not front_side, turn, own),
        axis_x=along(1.0, 0.0),
        axis_y=along(0.0, 1.0),
        edge_kinds=tuple("bend" if ruling else "cut" for ruling in strip.on_ruling),
    )


def _unit(a: Vector) -> Vector:
    size = norm(a)
    return a[0] / size, a[1] / size, a[2] / size
