"""Whether the ends of lines aslant are pricked through a template, or seen on the piece as it is cut."""

from creasewright.blanks.by_template import has_own_template
from creasewright.booklet.scoring.lie_features import ends_seen
from creasewright.booklet.scoring.score_drawing import points_of
from creasewright.scoring.lies import Pass
from creasewright.scoring.members import Member


def template_of(member: Member) -> str:
    """The letter of the full-size template that shows the member's lines; empty if it has none of its own."""
    return member.letter if has_own_template(member.blank) else ""


def places_seen(member: Member, drawn: Pass) -> str:
    """What all ends of a pass are on the cut piece: `notch` tips, `corner`s of its outline, or neither (empty)."""
    return ends_seen(member.blank, drawn.lie, [(float(x), float(y)) for x, y in points_of(drawn)])


def is_pricked(member: Member, drawn: Pass) -> bool:
    return drawn.run == "aslant" and bool(template_of(member)) and not places_seen(member, drawn)
