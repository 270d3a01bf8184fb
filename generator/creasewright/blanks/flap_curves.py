"""What must hold of a flap with a curved far edge or seam: its arcs are no more than half circles, clear each other, and the seam
stays on the panel that it is pressed into.
"""

from creasewright.blanks.faults import Faults, in_mm
from creasewright.blanks.flap_parts import FAR, SEAM, Part
from creasewright.geometry.clip import clockwise, difference, total_area
from creasewright.geometry.crossing import meetings
from creasewright.geometry.loops import loop_area
from creasewright.geometry.outline import Line, flattened
from creasewright.geometry.point import Number
from creasewright.geometry.vector import length, minus, one_place
from creasewright.reading import design
from creasewright.reading.design import Text

SLIVER = 0.01
"""mm²: what arcs as chords may stand over by."""


def curves_fit(flap: design.Flap, grown: Part, on: Part, index: int, faults: Faults) -> bool:
    """Whether the flap `grown` may stand on edge `index` of `on`; faults say why not."""
    if on.flap and index == FAR and on.far_rise:
        faults.add(flap.where, f"`{grown.name}` grows from the far edge of `{on.name}`, which is curved", "grow it from a straight edge")
        return False
    if not (grown.far_rise or grown.seam_rise):
        return True
    first, far_first, far_last, last = grown.corners
    for text, word, rise, chord in (
        (flap.far_rise, "far rise", grown.far_rise, length(minus(far_last, far_first))),
        (flap.seam_rise, "seam rise", grown.seam_rise, length(minus(last, first))),
    ):
        if text is not None and not _is_shallow(text, word, rise, chord, faults):
            return False
    return _edges_clear(flap, grown, faults) and _seam_inside(flap, grown, on, faults)


def _is_shallow(text: Text, word: str, rise: Number, chord: Number, faults: Faults) -> bool:
    if 2 * abs(float(rise)) <= float(chord):
        return True
    faults.add(text.where, f"`{word}: {text}` comes to {in_mm(rise)} over an edge of {in_mm(chord)}", "keep a rise to half its edge")
    return False


def _edges_clear(flap: design.Flap, grown: Part, faults: Faults) -> bool:
    """Its edges meet at their ends alone, and paper lies between them."""
    rim = grown.own_rim()
    crossing = any(
        not any(one_place(p, end) for end in (edge.start, edge.end)) or not any(one_place(p, end) for end in (other.start, other.end))
        for number, edge in enumerate(rim)
        for other in rim[:number]
        for p in meetings(other, edge)
    )
    if not crossing and loop_area(rim) > SLIVER:
        return True
    faults.add(
        flap.where, f"the far edge of `{grown.name}` does not clear its seam",
        "give it more `depth` or `far rise`, or less `seam rise`",
    )  # fmt: skip
    return False


def _seam_inside(flap: design.Flap, grown: Part, on: Part, faults: Faults) -> bool:
    """A seam that bows towards the base stays on the panel it grows from."""
    if grown.seam_rise >= 0:
        return True
    bow = clockwise(flattened((grown.seam, Line(grown.corners[SEAM], grown.corners[0]))))
    panel = clockwise(tuple((float(p.x), float(p.y)) for p in on.corners))
    if total_area(difference([bow], [panel])) <= SLIVER:
        return True
    faults.add(
        (flap.seam_rise or flap.depth).where, f"the seam of `{grown.name}` bows out of `{on.name}`", "give it less `seam rise`"
    )
    return False
