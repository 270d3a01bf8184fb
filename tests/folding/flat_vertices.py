"""A square sheet with scores from its centre to its outline, at given angles between them."""

from math import cos, radians, sin

from creasewright.joining.run_step import StepRun
from small_designs import PLAIN_PAPER, last_run, with_steps

HALF = 100.0
"""mm from the centre of the square to its sides."""


def vertex_sheet(angles: list[float]) -> str:
    """The blank: crease 1 runs to the right, each next one that much further round."""
    lines, turned = [], 7.0
    for number, angle in enumerate(angles, start=1):
        x, y = cos(radians(turned)), sin(radians(turned))
        reach = HALF / max(abs(x), abs(y))
        end = f"[{HALF + x * reach:.9f} mm, {HALF + y * reach:.9f} mm]"
        lines.append(f"crease {number}: {{line: [[{HALF} mm, {HALF} mm], {end}]}}")
        turned += angle
    return f"sheet: {{width: {2 * HALF} mm, height: {2 * HALF} mm, scores: {{{', '.join(lines)}}}}}"


def folded_at_once(angles: list[float], signs: str) -> StepRun:
    """All creases of a vertex folded flat in one step; `signs` holds M or V for each."""
    wish: dict[str, list[str]] = {"V": [], "M": []}
    for number, sign in enumerate(signs, start=1):
        wish[sign].append(f"crease {number}")
    keys = [f"{key}: [{', '.join(wish[sign])}]" for key, sign in (("fold", "V"), ("mountain", "M")) if wish[sign]]
    return last_run(with_steps(vertex_sheet(angles), "{" + ", ".join(keys) + "}"), PLAIN_PAPER)
