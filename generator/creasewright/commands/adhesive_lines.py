"""What `check` prints of the adhesive of each joint: which, whether it was chosen and why, how wide, how long it is held and dries."""

from creasewright.fitting.adhesives import Joint, joints_of
from creasewright.fitting.worked import Worked
from creasewright.units.ruler import mark_in_words

WHY = {
    "board": "wet glue suits board",
    "thin": "tape suits thin paper",
    "large": "tape suits a large thin face",
    "slides": "wet glue lets it be pushed to its lines",
    "shows": "tape does not creep out of the edge",
    "": "wet glue or tape would do",
}


def adhesive_lines(worked: Worked) -> list[str]:
    lines = [f"  {joint_words(worked, joint)}" for joint in joints_of(worked)]
    return ["", "Adhesive", *lines] if lines else []


def joint_words(worked: Worked, joint: Joint) -> str:
    """`step 4 of block: glue (chosen; wet glue or tape would do), strips 6 mm wide, hold 30 s, dry 10 min`."""
    of = f" of {joint.assembly}" if joint.assembly else ""
    how, size = "chosen" if joint.chosen else "named", "all over"
    if joint.strips:
        size = f"strips {mark_in_words(joint.width, worked.ruler).text} wide"
    dry = f", dry {joint.dry:g} min" if joint.dry else ""
    return f"step {joint.step}{of}: {joint.material} ({how}; {WHY[joint.why]}), {size}, hold {joint.hold:g} s{dry}"
