"""What each kind of line on a page means: a short sample of it, and a word. mm of the page, y down."""

from collections.abc import Sequence

from creasewright.booklet.drawing import Item, Mark, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.placing import Placed
from creasewright.booklet.tiling.template_form import OUTLINE_PEN, PLACE, line_path, score_pen
from creasewright.booklet.tiling.tile_words import TileWords

SAMPLE, TO_WORD, BETWEEN = 8.6, 1.4, 4.2
"""mm: long enough for a whole dash, two dots and a dash."""
FACE, SIZE = "Regular", 9.0
RISE = 1.1
"""mm from the baseline up to the sample."""


def line_kinds(placed: Sequence[Placed]) -> list[str]:
    """`cut`, then the looks of the scores on the page, then `place`."""
    looks = {score.look for one in placed for score in one.template.scores}
    places = [PLACE] if any(one.template.places for one in placed) else []
    return ["cut", *(look for look in ("valley", "mountain", "both", "score") if look in looks), *places]


def key_width(placed: Sequence[Placed], words: TileWords, ruler: TextRuler) -> float:
    texts = [words.kind(kind) for kind in line_kinds(placed)]
    return sum(SAMPLE + TO_WORD + ruler.width(text, FACE, SIZE) for text in texts) + BETWEEN * (len(texts) - 1)


def line_key(placed: Sequence[Placed], right: float, baseline: float, words: TileWords, ruler: TextRuler) -> Item:
    """In one line that ends at `right`."""
    x = right - key_width(placed, words, ruler)
    items: list[Item] = []
    for kind in line_kinds(placed):
        pen = OUTLINE_PEN if kind == "cut" else score_pen(kind, SAMPLE)
        items.append(Shape(line_path((x, baseline - RISE), (x + SAMPLE, baseline - RISE)), pen, role=f"key {kind}"))
        x += SAMPLE + TO_WORD
        items.append(Words(x, baseline, (Run(words.kind(kind), FACE, SIZE),), role="key"))
        x += ruler.width(words.kind(kind), FACE, SIZE) + BETWEEN
    return Mark(tuple(items))
