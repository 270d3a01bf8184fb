"""What a picture shows, before it is drawn: facets in the maker's view, in model millimetres.

Computed from states, drawn by `plan_view` or `axonometric`.

View frame: x right, y towards the maker (down the page), z down into the table. Nothing here is scaled yet.
"""

from msgspec import Struct

from creasewright.booklet.drawing import Item

Spot = tuple[float, float]
Spot3 = tuple[float, float, float]
Polygon2 = tuple[Spot, ...]
Affine = tuple[float, float, float, float, float, float]
"""(a, b, c, d, e, f): x' = a x + c y + e, y' = b x + d y + f."""


class Motif(Struct, frozen=True):
    """A print, carried by its panel: the lattice is anchored at the blank's corner in blank millimetres, up is -y there."""

    kind: str
    """`one-way`, `two-way` or `all-over`."""
    tone: int
    """1 to 4: which paper of the pack."""
    to_view: Affine
    """From the blank's print frame (blank mm, turned so that the print's up is -y) to the view."""
    outline_only: bool = False
    """A printed back: the motif in outline on the pale tone."""


class FacetEdge(Struct, frozen=True):
    start: Spot
    end: Spot
    kind: str
    """`cut` (free edge), `folded` (a score at 180), `valley` or `mountain` (a score as it folds in this step, seen from this side),
    `score` (pressed, flat, not used in this step: drawn as the crease it will become), `crease` (folded earlier, open again), `slit`."""
    name: str = ""


class Facet(Struct, frozen=True):
    """One panel as it lies. Facets are listed from the lowest layer to the highest."""

    polygon: Polygon2
    edges: tuple[FacetEdge, ...]
    holes: tuple[Polygon2, ...]
    part: str
    panel: str
    letter: str
    """The piece's letter in the pack."""
    side: str
    """`front` or `back`: which side of the paper is up."""
    fill: str
    """Palette name: `paper 1 front`, `paper 1 back`, `board` …"""
    motif: Motif | None
    moves: bool = False
    """It moves in this step."""
    lifted: bool = False
    """Held above the work (a piece about to be laid on): drawn with a sliver down and right."""


class Facet3(Struct, frozen=True):
    polygon: tuple[Spot3, ...]
    part: str
    panel: str
    letter: str
    side: str
    """The side towards the normal; the other side shows where the facet is seen from behind."""
    normal: Spot3
    fill: str
    back_fill: str
    motif: Motif | None
    """`to_view` maps the print frame to the facet's own plane: origin polygon[0], x along `axis_x`, y along `axis_y`."""
    back_motif: Motif | None
    axis_x: Spot3
    axis_y: Spot3
    layer: int = 0
    """Among coplanar facets: the higher lies nearer to the normal's side."""
    edge_kinds: tuple[str, ...] = ()
    """Of each edge, from corner i to corner i + 1: a kind of `FacetEdge`, `none` for no line at all, or `bend`
    between two strips of a bent sheet: a line only where the sheet turns away from the reader. Empty: all `cut`."""


class GlueMark(Struct, frozen=True):
    """Where adhesive goes: hatched. `hidden`: on a side that does not face the maker now."""

    polygon: Polygon2
    hidden: bool = False


class GlueMark3(Struct, frozen=True):
    """Adhesive on a panel of a picture in space: hatched where that side of it is seen."""

    part: str
    panel: str
    polygon: Polygon2
    """In the panel's own plane: origin at the facet's first corner, x along `axis_x`, y along `axis_y`."""
    hidden: bool = False
    """That side is turned away from the reader: dotted, not hatched."""


class Landing3(Struct, frozen=True):
    """Where a piece comes to lie on a panel: what it covers there."""

    part: str
    panel: str
    polygon: tuple[Spot3, ...]


class SlideArrow3(Struct, frozen=True):
    """A piece in space on its way to its place: from where to where it goes."""

    start: Spot3
    end: Spot3
    parts: frozenset[str] = frozenset()
    """What comes."""
    places: tuple[Landing3, ...] = ()


class FoldArrow(Struct, frozen=True):
    """From a point of the moving part to where it lands."""

    start: Spot
    end: Spot
    kind: str
    """`front` (over to the front), `behind`, `open` (unfold), `crease` (fold and open), `tuck`, `lift` (to less than 180)."""
    angle: float = 180.0


class SlideArrow(Struct, frozen=True):
    """A piece laid on or slid in: where its middle comes from and where it goes."""

    start: Spot
    end: Spot
    seen: tuple[Polygon2, ...] = ()
    """What is seen of the place where it goes: the arrow ends well inside. Nothing: it ends at `end`."""
    work: tuple[Polygon2, ...] = ()
    """What it lies on there: where there is a choice, the arrow ends on that."""


class Dimension(Struct, frozen=True):
    """A measure to show between two points, on one side of the picture."""

    start: Spot
    end: Spot
    text: str
    """As set: `4\u20643⁄16 in`."""
    side: str
    """`head`, `tail`, `left`, `right`: where its line runs; `inside` for a small one that wants a lens."""
    of: str = ""
    """What it measures, where it is shown once in an assembly only; empty: it stands in every picture that has it."""


class Dimension3(Struct, frozen=True):
    """A measure between two places of the model."""

    start: Spot3
    end: Spot3
    offset_axis: Spot3
    """The model axis along which the line stands off the edge, outwards."""
    text: str
    """As set: `4\u20643⁄16 in`."""


class Named(Struct, frozen=True):
    """A part or an edge to name in italics: at a polygon (inside it if it fits), else with a leader."""

    text: str
    polygon: Polygon2
    edge: str = ""
    """`head`, `tail`, `left`, `right`: the name of an outer edge, set outside it; empty: a part's own name."""
    wish: bool = False
    """Set last, and only where there is a clear place near: the picture is read without it too."""
    panel: tuple[str, str] | None = None
    """Part and panel that are meant, where others may lie on the same polygon."""


class Action(Struct, frozen=True):
    """A mark beside the step's number or the piece."""

    kind: str
    """`turn over page`, `turn over pad`, `turn`, `press`, `repeat`, `scale`."""
    text: str = ""


class Prick(Struct, frozen=True):
    """A hole that thread or ribbon passes, with its number."""

    spot: Spot
    text: str = ""


class Stitch(Struct, frozen=True):
    """Thread or ribbon from one hole to the next."""

    start: Spot
    end: Spot
    hidden: bool
    """It runs on the other side of the work."""


class PlanScene(Struct, frozen=True):
    facets: tuple[Facet, ...]
    glue: tuple[GlueMark, ...] = ()
    fold_arrows: tuple[FoldArrow, ...] = ()
    slides: tuple[SlideArrow, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    names: tuple[Named, ...] = ()
    actions: tuple[Action, ...] = ()
    landing: tuple[Polygon2, ...] = ()
    """Outlines where something will lie: dotted."""
    pricks: tuple[Prick, ...] = ()
    stitches: tuple[Stitch, ...] = ()
    told: tuple[str, ...] = ()
    """Letters of the pieces that the words beside the picture tell of."""
    lenses: bool = True
    """What would be too small to read is drawn again in a lens, where the page has room for one."""
    told_only: bool = False
    """Of the others only those that show most are tagged."""


class Band3(Struct, frozen=True):
    """A paper band round a thing: the closed line it runs along on the outside, its breadth, and the tones of its two sides."""

    line: tuple[Spot3, ...]
    width: float
    fill: str
    back_fill: str


class SpaceScene(Struct, frozen=True):
    facets: tuple[Facet3, ...]
    fold_paths: tuple[tuple[Spot3, ...], ...] = ()
    """True paths of a point on a moving rim, for arrows."""
    ties: tuple[tuple[Spot3, ...], ...] = ()
    """Ribbons, as the closed line they run along on the outside."""
    tie_width: float = 0.0
    bands: tuple[Band3, ...] = ()
    glue: tuple[GlueMark3, ...] = ()
    slides: tuple[SlideArrow3, ...] = ()
    dimensions: tuple[Dimension3, ...] = ()
    from_left: bool = True
    """Looked at over the maker's left shoulder; else over the right one, where only from there the step is seen."""


class Picture(Struct, frozen=True):
    """Drawn: items with their origin at the head-left of a box of `width` x `height` mm on the page."""

    items: tuple[Item, ...]
    width: float
    height: float
    scale: str
    """`1:4` …"""
    side_up: str = ""
