"""Flaps that reach past what they land on, and panels folded in that come too near the next fold."""

from creasewright.checks.facts import Facts
from creasewright.folding.overlaps import COVERED, overlap_area
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey
from creasewright.joining.compass import box, polygon_in_view
from creasewright.joining.run_step import StepRun
from creasewright.problems import WARNS, Finding
from creasewright.reading import design

PAST = 0.1
"""mm that a flap may reach past an edge before it is told."""


def flaps_land(facts: Facts) -> list[Finding]:
    found = []
    for _, run in facts.original_runs():
        if isinstance(run.written.action, design.Fold) and run.refused is None and len(run.targets) < 4:
            for flap in turned_flaps(run):
                found += past_landing(facts, run, flap)
        if isinstance(run.written.action, design.Join) and run.written.action.verb == "glue" and run.refused is None:
            found += past_glued(facts, run)
    return found


def past_glued(facts: Facts, run: StepRun) -> list[Finding]:
    """Glued flaps that reach past the panels they are glued to."""
    bonds = run.new_bonds
    found = []
    for flap in dict.fromkeys(bond.second for bond in bonds):
        onto = [bond.first for bond in bonds if bond.second == flap]
        found += past_edges(facts, run, flap, onto)
    return found


def turned_flaps(run: StepRun) -> list[PanelKey]:
    """Panels that this step turned flat over, beside their scores."""
    flaps = []
    for (part, name), angle in run.targets.items():
        piece = next(p for p in run.after.blanks[part].pieces if p.name == name)
        if abs(angle) < 179:
            continue
        for panel in (piece.first, piece.second):
            if run.before.placed[(part, panel)] != run.after.placed[(part, panel)]:
                flaps.append((part, panel))
    return flaps


def past_landing(facts: Facts, run: StepRun, flap: PanelKey) -> list[Finding]:
    body = run.after.body_of(flap[0])
    shape = polygon_in_view(run.after, body, flap)
    landing = [key for key in still(run) if overlap_area(polygon_in_view(run.after, body, key), shape) > COVERED]
    return past_edges(facts, run, flap, landing) if landing else []


def past_edges(facts: Facts, run: StepRun, flap: PanelKey, landing: list[PanelKey]) -> list[Finding]:
    """How far a flap reaches past what it lies on, on its worst side."""
    body = run.after.body_of(flap[0])
    shape = polygon_in_view(run.after, body, flap)
    mine, under = box([shape]), box([polygon_in_view(run.after, body, key) for key in landing])
    past = {"left": under[0] - mine[0], "head": under[1] - mine[1], "right": mine[2] - under[2], "tail": mine[3] - under[3]}
    side = max(past, key=lambda s: past[s])
    if past[side] <= PAST:
        return []
    names = (
        landing[0]
        if len(landing) == 1
        else max(landing, key=lambda key: overlap_area(polygon_in_view(run.after, body, key), shape))
    )
    return [
        Finding(
            WARNS, "flap", run.written.where,
            f"{called(flap)} reaches {facts.said(past[side])} past {called(names)} at the {side}",
            f"make {flap[1]} at least {facts.at_least(past[side])} shorter, or what it lands on longer",
        )
    ]  # fmt: skip


def still(run: StepRun) -> list[PanelKey]:
    body = run.after.body_of(next(iter(run.targets))[0])
    return [
        key for stack in body.stacks for key in stack.order
        if run.before.placed.get(key) == run.after.placed[key]
    ]  # fmt: skip
