"""The words in the head and the foot of a template page. mm of the page, y down."""

from msgspec import Struct

from creasewright.booklet.drawing import Item, Mark, Run, Tagged, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.line_key import key_width, line_key
from creasewright.booklet.tiling.placing import Cell, Layout, Placed, placed_on
from creasewright.booklet.tiling.registration import Neighbours
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Window
from creasewright.booklet.typeset import set_lines
from creasewright.reading.page_layout import TypeStyle

NAME_SIZE = 25.0
NAME_ABOVE = 7.4
LINES_ABOVE = (11.6, 7.0, 2.8)
"""Of the head's baselines, how far they stand above the window."""
TITLE = TypeStyle("Bold", 10.5, 13.0)
FACTS = TypeStyle("Regular", 9.5, 12.0)
FOOT = TypeStyle("Regular", 9.0, 11.4)
FOOT_HEADING = 4.5
FOOT_FIRST, FOOT_STEP, FOOT_LINES = 8.8, 3.9, 4
"""The foot's heading, and the first line of its text, below the strip; then line by line."""
BESIDE_CROSS = 3.0
"""mm that the key keeps from the corner cross."""
MOST_NAMES = 10
"""Tiles named one by one in the foot."""


def head_words(layout: Layout, cell: Cell, window: Window, words: TileWords, ruler: TextRuler) -> list[Item]:
    name = layout.names[cell]
    x = window.left + max(17.0, ruler.width(name, "Black", NAME_SIZE) + 5.0)
    right = max(ruler.width(words.print_true, TITLE.face, TITLE.size), ruler.width(words.measure_first, FACTS.face, FACTS.size))
    room = window.right - right - 6.0 - x
    placed = placed_on(layout, cell, window)
    lines = list(set_lines(title(placed, words), room, ruler, TITLE)[:1])
    lines += set_lines(facts(placed, words), room, ruler, FACTS)[:2]
    left = x + max((_width(line, ruler) for line in lines[2:]), default=0.0) + 4.0
    big = (Run(name, "Black", NAME_SIZE, "ACC"),)
    levels = tuple(window.head - above for above in LINES_ABOVE)
    beside = tuple(Words(x, y, runs, role="text") for y, runs in zip(levels, lines, strict=False))
    return [
        Tagged("H2", (Words(window.left, window.head - NAME_ABOVE, big, role="tile name"), *beside[:1])),
        *(Tagged("P", (line,)) for line in beside[1:]),
        Tagged("P", (Words(window.right, levels[0], (Run(words.print_true, "Bold", TITLE.size),), "end", role="text"),)),
        Tagged(
            "P", (Words(window.right, levels[1], (Run(words.measure_first, "Regular", FACTS.size),), "end", role="text"),)
        ),
        *_key(placed, left, levels[2], window, words, ruler),
    ]


def _key(
    placed: tuple[Placed, ...], left: float, baseline: float, window: Window, words: TileWords, ruler: TextRuler
) -> list[Item]:
    """In the line below the facts, at its right end; left out where long facts leave no room (a part of the pack is a key too)."""
    right = window.right - BESIDE_CROSS
    return [line_key(placed, right, baseline, words, ruler)] if key_width(placed, words, ruler) <= right - left else []


def _width(line: tuple[Run, ...], ruler: TextRuler) -> float:
    return sum(ruler.width(run.text, run.face, run.size) for run in line)


def title(placed: tuple[Placed, ...], words: TileWords) -> str:
    templates = [one.template for one in placed]
    if len(templates) == 1:
        return template_title(templates[0], words)
    letters = sorted({letter for template in templates for letter in template.letters})
    aids = [template.name for template in templates if not template.letters]
    return words.several.format(letters=", ".join([*letters, *aids]))


def template_title(template: Template, words: TileWords) -> str:
    if not template.letters:
        return words.aid.format(name=template.name)
    return words.one.format(letters=", ".join(template.letters), name=template.name)


def facts(placed: tuple[Placed, ...], words: TileWords) -> str:
    if len(placed) > 1:
        return words.full_size
    template = placed[0].template
    return " · ".join(part for part in (template.count, template.paper, template.side_up, words.full_size) if part)


class FootFacts(Struct, frozen=True):
    layout: Layout
    cell: Cell
    beside: Neighbours
    long_measure: str
    """In words; empty where a line in the drawing carries it."""
    diagonal: str
    """In words; empty where they stand beside its ring."""


def foot_words(here: FootFacts, window: Window, words: TileWords, ruler: TextRuler, map_left: float, name: str) -> list[Item]:
    label = ruler.width(words.map_label, "Regular", 9.0)
    room = map_left - label - 2.6 - 6.0 - window.left
    foot = window.tail + window.foot
    baseline = foot + FOOT_FIRST
    lines = set_lines(join_text(here, words, window), room, ruler, FOOT)[:FOOT_LINES]
    return [
        Tagged(
            "P", (Words(window.left, foot + FOOT_HEADING, (Run(heading(here.layout, words), "Bold", 10.5),), role="text"),)
        ),
        Tagged("P", tuple(Words(window.left, baseline + k * FOOT_STEP, runs, role="text") for k, runs in enumerate(lines))),
        Mark(
            (
                Words(map_left - 2.6, foot + 7.9, (Run(words.map_label, "Regular", 9.0, "INK2"),), "end", role="text"),
                Words(
                    window.right,
                    foot + 18.5,
                    (Run(name, "Bold", 10.0),),
                    "end",
                    role="page number",
                ),
            )
        ),
    ]


def heading(layout: Layout, words: TileWords) -> str:
    names = [layout.names[cell] for cell in layout.printed]
    if len(names) == 1:
        return words.single
    if len(names) > MOST_NAMES:
        return words.join_many.format(count=len(names), first=names[0], last=names[-1])
    return words.join.format(tiles=", ".join(names))


def join_text(here: FootFacts, words: TileWords, window: Window) -> str:
    overlapped, names = window.strip > 0, here.layout.names
    sentence = _join_sentence(here.beside, names, words) if overlapped else _butt_sentence(here.beside, names, words)
    parts = [sentence, (words.meet if overlapped else words.meet_butted) if here.beside.any else ""]
    templates = [one.template for one in placed_on(here.layout, here.cell, window)]
    parts.append((templates[0].note if len(templates) == 1 else "") or words.cut_out)
    if len(templates) > 1:
        parts.append(words.reuse)
    if len(templates) == 1 and templates[0].whole_size:
        parts.append(words.whole.format(size=templates[0].whole_size))
    if here.long_measure:
        parts.append(words.long_measure.format(measure=here.long_measure))
    if here.diagonal:
        parts.append(words.diagonal_in_foot.format(diagonal=here.diagonal))
    return " ".join(part for part in parts if part)


def _join_sentence(beside: Neighbours, names: dict[Cell, str], words: TileWords) -> str:
    """What is laid on this page; on a page that carries no strip, where it is laid itself."""
    if beside.right and beside.tail:
        return words.cut_right_and_below.format(right=names[beside.right], below=names[beside.tail])
    if beside.right:
        return words.cut_right.format(right=names[beside.right])
    if beside.tail:
        return words.cut_below.format(below=names[beside.tail])
    onto = [(line, at) for line, at in ((words.left_line, beside.left), (words.top_line, beside.head)) if at]
    if not onto:
        return ""
    lines, tiles = [line for line, _ in onto], [names[at] for _, at in onto]
    return words.cut_this.format(lines=_listed(lines, words), tiles=_listed(tiles, words))


def _butt_sentence(beside: Neighbours, names: dict[Cell, str], words: TileWords) -> str:
    """Where this page is cut, and what is taped to it there."""
    sides = (
        (words.right_line, beside.right),
        (words.bottom_line, beside.tail),
        (words.left_line, beside.left),
        (words.top_line, beside.head),
    )
    joined = [(line, names[at]) for line, at in sides if at]
    if not joined:
        return ""
    return words.cut_butted.format(
        lines=_listed([line for line, _ in joined], words), tiles=_listed([tile for _, tile in joined], words)
    )


def _listed(parts: list[str], words: TileWords) -> str:
    if len(parts) == 1:
        return parts[0]
    return words.both.format(first=", ".join(parts[:-1]), second=parts[-1])
