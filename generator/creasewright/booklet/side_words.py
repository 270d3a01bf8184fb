"""What a side of a paper is called on the page: by its print, so that nobody has to know which one is the front."""

from collections.abc import Callable

from creasewright.booklet.context import PackContext
from creasewright.booklet.step_views import StepPicture
from creasewright.fitting.paper_facts import PaperFacts

Word = Callable[[str], str]
"""The reader's word for one of the engine's."""
PRINT_WORDS = {
    "one-way": "sprig side",
    "two-way": "pod side",
    "all-over": "seed side",
    "by panel": "page side",
    "plain": "plain side",
}


def side_words(paper: PaperFacts | None, side: str, word: Word) -> str:
    """The side of a paper that is up, told by its print; `front` and `back` where both sides look alike."""
    if paper is None:
        return ""
    front, back = paper.front, paper.back
    if front == back:
        return word(f"{side} side") if paper.sides_differ else ""
    return word(PRINT_WORDS[front if side == "front" else back])


def up_words(context: PackContext, picture: StepPicture) -> str:
    """`sprig side up`, `plain side inside`; nothing where both sides are alike, or it has no name."""
    blank, side = picture.up
    name = side_words(context.worked.paper_called(blank), side, context.word)
    return f"{name} {context.word('inside' if picture.inside else 'up')}" if name else ""
