"""A design worked out: everything the checks, the sheet plans and the pack are made from."""

from fractions import Fraction
from functools import lru_cache

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.bulk import Bulk
from creasewright.fitting.finished_size import size_of, without_inserts
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.fitting.print_turns import WishResult
from creasewright.fitting.seen_faces import SeenFace, seen_faces
from creasewright.folding.state import Body, PanelKey, State
from creasewright.joining.run_step import StepRun
from creasewright.joining.supply import MaterialFacts
from creasewright.problems import Where
from creasewright.reading.design import Design
from creasewright.units.ruler import Ruler


class MeasureValue(Struct, frozen=True):
    name: str
    where: Where
    values: tuple[Fraction, ...]
    power: int
    """0 a number, 1 a length in mm."""
    lowest: Fraction | None
    highest: Fraction | None
    about: str


class AssemblyRun(Struct, frozen=True):
    """The steps of an assembly as they went; where `mirrored` is true it is made as their mirror image (`joining.mirrored_runs`)."""

    name: str
    """As the pack tells it: `block`, `back block`."""
    assembly: str
    runs: tuple[StepRun, ...]
    prefixes: tuple[str, ...]
    """What stands before its parts' paths in the finished thing, once for each time it is made: `front block/`, or empty."""
    mirrored: bool

    @property
    def prefix(self) -> str:
        """Of the first that is made."""
        return self.prefixes[0]

    @property
    def times(self) -> int:
        """How often it is made for one finished thing."""
        return len(self.prefixes)


class StageFacts(Struct, frozen=True, eq=False):
    """A state with a name, and what is seen of it."""

    name: str
    assembly: str
    state: State
    body: Body
    papers: dict[str, PaperFacts]
    turns: dict[str, int]
    """Part path to the turn of its blank on the sheet."""

    @property
    def size(self) -> tuple[float, float, float]:
        """Width, height and thickness over all, in its view, mm."""
        return stage_size(self)

    @property
    def faces(self) -> tuple[SeenFace, ...]:
        """Every face that shows, worked out when asked for: a check alone has no need of them."""
        return stage_faces(self)


@lru_cache(maxsize=32)
def stage_size(stage: StageFacts) -> tuple[float, float, float]:
    return size_of(stage.state, stage.body)


@lru_cache(maxsize=32)
def stage_faces(stage: StageFacts) -> tuple[SeenFace, ...]:
    return tuple(seen_faces(stage.state, stage.body, stage.papers, stage.turns))


class Finished(Struct, frozen=True):
    assembly: str
    state: State
    body: Body
    front: PanelKey | None
    size: tuple[float, float, float]
    """Closed, with all its inserts: width, height, thickness, mm."""
    bulk: Bulk

    @property
    def empty_thickness(self) -> float:
        """Without its inserts, mm."""
        return size_of(without_inserts(self.state), self.body)[2] if self.state.fits else self.size[2]


class Worked(Struct, frozen=True, eq=False):
    design: Design
    system: str
    ruler: Ruler
    makers: int
    papers: dict[str, PaperFacts]
    materials: dict[str, MaterialFacts]
    measures: tuple[MeasureValue, ...]
    blanks: tuple[Blank, ...]
    """As named in the design, in its order."""
    assemblies: tuple[AssemblyRun, ...]
    """In the order in which they are made; the finished one last."""
    stages: tuple[StageFacts, ...]
    finished: Finished | None
    """None for a design of plain cut pieces."""
    pieces: tuple[Piece, ...]
    turns: dict[str, int]
    """Part path to the turn of its blank on the sheet."""
    wishes: tuple[WishResult, ...]
    notes: tuple[str, ...]
    """What was converted and rounded."""
    sides: dict[str, tuple[tuple[Where, bool, str], ...]]
    """`expect` lines: where, whether it holds, and both sides in words; by the blank or `finished`."""
