"""Small helpers shared by the tests of the cutting plans."""

from fractions import Fraction

from creasewright.cutting.demand import Piece, Stock, Trimmer

TRIMMER = Trimmer(longest_cut=Fraction(330), narrowest_strip=Fraction(0), least_trim=Fraction(0))
"""Never in the way."""


def piece(key: str, width: int, height: int, count: int = 1, *, may_turn: bool = False) -> Piece:
    return Piece(key, Fraction(width), Fraction(height), count, may_turn)


def stock(width: int, height: int, lost: tuple[int, int, int, int] = (0, 0, 0, 0)) -> Stock:
    left, head, right, tail = lost
    return Stock("card", Fraction(width), Fraction(height), (Fraction(left), Fraction(head), Fraction(right), Fraction(tail)))


def pieces_of(sizes: list[tuple[int, int, int]], *, may_turn: bool) -> list[Piece]:
    return [piece(f"p{place}", *size, may_turn=may_turn) for place, size in enumerate(sizes)]


def times(pieces: list[Piece], makers: int) -> list[Piece]:
    return [Piece(p.key, p.width, p.height, p.count * makers, p.may_turn) for p in pieces]
