"""The names that every page layout has to fill: what the program asks a layout for."""

TYPES = (
    "cover title",
    "cover line",
    "section head",
    "section scope",
    "running head",
    "page number",
    "group head",
    "step number",
    "step text",
    "text",
    "table head",
    "side note",
    "measure",
    "label",
    "state line",
    "piece tag",
    "cut number",
)
"""Kinds of text, each with a type style."""

COLOURS = (
    "INK",
    "INK2",
    "RULE",
    "ACC",
    "ACC2",
    "ACC3",
    "WHITE",
    "SLIVER",
    *(f"paper {k} {side}" for k in (1, 2, 3, 4) for side in ("front", "motif", "back")),
    "board",
    "offcut",
    "ribbon",
    "ribbon inside",
    "wall",
    "floor",
    "shadow",
)
"""Colours, each with a value. A layout may name more."""

LINES = (
    "silhouette",
    "paper edge",
    "folded edge",
    "valley score",
    "mountain score",
    "open crease",
    "hidden edge",
    "sheet cut",
    "template outline",
    "dimension",
    "dimension tick",
    "glue",
    "arrow",
    "datum edge",
    "group rule",
    "table rule",
    "tile frame",
)
"""Lines of the line code and of the page, each with a width and maybe dashes."""

SECTIONS = (
    "cover",
    "materials",
    "print it true",
    "cut list",
    "sheet plans",
    "page plan",
    "score guide",
    "steps",
    "fit table",
    "templates",
    "back matter",
    "test page",
)
"""Sections that the program can set. A layout lists them in the order of its pack;
`test page` holds the words of a page by itself and stays off."""
