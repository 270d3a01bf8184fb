"""Pictures of what slides in: it lies in the layer it ends in, half out, with the mark for tucking in at the edge it goes under."""

import pytest

from creasewright.booklet.diagrams.scene import PlanScene
from creasewright.booklet.diagrams.visible_lines import within
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.fitting.worked import Worked
from creasewright.reading.design import Insert
from section_cases import shipped
from small_designs import worked_of

CASES = [("seed-swap-folio", 4), ("seed-packet-envelope", 1)]


def inserted(worked: Worked) -> list[tuple[str, PlanScene]]:
    """The part that slides in, and the picture of it."""
    return [
        (run.parts[0], picture.plan)
        for steps in pictured_steps(worked)
        for run, picture in zip(steps.runs, steps.pictures, strict=True)
        if isinstance(run.written.action, Insert) and picture.plan is not None
    ]


@pytest.mark.parametrize(("design", "times"), CASES)
@pytest.mark.parametrize("system", ["in", "mm"])
def test_what_slides_in_is_drawn_under_the_panel_that_it_goes_under(design: str, times: int, system: str) -> None:
    found = inserted(shipped(design, system))
    assert len(found) == times
    for part, plan in found:
        places = [k for k, facet in enumerate(plan.facets) if facet.part == part]
        assert not any(plan.facets[k].lifted for k in places)
        (arrow,) = plan.fold_arrows
        assert (arrow.kind, plan.slides) == ("tuck", ())
        over = [facet for facet in plan.facets[max(places) + 1 :] if within(arrow.end, facet.polygon)]
        assert over  # the arrow ends under a panel that is drawn over the insert
        assert any(within(arrow.start, plan.facets[k].polygon) for k in places)
        assert not any(within(arrow.start, facet.polygon) for facet in over)  # and comes from where the insert is seen


POCKET = """
materials: {glue: {kind: glue}}
blanks:
  strip: {height: 100 mm, across: [flap: 60 mm, page: 90 mm]}
  card: {width: 80 mm, height: 90 mm}
steps:
  - {lay: strip, up: back}
  - {fold: flap of strip}
  - {glue: flap of strip, onto: page of strip, along: tail, makes: slot}
  - {insert: card, into: slot}
"""


def test_the_card_of_a_pocket_lies_between_the_page_and_the_flap_on_its_way() -> None:
    ((card, plan),) = inserted(worked_of(POCKET))
    assert [facet.panel for facet in plan.facets if facet.part != card] == ["page", "flap"]
    assert [facet.part == card for facet in plan.facets] == [False, True, False]
