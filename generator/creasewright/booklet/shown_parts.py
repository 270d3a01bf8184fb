"""What the parts of an assembly are called and coloured on the page: letters, tones, prints, by part path."""

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.worked import AssemblyRun, Worked


class ShownParts(Struct, frozen=True):
    """Looks up a part of one assembly's steps in the finished thing's pieces. `prefix` stands before its paths there."""

    worked: Worked
    prefix: str
    letters: dict[str, str]
    mirrored: bool
    """The assembly is made as a mirror image, so its parts are not called by the names of the others."""

    def letter(self, part: str) -> str:
        """Empty for a thing that is bought."""
        return self.letters.get(self.prefix + part, "")

    def paper(self, blank: Blank) -> PaperFacts | None:
        return self.worked.papers.get(blank.paper)

    def turn(self, part: str) -> int:
        return self.worked.turns.get(self.prefix + part, 0)

    def name(self, part: str) -> str:
        """`B`, or the thing's own name."""
        return self.letter(part) or part.split("/")[-1].rstrip(" 0123456789")


def shown_parts(worked: Worked, assembly: AssemblyRun) -> ShownParts:
    letters = {part: piece.letter for piece in worked.pieces for part in piece.parts}
    return ShownParts(worked, assembly.prefix, letters, assembly.mirrored)
