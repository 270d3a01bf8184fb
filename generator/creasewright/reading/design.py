"""A design as written: names, formulas as text, and the place of each in the file. Nothing is worked out here.

A `Text` is one scalar of the file. A formula, a length, a reference to a part ("page of left strip") are all still text.
"""

from msgspec import Struct, field

from creasewright.problems import Where


class Text(Struct, frozen=True):
    text: str
    where: Where

    def __str__(self) -> str:
        return self.text


class Strip(Struct, frozen=True):
    """A strip of the sheet that cannot be used (a brand edge)."""

    edge: str
    """`head`, `tail`, `left` or `right` of the sheet."""
    width: Text


class Paper(Struct, frozen=True):
    name: str
    where: Where
    sheet: tuple[Text, ...]
    """One text, a standard size (`letter`, `A4`, or a pair `letter | A4`); or two formulas, width and height as sold."""
    grammage: Text | None
    """`216` (g/m²) or `80 lb cover`."""
    caliper: Text | None
    front: str
    back: str
    """`plain`, `one-way`, `two-way`, `all-over`, `by panel`."""
    runs: str
    """`height` or `width`: the sheet direction that is up on a one-way or two-way print."""
    back_agrees: str
    """`head-to-head` or `head-to-tail`."""
    grain: str
    """`height`, `width`, `none` or `unknown`."""
    sides_differ: bool
    core: Text | None
    """Colour of the core where a cut edge shows it: a word, `white` as a rule."""
    brand_strip: Strip | None
    ragged: Text | None
    """Trimmed off every edge before the sheet is square, a length."""
    pack: Text | None
    """Sheets in a pack as sold."""
    price: Text | None
    """Of a pack, as written: `12.50 EUR`."""
    called: Text | None
    """What the reader's pages call it; default the name."""


class Material(Struct, frozen=True):
    name: str
    where: Where
    kind: str
    """`glue`, `tape`, `foam`, `ribbon`, `thread`, `cord`."""
    width: Text | None
    thick: Text | None
    sold_by: str
    """`length`, `sheet` or `piece`."""
    called: Text | None


class Thing(Struct, frozen=True):
    """Bought or found, goes inside: a photo, a seed packet."""

    name: str
    where: Where
    width: Text
    height: Text
    thick: Text | None
    called: Text | None


class Measure(Struct, frozen=True):
    name: str
    where: Where
    formulas: tuple[Text, ...]
    """One formula; two for a pair such as the legs of a corner cut."""
    lowest: Text | None
    highest: Text | None
    about: Text | None


# --- blanks -----------------------------------------------------------------------------------------------------------


class Place(Struct, frozen=True):
    """A point of a blank as written: `[x, y]`, a compass word, or `crossing of A and B`."""

    where: Where
    xy: tuple[Text, Text] | None
    word: Text | None
    """`head-left`, `mid head`, `centre`, each also `of` a band or panel; `crossing of A and B`."""


class Band(Struct, frozen=True):
    name: str
    where: Where
    size: Text


class Repeat(Struct, frozen=True):
    """`- repeat: N` `of: [bands]`: the bands N times over, their names numbered from 1."""

    where: Where
    times: Text
    bands: tuple[Band, ...]


class SheetShape(Struct, frozen=True):
    """A sheet and/or bands. Each direction has either a size or bands."""

    width: Text | None
    height: Text | None
    across: tuple[Band | Repeat, ...]
    down: tuple[Band | Repeat, ...]


class Flap(Struct, frozen=True):
    name: str
    where: Where
    at: tuple[Text, ...]
    depth: Text
    ends: Text | None
    over: tuple[Text, Text] | None
    far_rise: Text | None = None
    seam_rise: Text | None = None
    """Heights of the circular arcs that its far edge and its seam are, positive away from the base."""


class FlapsShape(Struct, frozen=True):
    """A base (a rectangle `width` x `height`, or a regular polygon of `sides` of length `side`) with flaps growing from it."""

    base: str
    width: Text | None
    height: Text | None
    sides: Text | None
    side: Text | None
    flaps: tuple[Flap, ...]


class OutlinePoint(Struct, frozen=True):
    place: Place
    rise: Text | None
    """Of a circular arc towards this point, outward positive."""
    edge: Text | None
    by: tuple[Place, Place] | None = None
    """The handles of a cubic curve towards this point."""


class OutlineShape(Struct, frozen=True):
    points: tuple[OutlinePoint, ...]


class MirrorShape(Struct, frozen=True):
    of: Text


class SameShape(Struct, frozen=True):
    """The same shape worked with some measures replaced."""

    of: Text
    replaced: tuple[tuple[Text, Text], ...]
    """Measure name, formula."""


class LikeShape(Struct, frozen=True):
    panels: tuple[Text, ...]
    inset: Text | None
    seen_from: str
    turned: Text | None


class WrapShape(Struct, frozen=True):
    """A cover round boards that lie in a row, from left to right as its front is seen, with turn-ins on all four sides."""

    boards: tuple[Text, ...]
    """Blanks."""
    gaps: Text | None
    """Between neighbours; needed where there are several boards."""
    turn_in: Text
    """Cover beyond the boards' edges, as it lies flat."""
    corner_gap: Text | None
    """From a board's corner to the mitre cut there; None: 1.5 times the caliper of the boards."""


Shape = SheetShape | FlapsShape | OutlineShape | MirrorShape | SameShape | LikeShape | WrapShape


class Corner(Struct, frozen=True):
    which: str
    """`head-left`, `head-right`, `tail-right`, `tail-left` or `all`."""
    where: Where
    cut: tuple[Text, ...] | None
    """Along head or tail, along side: two formulas, or one that names a pair measure."""
    round: Text | None
    template: str | None


class EdgeChange(Struct, frozen=True):
    which: str
    where: Where
    rise: Text
    template: str | None


class Notch(Struct, frozen=True):
    where: Where
    at: Place
    width: Text
    depth: Text
    round: bool
    """Half-round at its foot where true."""
    template: str | None


class HoleWritten(Struct, frozen=True):
    name: str
    where: Where
    at: Place
    across: Text


class SlitWritten(Struct, frozen=True):
    """A slit along a line, or in place of a score (`on`) over some bands."""

    name: str
    where: Where
    line: tuple[Place, Place] | None
    on: tuple[Text, ...]
    over: tuple[Text, ...]


class ScoreWritten(Struct, frozen=True):
    """One way of saying where a score runs is given: `from_` and `at`, `across` and `at`, `line`; or none, to limit a band's own score."""

    name: str
    where: Where
    from_: Text | None
    across: str | None
    at: tuple[Text, ...]
    line: tuple[Place, Place] | None
    over: tuple[Text, ...]
    span: tuple[Place, Place] | None
    removed: bool
    """`none`: the band score is taken away."""
    rise: Text | None = None
    """Of a circular arc between the ends of `line`, positive to the left of one who goes from the first to the second."""


class PanelNames(Struct, frozen=True):
    """Rows of names as the panels lie (None: no name there), or an anchor point for each name."""

    where: Where
    rows: tuple[tuple[str | None, ...], ...]
    anchors: tuple[tuple[str, Place], ...]


class Blank(Struct, frozen=True):
    name: str
    where: Where
    paper: Text | None
    shape: Shape
    grain: str | None
    turn: int | None
    sizes: str
    """What its band and sheet sizes mean: `score to score` (default), `inside` or `outside`."""
    corners: tuple[Corner, ...] = ()
    edges: tuple[EdgeChange, ...] = ()
    notches: tuple[Notch, ...] = ()
    cut_away: tuple[tuple[Text, ...], ...] = ()
    """Pairs of scores; a single `all crossings` for every crossing."""
    holes: tuple[HoleWritten, ...] = ()
    slits: tuple[SlitWritten, ...] = ()
    scores: tuple[ScoreWritten, ...] = ()
    panels: PanelNames | None = None
    expect: tuple[Text, ...] = ()
    called: Text | None = None
    paper_up: str = "front"
    """The side of the paper that becomes its front: `front`, `back` or `either`."""
    cut_to_fit: tuple[str, ...] = ()
    """`width`, `height`: sizes that are taken from the real thing before it is cut."""


# --- steps ------------------------------------------------------------------------------------------------------------


class Target(Struct, frozen=True):
    """What a step acts on, and for folds the angle it goes to (None: the step's `to`)."""

    ref: Text
    angle: Text | None = None


class MeetLine(Struct, frozen=True):
    """An edge or score of the part (or target), moved inwards `by` a length."""

    line: Text
    by: Text | None


class Meet(Struct, frozen=True):
    """Pairs of lines that become collinear; empty with `centre` true: centres agree."""

    pairs: tuple[tuple[MeetLine, MeetLine], ...] = ()
    centre: bool = False


class Landing(Struct, frozen=True):
    """The layer relation of a join: `onto`, `under`, `between`, `into`, `around`, and the panels, pocket or parts it names."""

    relation: str
    refs: tuple[Text, ...]


class Fold(Struct, frozen=True):
    fold: tuple[Target, ...]
    mountain: tuple[Target, ...]
    to: Text | None
    stays: Text | None
    seen_from: str | None
    tuck: Landing | None
    """Set for `tuck: flap`: a fold of 180 whose layers are given."""
    meet: bool = False
    """`to: meet`: until tabs touch their walls."""
    follow: tuple[Target, ...] = ()
    """Scores that turn as the loops ask; an angle says which way one that lies flat sets out."""
    bending: bool = False
    """The paper gives way between the two states."""


class Unfold(Struct, frozen=True):
    scores: tuple[Target, ...]
    to: Text | None
    stays: Text | None
    follow: tuple[Target, ...] = ()


class Crease(Struct, frozen=True):
    scores: tuple[Target, ...]


class Lay(Struct, frozen=True):
    part: Text
    up: str | None
    head: str
    turned: Text | None
    like: str
    """`page` or `pad`: about which line it was turned over."""


class TurnOver(Struct, frozen=True):
    part: Text
    like: str


class Turn(Struct, frozen=True):
    part: Text
    by: Text | None


class Join(Struct, frozen=True):
    """`glue` (a flap that is already held), `join` (a part still free), `place` (no adhesive), `stick on` (decoration)."""

    verb: str
    parts: tuple[Text, ...]
    by: Text | None
    landing: Landing | None
    meet: Meet | None
    turned: Text | None
    reveal: Text | None
    along: tuple[Text, ...]
    """Edges; `free edges`; empty: all of the contact."""
    width: Text | None
    setback: Text | None
    keep_clear: tuple[Text, ...]
    with_: Text | None
    makes: Text | None


class TurnIn(Struct, frozen=True):
    """`turn in`: the turn-ins of a `wrap` blank folded and glued over its boards, head and tail first."""

    cover: Text
    with_: Text | None


class Insert(Struct, frozen=True):
    thing: Text
    landing: Landing
    shows: Text | None
    clearance: Text | None
    with_: Text | None = None
    """Adhesive on both faces of what lies between two others: a page block in its case."""


class Tie(Struct, frozen=True):
    """`tie` a ribbon or `band` a strip around something."""

    verb: str
    what: Text
    around: Text
    across: str
    """`width` or `height`: the direction it runs."""
    at: Text | None
    ends: Text | None
    lap: Text | None
    path: tuple[Text, ...]
    """Holes or slits that a ribbon passes, alternately to the back and to the front."""
    with_: Text | None = None
    """Adhesive on a band's lap."""


class Sew(Struct, frozen=True):
    """Thread through parts that lie together, along a score of one of them."""

    parts: tuple[Text, ...]
    along: Text
    stations: tuple[Text, ...]
    """One plain number: so many holes, evenly within `margin`; several lengths: their places from the head of the score."""
    margin: Text | None
    order: tuple[Text, ...]
    """Numbers of the holes as the needle passes them, from 1 at the head; empty: the usual way, from the middle out and back."""
    from_: str
    """`inside` or `outside`: where the thread begins; inside is the side that looks to the maker as the work lies open."""
    with_: Text
    ends: Text | None


class Make(Struct, frozen=True):
    """`cut`, `score`, `trim`, `punch` or `round`: an operation of a blank, done at this place in the order."""

    verb: str
    parts: tuple[Text, ...]
    with_: Text | None
    at: str | None = None
    """Of `trim`: `fore edge`, where folded leaves are cut even."""


class Wait(Struct, frozen=True):
    """`press`, `dry` or `check`: nothing moves."""

    verb: str
    what: Text
    for_: Text | None


Action = Fold | Unfold | Crease | Lay | TurnOver | Turn | Join | TurnIn | Insert | Tie | Sew | Make | Wait


class Step(Struct, frozen=True):
    where: Where
    action: Action
    say: Text | None
    stage: str | None
    who: Text | None
    """Who does it: `maker` as a rule, `teacher`, `helper`, `grown-up`."""
    takes: Text | None
    """Roughly how long, as written: `5 min`."""
    view: dict[str, Text] = field(default_factory=dict)
    """`picture:` nudges of the view, by key."""


class PartWritten(Struct, frozen=True):
    """A part of an assembly: `count` of the blank or assembly `is_`, mirrored where said. A count over 1 numbers the name."""

    name: str
    where: Where
    is_: Text
    count: Text | None
    mirrored: bool


class Stage(Struct, frozen=True):
    """A state that is looked at, not made."""

    name: str
    where: Where
    from_: Text | None
    action: Fold | Unfold | None


class Assembly(Struct, frozen=True):
    name: str
    """Empty for the one that is written at the top level."""
    where: Where
    parts: tuple[PartWritten, ...] | None
    """None: each blank mentioned, once."""
    steps: tuple[Step, ...]
    stages: tuple[Stage, ...]


class FaceWish(Struct, frozen=True):
    panel: Text
    stage: Text | None


class Finished(Struct, frozen=True):
    where: Where
    is_: Text | None
    front: Text | None
    upright: tuple[FaceWish, ...]
    expect: tuple[Text, ...]


class Known(Struct, frozen=True):
    """A finding that the author accepts: not raised again."""

    check: str
    where: Where
    about: Text | None
    """Words that the finding's text must hold; None: every finding of that check."""
    because: Text


class Design(Struct, frozen=True):
    file: str
    name: str
    """The file's stem: `side-pocket-folio`."""
    where: Where
    title: Text
    subtitle: Text | None
    about: Text | None
    maker: Text | None
    """Who publishes the pack."""
    version: Text | None
    level: str
    time: Text | None
    photo: Text | None
    """A picture file in the design's folder, for the cover."""
    papers: tuple[Paper, ...]
    materials: tuple[Material, ...]
    things: tuple[Thing, ...]
    measures: tuple[Measure, ...]
    blanks: tuple[Blank, ...]
    assemblies: tuple[Assembly, ...]
    finished: Finished
    known: tuple[Known, ...]
