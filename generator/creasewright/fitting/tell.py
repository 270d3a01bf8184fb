"""One fact that tells a wrong one from the right one, and what is too little to tell."""

from msgspec import Struct

from creasewright.fitting.looks import Looking
from creasewright.folding.state import Body, State

LEAST = 60.0
"""mm² of a panel, less of which is not worth a word."""
Seen = tuple[State, Body, Looking]
"""Work as it lies before the maker, and how it looks."""


class Tell(Struct, frozen=True):
    """One fact. `right` is how it should be, `wrong` how it is."""

    kind: str
    """side     a panel shows its other side
    mostly   most of what shows of a part is its other side
    print    the print of a panel stands another way: degrees clockwise from upright
    bare     a panel shows that should not (or hardly); `wrong` is the side that shows, `looks` where it does in standing work
    covered  a panel does not show; `right` is the side that should
    place    a panel lies at another side of the whole
    edge     the longer of two opposite edges of a panel lies at another side
    looks    a `side` of a panel of standing work looks another way
    faces    a panel of standing work `looks` that way with its other side
    flat     it lies flat where it should stand; `standing`: the other way about
    size     a measure is another: `way`, and both values in `mm`
    none     nothing that has a name here
    """
    part: str = ""
    panel: str = ""
    """Empty: the whole part; with an empty part the whole work."""
    right: str = ""
    wrong: str = ""
    side: str = ""
    looks: str = ""
    way: str = ""
    mm: tuple[float, float] = (0.0, 0.0)
    """As it should be, as it is."""
    lies: str = ""
    """Of one panel of flat work: where to look for it, if it clearly lies at one side of the whole; of `covered`, on the right one."""
    lay: str = ""
    """Where it should lie, if that is another side."""
    weight: float = 0.0
    """mm² that differ, by which facts are compared; of a size, mm."""
