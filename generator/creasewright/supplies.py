"""The drawer and the wishes of the tool file, for one design: names looked up, lengths in the pack's system."""

from creasewright.cutting.demand import Effort, Wishes
from creasewright.cutting.kit_demand import Sheets, Supplies
from creasewright.fitting.worked import Worked
from creasewright.nearest_name import did_you_mean
from creasewright.problems import Problem, ProblemsFound
from creasewright.reading.design import Text
from creasewright.reading.settings import Tools


def supplies_of(tools: Tools, worked: Worked, effort: Effort) -> Supplies:
    """Raises ProblemsFound where the drawer leaves nothing of a sheet. Papers and blanks of other designs are passed over only in
    the drawer, which serves them all; a spare of a blank that is not in the design is a slip."""
    system = worked.system
    sheets: dict[str, tuple[Sheets, ...]] = {}
    problems: list[Problem] = []
    for one in tools.drawer:
        paper = worked.papers.get(str(one.paper))
        if paper is None:
            continue
        width, height = one.width.mm(system), one.height.mm(system)
        left, head, right, tail = paper.lost
        if width <= left + right or height <= head + tail:
            problems.append(Problem(one.paper.where, f"nothing of this sheet of {paper.name} is left to use", "write its full size"))
        sheets[paper.name] = (*sheets.get(paper.name, ()), Sheets(width, height, one.count, one.price))
    names = [blank.name for blank in worked.blanks]
    problems += [_no_blank(text, names) for text, _ in tools.cutting.spares_of if str(text) not in names]
    if problems:
        raise ProblemsFound(problems)
    cutting = tools.cutting
    wishes = Wishes(cutting.setting_price, cutting.stages)
    return Supplies(sheets, cutting.spares, {str(text): count for text, count in cutting.spares_of}, wishes, effort)


def _no_blank(text: Text, names: list[str]) -> Problem:
    hint = did_you_mean(str(text), names) or "name a blank of the design"
    return Problem(text.where, f"there is no blank `{text}` in this design", hint)
