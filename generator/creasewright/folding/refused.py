"""What a refused fold says, and panels in words."""

from creasewright.folding.state import PanelKey
from creasewright.problems import CreasewrightError


class FoldRefused(CreasewrightError):
    """A fold that cannot be made: `what` is wrong and `hint` says what to do."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what)
        self.what, self.hint = what, hint


def called(panel: PanelKey) -> str:
    """A panel in words: `page of left strip of front block`; a part of one panel by its own name."""
    words = [panel[1], *reversed(panel[0].split("/"))]
    return " of ".join(words[1:] if words[0] == words[1] else words)
