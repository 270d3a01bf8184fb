"""Scores that follow others: the course of a linkage whose driving scores turn evenly to their targets."""

from creasewright.folding.loop_motion import Angles, Linkage
from creasewright.folding.panel_graph import links
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, PanelKey, PieceKey, State

STEPS = 24
SNAP = 0.6
"""Degrees: near a flat state loops hold angles only loosely, so these are taken as flat; the loops are checked again with them."""


def course(state: State, body: Body, root: PanelKey, drivers: Angles, followers: dict[PieceKey, float | None]) -> list[Angles]:
    """All angles at `STEPS` equal shares of the way, the start first. Raises FoldRefused where the linkage sticks.

    `followers` are solved; where they lie flat at the start, a value tells which way each sets out (+ valley, - mountain).
    """
    linkage = Linkage(state, root, list(links(state, body.parts)), [*drivers, *followers], list(followers))
    start = dict(state.angles)
    found = [start]
    for number in range(1, STEPS + 1):
        share = number / STEPS
        guess = {**found[-1], **{key: start.get(key, 0.0) + (to - start.get(key, 0.0)) * share for key, to in drivers.items()}}
        for key, towards in followers.items():
            now = found[-1].get(key, 0.0)
            if number > 1:
                guess[key] = 2 * now - found[-2].get(key, 0.0)
            elif towards is not None:
                guess[key] = start.get(key, 0.0) + (towards - start.get(key, 0.0)) * share
            else:
                guess[key] = now
        closed = linkage.closed(guess)
        if closed is None:
            raise FoldRefused(
                f"{', '.join(key[1] for key in followers)} cannot follow: the loop does not close {share * 100:.0f} % of the way",
                "check the sizes round that loop, or name the other scores that turn too",
            )
        found.append(closed)
    found[-1] = snapped(found[-1], followers)
    return found


def snapped(angles: Angles, followers: dict[PieceKey, float | None]) -> Angles:
    near = {key: round(angles[key] / 180) * 180.0 for key in followers if abs(angles[key] - round(angles[key] / 180) * 180) < SNAP}
    return {**angles, **near, **{key: round(angles[key], 9) for key in followers if key not in near}}
