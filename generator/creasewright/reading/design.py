"""A design as written: names, formulas as text, and the place of each in the file. Nothing is worked out here.

A `Text` is one scalar of the file; only texts are compared (the other classes go without, which halves the time it takes to load them). A formula, a length, a reference to a part ("page of left strip") are all still text.
"""

from dataclasses import dataclass, field

from creasewright.problems import Where


@dataclass(frozen=True)
class Text:
    text: str
    where: Where

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, eq=False, repr=False)
class Strip:
    """A strip of the sheet that cannot be used (a brand edge)."""

    edge: str
    """`head`, `tail`, `left` or `right` of the sheet."""
    width: Text


@dataclass(frozen=True, eq=False, repr=False)
class Paper:
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


@dataclass(frozen=True, eq=False, repr=False)
class Material:
    name: str
    where: Where
    kind: str
    """`glue`, `tape`, `foam`, `ribbon`, `thread`, `cord`."""
    width: Text | None
    thick: Text | None
    sold_by: str
    """`length`, `sheet` or `piece`."""
    called: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Thing:
    """Bought or found, goes inside: a photo, a seed packet."""

    name: str
    where: Where
    width: Text
    height: Text
    thick: Text | None
    called: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Measure:
    name: str
    where: Where
    formulas: tuple[Text, ...]
    """One formula; two for a pair such as the legs of a corner cut."""
    lowest: Text | None
    highest: Text | None
    about: Text | None


# --- blanks -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False, repr=False)
class Place:
    """A point of a blank as written: `[x, y]`, a compass word, or `crossing of A and B`."""

    where: Where
    xy: tuple[Text, Text] | None
    word: Text | None
    """`head-left`, `mid head`, `centre`, each also `of` a band or panel; `crossing of A and B`."""


@dataclass(frozen=True, eq=False, repr=False)
class Band:
    name: str
    where: Where
    size: Text


@dataclass(frozen=True, eq=False, repr=False)
class Repeat:
    """`- repeat: N` `of: [bands]`: the bands N times over, their names numbered from 1."""

    where: Where
    times: Text
    bands: tuple[Band, ...]


@dataclass(frozen=True, eq=False, repr=False)
class SheetShape:
    """A sheet and/or bands. Each direction has either a size or bands."""

    width: Text | None
    height: Text | None
    across: tuple[Band | Repeat, ...]
    down: tuple[Band | Repeat, ...]


@dataclass(frozen=True, eq=False, repr=False)
class Flap:
    name: str
    where: Where
    at: tuple[Text, ...]
    depth: Text
    ends: Text | None
    over: tuple[Text, Text] | None


@dataclass(frozen=True, eq=False, repr=False)
class FlapsShape:
    """A base (a rectangle `width` x `height`, or a regular polygon of `sides` of length `side`) with flaps growing from it."""

    base: str
    width: Text | None
    height: Text | None
    sides: Text | None
    side: Text | None
    flaps: tuple[Flap, ...]


@dataclass(frozen=True, eq=False, repr=False)
class OutlinePoint:
    place: Place
    rise: Text | None
    """Of a circular arc towards this point, outward positive."""
    edge: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class OutlineShape:
    points: tuple[OutlinePoint, ...]


@dataclass(frozen=True, eq=False, repr=False)
class MirrorShape:
    of: Text


@dataclass(frozen=True, eq=False, repr=False)
class SameShape:
    """The same shape worked with some measures replaced."""

    of: Text
    replaced: tuple[tuple[Text, Text], ...]
    """Measure name, formula."""


@dataclass(frozen=True, eq=False, repr=False)
class LikeShape:
    panels: tuple[Text, ...]
    inset: Text | None
    seen_from: str
    turned: Text | None


Shape = SheetShape | FlapsShape | OutlineShape | MirrorShape | SameShape | LikeShape


@dataclass(frozen=True, eq=False, repr=False)
class Corner:
    which: str
    """`head-left`, `head-right`, `tail-right`, `tail-left` or `all`."""
    where: Where
    cut: tuple[Text, ...] | None
    """Along head or tail, along side: two formulas, or one that names a pair measure."""
    round: Text | None
    template: str | None


@dataclass(frozen=True, eq=False, repr=False)
class EdgeChange:
    which: str
    where: Where
    rise: Text
    template: str | None


@dataclass(frozen=True, eq=False, repr=False)
class Notch:
    where: Where
    at: Place
    width: Text
    depth: Text
    round: bool
    """Half-round at its foot where true."""
    template: str | None


@dataclass(frozen=True, eq=False, repr=False)
class HoleWritten:
    name: str
    where: Where
    at: Place
    across: Text


@dataclass(frozen=True, eq=False, repr=False)
class SlitWritten:
    """A slit along a line, or in place of a score (`on`) over some bands."""

    name: str
    where: Where
    line: tuple[Place, Place] | None
    on: tuple[Text, ...]
    over: tuple[Text, ...]


@dataclass(frozen=True, eq=False, repr=False)
class ScoreWritten:
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


@dataclass(frozen=True, eq=False, repr=False)
class PanelNames:
    """Rows of names as the panels lie (None: no name there), or an anchor point for each name."""

    where: Where
    rows: tuple[tuple[str | None, ...], ...]
    anchors: tuple[tuple[str, Place], ...]


@dataclass(frozen=True, eq=False, repr=False)
class Blank:
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


# --- steps ------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False, repr=False)
class Target:
    """What a step acts on, and for folds the angle it goes to (None: the step's `to`)."""

    ref: Text
    angle: Text | None = None


@dataclass(frozen=True, eq=False, repr=False)
class MeetLine:
    """An edge or score of the part (or target), moved inwards `by` a length."""

    line: Text
    by: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Meet:
    """Pairs of lines that become collinear; empty with `centre` true: centres agree."""

    pairs: tuple[tuple[MeetLine, MeetLine], ...] = ()
    centre: bool = False


@dataclass(frozen=True, eq=False, repr=False)
class Landing:
    """The layer relation of a join: `onto`, `under`, `between`, `into`, `around`, and the panels, pocket or parts it names."""

    relation: str
    refs: tuple[Text, ...]


@dataclass(frozen=True, eq=False, repr=False)
class Fold:
    fold: tuple[Target, ...]
    mountain: tuple[Target, ...]
    to: Text | None
    stays: Text | None
    seen_from: str | None
    tuck: Landing | None
    """Set for `tuck: flap`: a fold of 180 whose layers are given."""


@dataclass(frozen=True, eq=False, repr=False)
class Unfold:
    scores: tuple[Target, ...]
    to: Text | None
    stays: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Crease:
    scores: tuple[Target, ...]


@dataclass(frozen=True, eq=False, repr=False)
class Lay:
    part: Text
    up: str | None
    head: str
    turned: Text | None
    like: str
    """`page` or `pad`: about which line it was turned over."""


@dataclass(frozen=True, eq=False, repr=False)
class TurnOver:
    part: Text
    like: str


@dataclass(frozen=True, eq=False, repr=False)
class Turn:
    part: Text
    by: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Join:
    """`glue` (a flap that is already held), `join` (a part that is still free), `place` (without adhesive), `stick on` (decoration, on top)."""

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


@dataclass(frozen=True, eq=False, repr=False)
class Insert:
    thing: Text
    landing: Landing
    shows: Text | None
    clearance: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Tie:
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


@dataclass(frozen=True, eq=False, repr=False)
class Make:
    """`cut`, `score`, `trim`, `punch` or `round`: an operation of a blank, done at this place in the order."""

    verb: str
    parts: tuple[Text, ...]
    with_: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Wait:
    """`press`, `dry` or `check`: nothing moves."""

    verb: str
    what: Text
    for_: Text | None


Action = Fold | Unfold | Crease | Lay | TurnOver | Turn | Join | Insert | Tie | Make | Wait


@dataclass(frozen=True, eq=False, repr=False)
class Step:
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


@dataclass(frozen=True, eq=False, repr=False)
class PartWritten:
    """A part of an assembly: `count` of the blank or assembly `is_`, mirrored where said. A count over 1 numbers the name."""

    name: str
    where: Where
    is_: Text
    count: Text | None
    mirrored: bool


@dataclass(frozen=True, eq=False, repr=False)
class Stage:
    """A state that is looked at, not made."""

    name: str
    where: Where
    from_: Text | None
    action: Fold | Unfold | None


@dataclass(frozen=True, eq=False, repr=False)
class Assembly:
    name: str
    """Empty for the one that is written at the top level."""
    where: Where
    parts: tuple[PartWritten, ...] | None
    """None: each blank mentioned, once."""
    steps: tuple[Step, ...]
    stages: tuple[Stage, ...]


@dataclass(frozen=True, eq=False, repr=False)
class FaceWish:
    panel: Text
    stage: Text | None


@dataclass(frozen=True, eq=False, repr=False)
class Finished:
    where: Where
    is_: Text | None
    front: Text | None
    upright: tuple[FaceWish, ...]
    expect: tuple[Text, ...]


@dataclass(frozen=True, eq=False, repr=False)
class Known:
    """A finding that the author accepts: not raised again."""

    check: str
    where: Where
    about: Text | None
    """Words that the finding's text must hold; None: every finding of that check."""
    because: Text


@dataclass(frozen=True, eq=False, repr=False)
class Design:
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
    papers: tuple[Paper, ...]
    materials: tuple[Material, ...]
    things: tuple[Thing, ...]
    measures: tuple[Measure, ...]
    blanks: tuple[Blank, ...]
    assemblies: tuple[Assembly, ...]
    finished: Finished
    known: tuple[Known, ...]
