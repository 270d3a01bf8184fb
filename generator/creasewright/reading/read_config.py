"""The maker's configuration file and tool file; both may be absent, and then the built-in values hold."""

import os
import sys
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.reading.faults import Faults
from creasewright.reading.fields import Fields, fields_of
from creasewright.reading.read_drawer import read_cutting, read_drawer
from creasewright.reading.read_file import read_file
from creasewright.reading.read_tool_length import read_tool_length, tool_length
from creasewright.reading.settings import (
    A4,
    ALL,
    BUTT,
    INCHES,
    LEFT,
    LETTER,
    MILLIMETRES,
    NEEDED,
    OVERLAP,
    RIGHT,
    MakerSettings,
    TemplateWishes,
    ToolLength,
    Tools,
)
from creasewright.reading.yaml_nodes import read_nodes
from creasewright.units.misread import Misread
from creasewright.units.read_length import read_length

PLACE_VARIABLE = "CREASEWRIGHT_CONFIG"
MOST_MAKERS = 1000
LEAST_OVERLAP, MOST_OVERLAP = 5, 25
"""mm: enough to hold glue; more only takes pages."""
MOST_SPACERS = 8
TRIMMER = {"longest cut": "longest_cut", "narrowest strip": "narrowest_strip", "least trim": "least_trim"}
HAND_ERRORS = {
    "trimmed": "trimmed", "scored": "scored", "traced and scissored": "traced", "placed by eye": "placed", "edge of glue": "glued",
    "measured": "measured",
}  # fmt: skip
SCORE_BOARD = {"grooves": "grooves", "range": "board"}


def settings_file(environment: Mapping[str, str], home: Path, system: str = sys.platform) -> Path:
    """Where the configuration file stands: as the environment says, or in the platform's folder for such files."""
    said = environment.get(PLACE_VARIABLE)
    if said:
        return Path(said)
    if system == "win32":
        folder = Path(environment.get("APPDATA") or home / "AppData" / "Roaming")
    elif system == "darwin":
        folder = home / "Library" / "Application Support"
    else:
        folder = Path(environment.get("XDG_CONFIG_HOME") or home / ".config")
    return folder / "creasewright" / "settings.yaml"


def usual_settings() -> MakerSettings:
    """The settings of whoever runs the program; raises ProblemsFound."""
    path = settings_file(os.environ, Path.home())
    return read_settings(path) if path.exists() or PLACE_VARIABLE in os.environ else MakerSettings()


def read_settings(path: Path) -> MakerSettings:
    """`page`, `units`, `makers`, `audience`, `ruler`, `printer`, `templates`; raises ProblemsFound."""
    return read_settings_text(read_file(path), str(path))


def read_settings_text(text: str, file: str) -> MakerSettings:
    faults, usual = Faults(), MakerSettings()
    fields = Fields(read_nodes(text, file, faults, "page: letter"), "the configuration", faults)
    audience, printer = fields.text("audience"), fields.text("printer")
    settings = MakerSettings(
        page=(fields.word_or_none("page", (LETTER, A4, "A4")) or usual.page).lower(),
        units=fields.word("units", (INCHES, MILLIMETRES), usual.units),
        makers=_makers(fields) or usual.makers,
        audience=audience.text if audience else usual.audience,
        ruler=read_tool_length(fields, "ruler", usual.ruler),
        printer=printer.text if printer else usual.printer,
        templates=_templates(fields, usual.templates),
    )
    fields.finish()
    faults.raise_if_any()
    return settings


def _templates(top: Fields, usual: TemplateWishes) -> TemplateWishes:
    """`templates: {pieces: needed or all, joining: overlap or butt, overlap: 3/8 in | 10 mm}`."""
    node = top.node("templates")
    if node is None:
        return usual
    fields = fields_of(node, "`templates`", top.faults, top.place("templates"))
    wishes = TemplateWishes(
        fields.word("pieces", (NEEDED, ALL), usual.pieces),
        fields.word("joining", (OVERLAP, BUTT), usual.joining),
        read_tool_length(fields, "overlap", usual.overlap),
    )
    fields.finish()
    if not all(LEAST_OVERLAP <= mm <= MOST_OVERLAP for mm in (wishes.overlap.inch, wishes.overlap.metric)):
        top.faults.note(top.place("templates"), *overlap_fault("this overlap"))
    return wishes


def overlap_fault(said: str) -> tuple[str, str]:
    """What and what to do."""
    return f"{said} is out of reach", f"take {LEAST_OVERLAP} to {MOST_OVERLAP} mm, or 1/4 to 15/16 in"


def read_overlap(text: str) -> ToolLength:
    """As given by the option; raises ProblemsFound."""
    try:
        length = read_length(text).mm
    except Misread as misread:
        raise ProblemsFound([Problem(NOWHERE, f"--overlap {text}: {misread.what}", misread.hint)]) from misread
    if not LEAST_OVERLAP <= length <= MOST_OVERLAP:
        raise ProblemsFound([Problem(NOWHERE, *overlap_fault(f"--overlap {text}"))])
    return ToolLength(length, length)


def read_tools(path: Path) -> Tools:
    """`trimmer: {longest cut, narrowest strip, least trim}`, `score board: {grooves, range, spacers, stop}`, `hand errors: {…}`, `drawer`,
    `cutting`; raises ProblemsFound.
    """
    return read_tools_text(read_file(path), str(path))


def read_tools_text(text: str, file: str) -> Tools:
    faults, usual = Faults(), Tools()
    top = Fields(read_nodes(text, file, faults, "trimmer: {longest cut: 12 in}"), "the tool file", faults)
    lengths: dict[str, ToolLength] = {}
    spacers, stop = usual.spacers, usual.stop
    for tool, keys in (("trimmer", TRIMMER), ("score board", SCORE_BOARD)):
        node = top.node(tool)
        if node is not None:
            fields = fields_of(node, f"`{tool}`", faults, top.place(tool))
            lengths |= {name: read_tool_length(fields, key, getattr(usual, name)) for key, name in keys.items()}
            if tool == "score board":
                spacers, stop = _spacers(fields), fields.word("stop", (LEFT, RIGHT), usual.stop)
            fields.finish()
    own, drawer, cutting = _hand_errors(top, faults), read_drawer(top), read_cutting(top)
    top.finish()
    faults.raise_if_any()
    return Tools(**lengths, spacers=spacers, stop=stop, hand_errors=own, drawer=drawer, cutting=cutting)


def _spacers(fields: Fields) -> tuple[ToolLength, ...]:
    """`spacers: [1/16 in, 2 mm]`."""
    texts = fields.texts("spacers")
    if len(texts) > MOST_SPACERS:
        fields.faults.note(fields.place("spacers"), f"{len(texts)} spacers", f"name {MOST_SPACERS} at most, those you use")
        return ()
    unset = ToolLength(Fraction(0), Fraction(0))
    found = [tool_length(text, fields.faults, unset) for text in texts]
    return tuple(length for length in found if length != unset)


def _hand_errors(top: Fields, faults: Faults) -> dict[str, ToolLength]:
    """`hand errors: {trimmed: 0.8 mm, placed by eye: 1 mm}`: what is exceeded in 1 of 20 cases."""
    node = top.node("hand errors")
    if node is None:
        return {}
    fields = fields_of(node, "`hand errors`", faults, top.place("hand errors"))
    unset = ToolLength(Fraction(0), Fraction(0))
    found = {name: read_tool_length(fields, key, unset) for key, name in HAND_ERRORS.items()}
    fields.finish()
    return {name: length for name, length in found.items() if length != unset}


def _makers(fields: Fields) -> int | None:
    text = fields.whole("makers")
    if text is None:
        return None
    if not 1 <= int(text.text) <= MOST_MAKERS:
        fields.faults.note(text.where, f"{text.text} makers", f"write a number from 1 to {MOST_MAKERS}")
        return None
    return int(text.text)
