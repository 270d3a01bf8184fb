"""The cover: folded strip, title, a picture of the finished thing computed from its state, four facts, who made it.

A pack printed although it cannot be built says so here.
"""

from msgspec.structs import replace

from creasewright.booklet.ajar import ajar
from creasewright.booklet.closing_pictures import bands_round, tie_line
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.cover_picture import draw_cover
from creasewright.booklet.diagrams.cover_scene import cover_scene
from creasewright.booklet.diagrams.plan_facets import lies_flat
from creasewright.booklet.diagrams.scene import SpaceScene
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.diagrams.space_view import standing
from creasewright.booklet.drawing import Group, Item, Mark, Picture, Run, Shape, Tagged, Words
from creasewright.booklet.length_words import rough_length
from creasewright.booklet.rules import polygon, rule
from creasewright.booklet.section import Section, Sheet
from creasewright.booklet.section_text import sentence
from creasewright.booklet.shown_parts import shown_parts
from creasewright.booklet.spine_opened import spine_opened
from creasewright.booklet.standing_stage import is_finished, is_open, standing_stage
from creasewright.booklet.typeset import line_width, literal, one_line, paragraph
from creasewright.folding.state import Body, State
from creasewright.problems import BLOCKS
from creasewright.reading.page_layout import TypeStyle
from creasewright.units.ruler import mark_in_words, pair_in_words

STRIP = 8.0
"""Width of the folded strip, mm."""
STRIP_HEAD, STRIP_FOLD = 7.2, 24.0
TITLE = 52.0
PHOTO_COLUMNS = 2
"""Of the page's grid: what a photograph takes of the picture's width, at the right."""
SHRUNK = 0.76
"""Least share of its size that the second line may take to stay on one line."""
FACTS = 38.0
"""The facts begin this far above the tail, mm."""


def build(context: PackContext) -> Section | None:
    items: list[Item] = [strip(context)]
    y = TITLE
    words, height = heading(context, y)
    items += words
    y += height
    blocks = [finding for finding in context.findings if finding.severity == BLOCKS]
    if blocks:
        fault, taken = faults(context, y)
        items += fault
        y += taken
    facts_at = context.page.height - FACTS - 8.0
    opened = spine_opened(context.worked) if standing_stage(context.worked) is None else None
    items += picture(context, y + 2.0, facts_at - 8.0, opened)
    items += photo(context, y + 2.0, facts_at - 8.0)
    items += facts(context, facts_at, opened is not None)
    items += foot(context)
    return Section("cover", context.section.title, numbered=context.section.numbered, sheets=(Sheet(tuple(items)),))


def said(context: PackContext, name: str, **values: object) -> str:
    return sentence(context, name, values)


def strip(context: PackContext) -> Item:
    """A strip folded once: down, then to the right margin, with the kind of pack on it."""
    page = context.page
    x, right = page.binding, page.width - page.outer
    top, fold, below = STRIP_HEAD, STRIP_FOLD, STRIP_FOLD + STRIP
    band = Shape(polygon((x, below), (x + STRIP, fold), (right, fold), (right, below)), None, "ACC2", role="strip")
    upright = Shape(polygon((x, top), (x + STRIP, top), (x + STRIP, fold), (x, below)), None, "ACC", role="strip")
    kind = said(context, "kind", page=page.name.upper() if page.name == "a4" else page.name, units=context.system)
    style = context.layout.types["state line"]
    words = Words(right - 3.0, fold + 5.2, (Run(kind, "Bold", style.size, "INK"),), "end", role="text")
    return Mark((band, upright, words))


def heading(context: PackContext, y: float) -> tuple[list[Item], float]:
    """Title and second line, as many lines as they need; their height from the title's baseline."""
    page, made = context.page, context.worked.design
    title, line = context.layout.types["cover title"], context.layout.types["cover line"]
    top = y - context.text.ascent(title.face, title.size)
    words, height = paragraph(literal(str(made.title)), page.binding, top, page.measure, context.text, title)
    items: list[Item] = [Tagged("H1", words)]
    under = top + height + 1.0
    if made.subtitle is not None:
        text = literal(str(made.subtitle))
        more, taken = paragraph(text, page.binding, under, page.measure, context.text, on_one_line(context, text, line))
        items.append(Tagged("P", more))
        under += taken
    return items, under - y


def on_one_line(context: PackContext, text: str, style: TypeStyle) -> TypeStyle:
    """The style, smaller by half points where that brings the text on one line and is no less than `SHRUNK`; else as it is. The leading
    stays, so that the picture below begins at one height."""
    sizes = [style.size - step / 2 for step in range(int(2 * style.size * (1 - SHRUNK)) + 1)]
    styles = (replace(style, size=size) for size in sizes)
    return next((each for each in styles if line_width(one_line(text, each), context.text) <= context.page.measure), style)


def faults(context: PackContext, y: float) -> tuple[list[Item], float]:
    """Printed although it cannot be built: said on the cover, plainly."""
    page, style = context.page, context.layout.types["text"]
    items: list[Item] = []
    y += 4.0
    lines = [said(context, "fault")]
    lines += [f"– {literal(f.what)}: {literal(f.hint)}." for f in context.findings if f.severity == BLOCKS][:6]
    start = y
    for number, text in enumerate(lines):
        words, height = paragraph(f"**{text}**" if number == 0 else text, page.binding, y, page.measure, context.text, style)
        items.append(Tagged("P", words))
        y += height + 1.0
    items.append(Mark((rule(context.layout, "group rule", page.binding, page.binding + page.measure, start - 2.0),)))
    return items, y - start + 6.0


def picture(context: PackContext, top: float, bottom: float, opened: tuple[State, Body] | None) -> list[Item]:
    """Stands on `bottom`, with the facts, which are about it: a low one leaves white under the title. `opened`: the thing open at
    its spine, if it has one."""
    finished = context.worked.finished
    if finished is None or not context.worked.assemblies:
        return []
    stage = standing_stage(context.worked) if opened is None else None
    if stage is not None:
        state, body = stage.state, stage.body
    else:
        state, body = opened or ajar(finished.state, finished.body, finished.front)
    parts = shown_parts(context.worked, context.worked.assemblies[-1])
    closures = [c for c in finished.state.closures if c.verb == "tie" and not c.path] if state is finished.state else []
    ties = tuple(tie_line(state, body, c.across, c.at) for c in closures)
    width = max((context.worked.materials[c.material].width for c in closures if c.material in context.worked.materials), default=0.0)
    bands = bands_round(state, body, parts) if state is finished.state else ()
    scene = SpaceScene(space_facets(state, body, parts, backs=True), ties=ties, tie_width=width, bands=bands)
    page = context.page
    beside = page.span(PHOTO_COLUMNS) + page.gutter if context.photograph is not None else 0.0
    slid_in = frozenset(fit.part for fit in state.fits)
    drawn = draw_cover(standing(scene) if opened else cover_scene(scene), page.measure - beside, bottom - top, slid_in=slid_in)
    size = pair_in_words(finished.size[0], finished.size[1], context.worked.ruler)
    alt = said(context, "alt", title=str(context.worked.design.title), size=size)
    return [Tagged("Figure", (Group(drawn.items, page.binding, bottom - drawn.height),), alt=alt)]


def photo(context: PackContext, top: float, bottom: float) -> list[Item]:
    """The designer's photograph, whole, at the right of the picture and level with its foot."""
    taken, page = context.photograph, context.page
    if taken is None:
        return []
    width = min(page.span(PHOTO_COLUMNS), (bottom - top) * taken.width / taken.height)
    height = width * taken.height / taken.width
    shown = Picture(page.width - page.outer - width, bottom - height, width, height)
    return [Tagged("Figure", (shown,), alt=said(context, "photo alt", title=str(context.worked.design.title)))]


def facts(context: PackContext, y: float, has_spine: bool) -> list[Item]:
    """Four columns: closed, open, what goes inside, level and time."""
    worked, page = context.worked, context.page
    columns = [
        fact for fact in (closed_fact(context, has_spine), open_fact(context, has_spine), inside_fact(context), level_fact(context)) if fact
    ]
    gap = page.gutter
    width = (page.measure - 3 * gap) / 4
    items: list[Item] = []
    note, text, bold = context.layout.types["side note"], context.layout.types["state line"], context.layout.types["group head"]
    for number, (name, value, more) in enumerate(columns):
        x = page.binding + number * (width + gap)
        items.append(Mark((rule(context.layout, "group rule", x, x + width, y),)))
        lines: list[Item] = [Words(x, y + 6.0, one_line(name, note), role="text")]
        words, height = paragraph(f"**{value}**", x, y + 8.2, width, context.text, replace(bold, leading=bold.size * 1.15))
        lines += words
        below, _ = paragraph(more, x, y + 9.4 + height, width, context.text, replace(text, colour="INK"))
        items.append(Tagged("P", (*lines, *below)))
    return items if worked else []


Fact = tuple[str, str, str]


def closed_fact(context: PackContext, has_spine: bool) -> Fact | None:
    """Its size; of a thing with a spine always as it is closed, though the picture shows it open and its walls count as standing."""
    finished = context.worked.finished
    if finished is None:
        return None
    width, height, thick = finished.size
    size = pair_in_words(width, height, context.worked.ruler)
    empty, full = rough_length(context, finished.empty_thickness), rough_length(context, thick)
    if not has_spine and not lies_flat(finished.state, finished.body):
        name = "closed" if finished.state.coverings else "standing"
        return said(context, name), size, said(context, "height", full=mark_in_words(thick, context.worked.ruler).text)
    more = said(context, "thickness", full=full, empty="" if empty == full else empty)
    return said(context, "closed"), size, more


def open_fact(context: PackContext, has_spine: bool) -> Fact | None:
    stages = [stage for stage in context.worked.stages if stage.name != "closed" and not is_finished(context.worked, stage)]
    if not stages:
        return flat_fact(context)
    widest = next((stage for stage in stages if stage.name == "open"), None)
    if widest is None:
        stands = has_spine or (context.worked.finished is not None and is_open(context.worked.finished))
        return flat_fact(context) if stands else None
    size = pair_in_words(widest.size[0], widest.size[1], context.worked.ruler)
    high = mark_in_words(widest.size[2], context.worked.ruler).text
    stands = not lies_flat(widest.state, widest.body)
    return said(context, "open"), size, said(context, "height", full=high) if stands else ""


def flat_fact(context: PackContext) -> Fact | None:
    """The largest piece as it is cut."""
    piece = max(context.worked.pieces, key=lambda p: p.blank.width * p.blank.height, default=None)
    if piece is None:
        return None
    return said(context, "flat"), pair_in_words(piece.blank.width, piece.blank.height, context.worked.ruler), ""


def inside_fact(context: PackContext) -> Fact | None:
    finished = context.worked.finished
    if finished is None or not finished.state.fits:
        pieces = sum(piece.count for piece in context.worked.pieces)
        return said(context, "pieces"), str(pieces), ""
    names: dict[str, int] = {}
    for fit in finished.state.fits:
        name = fit.part.split("/")[-1].rstrip(" 0123456789")
        names[name] = names.get(name, 0) + 1
    held = ", ".join(f"{count} {name}{'s' if count > 1 else ''}" for name, count in names.items())
    pockets = len(finished.state.pockets)
    return said(context, "inside"), held, said(context, "pockets", count=pockets)


def level_fact(context: PackContext) -> Fact:
    made = context.worked.design
    minutes = int(str(made.time)) if made.time is not None and str(made.time).isdigit() else 0
    time = said(context, "time", hours=minutes // 60, minutes=minutes % 60) if minutes else ""
    return said(context, "level"), made.level, time


def foot(context: PackContext) -> list[Item]:
    page, made = context.page, context.worked.design
    y = page.height - 11.2
    style, note = context.layout.types["text"], context.layout.types["side note"]
    items: list[Item] = []
    if made.maker is not None:
        items.append(Tagged("P", (Words(page.binding, y, (Run(str(made.maker), "Bold", style.size, "INK"),), role="text"),)))
    makers = said(context, "makers", count=context.worked.makers) if context.worked.makers > 1 else ""
    version = said(context, "version", number=str(made.version)) if made.version is not None else ""
    right = " · ".join(filter(None, (makers, version)))
    if right:
        items.append(Tagged("P", (Words(page.width - page.outer, y, one_line(right, note), "end", role="text"),)))
    return items
