"""The small pictures of a gate: how the work looks when it is right, with its one measure, and how with a mistake in it."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.booklet.closing_pictures import closed_picture
from creasewright.booklet.diagrams.axonometric import draw_space
from creasewright.booklet.diagrams.plan_view import draw_plan
from creasewright.booklet.diagrams.scene import Dimension, Dimension3, GlueMark, Picture
from creasewright.booklet.join_pictures import glue_mark, new_glue
from creasewright.booklet.length_words import SEEN_OFF, drawn_length
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_views import StepPicture, as_it_lies
from creasewright.booklet.text_ruler import TextRuler
from creasewright.fitting.gate_measures import Measure, measures
from creasewright.fitting.gates import Gate, Symptom
from creasewright.fitting.looks import Looking
from creasewright.folding.state import Body, State
from creasewright.joining.bodies import turned_to
from creasewright.units.ruler import Ruler

Letters = tuple[str, ...]

TALLEST, SMALL = 46.0, 34.0
"""mm that the picture of a gate, and that of a mistake, may be high."""
LENS = 20.0
"""mm that it may be higher where a lens stands beside the work."""
SIDE = {"width": "tail", "height": "right"}
STAND_OFF = {"width": (0.0, 1.0, 0.0), "height": (1.0, 0.0, 0.0), "depth": (-1.0, 0.0, 0.0)}


def right_picture(gate: Gate, lying: StepPicture, told: Letters, parts: ShownParts, width: float, ruler: TextRuler) -> Picture:
    """`told`: of the pieces that the gate's words tell of."""
    return drawn(lying, (gate.measure,), (), told, parts, (width, TALLEST), ruler)


def wrong_picture(
    gate: Gate, symptom: Symptom, told: Letters, parts: ShownParts, width: float, ruler: TextRuler, scale: str | None = None
) -> Picture:
    """With the gate's measure as it is then, where that differs, or the one that tells it. `told`: of the pieces that the words beside
    it tell of. `scale` (`1:4`) fixes it."""
    upside = frozenset((symptom.mistake.part,)) if symptom.mistake.kind == "upside down" else frozenset()
    parts = replace(parts, upside_down=upside)
    lying = lying_so(symptom.state, symptom.body, parts)
    tell = symptom.tell
    key = gate.measure.key if gate.off(symptom) else (tell.part, tell.panel, tell.way) if tell.kind == "size" else None
    taken = [one for one in measures(symptom.state, symptom.body, Looking({}, {})) if one.key == key]
    glue: tuple[GlueMark, ...] = ()
    if symptom.run is not None:
        glue = tuple(glue_mark(symptom.state, symptom.body, area, area.panel, hidden=True) for area in new_glue(symptom.run))
    return drawn(lying, tuple(taken), glue, told, parts, (width, SMALL), ruler, scale)


def nearest(measure: Measure, ruler: Ruler) -> Fraction | float:
    """How far off a mark, mm, is not said: of a border, which a step names to the mark, nothing."""
    return ruler.step_mm if measure.sides else SEEN_OFF


def lying_so(state: State, body: Body, parts: ShownParts) -> StepPicture:
    """With the ribbon or band round it, if it has one: the reader leaves it there."""
    here = state.body_of(min(body.parts))
    seen = turned_to(state, here, body.view)
    around = [closure for closure in state.closures if closure.on in body.parts and not closure.path]
    if around:
        return closed_picture(seen, seen.body_of(min(body.parts)), around[-1], parts)
    return as_it_lies(seen, (min(body.parts),), parts)


def drawn(
    lying: StepPicture,
    taken: tuple[Measure, ...],
    glue: tuple[GlueMark, ...],
    told: Letters,
    parts: ShownParts,
    room: tuple[float, float],
    ruler: TextRuler,
    scale: str | None = None,
) -> Picture:
    texts = [drawn_length(parts.worked.ruler, one.mm, nearest(one, parts.worked.ruler)) for one in taken]
    if lying.space is not None:
        solid = tuple(
            Dimension3(one.start, one.end, STAND_OFF[one.way], text) for one, text in zip(taken, texts, strict=True)
        )
        return draw_space(replace(lying.space, dimensions=solid), *room, scale=scale, ruler=ruler)
    assert lying.plan is not None
    flat = tuple(
        Dimension(one.start[:2], one.end[:2], text, SIDE[one.way]) for one, text in zip(taken, texts, strict=True)
    )
    scene = replace(lying.plan, dimensions=flat, glue=glue, told=told, told_only=True)
    width, height = room
    for tallest in (height, height + LENS):
        picture = draw_plan(scene, width, tallest, ruler, scale=scale)
        if picture.width <= width and picture.height <= tallest:
            return picture
    return draw_plan(replace(scene, lenses=False), width, height, ruler, scale=scale)
