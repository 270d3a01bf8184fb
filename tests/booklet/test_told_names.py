"""Which panels and edges a step's picture names: those its sentence calls by name, and all of a piece met for the first time."""

from typing import cast

import pytest

from booklet.diagrams.flat_scenes import PAGE, facet, rectangle
from creasewright.booklet.diagrams.scene import Action, Facet, Named, PlanScene
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_rows import StepCell
from creasewright.booklet.step_views import StepPicture
from creasewright.booklet.told_names import tops_told, with_told_names, without_idle_names
from creasewright.fitting.worked import Worked
from section_cases import shipped

PARTS = ShownParts(cast(Worked, None), "", {}, frozenset(), False)


def strip(letter: str, x: float, **flags: bool) -> tuple[Facet, ...]:
    """A page with a flap below it, `x` mm from the left."""
    page = tuple((x + px, py) for px, py in PAGE)
    flap = rectangle(x, 200.0, 127.0, 50.0)
    return (
        facet(page, part=f"strip {letter}", panel="page", letter=letter, motif=None, **flags),
        facet(flap, part=f"strip {letter}", panel="flap", letter=letter, motif=None, **flags),
    )


def named(text: str, facets: tuple[Facet, ...], met: set[str], *marks: Action, names: tuple[Named, ...] = ()) -> list[tuple[str, str]]:
    """The names of the picture that may be left out: text, and the letter of the piece or the edge that it stands at."""
    cell = StepCell("1", text, StepPicture(PlanScene(facets, names=names), None, ("", ""), marks), "", "")
    plan = with_told_names(cell, PARTS, met).picture.plan
    assert plan is not None
    return [(one.text, one.edge or (one.panel or ("",))[0].removeprefix("strip ")) for one in plan.names if one.wish]


def test_a_panel_called_by_name_is_named_on_the_piece_it_is_said_to_be_of() -> None:
    both = (*strip("A", 0.0), *strip("B", 200.0))
    assert named("Put glue on the *flap* of **A** where **B** will lie.", both, {"A", "B"}) == [("flap", "A")]
    # a list with one owner; and one that names none: either piece may be meant
    assert named("Fold the *page* and the *flap* of **B** over.", both, {"A", "B"}) == [("page", "B"), ("flap", "B")]
    assert named("Lay **A** on **B**, fold line on fold line by the *flap*.", both, {"A", "B"}) == [("flap", "A"), ("flap", "B")]


def test_where_no_piece_is_told_of_those_in_the_picture_are_meant() -> None:
    assert named("Fold toward you between *page* and *flap*.", strip("A", 0.0), {"A"}) == [("page", "A"), ("flap", "A")]


def test_an_owner_is_looked_for_in_the_name_s_own_sentence() -> None:
    both = (*strip("A", 0.0), *strip("B", 200.0))
    told = named("Open **A** by the *flap*. Press the *page* of **B**.", both, {"A", "B"})
    assert told == [("flap", "A"), ("flap", "B"), ("page", "B")]


def test_all_panels_and_the_top_of_a_piece_are_named_when_it_is_met_and_not_again() -> None:
    met: set[str] = set()
    assert named("Lay **A** down.", strip("A", 0.0), met) == [("page", "A"), ("flap", "A"), ("top", "head")]
    assert met == {"A"}
    assert named("Lay **A** down.", strip("A", 0.0), met) == []


def test_the_top_is_named_after_a_turn() -> None:
    assert named("Turn it over.", strip("A", 0.0), {"A"}, Action("turn over page")) == [("top", "head")]


def test_a_print_that_has_a_top_shows_it() -> None:
    printed = (facet(PAGE, letter="A"), facet(rectangle(0.0, 200.0, 127.0, 50.0), panel="flap", letter="A"))
    assert ("top", "head") not in named("Lay **A** down.", printed, set())


def test_tops_are_named_on_what_is_laid_and_on_what_it_is_laid_on() -> None:
    facets = (*strip("A", 0.0), *strip("B", 200.0, lifted=True))
    cell = StepCell("1", "Lay **B** on **A**.", StepPicture(PlanScene(facets), None, ("", "")), "", "")
    plan = with_told_names(cell, PARTS, {"A", "B"}, tops=True).picture.plan
    assert plan is not None
    # that of what is laid may not be left out
    assert [(one.text, min(x for x, _ in one.polygon), one.wish) for one in plan.names] == [("top", 200.0, False), ("top", 0.0, True)]


def test_the_top_is_told_where_a_part_is_laid_by_its_edges_and_half_a_turn_does_not_show() -> None:
    found = {
        (name, made.assembly.name, run.number)
        for name in ("seed-swap-folio", "seed-packet-envelope", "welcome-card", "season-album")
        for worked in [shipped(name)]
        for made in pictured_steps(worked)
        for run, picture in zip(made.runs, made.pictures, strict=True)
        if tops_told(run, picture, worked.papers)
    }
    # not the strip of step 6 of a block (its sprigs show), nor the mat (the same either way), nor the liner (it has its place by its lines)
    assert found == {("seed-swap-folio", "folio", 2), ("seed-swap-folio", "folio", 3)}


def test_what_the_picture_names_already_is_not_named_twice() -> None:
    assert named("Fold the *flap* of **A**.", strip("A", 0.0), {"A"}, names=(Named("flap", rectangle(0.0, 200.0, 127.0, 50.0)),)) == []


def test_the_only_panel_of_a_piece_needs_no_name_beside_its_letter() -> None:
    assert named("Lay the *page* of **A** down.", (facet(PAGE, letter="A"),), {"A"}) == []


@pytest.mark.parametrize("text", ["Fold **A** and **B**.", "Fold **B**."])
def test_the_pieces_told_of_go_along_with_the_picture(text: str) -> None:
    cell = StepCell("1", text, StepPicture(PlanScene(strip("A", 0.0)), None, ("", "")), "", "")
    plan = with_told_names(cell, PARTS, set()).picture.plan
    assert plan is not None and plan.told == (("A", "B") if "and" in text else ("B",))


def test_a_name_of_a_panel_that_no_step_says_is_left_out_but_not_that_of_an_edge() -> None:
    names = tuple(Named(text, PAGE, edge) for text, edge in (("page", ""), ("flap", ""), ("turn-in", ""), ("top", "head")))
    first, second = (
        StepCell("1", text, StepPicture(PlanScene(strip("A", 0.0), names=names), None, ("", "")), "", "")
        for text in ("Lay **A**, its *page* toward you.", "Fold the *flap* of **A** over.")
    )
    plans = [cell.picture.plan for cell in without_idle_names([first, second])]
    assert [[name.text for name in plan.names] for plan in plans if plan] == [["page", "flap", "top"]] * 2
