"""What the parts of an assembly are called and coloured on the page: letters, tones, prints, by part path."""

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.folding.state import State


class ShownParts(Struct, frozen=True):
    """Looks up a part of one assembly's steps in the finished thing's pieces. `prefix` stands before its paths there."""

    worked: Worked
    prefix: str
    letters: dict[str, str]
    late_cuts: frozenset[tuple[str, str]]
    """(part, `cut NAME`) of the slits that a step of its own cuts."""
    mirrored: bool
    """The assembly is made as a mirror image, so its parts are not called by the names of the others."""
    upside_down: frozenset[str] = frozenset()
    """Parts that are shown as if cut with their print standing on its head."""

    def uncut(self, state: State, part: str, slit: str) -> bool:
        """A slit that a later step will cut: until then a line like any other."""
        mark = (part, f"cut {slit}")
        return mark in self.late_cuts and mark not in state.made

    def letter(self, part: str) -> str:
        """Empty for a thing that is bought."""
        return self.letters.get(self.prefix + part, "")

    def paper(self, blank: Blank) -> PaperFacts | None:
        return self.worked.paper_of(blank)

    def turn(self, part: str) -> int:
        return (self.worked.turn_of(self.prefix + part) + (180 if part in self.upside_down else 0)) % 360

    def name(self, part: str) -> str:
        """`B`, or the thing's own name."""
        return self.letter(part) or part.split("/")[-1].rstrip(" 0123456789")


def shown_parts(worked: Worked, assembly: AssemblyRun) -> ShownParts:
    letters = {part: piece.letter for piece in worked.pieces for part in piece.parts}
    late = frozenset(mark for run in assembly.runs for mark in run.after.made if mark[1].startswith("cut "))
    return ShownParts(worked, assembly.prefix, letters, late, assembly.mirrored)
