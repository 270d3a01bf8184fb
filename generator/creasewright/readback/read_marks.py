"""The lines of a finished page, as a printer would draw them: paths on the page and inside forms, with all transforms applied.

Coordinates are PDF points, origin lower left, y up (ISO 32000-1, 8.3), at the size the file's own user unit gives them.
Curves become chords no farther from them than CHORD. Text and pictures are passed over.
"""

from collections.abc import Iterable, Sequence
from math import ceil, hypot, sqrt

from msgspec import Struct

from creasewright.readback.pdf_objects import PdfFile, Value, Word, values

CHORD = 0.01
"""pt"""
Spot = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]
Box = tuple[float, float, float, float]
"""Left, tail, right, head, pt."""
IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class FoundPath(Struct, frozen=True):
    corners: tuple[Spot, ...]
    """One subpath; a closed one ends where it starts."""
    clip: Box
    """What can be seen of it lies in this box."""
    stroked: bool
    dashed: bool
    form: str
    """The name under which the page uses the form it is in; empty: on the page itself."""


class PageMarks(Struct, frozen=True):
    width: float
    height: float
    """pt"""
    paths: tuple[FoundPath, ...]


def read_marks(data: bytes, page_numbers: Iterable[int]) -> tuple[PageMarks, ...]:
    """The marks of some pages (counted from 0) of a PDF file given as bytes, in the order asked for."""
    file = PdfFile(data)
    pages = file.pages()
    forms: dict[int, tuple[_Local, ...]] = {}
    return tuple(_page_marks(file, pages[number], forms) for number in page_numbers)


def _page_marks(file: PdfFile, page: dict[str, Value], forms: "dict[int, tuple[_Local, ...]]") -> PageMarks:
    left, tail, right, head = (float(side) for side in file.get(page["/MediaBox"]))
    unit = float(page.get("/UserUnit", 1.0))
    reader = _Reader(file, file.get(page.get("/Resources", {})), forms)
    found = reader.read(file.content(page["/Contents"]))
    to_page: Matrix = (unit, 0.0, 0.0, unit, -left * unit, -tail * unit)
    sheet = (0.0, 0.0, (right - left) * unit, (head - tail) * unit)
    return PageMarks(sheet[2], sheet[3], tuple(one.on(to_page, sheet) for one in found))


class _Local(Struct, frozen=True):
    """A subpath in the coordinates of the stream it is drawn in."""

    corners: tuple[Spot, ...]
    clip: Box | None
    stroked: bool
    dashed: bool
    form: str

    def on(self, matrix: Matrix, within: Box) -> FoundPath:
        moved = self.moved(matrix, within, self.form)
        return FoundPath(moved.corners, moved.clip or within, self.stroked, self.dashed, self.form)

    def moved(self, matrix: Matrix, within: Box | None, form: str) -> "_Local":
        clip = _meet(_moved_box(self.clip, matrix), within)
        return _Local(tuple(_moved(matrix, at) for at in self.corners), clip, self.stroked, self.dashed, form)


class _State(Struct):
    matrix: Matrix = IDENTITY
    clip: Box | None = None
    dashed: bool = False


class _Reader:
    """Walks one content stream. Forms are read once and then only moved."""

    def __init__(self, file: PdfFile, resources: dict[str, Value], forms: dict[int, tuple[_Local, ...]]) -> None:
        self._file, self._resources, self._forms = file, resources, forms
        self._found: list[_Local] = []
        self._state = _State()
        self._saved: list[_State] = []
        self._path: list[list[Spot]] = []
        self._clipping = False

    def read(self, content: bytes) -> tuple[_Local, ...]:
        operands: list[Value] = []
        for value in values(content):
            if isinstance(value, Word):
                self._operate(value.text.decode("latin-1"), operands)
                operands.clear()
            else:
                operands.append(value)
        return tuple(self._found)

    def _operate(self, operator: str, given: Sequence[Value]) -> None:
        if operator in ("m", "l", "c", "v", "y", "h", "re"):
            self._build(operator, given)
        elif operator in ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"):
            self._paint(operator)
        elif operator in ("W", "W*"):
            self._clipping = True
        elif operator == "q":
            self._saved.append(_State(self._state.matrix, self._state.clip, self._state.dashed))
        elif operator == "Q":
            self._state = self._saved.pop()
        elif operator == "cm":
            a, b, c, d, e, f = given
            self._state.matrix = _times((a, b, c, d, e, f), self._state.matrix)
        elif operator == "d":
            self._state.dashed = bool(given[0])
        elif operator == "Do":
            self._use(given[0])

    def _build(self, operator: str, given: Sequence[Value]) -> None:
        points = [(given[k], given[k + 1]) for k in range(0, len(given), 2)]
        moved = [_moved(self._state.matrix, at) for at in points]
        if operator == "m":
            self._path.append([moved[0]])
        elif operator == "l":
            self._path[-1].append(moved[0])
        elif operator == "re":
            (x, y), (w, h) = points
            corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y))
            self._path.append([_moved(self._state.matrix, at) for at in corners])
        elif operator == "h":
            self._path[-1].append(self._path[-1][0])
        else:
            start = self._path[-1][-1]
            first = start if operator == "v" else moved[0]
            second = moved[-1] if operator == "y" else moved[-2]
            self._path[-1].extend(_chords(start, first, second, moved[-1]))

    def _paint(self, operator: str) -> None:
        if operator in ("s", "b", "b*") and self._path:
            self._path[-1].append(self._path[-1][0])
        if operator != "n":
            stroked = operator in ("S", "s", "B", "B*", "b", "b*")
            for corners in self._path:
                self._found.append(_Local(tuple(corners), self._state.clip, stroked, self._state.dashed, ""))
        if self._clipping:
            corners_of_all = [at for corners in self._path for at in corners]
            self._state.clip = _meet(_box_around(corners_of_all), self._state.clip)
            self._clipping = False
        self._path = []

    def _use(self, name: str) -> None:
        reference = self._file.get(self._resources.get("/XObject", {})).get(name)
        form = self._file.get(reference)
        if form is None or form.get("/Subtype") != "/Form":
            return
        key = reference.number
        if key not in self._forms:
            resources = self._file.get(form.get("/Resources", self._resources))
            a, b, c, d, e, f = (float(part) for part in self._file.get(form.get("/Matrix", list(IDENTITY))))
            inside = _Reader(self._file, resources, self._forms).read(self._file.content(reference))
            left, tail, right, head = (float(side) for side in self._file.get(form["/BBox"]))
            own = _moved_box((left, tail, right, head), (a, b, c, d, e, f))
            self._forms[key] = tuple(one.moved((a, b, c, d, e, f), own, "") for one in inside)
        for one in self._forms[key]:
            self._found.append(one.moved(self._state.matrix, self._state.clip, name))


def _times(first: Matrix, second: Matrix) -> Matrix:
    """`first`, followed by `second`."""
    a, b, c, d, e, f = first
    p, q, r, s, t, u = second
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def _moved(matrix: Matrix, at: Spot) -> Spot:
    a, b, c, d, e, f = matrix
    return a * at[0] + c * at[1] + e, b * at[0] + d * at[1] + f


def _moved_box(box: Box | None, matrix: Matrix) -> Box | None:
    if box is None:
        return None
    return _box_around([_moved(matrix, (x, y)) for x in (box[0], box[2]) for y in (box[1], box[3])])


def _box_around(corners: Sequence[Spot]) -> Box:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _meet(one: Box | None, other: Box | None) -> Box | None:
    """What two boxes share; None stands for the whole plane."""
    if one is None or other is None:
        return one or other
    return max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])


def _chords(p0: Spot, p1: Spot, p2: Spot, p3: Spot) -> list[Spot]:
    """Points of a cubic after its start: n chords keep within max|B''| / (8 n^2) of the curve, and |B''| is at most six times
    the larger second difference of its four points."""
    bend = max(
        hypot(p0[0] - 2 * p1[0] + p2[0], p0[1] - 2 * p1[1] + p2[1]), hypot(p1[0] - 2 * p2[0] + p3[0], p1[1] - 2 * p2[1] + p3[1])
    )
    count = max(1, ceil(sqrt(6 * bend / (8 * CHORD))))
    points = []
    for k in range(1, count + 1):
        t = k / count
        s = 1 - t
        a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        points.append((a * p0[0] + b * p1[0] + c * p2[0] + d * p3[0], a * p0[1] + b * p1[1] + c * p2[1] + d * p3[1]))
    return points
