"""What stands on every page: running head, section head with the folded strip, foot dashes and page number. mm, y down.

Furniture is layout only, so all of it is marked as such; the section's head alone means something.
"""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.drawing import Item, Mark, Pen, Run, Shape, Tagged, Words
from creasewright.booklet.rules import polygon
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import line_width, one_line
from creasewright.reading.page_layout import PageLayout, PageSize, TypeStyle

BETWEEN = 6.0
"""At least so much white between two texts on one line, mm."""
SMALLEST_HEAD = 12.0
"""pt; a section head too long for its line shrinks down to this, then is cut short."""


class Furnisher(Struct, frozen=True):
    """Sets the furniture of one pack on one size of page."""

    layout: PageLayout
    page: PageSize
    ruler: TextRuler
    pack_title: str
    sections: int
    """How many foot dashes."""

    def running_head(self, section_title: str) -> Item:
        style, y = self.layout.types["running head"], self.layout.furniture.running_head
        right = one_line(section_title, style)
        left_width = self.page.measure - line_width(right, self.ruler) - BETWEEN
        left = shortened(one_line(self.pack_title, replace(style, face="Bold")), left_width, self.ruler)
        edge = self.page.width - self.page.outer
        return Mark((Words(self.page.binding, y, left, role="running head"), Words(edge, y, right, "end", role="running head")))

    def section_head(self, title: str, scope: str) -> tuple[Item, ...]:
        return self.page_head(title, scope, "H1")

    def page_head(self, title: str, scope: str = "", kind: str = "") -> tuple[Item, ...]:
        """`kind` of heading, or nothing where what goes on is named again: then it is furniture."""
        places, left = self.layout.furniture, self.page.binding
        aside = one_line(scope, self.layout.types["section scope"])
        scope_width = line_width(aside, self.ruler) + BETWEEN if aside else 0.0
        width = self.page.measure - places.section_indent - scope_width
        head = fitted(title, self.layout.types["section head"], width, self.ruler)
        words = Words(left + places.section_indent, places.section_head, head, role="section head")
        strip = Mark(self._folded_strip(left, places.strip_from))
        edge = self.page.width - self.page.outer
        at_right = (Words(edge, places.section_head, aside, "end", role="section scope"),) if aside else ()
        if not kind:
            return (strip, Mark((words, *at_right)))
        return (strip, Tagged(kind, (words,)), *((Tagged("P", at_right),) if aside else ()))

    def _folded_strip(self, x: float, y: float) -> tuple[Shape, Shape]:
        """A strip that comes down and is folded over at 45 degrees to run to the right; its back is paler."""
        f = self.layout.furniture
        right, fold, end = x + f.strip_width, y + f.strip_drop, y + f.strip_drop + f.strip_width
        run = right + f.strip_run
        return (
            Shape(polygon((x, y), (right, y), (right, fold), (x, end)), fill="ACC", role="strip front"),
            Shape(polygon((right, fold), (run, fold), (run, end), (x, end)), fill="ACC2", role="strip back"),
        )

    def foot(self, current: Sequence[int], label: str) -> Item:
        """One dash for each section, those of `current` (from 0) in the accent; the page's number beyond them."""
        f, style = self.layout.furniture, self.layout.types["page number"]
        y = self.page.height - f.foot
        dash = (self.page.measure - f.dash_short - (self.sections - 1) * f.dash_gap) / self.sections
        items: list[Item] = []
        for k in range(self.sections):
            x = self.page.binding + k * (dash + f.dash_gap)
            pen = Pen("ACC", f.dash_here, cap="butt") if k in current else Pen("RULE", f.dash, cap="butt")
            items.append(Shape((("M", x, y), ("L", x + dash, y)), pen, role="foot dash"))
        baseline = y + self.ruler.cap_height(style.face, style.size) / 2
        items.append(Words(self.page.width - self.page.outer, baseline, one_line(label, style), "end", role="page number"))
        return Mark(tuple(items))


def fitted(text: str, style: TypeStyle, width: float, ruler: TextRuler) -> tuple[Run, ...]:
    """The text on one line of `width`: smaller if it must be, cut short if that is not enough."""
    runs = one_line(text, style)
    needed = line_width(runs, ruler)
    if needed <= width:
        return runs
    size = max(SMALLEST_HEAD, int(style.size * width / needed * 2) / 2)
    return shortened(one_line(text, replace(style, size=size)), width, ruler)


def shortened(runs: tuple[Run, ...], width: float, ruler: TextRuler) -> tuple[Run, ...]:
    """The runs, their end replaced by … where they are wider than `width`."""
    if line_width(runs, ruler) <= width:
        return runs
    *before, last = runs
    for end in range(len(last.text) - 1, 0, -1):
        cut = (*before, replace(last, text=last.text[:end].rstrip(" \u2044\u2064") + "…"))
        if line_width(cut, ruler) <= width:
            return cut
    return shortened(tuple(before), width, ruler) if before else (replace(last, text="…"),)
