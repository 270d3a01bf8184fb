"""Scores as rows of short cuts, for machines that have a blade and no scoring tool."""

from math import floor

from msgspec import Struct

from creasewright.cutfiles.cut_drawing import SCORES, CutDrawing, Stroke
from creasewright.cutfiles.unshared import edge_between
from creasewright.geometry.edges import edge_length
from creasewright.geometry.outline import Edge


class Perforation(Struct, frozen=True):
    """mm; both greater than 0."""

    dash: float
    """Of each short cut."""
    gap: float
    """Of paper left between two, at least."""


def perforated(drawing: CutDrawing, how: Perforation) -> CutDrawing:
    """The drawing with its scores as rows of cuts, each a stroke of its own on the score's layer."""
    strokes: list[Stroke] = []
    for stroke in drawing.strokes:
        if stroke.layer in SCORES:
            strokes += [Stroke(stroke.layer, (dash,)) for edge in stroke.edges for dash in dashes(edge, how)]
        else:
            strokes.append(stroke)
    return CutDrawing(drawing.title, drawing.width, drawing.height, tuple(strokes), drawing.rings, drawing.captions)


def dashes(edge: Edge, how: Perforation) -> list[Edge]:
    """As many dashes as fit with their gaps, spread evenly, with half a gap at both ends so that no cut runs into an edge.

    An edge of length L takes n = floor(L / (dash + gap)) of them, and their gaps are L / n - dash, never under `gap`. On an edge
    too short for one, the dash keeps its share of the length.
    """
    length = edge_length(edge)
    count = floor(length / (how.dash + how.gap) + 1e-9)
    long = how.dash if count else length * how.dash / (how.dash + how.gap)
    pitch = length / max(1, count)
    return [
        edge_between(edge, (k * pitch + (pitch - long) / 2) / length, (k * pitch + (pitch + long) / 2) / length)
        for k in range(max(1, count))
    ]
