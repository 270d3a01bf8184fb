"""The sections that a layout may ask for, by key. (Templates are pages of their own: see `booklet/tiling`.)"""

from collections.abc import Callable

from creasewright.booklet.context import PackContext
from creasewright.booklet.section import Section
from creasewright.booklet.sections import (
    back_matter,
    cover,
    cut_list,
    fit_table,
    materials,
    page_plan,
    print_it_true,
    score_guide,
    sheet_plans,
    steps,
)

Build = Callable[[PackContext], Section | None]


def no_section(context: PackContext) -> Section | None:
    """Of words for something that is no part of a pack."""
    return None


SECTIONS: dict[str, Build] = {
    "cover": cover.build,
    "print it true": print_it_true.build,
    "materials": materials.build,
    "cut list": cut_list.build,
    "sheet plans": sheet_plans.build,
    "page plan": page_plan.build,
    "score guide": score_guide.build,
    "steps": steps.build,
    "fit table": fit_table.build,
    "back matter": back_matter.build,
    "test page": no_section,
}
