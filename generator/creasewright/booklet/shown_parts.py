"""What the parts of an assembly are called and coloured on the page: letters as pencilled on them, tones, prints, by part path."""

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.booklet.part_words import reader_name
from creasewright.booklet.piece_marks import part_marks
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.folding.state import State

Words = tuple[tuple[str, str], ...]
"""The engine's word and the reader's."""


class ShownParts(Struct, frozen=True):
    """Looks up a part of one assembly's steps in the finished thing's pieces. `prefix` stands before its paths there."""

    worked: Worked
    prefix: str
    letters: dict[str, str]
    late_cuts: frozenset[tuple[str, str]]
    """(part, `cut NAME`) of the slits that a step of its own cuts."""
    mirrored: bool
    """The assembly is made as a mirror image: its left strip lies at the right."""
    words: Words = ()
    """The reader's words for the engine's."""
    upside_down: frozenset[str] = frozenset()
    """Parts that are shown as if cut with their print standing on its head."""

    def uncut(self, state: State, part: str, slit: str) -> bool:
        """A slit that a later step will cut: until then a line like any other."""
        mark = (part, f"cut {slit}")
        return mark in self.late_cuts and mark not in state.made

    def letter(self, part: str) -> str:
        """Empty for a thing that is bought."""
        return self.letters.get(self.prefix + part, "")

    def is_mirror_image(self, part: str) -> bool:
        """Of a mirror pair, the piece that comes second: a template lies turned over on it."""
        before: list[str] = []
        for piece in self.worked.pieces:
            if self.prefix + part in piece.parts:
                return piece.mirror in before
            before.append(piece.letter)
        return False

    def panel_name(self, name: str) -> str:
        """A panel's name in the reader's words."""
        words = dict(self.words)
        return reader_name(lambda key: words.get(key, key), name)

    def paper(self, blank: Blank) -> PaperFacts | None:
        return self.worked.paper_of(blank)

    def turn(self, part: str) -> int:
        return (self.worked.turn_of(self.prefix + part) + (180 if part in self.upside_down else 0)) % 360

    def name(self, part: str) -> str:
        """`B`, or the thing's own name."""
        return self.letter(part) or part.split("/")[-1].rstrip(" 0123456789")


def shown_parts(worked: Worked, assembly: AssemblyRun, words: Words = ()) -> ShownParts:
    late = frozenset(mark for run in assembly.runs for mark in run.after.made if mark[1].startswith("cut "))
    return ShownParts(worked, assembly.prefix, part_marks(worked), late, assembly.mirrored, words)
