"""How much of everything the steps use, for one maker and for all: numbers only. mm and mm².

Adhesive    strips by their length, all-over areas by their area, both from the glue areas of the finished thing
Ribbon      each tie's way round the finished thing and its ends, up to a length that a ruler shows at a glance
Thread      each sewn line's way from hole to hole and its ends, the same
Things      what is bought and goes inside
"""

import re
from collections import Counter
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import TypeVar

from msgspec import Struct

from creasewright.fitting.adhesives import ROLL
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.worked import Worked
from creasewright.folding.state import GlueArea
from creasewright.geometry.clip import area
from creasewright.units.quantity import MM_PER_INCH
from creasewright.units.ruler import mark_at_or_above

SPARE = Fraction(1, 10)
"""A tenth more adhesive than the drawing asks for: what is squeezed out and started twice. Common practice, no source."""
Size = tuple[Fraction, Fraction]
Kind = TypeVar("Kind")


class MaterialUse(Struct, frozen=True):
    """What one maker uses of a material."""

    name: str
    strips: float = 0.0
    """Length of all strips, mm, no spare."""
    spread: float = 0.0
    """Area covered all over, mm², no spare."""
    sheets: tuple[tuple[Size, int], ...] = ()
    """Sizes of the all-over areas, rounded up to the ruler, and how many of each: what is cut from a sheet of foam or tape."""
    ties: tuple[tuple[Fraction, int], ...] = ()
    """Lengths of ribbon, cord or thread, and how many of each."""


def material_uses(worked: Worked) -> tuple[MaterialUse, ...]:
    """Every material of the design that something is made with, in the design's order."""
    state = worked.finished.state if worked.finished else None
    found = []
    for material in worked.design.materials:
        glue = [each for each in state.glue if each.material == material.name] if state else []
        ties = [each.girth + each.extra for each in state.closures if each.material == material.name] if state else []
        ties += [each.length for each in state.sewings if each.material == material.name] if state else []
        if glue or ties:
            lengths = _counted(tie_length(tie, worked.system) for tie in ties)
            found.append(MaterialUse(material.name, *_adhesive(glue, worked), tuple(lengths)))
    return tuple(found)


def _adhesive(glue: list[GlueArea], worked: Worked) -> tuple[float, float, tuple[tuple[Size, int], ...]]:
    spread = [each for each in glue if not each.width]
    sizes = []
    for each in spread:
        spans = [max(axis) - min(axis) for axis in zip(*each.polygon, strict=True)]
        wide, high = (mark_at_or_above(Fraction(span).limit_denominator(10**6), worked.ruler) for span in spans)
        sizes.append((wide, high))
    return sum(each.length for each in glue), sum(abs(area(each.polygon)) for each in spread), tuple(_counted(sizes))


def _counted(values: Iterable[Kind]) -> list[tuple[Kind, int]]:
    return list(Counter(values).items())


def tie_length(mm: float, system: str) -> Fraction:
    """Up to a whole inch, or to 10 mm."""
    return _up(mm, MM_PER_INCH if system == "in" else Fraction(10))


def _up(mm: float | Fraction, step: Fraction) -> Fraction:
    return ceil((Fraction(mm) - Fraction(1, 10**6)) / step) * step


def bought_length(mm: float | Fraction, system: str) -> str:
    """Rounded up as one buys it: `40 in`, `99 ft` above six feet; `1000 mm`, above that `31.3 m`."""
    if system == "in":
        inches = ceil(Fraction(mm) / MM_PER_INCH - Fraction(1, 10**6))
        return f"{inches} in" if inches <= 72 else f"{-(-inches // 12)} ft"
    tens = _up(mm, Fraction(10))
    return f"{int(tens)} mm" if tens <= 1000 else f"{float(_up(mm, Fraction(100)) / 1000):g} m"


def bought_millilitres(ml: float) -> str:
    """Rounded up: `3 ml`; above ten by fives."""
    whole = ceil(Fraction(ml) - Fraction(1, 10**6))
    return f"{max(1, whole) if whole <= 10 else -(-whole // 5) * 5} ml"


def bought_rolls(mm: float, system: str) -> tuple[int, str]:
    """How many rolls of tape, and how long each is as sold."""
    return ceil(Fraction(mm) / Fraction(ROLL) - Fraction(1, 10**6)), "33 ft" if system == "in" else "10 m"


def bought_area(mm2: float, system: str) -> str:
    """Rounded up: `11 sq in`, `69 cm²`."""
    unit, name = (MM_PER_INCH**2, "sq in") if system == "in" else (Fraction(100), "cm²")
    return f"{ceil(Fraction(mm2) / unit - Fraction(1, 10**6))} {name}"


def things_inside(worked: Worked) -> tuple[tuple[str, int], ...]:
    """Names of the bought things that are put in, and how many of each for one maker."""
    state = worked.finished.state if worked.finished else None
    names = [blank.name for blank in state.blanks.values() if not blank.paper] if state else []
    known = {thing.name for thing in worked.design.things}
    return tuple((name, count) for name, count in Counter(names).items() if name in known)


def packs_to_buy(paper: PaperFacts, sheets: int) -> int | None:
    """None where the pack size is not known."""
    return -(-sheets // paper.pack) if paper.pack else None


def price_of_packs(price: str, packs: int) -> str:
    """`28.80 EUR` for three packs at `9.60 EUR`; empty where the price is not a number and a currency."""
    number, _, currency = price.partition(" ")
    found = _PRICE.fullmatch(number)
    if found is None or not currency:
        return ""
    total = str(Decimal(number.replace(",", ".")) * packs)
    return f"{total.replace('.', ',') if ',' in number else total} {currency}"


_PRICE = re.compile(r"[0-9]{1,7}(?:[.,][0-9]{1,2})?")
