"""The words of a template page; a page layout may replace each. Names in braces are filled in."""

from collections.abc import Callable
from math import floor

from msgspec import Struct


def millimetres(mm: float) -> str:
    """To a tenth, halves up: "265 mm", "298.5 mm"."""
    return f"{floor(mm * 10 + 0.5 + 1e-6) / 10:.1f}".removesuffix(".0") + " mm"


class TileWords(Struct, frozen=True):
    one: str = "Template {letters}: {name}"
    aid: str = "Template: {name}"
    """A template that is no piece of its own."""
    several: str = "Templates {letters}"
    full_size: str = "full size"
    print_true: str = "Print at 100 %, or the scale your ruler gave."
    measure_first: str = "Measure the check square before you cut."
    strip: str = "lay {tile} on this strip"
    square_mm: str = "50 mm"
    square_in: str = "1\u206431\u204432 in"
    square_kind: tuple[str, ...] = ("check square,", "not to be cut")
    square_kind_narrow: tuple[str, ...] = ("check", "square,", "not to", "be cut")
    """The same, where it must stand between scores."""
    square_line: str = "50 mm check square"
    """All in one line, where scores run close together."""
    map_label: str = "pages"
    join: str = "To join: {tiles}"
    join_many: str = "To join: {count} pages, {first} to {last}"
    single: str = "One page, nothing to join"
    cut_right_and_below: str = "Cut {right} along its left line, {below} along its top line, and lay them on the grey strips."
    cut_right: str = "Cut {right} along its left line and lay it on the grey strip."
    cut_below: str = "Cut {below} along its top line and lay it on the grey strip."
    cut_this: str = "Cut this page along its {lines} and lay it on the grey strip of {tiles}."
    cut_butted: str = "Cut this page along its {lines} and tape it edge to edge to {tiles}."
    left_line: str = "left line"
    top_line: str = "top line"
    right_line: str = "right line"
    bottom_line: str = "bottom line"
    both: str = "{first} and {second}"
    meet: str = (
        "Quarter discs meet, and of each pair of combs the long middle ticks. "
        "If the third tick from them meets instead, the join is 0.3 mm off. Glue or tape it."
    )
    meet_butted: str = (
        "Corners make whole discs, and of each pair of combs the long middle ticks meet. "
        "If the third tick from them meets instead, the join is 0.3 mm off."
    )
    """Of eleven ticks 1 mm and 0.9 mm apart the k-th from the middle meets where the join is k tenths of a millimetre off."""
    whole: str = "The whole template measures {size}."
    long_measure: str = "Check its length: {measure}."
    """Where no line in the drawing could carry it."""
    diagonal: str = "ring in {first} to ring in {last}: {measure}"
    diagonal_in_foot: str = "Check the diagonal, {diagonal}."
    grain: str = "grain"
    edge: str = "{name} edge"
    line_kinds: tuple[tuple[str, str], ...] = (
        ("cut", "cut"),
        ("valley", "fold toward you"),
        ("mountain", "fold away from you"),
        ("both", "fold both ways"),
        ("score", "pressed in, not yet folded"),
        ("place", "a board lies here"),
    )
    """The kinds of line, for the key: folds and pressed lines in the words that the marks of the pack have for them."""
    reuse: str = "To use one again, paste it on heavy card."
    cut_out: str = "Cut on the middle of the solid outline."
    """Where a template's note does not say how it is cut out."""
    from_to: str = "{first} to {last},"
    edge_to_edge: str = "edge to edge"
    point_to_point: str = "point to point"
    label: str = "T-{number}"
    alternative: str = "Template {name} at full size, page {tile} of {count}."
    measure: Callable[[float], str] = millimetres
    """A length in mm as the reader's ruler shows it."""

    def kind(self, look: str) -> str:
        """What a kind of line is called in the key."""
        return dict(self.line_kinds)[look]
