"""What the maker has set once for all packs, and what the maker's tools can do. Lengths in mm, exact."""

from fractions import Fraction

from msgspec import Struct, field

from creasewright.reading.design import Text

LETTER, A4 = "letter", "a4"
INCHES, MILLIMETRES = "in", "mm"
OVERLAP, BUTT = "overlap", "butt"
NEEDED, ALL = "needed", "all"
LEFT, RIGHT = "left", "right"


class ToolLength(Struct, frozen=True):
    """A length that a tool has in each system, in mm: a 12 in trimmer is sold as 305 mm."""

    inch: Fraction
    """In mm, for packs in inches."""
    metric: Fraction
    """In mm, for packs in millimetres."""

    def mm(self, units: str) -> Fraction:
        """In a pack whose units are `in` or `mm`."""
        return self.inch if units == INCHES else self.metric


def _pair(inches: str, mm: str) -> ToolLength:
    return ToolLength(Fraction(inches) * Fraction("25.4"), Fraction(mm))


class TemplateWishes(Struct, frozen=True):
    """How full-size templates come."""

    pieces: str = NEEDED
    """`needed`: for pieces that no trimmer cuts; `all`: for straight-cut ones too."""
    joining: str = OVERLAP
    """`overlap`: one page is cut and laid on the next; `butt`: both are cut and taped edge to edge."""
    overlap: ToolLength = field(default_factory=lambda: ToolLength(Fraction("8.5"), Fraction("8.5")))
    """How much lies on the next page."""


class MakerSettings(Struct, frozen=True):
    page: str = LETTER
    """`letter` or `a4`."""
    units: str = INCHES
    """`in` or `mm`."""
    makers: int = 1
    audience: str = "home"
    """Whose words the pack speaks: the name of a word table of the layout."""
    ruler: ToolLength = field(default_factory=lambda: _pair("1/16", "1"))
    """From mark to mark."""
    printer: str = ""
    """The name of the printer that packs are made for; empty: any that prints at 100 %."""
    templates: TemplateWishes = field(default_factory=TemplateWishes)


class DrawerSheet(Struct, frozen=True):
    """Sheets of one paper and size that the maker has, or can get."""

    paper: Text
    """The paper's name in the design."""
    width: ToolLength
    height: ToolLength
    count: int | None
    """None: as many as wished."""
    price: Fraction | None
    """Of one sheet; None: not said."""


class CuttingWishes(Struct, frozen=True):
    """How the maker wants sheets to be planned."""

    spares: int = 0
    """More of every piece, in all, than the makers need."""
    spares_of: tuple[tuple[Text, int], ...] = ()
    """By the name of a blank, in place of that."""
    setting_price: Fraction = Fraction(0)
    """What one distance more to set is worth, in the currency of the sheets; a sheet without a price counts as 1."""
    stages: int | None = None
    """How often the cuts of a sheet may change their direction; None: as often as wished."""


class Tools(Struct, frozen=True):
    """Built-in values are those of a usual sliding trimmer and score board (common practice, no source)."""

    longest_cut: ToolLength = field(default_factory=lambda: _pair("12", "305"))
    """Of the trimmer, from end to end of its rail."""
    narrowest_strip: ToolLength = field(default_factory=lambda: _pair("1/2", "12"))
    """That the trimmer still holds beside its rail."""
    least_trim: ToolLength = field(default_factory=lambda: _pair("1/8", "3"))
    """That can be cut off without the blade running out of the paper."""
    grooves: ToolLength = field(default_factory=lambda: _pair("1/8", "5"))
    """Of the score board, from groove to groove."""
    board: ToolLength = field(default_factory=lambda: _pair("12", "300"))
    """Of the score board, from its stop to the last groove."""
    spacers: tuple[ToolLength, ...] = ()
    """Strips of known width that may lie between the stop of the score board and the piece."""
    stop: str = LEFT
    """Side of the score board that its stop is on: `left` or `right`."""
    drawer: tuple[DrawerSheet, ...] = ()
    """For the papers named in it, the only sheets there are."""
    cutting: CuttingWishes = field(default_factory=CuttingWishes)
    hand_errors: dict[str, ToolLength] = field(default_factory=dict)
    """What the maker's own hands err by, by operation (`trimmed`, `scored` …); an operation left out has its usual error."""
