"""What a reference within one blank means: panels, score pieces, edges. Nothing found is an empty tuple."""

from creasewright.blanks.blank import Band, Blank, Panel, ScorePiece
from creasewright.blanks.compass import DIRECTIONS
from creasewright.blanks.references import expanded, turned_round
from creasewright.geometry.edges import edge_middle, tangent
from creasewright.geometry.loops import centroid, holds
from creasewright.geometry.outline import Edge
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import outward, unit

Frame = tuple[float, float, float, float]
"""Left, head, right, tail; unbounded where a band does not say."""

ENDLESS = float("inf")


def find_panels(blank: Blank, text: str) -> tuple[Panel, ...]:
    """`page`, `each up`, `last up`, `up 2 to last`, a band (all panels in it), a cell `DOWN ACROSS`, or the blank's own name."""
    names = expanded(text, [panel.name for panel in blank.panels])
    if names:
        return tuple(blank.panel(name) for name in names)
    found: list[Panel] = []
    for frame in _frames(blank, text):
        found += [panel for panel in _in_frame(blank, frame) if panel not in found]
    if found:
        return tuple(found)
    return blank.panels if text == blank.name else ()


def _frames(blank: Blank, text: str) -> list[Frame]:
    """The rectangles of the bands or cells that a reference names."""
    bands = {band.name: band for band in blank.bands}
    names = expanded(text, list(bands))
    if names:
        return [_frame(bands[name], None) for name in names]
    for down in blank.bands:
        if down.direction == "down" and text.startswith(down.name + " "):
            across = bands.get(text[len(down.name) + 1 :])
            if across is not None and across.direction == "across":
                return [_frame(across, down)]
    return []


def _frame(band: Band, other: Band | None) -> Frame:
    sides = [-ENDLESS, -ENDLESS, ENDLESS, ENDLESS]
    for one in (band, other):
        if one is not None:
            axis = 0 if one.direction == "across" else 1
            sides[axis], sides[axis + 2] = float(one.start), float(one.end)
    return (sides[0], sides[1], sides[2], sides[3])


def _within(frame: Frame, x: float, y: float) -> bool:
    return frame[0] - SAME <= x <= frame[2] + SAME and frame[1] - SAME <= y <= frame[3] + SAME


def _in_frame(blank: Blank, frame: Frame) -> list[Panel]:
    """Panels whose centre lies there; for a cell without one, the panel that covers the cell's own centre."""
    found = [panel for panel in blank.panels if _within(frame, *centroid(panel.polygon))]
    if not found and ENDLESS not in (abs(frame[0]), abs(frame[1])):
        x, y = (frame[0] + frame[2]) / 2, (frame[1] + frame[3]) / 2
        found = [panel for panel in blank.panels if holds(panel.polygon, x, y)]
    return found


def find_pieces(blank: Blank, text: str) -> tuple[ScorePiece, ...]:
    """A score by its name or pair, `each`, `last`, a range; `a/b` between panels; `a/b in BAND`; a panel with one score."""
    name, within, place = text.rpartition(" in ")
    if within:
        return _in_place(blank, find_pieces(blank, name), place)
    names = expanded(text, blank.pieces_by_score)
    if names:
        return tuple(piece for score in names for piece in blank.pieces_by_score[score])
    own = tuple(piece for piece in blank.pieces if piece.name in (text, turned_round(text)))
    return own or (_between(blank, text) if "/" in text else _only_score(blank, text))


def _in_place(blank: Blank, pieces: tuple[ScorePiece, ...], place: str) -> tuple[ScorePiece, ...]:
    frames = _frames(blank, place)
    if frames:
        return tuple(piece for piece in pieces if any(_within(frame, *_middle(piece)) for frame in frames))
    names = {panel.name for panel in find_panels(blank, place)}
    return tuple(piece for piece in pieces if piece.first in names or piece.second in names)


def _middle(piece: ScorePiece) -> tuple[float, float]:
    return float(piece.start.x + piece.end.x) / 2, float(piece.start.y + piece.end.y) / 2


def _between(blank: Blank, text: str) -> tuple[ScorePiece, ...]:
    a, b = ({panel.name for panel in find_panels(blank, side)} for side in text.split("/", 1))
    return tuple(
        piece for piece in blank.pieces if (piece.first in a and piece.second in b) or (piece.first in b and piece.second in a)
    )


def _only_score(blank: Blank, text: str) -> tuple[ScorePiece, ...]:
    """The one score at which what the text names hangs on the rest; each of several panels by itself."""
    panels = find_panels(blank, text)
    groups = [{panel.name} for panel in panels] if text.startswith("each ") else [{panel.name for panel in panels}]
    found: list[ScorePiece] = []
    for names in groups:
        pieces = [piece for piece in blank.pieces if (piece.first in names) != (piece.second in names)]
        if len({piece.score for piece in pieces}) == 1:
            found += pieces
    return tuple(found)


def panel_edges(panel: Panel, word: str) -> tuple[Edge, ...]:
    """The panel's edges on its head, tail, left or right side (or towards a corner: `head-left`), in the blank's frame.

    An edge is on a side where it faces within 45 degrees of it; if none does, the one that faces nearest. Other words: none.
    """
    towards = DIRECTIONS.get(word)
    if towards is None:
        return ()
    facing = []
    for edge in panel.outline.edges:
        away = outward(unit(tangent(edge, edge_middle(edge))))
        facing.append((float(away.x) * towards[0] + float(away.y) * towards[1], edge))
    found = tuple(edge for share, edge in facing if share > 0.5**0.5 + 1e-9)
    return found or (max(facing, key=lambda one: one[0])[1],)
