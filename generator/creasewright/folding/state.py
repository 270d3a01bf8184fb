"""A state: where every panel of an assembly is, how far each score is folded, and who lies on whom.

PanelKey, PieceKey   a panel or a score piece by part and name; a part is named by its path, `front block/left strip`
Bond                 two panels held together; they move as one
Stack                panels in one plane, from the lowest to the highest along the stack's normal
Body                 parts that hang together; it lies before the maker in its own view
Pocket               the space between two panels that a join closed on some sides

Angles: 0 flat, +180 valley with the fronts touching, -180 mountain; boxes stand at +-90.
World frame of a body: that of the blank it began with: x right, y to the tail, z down through the sheet.
"""

from msgspec import Struct, field

from creasewright.blanks.blank import Blank
from creasewright.folding.curved import Curved
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import UNIT, Matrix, Rigid, Vector

PanelKey = tuple[str, str]
PieceKey = tuple[str, str]


class Bond(Struct, frozen=True):
    """`second` sits at `relative` in the frame of `first`: T(second) = T(first) relative."""

    first: PanelKey
    second: PanelKey
    relative: Rigid
    kind: str
    """`glue`, `place`, `insert` or `sew`."""
    material: str = ""
    gap: float = 0.0
    """Thickness of what lies between (foam), mm."""
    step: int = 0
    hinge: PieceKey | None = None
    """Sewn: `second` turns about this score of its own part, half as far as the score is folded; `relative` is for the flat score."""


class Stack(Struct, frozen=True):
    normal: Vector
    order: tuple[PanelKey, ...]


class Body(Struct, frozen=True):
    parts: frozenset[str]
    stacks: tuple[Stack, ...]
    view: Matrix = UNIT
    """World to the maker's view: x right, y towards the maker, z down into the table."""


class GlueArea(Struct, frozen=True):
    """Where adhesive goes, in the flat frame of the panel that carries it."""

    panel: PanelKey
    """The panel that the adhesive is put on."""
    onto: PanelKey
    side: str
    """Which side of `panel`: `front` or `back`."""
    polygon: Polygon
    material: str
    length: float
    """Along the middle of the strip, mm; for an all-over area 0."""
    setback: float
    width: float
    """Of a strip, mm; 0 for an all-over area."""
    step: int


class Pocket(Struct, frozen=True):
    name: str
    front: PanelKey
    """The flap that makes it."""
    back: PanelKey
    """The panel behind."""
    closing: tuple[PanelKey, ...]
    """Front and all panels that an insert goes behind."""
    closed: tuple[str, ...]
    """Sides as seen when it was made: some of head, tail, left, right."""
    open: tuple[str, ...]
    corner: tuple[float, float]
    """The head-left corner of the room as seen when it was made, in the flat frame of the panel behind, mm."""
    rightwards: tuple[float, float]
    tailwards: tuple[float, float]
    """What was right and what was tail when it was made, as unit vectors in that frame."""
    room_width: float
    room_height: float
    step: int


class InsertFit(Struct, frozen=True):
    """An insert against its space. Sizes in mm, along the pocket's width and height."""

    part: str
    pocket: str
    width: float
    height: float
    thick: float
    room_width: float
    room_height: float
    spare_width: float
    """What is left of the room, and of what stands out; the thickness is taken off where both sides are closed."""
    spare_height: float
    out_of: float
    """How far it stands out of the open side, mm."""
    least: float
    """The clearance asked for."""
    step: int
    stands_out: tuple[str, ...] = ()
    """`wide`, `high`: the ways in which it stands out, where no clearance is needed."""
    room_depth: float | None = None
    """Between stiff faces, how far they are apart; None in a pocket, whose faces give way."""
    spare_depth: float | None = None


class CoverFit(Struct, frozen=True):
    """A lid or sleeve over what it goes around. Sizes in mm, across and along as they lie before the maker."""

    cover: tuple[str, ...]
    """Its parts."""
    around: tuple[str, ...]
    room_width: float | None
    """Between its inner faces; None where it is open that way."""
    room_height: float | None
    width: float
    """Of what it goes around, over all."""
    height: float
    step: int

    @property
    def spare_width(self) -> float | None:
        """What is left of the room; None where it is open that way."""
        return None if self.room_width is None else self.room_width - self.width

    @property
    def spare_height(self) -> float | None:
        return None if self.room_height is None else self.room_height - self.height


class Closure(Struct, frozen=True):
    """A tie or band round the finished thing."""

    verb: str
    material: str
    around: str
    across: str
    at: float
    girth: float
    extra: float
    """Ends or lap, mm."""
    step: int
    path: tuple[tuple[str, tuple[float, float]], ...] = ()
    """Of a ribbon through holes: part and place in its flat frame, in order; `girth` is then the way through them."""
    on: str = ""
    """One of the parts that it goes round."""
    band: str = ""
    """The part that is the band; empty for a tie. The next three are of its strip, mm."""
    has: float = 0.0
    """Its length."""
    wide: float = 0.0
    thick: float = 0.0


class Sewing(Struct, frozen=True):
    """A line of holes with thread through it, along a score. Lengths in mm."""

    line: PieceKey
    parts: tuple[str, ...]
    """Everything that the needle passes through."""
    stations: tuple[float, ...]
    """Places of the holes along the line, from its end at the head as the work lay open."""
    span: float
    """Length of the line."""
    order: tuple[int, ...]
    """Numbers of the holes, from 1, as the needle passes them."""
    begins: str
    """`inside` or `outside`."""
    material: str
    way: float
    """Of the thread between its two ends: from hole to hole, and through the layers at each."""
    ends: float
    """What is left free at each end."""
    pricks: tuple[tuple[str, tuple[float, float]], ...]
    """Part and place of each hole in its flat frame."""
    step: int

    @property
    def length(self) -> float:
        return self.way + 2 * self.ends


class Trimmed(Struct, frozen=True):
    """Leaves cut even at their fore edge while folded. mm."""

    leaves: tuple[tuple[str, float], ...]
    """Part, and what came off each of its two free edges."""
    step: int


class State(Struct, frozen=True):
    blanks: dict[str, Blank] = field(default_factory=dict)
    """Part path to its blank (a mirrored part has its own, mirrored)."""
    thick: dict[str, float | None] = field(default_factory=dict)
    """Part path to caliper in mm; None where the design does not say."""
    placed: dict[PanelKey, Rigid] = field(default_factory=dict)
    angles: dict[PieceKey, float] = field(default_factory=dict)
    creased: frozenset[PieceKey] = frozenset()
    """Score pieces folded at least once."""
    bonds: tuple[Bond, ...] = ()
    bodies: tuple[Body, ...] = ()
    glue: tuple[GlueArea, ...] = ()
    pockets: dict[str, Pocket] = field(default_factory=dict)
    fits: tuple[InsertFit, ...] = ()
    closures: tuple[Closure, ...] = ()
    faced: dict[str, str] = field(default_factory=dict)
    """Part path to the side, `front` or `back`, that faced the maker when the part last lay flat; `front` where none is given."""
    coverings: tuple[CoverFit, ...] = ()
    sewings: tuple[Sewing, ...] = ()
    trims: tuple[Trimmed, ...] = ()
    curved: dict[PanelKey, Curved] = field(default_factory=dict)
    """Panels that a curved score has bent; they keep their flat place in `placed`, `angles` and the stacks."""
    made: frozenset[tuple[str, str]] = frozenset()
    """(part, operation) done so far: `trim`, `round`, `cut NAME`."""

    def body_of(self, part: str) -> Body:
        return next(body for body in self.bodies if part in body.parts)


def front_normal(placed: Rigid) -> Vector:
    """Where the front of a panel looks: the image of -z."""
    m = placed.turn
    return (-m[2], -m[5], -m[8])
