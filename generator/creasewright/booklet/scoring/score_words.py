"""The sentences of the score guide: how a piece lies, where its lines are, which way they fold."""

from msgspec import Struct

from creasewright.blanks.turned_over import same_turned_over
from creasewright.booklet.context import PackContext
from creasewright.booklet.hidden_letters import letter_spot
from creasewright.booklet.late_corners import late_work, uncut
from creasewright.booklet.length_words import is_parted, placed_length
from creasewright.booklet.part_words import counted_words
from creasewright.booklet.scoring.lie_features import Feature, feature_of, feature_underneath, seen_through
from creasewright.booklet.scoring.pricked_ends import places_seen, template_of
from creasewright.booklet.scoring.score_drawing import inner_ends, point_letters, points_of
from creasewright.booklet.section_text import section_text
from creasewright.booklet.side_words import side_words
from creasewright.booklet.typeset import literal, plain
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.point import Point
from creasewright.scoring.lies import ON_EDGE, Lie, LieLine, Pass, Setting, turned_like_a_page
from creasewright.scoring.matches import Spot
from creasewright.scoring.members import Member, scored_members
from creasewright.scoring.on_board import every_setting, passes_on_board
from creasewright.scoring.stop_edges import edge_at_left, edges_that_hold
from creasewright.units.ruler import length_in_words


class Shown(Struct, frozen=True):
    """One drawing to be set: a set-up on the score board of the parts that are scored alike."""

    member: Member
    drawn: Pass
    number: int = 1
    """Of the member's drawings, in the order in which they are made."""
    of: int = 1


def paper_of(context: PackContext, member: Member) -> PaperFacts | None:
    return context.worked.paper_of(member.blank)


def lie_values(context: PackContext, each: Shown) -> dict[str, object]:
    drawn, member = each.drawn, each.member
    paper = paper_of(context, member)
    alike = paper is None or paper.sides_alike
    name = side_words(paper, drawn.lie.up, context.word)
    piece = next(piece for piece in context.worked.pieces if piece.letter == member.letter)
    spot = letter_spot(context.worked, piece)
    letter = ("up" if spot.sides[member.mark] == drawn.lie.up else "under") if spot else ""
    square = uncut(member.blank, late_work(context.worked, member.parts))
    turn = context.worked.turn_of(member.parts[0])
    feature = feature_of(square.blank, drawn.lie, paper, turn, bool(spot))
    first = feature_underneath(feature, square.blank, drawn.lie, paper, turn, letter)
    feature = seen_through(first) if first else feature
    letter = letter or ("under" if first and alike else "")
    way = {**way_values(context, feature), "alike": alike, "letter": letter, "under": first is not None}
    even = same_turned_over(member.blank)
    return {
        "side": section_text(context, "side", alike=alike, letter=letter, even=even, name=name),
        "by_letter": alike and bool(letter),
        "way": section_text(context, "way", **way),
        "way_drawn": section_text(context, "way in the drawing", **way),
        "hidden": first is not None,
        "first": first_values(context, paper, drawn.lie, first, even) if first else {},
        "settings": said_settings(context, drawn),
        "places": off_grooves(context, drawn),
        "run": drawn.run,
        "number": drawn.number,
        "again": drawn.set_up > 1,
        "turned": drawn.turned,
        "edge": drawn.stop,
        "spacer": length_in_words(drawn.spacer, context.system) if drawn.spacer else "",
    }


def way_values(context: PackContext, feature: Feature) -> dict[str, object]:
    at, to = (section_text(context, name, where=feature.where) for name in ("at the side", "to the side"))
    return {"kind": feature.kind, "where": feature.where, "shape": feature.shape, "at": at, "to": to}


def first_values(context: PackContext, paper: PaperFacts | None, lie: Lie, first: Feature, even: bool) -> dict[str, object]:
    """How a piece is laid before it is turned over like a page to lie as it is drawn: what tells its direction is on that side."""
    alike, other = paper is None or paper.sides_alike, turned_like_a_page(lie).up
    name = side_words(paper, other, context.word)
    way = section_text(context, "way", **way_values(context, first), alike=alike, letter="up", under=False)
    return {"side": section_text(context, "side", alike=alike, letter="up", even=even, name=name), "way": way}


def cut_far_off(context: PackContext, each: Shown) -> bool:
    """Whether all corners that are cut later are in the half of the piece that is far from the stop."""
    drawn, later = each.drawn, uncut(each.member.blank, late_work(context.worked, each.member.parts)).later
    middle = float(drawn.lie.width) / 2
    return all(float(drawn.from_stop(x)) > middle for chain in later for x, _ in drawn.lie.chain(chain))


def said_place(context: PackContext, drawn: Pass, setting: Setting) -> str:
    """The groove, as the board has it; where there is none, how far the line is from the edge at the stop, on the ruler."""
    if setting.groove is not None:
        return length_in_words(setting.groove, context.system)
    return placed_length(context, drawn.from_stop(setting.place))


def said_settings(context: PackContext, drawn: Pass) -> list[str]:
    """From the stop outward."""
    found = [setting for setting in drawn.settings if setting.groove is not None]
    return [said_place(context, drawn, setting) for setting in sorted(found, key=lambda each: float(each.groove or 0))]


def off_grooves(context: PackContext, drawn: Pass) -> list[str]:
    """The places of a pass that no setting of the score board reaches, from the edge at the stop outward."""
    found = sorted((each for each in drawn.settings if each.groove is None), key=lambda each: float(drawn.from_stop(each.place)))
    return [said_place(context, drawn, setting) for setting in found]


def uses_board(context: PackContext) -> bool:
    """Whether any line of the pack is pressed in a groove of the score board."""
    return any(setting.groove is not None for setting in every_setting(context.worked, context.board))


def caption(context: PackContext, each: Shown) -> list[str]:
    """Paragraphs under a drawing."""
    drawn, board = each.drawn, uses_board(context)
    texts = [
        section_text(context, "pieces", number=each.number, of=each.of, **member_values(context, each.member)),
        section_text(context, "lie", **lie_values(context, each)),
        *([section_text(context, "other lines", **again)] if (again := set_again(context, each)) else []),
        section_text(context, "folds", **fold_values(context, drawn)),
    ]
    texts += [section_text(context, "matching", **values) for values in matched_lines(context, each)]
    off, held = off_grooves(context, drawn), any(edges_that_hold(each.member.blank, drawn.lie))
    texts.append(section_text(context, "between grooves", board=board, places=off, edge=drawn.stop, held=held))
    if drawn.run == "aslant":
        seen = places_seen(each.member, drawn)
        parted = any(is_parted(context.worked.ruler, far) for spot in points_of(drawn) for far in spot)
        values = {"board": board, "pairs": pairs_of(drawn), "template": template_of(each.member), "seen": seen, "parted": parted}
        texts.append(section_text(context, "aslant", **values))
    if drawn.run == "curved":
        over = drawn.lie.up == "back"
        texts.append(section_text(context, "curved", board=board, count=len(drawn.own), letter=each.member.letter, over=over))
    return [text for text in texts if text]


def set_again(context: PackContext, each: Shown) -> dict[str, list[str]]:
    """Settings that a piece turned end for end has been pressed at before, and how far those lines are from the edge at the stop then;
    empty where there are none."""
    drawn = each.drawn
    if drawn.set_up == 1 or not drawn.turned:
        return {}
    before = [one for one in passes_on_board(each.member, context.board) if (one.run, one.number) == (drawn.run, drawn.number)]
    used = {(setting.groove, one.spacer) for one in before[: drawn.set_up - 1] for setting in one.settings}
    again = [one for one in drawn.settings if one.groove is not None and (one.groove, drawn.spacer) in used]
    outward = sorted(again, key=lambda one: float(one.groove or 0))
    places = [placed_length(context, drawn.lie.width - drawn.from_stop(one.place)) for one in outward]
    return {"settings": [said_place(context, drawn, one) for one in outward], "places": places} if again else {}


def matched_lines(context: PackContext, each: Shown) -> list[dict[str, object]]:
    """For lines of this drawing that come to lie on one of an earlier piece where the two are joined: both places as they are set."""
    found = []
    members = {member.mark: member for member in scored_members(context.worked)}
    earlier = list(members)[: list(members).index(each.member.mark)]
    for match in each.member.matches:
        if not match.joined or match.other.mark not in earlier:
            continue
        other = members[match.other.mark]
        own = setting_at(each.member, each.drawn, match.own)
        there = next(
            ((drawn, its) for drawn in passes_on_board(other, context.board) if (its := setting_at(other, drawn, match.other))), None
        )
        if own is not None and there is not None:
            drawn, its = there
            alike = own.groove is not None and (own.groove, each.drawn.spacer) == (its.groove, drawn.spacer)
            places = {"place": said_place(context, each.drawn, own), "there": said_place(context, drawn, its)}
            found.append({**places, "mark": other.mark, "alike": alike})
    return found


def setting_at(member: Member, drawn: Pass, spot: Spot) -> Setting | None:
    """How a line of a member is set in one of its passes; None where it is not made there."""
    if drawn.run != spot.run:
        return None
    first = next(one for one in member.passes if one.run == drawn.run)
    place = spot.place if edge_at_left(first.lie) == edge_at_left(drawn.lie) else drawn.lie.width - spot.place
    return next((one for one in drawn.settings if abs(float(one.place - place)) < ON_EDGE), None)


def fold_values(context: PackContext, drawn: Pass) -> dict[str, object]:

    def of_kind(kind: str) -> list[str]:
        lines = [line for line in drawn.own if line.folds == kind]
        found = [each for each in drawn.settings if any(abs(float(line.start.x - each.place)) < 0.01 for line in lines)]
        return [said_place(context, drawn, setting) for setting in found]

    both = of_kind("both ways")
    return {
        "both": both,
        "only_both": all(line.folds == "both ways" for line in drawn.own),
        "never": of_kind("never"),
        "others": len(drawn.lines) - len(drawn.own),
        "partial": drawn.measured and bool(inner_ends(drawn)),
        "stretches": any(begins_inside(line) for line in drawn.own),
    }


def begins_inside(line: LieLine) -> bool:
    """Whether the line's end that is farther from the maker lies inside the piece."""
    start_inside, end_inside = line.ends_inside
    return start_inside if float(line.start.y) <= float(line.end.y) else end_inside


def member_values(context: PackContext, member: Member) -> dict[str, object]:
    names = literal(counted_words(context.worked, member.parts))
    return {"mark": member.mark, "names": names}


def pairs_of(drawn: Pass) -> list[str]:
    """Which ends of aslant lines belong together: `a–b`."""
    points = points_of(drawn)
    letters = point_letters(len(points))

    def name(end: Point) -> str:
        near = min(range(len(points)), key=lambda k: abs(float(points[k][0] - end.x)) + abs(float(points[k][1] - end.y)))
        return letters[near]

    return sorted("–".join(sorted((name(line.start), name(line.end)))) for line in drawn.own)


def alternative(context: PackContext, each: Shown) -> str:
    return plain(section_text(context, "alternative", mark=each.member.mark, **lie_values(context, each)))
