"""What the tool file says of the sheets at hand and of how they are to be cut.

drawer:
  card:                                             # a paper's name in the design
    - {sheet: letter | A4, count: 12, price: 0.20}
    - {sheet: [12 in | 305 mm, 12 in | 305 mm]}     # as many as wished
cutting: {spares: 2, setting price: 0.05, stages: 3}
"""

from fractions import Fraction
from re import compile

from creasewright.reading.design import Text
from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import Fields, fields_of, one_text
from creasewright.reading.nodes import Mapping
from creasewright.reading.read_tool_length import tool_length
from creasewright.reading.settings import CuttingWishes, DrawerSheet, ToolLength
from creasewright.units.paper_tables import is_standard_sheet, sheet_system, standard_sheet

MOST_SHEETS = 100_000
MOST_SPARES = 1000
MOST_STAGES = 20
NOTHING = ToolLength(Fraction(0), Fraction(0))
PRICE = compile(r"(\d+(?:[.,]\d+)?)(?: [^\d\s]+)?")


def read_drawer(top: Fields) -> tuple[DrawerSheet, ...]:
    drawer = top.mapping("drawer")
    if drawer is None:
        return ()
    papers = Fields(drawer, "the drawer", top.faults)
    found: list[DrawerSheet] = []
    for name, _ in drawer.entries:
        for item in papers.items(name.text):
            fields = fields_of(item, f"a sheet of {shown(name.text)}", top.faults, name.where)
            sheet = _sheet(fields, Text(name.text, name.where))
            if sheet is not None:
                found.append(sheet)
            fields.finish()
    return tuple(found)


def _sheet(fields: Fields, paper: Text) -> DrawerSheet | None:
    texts = fields.need_texts("sheet", "letter | A4")
    count, price = _count(fields, "count", MOST_SHEETS), _price(fields, "price")
    size = _named_size(texts[0], fields.faults) if len(texts) == 1 else _written_size(texts, fields)
    return None if size is None else DrawerSheet(paper, *size, count, price)


def _named_size(text: Text, faults: Faults) -> tuple[ToolLength, ToolLength] | None:
    names = [name.strip() for name in text.text.split("|")]
    for name in names:
        if not is_standard_sheet(name):
            faults.note(text.where, f"`{name}` is not a sheet known here", "write its name, such as letter or A4, or `[width, height]`")
            return None
    inch, metric = (
        standard_sheet(next((name for name in names if sheet_system(name) == system), names[0])) for system in ("in", "mm")
    )
    return ToolLength(inch[0], metric[0]), ToolLength(inch[1], metric[1])


def _written_size(texts: tuple[Text, ...], fields: Fields) -> tuple[ToolLength, ToolLength] | None:
    if len(texts) != 2:
        if texts:
            fields.faults.note(
                fields.place("sheet"), f"`sheet` of {fields.of} has {len(texts)} values", "write its name or [width, height]"
            )
        return None
    width, height = (tool_length(text, fields.faults, NOTHING) for text in texts)
    return None if NOTHING in (width, height) else (width, height)


def read_cutting(top: Fields) -> CuttingWishes:
    node = top.node("cutting")
    if node is None:
        return CuttingWishes()
    fields = fields_of(node, "`cutting`", top.faults, top.place("cutting"))
    spares, spares_of = _spares(fields)
    price, stages = _price(fields, "setting price") or Fraction(0), _count(fields, "stages", MOST_STAGES)
    wishes = CuttingWishes(spares, spares_of, price, stages)
    fields.finish()
    return wishes


def _spares(fields: Fields) -> tuple[int, tuple[tuple[Text, int], ...]]:
    """One number for all pieces, or numbers by the names of blanks."""
    node = fields.node("spares")
    if node is None:
        return 0, ()
    if not isinstance(node, Mapping):
        return _whole(one_text(node, "spares", fields.faults), "spares", MOST_SPARES, fields.faults) or 0, ()
    named = Fields(node, "`spares`", fields.faults, fields.place("spares"))
    return 0, tuple((Text(key.text, key.where), _count(named, key.text, MOST_SPARES) or 0) for key, _ in node.entries)


def _count(fields: Fields, key: str, most: int) -> int | None:
    return _whole(fields.text(key), key, most, fields.faults)


def _whole(text: Text | None, key: str, most: int, faults: Faults) -> int | None:
    if text is None:
        return None
    if not (text.text.isascii() and text.text.isdigit() and 1 <= int(text.text[:12]) <= most):
        faults.note(text.where, f"{shown(text.text)} for `{key}` is not a whole number from 1 to {most}", f"write it as `{key}: 3`")
        return None
    return int(text.text)


def _price(fields: Fields, key: str) -> Fraction | None:
    text = fields.text(key)
    if text is None:
        return None
    found = PRICE.fullmatch(text.text.strip())
    if found is None:
        fields.faults.note(text.where, f"{shown(text.text)} for `{key}` is not a price", f"write it as `{key}: 0.20` or `{key}: 0.20 EUR`")
        return None
    return Fraction(found[1].replace(",", "."))
