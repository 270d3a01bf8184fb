"""Papers and things with their numbers worked out: what the maker has in the drawer, in the pack's system."""

from collections.abc import Callable
from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.blank import Blank, Panel
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.outline import Line, Outline
from creasewright.geometry.point import Point
from creasewright.joining.adhesive_rules import STICKS
from creasewright.problems import NOWHERE, Problem, ProblemsFound, Where
from creasewright.reading import design
from creasewright.reading.design import Design, Material, Text
from creasewright.units.paper_tables import PaperFault, grammage_of, is_standard_sheet, read_caliper, sheet_system, standard_sheet

TONES = 4
"""Papers beyond so many share tones in the drawings."""
ADHESIVES = (
    Material("glue", NOWHERE, "glue", None, None, "piece", None),
    Material("double-sided tape", NOWHERE, "tape", Text("1/4 in | 6 mm", NOWHERE), None, "length", None),
)
"""What is at hand where a design lists neither glue nor tape. Common practice, no source."""
Exact = Callable[[Text], Fraction]
"""A length in mm, converted exactly."""
Count = Callable[[Text], int]


def fault(where: Where, what: str, hint: str) -> ProblemsFound:
    return ProblemsFound([Problem(where, what, hint)])


def with_adhesives(written: Design) -> Design:
    """The design, with the usual adhesives where it lists none. A name that it uses for something else is left to it."""
    if any(material.kind in STICKS for material in written.materials):
        return written
    taken = {item.name for items in (written.materials, written.things, written.blanks, written.assemblies) for item in items}
    return replace(written, materials=(*written.materials, *(one for one in ADHESIVES if one.name not in taken)))


def paper_facts(written: design.Paper, tone: int, system: str, exact: Exact, count: Count) -> PaperFacts:
    """A paper with its numbers worked out. Raises ProblemsFound."""
    try:
        name, sheet = sheet_of(written, system, exact)
        caliper = (
            read_caliper(str(written.caliper)).value
            if plain_caliper(written.caliper)
            else (exact(written.caliper) if written.caliper is not None else None)
        )
        grammage = grammage_of(str(written.grammage)) if written.grammage is not None else None
    except PaperFault as bad:
        raise fault(written.where, bad.what, bad.hint) from None
    ragged = exact(written.ragged) if written.ragged is not None else Fraction(0)
    lost = dict.fromkeys(("left", "head", "right", "tail"), ragged)
    if written.brand_strip is not None:
        lost[written.brand_strip.edge] += exact(written.brand_strip.width)
    if lost["left"] + lost["right"] >= sheet[0] or lost["head"] + lost["tail"] >= sheet[1]:
        raise fault(written.where, f"nothing of the sheet of {written.name} is left to use", "make the lost strips narrower")
    pack = count(written.pack) if written.pack is not None else None
    return PaperFacts(
        name=written.name,
        called=str(written.called) if written.called is not None else written.name,
        tone=tone,
        sheet=sheet,
        sheet_name=name,
        lost=(lost["left"], lost["head"], lost["right"], lost["tail"]),
        grammage=grammage,
        weight_as_written=str(written.grammage) if written.grammage is not None else "",
        caliper=caliper,
        front=written.front,
        back=written.back,
        runs=written.runs,
        back_agrees=written.back_agrees,
        grain=written.grain,
        sides_differ=written.sides_differ,
        core=str(written.core) if written.core is not None else "",
        pack=pack,
        price=str(written.price) if written.price is not None else "",
    )


def sheet_of(written: design.Paper, system: str, exact: Exact) -> tuple[str, tuple[Fraction, Fraction]]:
    """The sheet's name (empty for a size in numbers) and its width and height, in the pack's system."""
    if len(written.sheet) == 2:
        return "", (exact(written.sheet[0]), exact(written.sheet[1]))
    names = [name.strip() for name in str(written.sheet[0]).split("|")]
    for name in names:
        if not is_standard_sheet(name):
            raise fault(
                written.sheet[0].where,
                f"`{name}` is not a sheet known here",
                "write its name, such as letter or A4, or `[width, height]`",
            )
    name = next((n for n in names if sheet_system(n) == system), names[0])
    return name, standard_sheet(name)


def plain_caliper(text: Text | None) -> bool:
    """`12 pt` and the like, which only a caliper may be given in."""
    return text is not None and any(str(text).strip().endswith(unit) for unit in ("pt", "mil", "µm", "um"))


def thing_blank(name: str, where: Where, width: Fraction, height: Fraction) -> Blank:
    """A bought thing as a blank of one panel and no paper."""
    corners = (Point(Fraction(0), Fraction(0)), Point(width, Fraction(0)), Point(width, height), Point(Fraction(0), height))
    outline = Outline(tuple(Line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)))
    polygon = tuple((float(p.x), float(p.y)) for p in corners)
    panel = Panel(name, outline, polygon, float(width * height))
    return Blank(name, "", where, width, height, outline, (), (), (), (panel,), ())
