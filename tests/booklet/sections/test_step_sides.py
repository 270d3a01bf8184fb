"""Which side of the work the steps name: worked by hand from the folio's design, as it is made on the table."""

import re

from creasewright.booklet.sections.steps import build
from section_cases import alternatives, context_of, said, shipped


def test_a_strip_laid_on_another_shows_its_print_in_the_block_and_in_its_mirror() -> None:
    # both strips are worked print up; the flaps that were folded show the other side, and do not name the strip's
    text = said(build(context_of(shipped("seed-swap-folio"), "steps")))
    found = re.findall(r"Lay [^.,]*?([AB]\d), (\w+ side) up", text)
    assert found == [("B1", "sprig side"), ("A2", "sprig side")]


def test_of_pages_that_lie_on_one_another_the_topmost_names_the_side() -> None:
    # the folio closed, the page under the cover mat up: its print shows
    alts = alternatives(build(context_of(shipped("seed-swap-folio"), "steps")))
    assert [alt for alt in alts if "Stick cover mat" in alt and "sprig side up" in alt], [alt for alt in alts if "cover mat" in alt]
