"""Papers, materials, things and measures as written."""

from creasewright.problems import Where
from creasewright.reading.design import Material, Measure, Paper, Strip, Text, Thing
from creasewright.reading.faults import shown
from creasewright.reading.fields import Fields, fields_of, one_text, some_texts
from creasewright.reading.nodes import Mapping, Node, Scalar, Sequence

PRINTS = ("plain", "one-way", "two-way", "all-over", "by panel")
DIRECTIONS = ("height", "width")
EDGES = ("head", "tail", "left", "right")
KINDS = ("glue", "tape", "foam", "ribbon", "thread", "cord")
SOLD_BY = {"glue": "piece", "foam": "sheet"}
"""How a kind is sold where the file does not say: the rest by length. Common practice, no source."""


def read_papers(top: Fields) -> tuple[Paper, ...]:
    return tuple(_paper(name, node, top) for name, node in top.named("papers", "paper"))


def read_materials(top: Fields) -> tuple[Material, ...]:
    return tuple(_material(name, node, top) for name, node in top.named("materials", "material"))


def read_things(top: Fields) -> tuple[Thing, ...]:
    return tuple(_thing(name, node, top) for name, node in top.named("things", "thing"))


def read_measures(top: Fields) -> tuple[Measure, ...]:
    return tuple(_measure(name, node, top) for name, node in top.named("measures", "measure"))


def _paper(name: Scalar, node: Node, top: Fields) -> Paper:
    fields = fields_of(node, f"paper {shown(name.text)}", top.faults, name.where)
    paper = Paper(
        name=name.text,
        where=name.where,
        sheet=_sheet(fields),
        grammage=fields.text("grammage"),
        caliper=fields.text("caliper"),
        front=fields.word("front", PRINTS, "plain"),
        back=fields.word("back", PRINTS, "plain"),
        runs=fields.word("runs", DIRECTIONS, "height"),
        back_agrees=fields.word("back agrees", ("head-to-head", "head-to-tail"), "head-to-head"),
        grain=fields.word("grain", (*DIRECTIONS, "none", "unknown"), "unknown"),
        sides_differ=fields.yes("sides differ"),
        core=fields.text("core"),
        brand_strip=_brand_strip(fields),
        ragged=fields.text("ragged"),
        pack=fields.whole("pack"),
        price=fields.text("price"),
        called=fields.text("called"),
    )
    fields.finish()
    return paper


def _sheet(fields: Fields) -> tuple[Text, ...]:
    texts = fields.need_texts("sheet", "letter | A4")
    if len(texts) > 2:
        fields.faults.note(
            fields.place("sheet"),
            f"`sheet` of {fields.of} has {len(texts)} values",
            "write a size such as letter | A4, or [width, height]",
        )
    return texts


def _brand_strip(paper: Fields) -> Strip | None:
    node = paper.node("brand strip")
    if node is None:
        return None
    if not isinstance(node, Mapping):
        width = one_text(node, "brand strip", paper.faults)
        return Strip("tail", width) if width else None
    fields = Fields(node, f"the brand strip of {paper.of}", paper.faults, paper.place("brand strip"))
    strip = Strip(fields.word("edge", EDGES, "tail"), fields.need_text("width", "1/2 in | 12 mm"))
    fields.finish()
    return strip


def _material(name: Scalar, node: Node, top: Fields) -> Material:
    fields = fields_of(node, f"material {shown(name.text)}", top.faults, name.where)
    if not fields.has("kind"):
        fields.missing("kind", "glue")
    kind = fields.word("kind", KINDS, "glue")
    material = Material(
        name=name.text,
        where=name.where,
        kind=kind,
        width=fields.text("width"),
        thick=fields.text("thick"),
        sold_by=fields.word("sold by", ("length", "sheet", "piece"), SOLD_BY.get(kind, "length")),
        called=fields.text("called"),
    )
    fields.finish()
    return material


def _thing(name: Scalar, node: Node, top: Fields) -> Thing:
    fields = fields_of(node, f"thing {shown(name.text)}", top.faults, name.where)
    thing = Thing(
        name=name.text,
        where=name.where,
        width=fields.need_text("width"),
        height=fields.need_text("height"),
        thick=fields.text("thick"),
        called=fields.text("called"),
    )
    fields.finish()
    return thing


def _measure(name: Scalar, node: Node, top: Fields) -> Measure:
    """A formula, a list of two, or a mapping of `is`, `from`, `to`, `about`."""
    if not isinstance(node, Mapping):
        return Measure(name.text, name.where, _formulas(node, name.text, name.where, top), None, None, None)
    fields = Fields(node, f"measure {shown(name.text)}", top.faults, name.where)
    value = fields.node("is")
    if value is None:
        fields.missing("is")
    formulas = _formulas(value, "is", name.where, top) if value else (Text("", name.where),)
    measure = Measure(name.text, name.where, formulas, fields.text("from"), fields.text("to"), fields.text("about"))
    fields.finish()
    return measure


def _formulas(node: Node, key: str, where: Where, top: Fields) -> tuple[Text, ...]:
    texts = some_texts(node, key, top.faults)
    if isinstance(node, Sequence) and len(node.items) not in (0, 2):
        top.faults.note(node.where, f"`{key}` lists {len(node.items)} formulas", "write one formula, or a pair of two")
    return texts or (Text("", where),)
