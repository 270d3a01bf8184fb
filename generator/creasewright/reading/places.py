"""Points and lines of a blank as written."""

from creasewright.reading.design import Place, Text
from creasewright.reading.faults import Faults
from creasewright.reading.fields import one_text
from creasewright.reading.nodes import Node, Scalar, Sequence


def read_place(node: Node, key: str, faults: Faults) -> Place:
    """A point: `[x, y]`, a compass word, or `crossing of A and B`."""
    if isinstance(node, Scalar):
        return Place(node.where, None, one_text(node, key, faults))
    if isinstance(node, Sequence) and len(node.items) == 2:
        x, y = (one_text(item, key, faults) or Text("", node.where) for item in node.items)
        return Place(node.where, (x, y), None)
    faults.note(node.where, f"`{key}` holds something else than a point", "write [x, y], or a place such as head-left or centre")
    return Place(node.where, None, None)


def read_line(node: Node | None, key: str, faults: Faults) -> tuple[Place, Place] | None:
    """A line from point to point."""
    if node is None:
        return None
    if isinstance(node, Sequence) and len(node.items) == 2:
        start, end = (read_place(item, key, faults) for item in node.items)
        return start, end
    faults.note(node.where, f"`{key}` needs two points", f"write `{key}: [from, to]`, each a place or [x, y]")
    return None
