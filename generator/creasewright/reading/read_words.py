"""The reader's words: a table from the engine's words to those that a pack speaks. One file for each audience.

    words: home
    table:
      blank: piece
      caliper: thickness

Every engine word of `ENGINE_WORDS` has an entry, so that no reader meets one of them; further entries are welcome (the
texts of a layout may ask for them). Words are plain text on one line; all faults are told in one run.
"""

from pathlib import Path

from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import Fields, as_mapping
from creasewright.reading.nodes import Mapping
from creasewright.reading.read_file import read_file
from creasewright.reading.yaml_nodes import read_nodes

ENGINE_WORDS = (
    "blank", "panel", "score", "valley", "mountain", "head", "tail", "left", "right", "head-left", "head-right", "tail-left",
    "tail-right", "fore edge", "spine", "grain", "caliper", "grammage", "front", "back", "plain", "one-way", "two-way",
    "all-over", "by panel", "upright", "offcut", "reveal", "tile", "registration mark",
)  # fmt: skip
"""What the program may ask for."""
MOST_WORDS = 300
LONGEST_WORD = 80
"""Letters of a reader's word; what is longer is a sentence, and belongs to a text of the layout."""


def read_words(path: Path) -> dict[str, str]:
    """Engine word to reader's word. ProblemsFound names every fault."""
    return words_from_text(read_file(path), str(path))


def words_from_text(text: str, file: str) -> dict[str, str]:
    """The table that the text of `file` holds."""
    faults = Faults()
    fields = Fields(read_nodes(text, file, faults, "words: home"), "the word table", faults)
    fields.need_text("words", "home")
    node = fields.node("table")
    if node is None:
        fields.missing("table", "{blank: piece, …}")
    mapping = (as_mapping(node, "`table`", faults) if node else None) or Mapping((), fields.where)
    words = _table(mapping, faults)
    absent = [word for word in ENGINE_WORDS if word not in words]
    if absent and mapping.entries and len(words) == len(mapping.entries):
        listed = ", ".join(f"`{word}`" for word in absent[:6]) + (" …" if len(absent) > 6 else "")
        faults.note(fields.place("table"), f"`table` has no {listed}", f"add what your reader calls it, as in `{absent[0]}: …`")
    fields.finish()
    faults.raise_if_any()
    return words


def _table(mapping: Mapping, faults: Faults) -> dict[str, str]:
    if len(mapping.entries) > MOST_WORDS:
        faults.note(mapping.where, f"`table` holds {len(mapping.entries)} words", f"write {MOST_WORDS} at most")
    inner = Fields(mapping, "the table", faults)
    words: dict[str, str] = {}
    for key, _ in mapping.entries[:MOST_WORDS]:
        said = inner.text(key.text)
        if said is None:
            continue
        if "\n" in said.text or len(said.text) > LONGEST_WORD:
            faults.note(said.where, f"{shown(said.text)} is too long for a word", f"write {LONGEST_WORD} letters on one line")
            continue
        words[key.text] = said.text
    return words
