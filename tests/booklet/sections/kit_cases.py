"""The shipped designs for one maker and for thirty, in the type that is printed."""

from functools import cache

from msgspec.structs import replace

from creasewright.booklet.context import PackContext
from creasewright.fitting.worked import Worked
from creasewright.pdf.fonts import FontRuler
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from section_cases import DESIGNS, ROOT, context_of

FORMS = (("in", "letter"), ("mm", "a4"))
PACKS = [(design, system, page, makers) for design in DESIGNS for system, page in FORMS for makers in (1, 30)]
"""Design, system, page, makers."""


@cache
def worked_for(design: str, system: str, makers: int) -> Worked:
    return work_out(read_design(ROOT / "designs" / f"{design}.yaml"), system, makers)


@cache
def kit(design: str, section: str, system: str = "in", page: str = "letter", makers: int = 1) -> PackContext:
    return replace(context_of(worked_for(design, system, makers), section, page), text=FontRuler())
