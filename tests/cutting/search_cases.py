"""Small helpers shared by the tests of the search, in whole numbers."""

from itertools import product

from creasewright.cutting.search.task import Kind, Packing, Rules, Task, task_of
from creasewright.cutting.verify import separable
from creasewright.cutting.whole_numbers import Pattern, Shape


def task(shapes: list[tuple[int, int, int, bool]], *kinds: tuple[int, ...], rules: Rules | None = None) -> Task:
    return task_of([Shape(*shape) for shape in shapes], [Kind(*(kind if len(kind) > 2 else (*kind, 1))) for kind in kinds], rules)


def holds(task: Task, packing: Packing) -> bool:
    """Everything wanted is laid or missing, inside its sheet, without overlap, cuttable edge to edge, on sheets that there are."""
    left = [shape.wanted for shape in task.shapes]
    stock = [kind.limit for kind in task.kinds]
    for kind, pattern, times in packing.uses:
        stock[kind] -= times
        for piece in pattern:
            left[piece.which] -= times
        if not lies_well(task, kind, pattern):
            return False
    return tuple(left) == packing.missing and min(left, default=0) >= 0 and min(stock) >= 0


def lies_well(task: Task, kind: int, pattern: Pattern) -> bool:
    boxes = [(piece.x, piece.y, piece.width, piece.height) for piece in pattern]
    wide, high = task.kinds[kind][:2]
    inside = all(x >= 0 and y >= 0 and x + w <= wide and y + h <= high for x, y, w, h in boxes)
    apart = all(
        a is b or a[0] + a[2] <= b[0] or b[0] + b[2] <= a[0] or a[1] + a[3] <= b[1] or b[1] + b[3] <= a[1]
        for a, b in product(boxes, boxes)
    )
    sized = all((p.width, p.height, p.turned) in task.ways[kind][p.which] for p in pattern)
    return inside and apart and sized and separable(boxes)
