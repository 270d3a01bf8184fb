"""A design worked out: everything the checks, the sheet plans and the pack are made from."""

from fractions import Fraction
from functools import lru_cache

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.bulk import Bulk
from creasewright.fitting.finished_size import size_of, without_inserts
from creasewright.fitting.lies import Lie
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.fitting.print_turns import WishResult
from creasewright.fitting.seen_faces import SeenFace, seen_faces
from creasewright.folding.state import Body, PanelKey, State
from creasewright.joining.run_step import StepRun
from creasewright.joining.supply import MaterialFacts, PartSpec, Supply
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
    specs: tuple[PartSpec, ...] = ()
    supply: Supply | None = None
    """What its steps need, to go through them once more with a mistake in them."""

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
    lies: dict[str, Lie]
    """Part path to how its blank lies on the sheet."""

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
    return tuple(seen_faces(stage.state, stage.body, stage.papers, stage.lies))


@lru_cache(maxsize=8)
def blanks_back_up(worked: "Worked") -> frozenset[str]:
    return frozenset(piece.blank.name for piece in worked.pieces if piece.back_up)


class Finished(Struct, frozen=True):
    assembly: str
    state: State
    body: Body
    front: PanelKey | None
    size: tuple[float, float, float]
    """Closed, with all its inserts: width, height, thickness, mm. No thinner than its layers, however narrow its spine."""
    bulk: Bulk
    """With all its inserts."""
    bulk_empty: Bulk
    """Without them."""

    @property
    def empty_thickness(self) -> float:
        """Over all without its inserts, mm."""
        if not self.state.fits:
            return self.size[2]
        return max(size_of(without_inserts(self.state), self.body)[2], self.bulk_empty.greatest.mm)


class FittedSize(Struct, frozen=True):
    """A size of a blank that is cut to fit: taken from the real thing."""

    blank: str
    way: str
    """`width` or `height`."""
    formula: str
    """As written."""
    size: float
    """As it comes out if everything is true, mm."""
    taken: tuple[tuple[str, str, float, float], ...]
    """What is measured on the real thing: quality, of what, what it should be (mm), and how much the size changes with it."""
    worse: tuple[str, ...]


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
    lies: dict[str, Lie]
    """Part path to how its blank lies on the sheet."""
    wishes: tuple[WishResult, ...]
    notes: tuple[str, ...]
    """What was converted and rounded."""
    sides: dict[str, tuple[tuple[Where, bool, str], ...]]
    """`expect` lines: where, whether it holds, and both sides in words; by the blank or `finished`."""
    fitted: tuple[FittedSize, ...] = ()
    """Sizes that are cut to fit."""

    def turn_of(self, part: str) -> int:
        """Of a part's blank on its sheet, clockwise; 0 for what is not cut."""
        return self.lies[part].turn if part in self.lies else 0

    def paper_of(self, blank: Blank) -> PaperFacts | None:
        """A blank's paper as it lies when the blank is cut: with the back up its sides change names. None for a thing."""
        paper = self.papers.get(blank.paper)
        return paper.with_up(blank.name in self.back_up) if paper is not None else None

    def paper_called(self, blank: str) -> PaperFacts | None:
        """The same, by the blank's name."""
        return next((self.paper_of(piece.blank) for piece in self.pieces if piece.blank.name == blank), None)

    @property
    def back_up(self) -> frozenset[str]:
        """The blanks whose front is the paper's back."""
        return blanks_back_up(self)
