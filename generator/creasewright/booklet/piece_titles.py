"""What the pieces of a pack are called, and in which order they come."""

from creasewright.booklet.part_words import part_words
from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked


def piece_title(worked: Worked, piece: Piece) -> str:
    """`Left strip`: what its blank is called, with a capital."""
    title = part_words(worked, piece.blank.name)
    return title[:1].upper() + title[1:]


def pieces_of_paper(worked: Worked, paper: str) -> tuple[Piece, ...]:
    return tuple(piece for piece in worked.pieces if piece.blank.paper == paper)


def listed_letters(letters: tuple[str, ...]) -> str:
    """`A`, `A and B`, `A to E` (neighbours in the alphabet, three or more), `A, C and F`."""
    runs: list[list[str]] = []
    for letter in letters:
        follows = runs and len(letter) == 1 and len(runs[-1][-1]) == 1 and ord(letter) == ord(runs[-1][-1]) + 1
        if follows:
            runs[-1].append(letter)
        else:
            runs.append([letter])
    parts: list[str] = []
    for run in runs:
        parts += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else run
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}" if parts else ""
