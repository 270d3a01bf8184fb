"""The small pictures of a gate: how the work looks when it is right, with its one measure, and how with a mistake in it."""

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
from creasewright.fitting.gate_measures import READS, Measure, measures
from creasewright.fitting.gates import Gate, Symptom
from creasewright.fitting.looks import Looking, is_flat, shown_panels
from creasewright.folding.state import Body, State, front_normal
from creasewright.geometry.clip import total_area
from creasewright.joining.bodies import turned_to
from creasewright.joining.compass import faces_maker

TALLEST, SMALL = 46.0, 34.0
"""mm that the picture of a gate, and that of a mistake, may be high."""
SIDE = {"width": "tail", "height": "right"}
STAND_OFF = {"width": (0.0, 1.0, 0.0), "height": (1.0, 0.0, 0.0), "depth": (-1.0, 0.0, 0.0)}


def right_picture(gate: Gate, parts: ShownParts, width: float, ruler: TextRuler) -> Picture:
    lying = lying_so(gate.state, gate.body, parts)
    return drawn(lying, (gate.measure,), (), parts, (width, TALLEST), ruler)


def wrong_picture(gate: Gate, symptom: Symptom, parts: ShownParts, width: float, ruler: TextRuler) -> Picture:
    """With the gate's measure as it is then, where that differs."""
    upside = frozenset((symptom.mistake.part,)) if symptom.mistake.kind == "upside down" else frozenset()
    parts = replace(parts, upside_down=upside)
    lying = lying_so(symptom.state, symptom.body, parts)
    off = symptom.mm is not None and abs(symptom.mm - gate.measure.mm) >= READS
    taken = [one for one in measures(symptom.state, symptom.body, Looking({}, {})) if one.key == gate.measure.key] if off else []
    glue: tuple[GlueMark, ...] = ()
    if symptom.run is not None:
        glue = tuple(glue_mark(symptom.state, symptom.body, area, area.panel, hidden=True) for area in new_glue(symptom.run))
    return drawn(lying, tuple(taken), glue, parts, (width, SMALL), ruler)


NEARLY_ALL = 0.9


def most_seen(gate: Gate) -> tuple[str, str]:
    """The part and the side of it (`front`, `back`) that shows from above; empty where others show too, and for a standing thing."""
    if not is_flat(gate.state, gate.body):
        return "", ""
    found: dict[tuple[str, str, str], float] = {}
    for shown in shown_panels(gate.state, gate.body, Looking({}, {})):
        front = faces_maker(front_normal(gate.state.placed[shown.key]), gate.body)
        key = gate.state.blanks[shown.key[0]].paper, "front" if front else "back", shown.key[0]
        found[key] = found.get(key, 0.0) + total_area(shown.pieces)
    paper, side, part = max(found, key=lambda key: round(found[key], 1))
    alike = sum(size for key, size in found.items() if key[:2] == (paper, side))
    return (part, side) if paper and alike > NEARLY_ALL * sum(found.values()) else ("", "")


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
    parts: ShownParts,
    room: tuple[float, float],
    ruler: TextRuler,
) -> Picture:
    texts = [drawn_length(parts.worked.ruler, one.mm, SEEN_OFF) for one in taken]
    if lying.space is not None:
        solid = tuple(
            Dimension3(one.start, one.end, STAND_OFF[one.way], text) for one, text in zip(taken, texts, strict=True)
        )
        return draw_space(replace(lying.space, dimensions=solid), *room, ruler=ruler)
    assert lying.plan is not None
    flat = tuple(
        Dimension(one.start[:2], one.end[:2], text, SIDE[one.way]) for one, text in zip(taken, texts, strict=True)
    )
    return draw_plan(replace(lying.plan, dimensions=flat, glue=glue), *room, ruler)
