"""A file of rectangles to cut, with nothing of a design in it: a table (.csv) or a YAML file.

    name,width,height,count,turn          sheets: [{width: 192, height: 192, count: 20, price: 2.50, margin: 4}]
    door,64,40 1/2,12,yes                 rectangles: [{name: door, width: 64, height: 40 1/2, count: 12, turn: yes}]
    shelf,96,96,5,no

Sizes are plain numbers, all in one unit, whatever it is. `name`, `count` (1) and `turn` (no) may be left out. A table says nothing of
the sheets. `margin` is one number for all edges or [left, head, right, tail].
"""

from csv import reader
from fractions import Fraction

from msgspec import Struct

from creasewright.problems import Where
from creasewright.reading.design import Text
from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import Fields, fields_of, meant
from creasewright.reading.nodes import Mapping, Scalar
from creasewright.reading.yaml_nodes import read_nodes
from creasewright.units.misread import Misread
from creasewright.units.spellings import PLAIN, count_of

MOST_PIECES = 999_999
"""Of one rectangle; a count in the millions is a slip."""
MOST_KINDS = 2_000
COLUMNS = ("name", "width", "height", "count", "turn")
Margins = tuple[Fraction, Fraction, Fraction, Fraction]


class WrittenRectangle(Struct, frozen=True):
    where: Where
    name: str
    width: Fraction
    height: Fraction
    count: int
    may_turn: bool


class WrittenSheet(Struct, frozen=True):
    where: Where
    width: Fraction
    height: Fraction
    limit: int | None
    price: Fraction
    margins: Margins
    """Lost at the left, head, right and tail."""


class WrittenCutting(Struct, frozen=True):
    rectangles: tuple[WrittenRectangle, ...]
    sheets: tuple[WrittenSheet, ...]


def read_rectangles(text: str, file: str) -> WrittenCutting:
    """A name that ends in .csv is a table, any other YAML. Raises ProblemsFound with every fault of the file."""
    faults = Faults()
    found = _table(text, file, faults) if file.lower().endswith(".csv") else _yaml(text, file, faults)
    rectangles = found.rectangles
    if not rectangles:
        faults.note(Where(file), "there is no rectangle in the file", "write one a line, with its width and height")
    if len(rectangles) > MOST_KINDS:
        faults.note(Where(file), f"{len(rectangles)} rectangles", f"up to {MOST_KINDS} are planned together: give equal ones a count")
    seen: set[str] = set()
    for one in rectangles:
        if one.name in seen:
            faults.note(one.where, f"there are two rectangles {shown(one.name)}", "give each its own name, or one the count of both")
        seen.add(one.name)
    faults.raise_if_any()
    return found


def _table(text: str, file: str, faults: Faults) -> WrittenCutting:
    lines = [(number, row) for number, row in enumerate(reader(text.splitlines()), start=1) if any(cell.strip() for cell in row)]
    if not lines:
        return WrittenCutting((), ())
    head_line, head = lines[0]
    columns = [cell.strip().lower() for cell in head]
    for column in columns:
        if column not in COLUMNS:
            faults.note(Where(file, head_line, 1), f"{shown(column)} is not a column of the table", meant(column, COLUMNS))
    missing = [name for name in ("width", "height") if name not in columns]
    if missing:
        faults.note(Where(file, head_line, 1), f"the table has no column `{missing[0]}`", f"begin it with the line {','.join(COLUMNS)}")
        return WrittenCutting((), ())
    rows = []
    for line, row in lines[1:]:
        where = Where(file, line, 1)
        if len(row) > len(columns):
            faults.note(where, f"{len(row)} values in a table of {len(columns)} columns", "write one value for each column")
        entries = tuple((Scalar(c, where, False), Scalar(v.strip(), where, False)) for c, v in zip(columns, row, strict=False) if v.strip())
        known = tuple(entry for entry in entries if entry[0].text in COLUMNS)
        rows.append(_rectangle(Fields(Mapping(known, where), f"line {line}", faults), line - head_line, faults))
    return WrittenCutting(tuple(rows), ())


def _yaml(text: str, file: str, faults: Faults) -> WrittenCutting:
    top = Fields(read_nodes(text, file, faults, "rectangles: [{width: 64, height: 40, count: 12}]"), "the file", faults)
    rectangles = tuple(
        _rectangle(fields_of(node, f"rectangle {number}", faults, node.where), number, faults)
        for number, node in enumerate(top.items("rectangles"), start=1)
    )
    sheets = tuple(
        _sheet(fields_of(node, f"sheet {number}", faults, node.where), faults)
        for number, node in enumerate(top.items("sheets"), start=1)
    )
    top.finish()
    return WrittenCutting(rectangles, sheets)


def _rectangle(fields: Fields, number: int, faults: Faults) -> WrittenRectangle:
    name, count = fields.text("name"), fields.text("count")
    one = WrittenRectangle(
        fields.where,
        name.text if name else str(number),
        size_of(fields.need_text("width", "64"), "width", faults),
        size_of(fields.need_text("height", "40"), "height", faults),
        1 if count is None else count_in(count, "count", MOST_PIECES, faults),
        fields.yes("turn"),
    )
    fields.finish()
    return one


def _sheet(fields: Fields, faults: Faults) -> WrittenSheet:
    count, price = fields.text("count"), fields.text("price")
    width = size_of(fields.need_text("width", "192"), "width", faults)
    height = size_of(fields.need_text("height", "192"), "height", faults)
    margins = _margins(fields.texts("margin"), fields, faults)
    if width - margins[0] - margins[2] <= 0 or height - margins[1] - margins[3] <= 0:
        faults.note(fields.where, f"nothing of {fields.of} is left to use", "make its margins narrower")
    one = WrittenSheet(
        fields.where,
        width,
        height,
        None if count is None else count_in(count, "count", MOST_PIECES, faults),
        Fraction(1) if price is None else number_of(price, "price", faults) or Fraction(0),
        margins,
    )
    fields.finish()
    return one


def _margins(texts: tuple[Text, ...], fields: Fields, faults: Faults) -> Margins:
    if len(texts) not in (0, 1, 4):
        faults.note(fields.place("margin"), f"`margin` has {len(texts)} values", "write one, or [left, head, right, tail]")
        return (Fraction(0),) * 4
    found = [number_of(text, "margin", faults) or Fraction(0) for text in texts] or [Fraction(0)]
    return (found[0], found[0], found[0], found[0]) if len(found) == 1 else (found[0], found[1], found[2], found[3])


def number_of(text: Text, key: str, faults: Faults) -> Fraction | None:
    """A plain number, not negative; None after a fault."""
    found = PLAIN.fullmatch(text.text.strip())
    if found is None:
        sign = text.text.strip().startswith(("-", "−"))
        what = f"{shown(text.text)} for `{key}` is {'negative' if sign else 'not a number'}"
        faults.note(text.where, what, "write a number such as 40, 40.5 or 40 1/2")
        return None
    try:
        return count_of(found)
    except Misread as misread:
        faults.note(text.where, misread.what, misread.hint)
        return None


def size_of(text: Text, key: str, faults: Faults) -> Fraction:
    """Greater than nothing; 1 after a fault."""
    if not text.text:
        return Fraction(1)
    number = number_of(text, key, faults)
    if number is not None and number <= 0:
        faults.note(text.where, f"{shown(text.text)} for `{key}` is nothing", "write a size greater than nothing")
    return number or Fraction(1)


def count_in(text: Text, key: str, most: int, faults: Faults) -> int:
    """A whole number from 1; 1 after a fault."""
    written = text.text.strip()
    if written.isascii() and written.isdigit() and 1 <= int(written[:12]) <= most:
        return int(written)
    faults.note(text.where, f"{shown(text.text)} for `{key}` is not a whole number from 1 to {most}", f"write it as `{key}: 24`")
    return 1
