"""Cover, score guide, key and plan of things that stand or open by a slit: facts worked by hand from the designs."""

from creasewright.booklet.diagrams.plan_facets import lies_flat
from creasewright.booklet.marks_used import marks_used
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.sections import cover
from creasewright.booklet.standing_stage import is_open, standing_stage
from creasewright.booklet.step_views import as_it_lies
from creasewright.booklet.turn_pictures import few_names
from creasewright.scoring.scored_lines import folds_of, scored_lines
from section_cases import context_of, shipped
from small_designs import with_steps, worked_of


def facts_of(design: str, system: str = "mm") -> list[tuple[str, str, str] | None]:
    context = context_of(shipped(design, system), "cover")
    return [cover.closed_fact(context, has_spine=False), cover.open_fact(context, has_spine=False)]


def test_the_cover_of_a_standing_thing_tells_how_high_it_is() -> None:
    # pot: between the corners 2 x 45 at the foot, wider at the rim; 55 mm of wall leaning by 8.7°: 55 cos 8.7° = 54.4 and a caliper
    assert facts_of("bulb-pot")[0] == ("Finished", "110 × 95 mm", "55 mm high")
    assert facts_of("seedling-box")[0] == ("Closed", "123 × 92 mm", "39 mm high")


def test_the_cover_of_what_closes_flat_tells_it_closed_and_standing_open() -> None:
    # the card stands 140 mm high behind a floor of 140 mm
    assert facts_of("welcome-card") == [("Closed", "105 × 140 mm", "about 1 mm thick"), ("Open", "105 × 140 mm", "140 mm high")]


def test_a_bag_that_stays_open_is_told_once_and_its_sheet_beside() -> None:
    # across: 15 + 2 x 90 + 4 x 22 = 283; down: 25 + 180 + 22 = 227
    assert facts_of("bulb-bag") == [("Finished", "90 × 44 mm", "181 mm high"), ("Flat sheet", "283 × 227 mm", "")]


def test_what_closes_flat_is_pictured_in_its_first_standing_stage_and_what_stands_as_it_is() -> None:
    card = standing_stage(shipped("welcome-card", "mm"))
    assert card is not None and card.name == "open"
    for design in ("bulb-bag", "bulb-pot", "seedling-box", "seed-swap-folio", "swap-day-card"):
        assert standing_stage(shipped(design, "mm")) is None
    finished = shipped("bulb-bag", "mm").finished
    assert finished is not None and is_open(finished)


def test_a_low_spine_leaves_a_thing_flat_and_a_wall_does_not() -> None:
    strip = "strip: {height: 100 mm, across: [back: 90 mm, spine: DEEP, front: 90 mm]}"
    for deep, flat in (("10 mm", True), ("16 mm", False)):
        worked = worked_of(with_steps(strip.replace("DEEP", deep), "{lay: strip}", "{fold: {back/spine: 90, spine/front: 90}}"))
        assert worked.finished is not None
        # 0.15 of the smaller side, which is the 90 mm of the panel: 13.5 mm
        assert lies_flat(worked.finished.state, worked.finished.body) == flat


def test_lines_that_only_a_stage_folds_are_scored_for_it() -> None:
    # the bag's gussets fold inwards when it lies flat: fronts together, so the back lies up; its toes the other way
    worked = shipped("bulb-bag", "mm")
    blank = next(piece.blank for piece in worked.pieces if piece.names[0] == "bag")
    lines = scored_lines(blank, folds_of(worked)["bag"])
    gusset = next(one for one in blank.pieces if one.score.startswith("gusset"))
    toe = next(one for one in blank.pieces if one.score == "toe 1")
    sides = {(line.start, line.end): (line.up, line.folds) for line in lines}
    ends = {name: tuple(sorted((one.start, one.end), key=lambda p: float(p.x))) for name, one in (("gusset", gusset), ("toe", toe))}
    assert sides[ends["gusset"]] == ("back", "one way")
    assert sides[ends["toe"]] == ("front", "one way")
    assert all(line.folds != "never" for line in lines)


def test_the_key_tells_of_glue_slides_and_hidden_places_in_space() -> None:
    box = marks_used(context_of(shipped("seedling-box", "mm"), "print it true"))
    assert {"lift", "glue", "hidden", "slide"} <= box
    assert "front" not in box  # nothing is folded over flat


def test_a_slit_beside_a_panel_is_drawn_on_its_rim_only() -> None:
    # closed, the slits of the card lie along the notches of wall and floor: no slit line lies off the rims
    worked = shipped("welcome-card", "mm")
    steps = pictured_steps(worked)[-1]
    last = steps.runs[-1]
    plan = as_it_lies(last.after, last.parts, steps.parts).plan
    assert plan is not None
    for facet in plan.facets:
        corners = {(round(x, 3), round(y, 3)) for x, y in facet.polygon}
        slits = [edge for edge in facet.edges if edge.kind == "slit"]
        assert all((round(x, 3), round(y, 3)) in corners for edge in slits for x, y in (edge.start, edge.end))


def test_a_piece_of_many_panels_is_named_once_by_kind_or_band() -> None:
    pot = next(piece.blank for piece in shipped("bulb-pot", "mm").pieces)
    assert sorted(few_names(pot).values()) == ["foot", "tab", "wall"]
    bag = next(piece.blank for piece in shipped("bulb-bag", "mm").pieces)
    names = ["back", "foot", "front", "lower", "rim", "seam", "side a", "side b", "side c", "side d"]
    assert sorted(few_names(bag).values()) == names
