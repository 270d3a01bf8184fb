"""The cased journal and the accordion album at the ends of what they promise: each measure alone, and all of them together."""

from pathlib import Path

import pytest

from creasewright.checks.every_check import every_finding
from creasewright.checks.facts import Facts
from creasewright.cutting.kit_demand import plans_of
from creasewright.problems import NOTES
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from whole.test_designs import TRIMMERS

DESIGNS = Path(__file__).parents[2] / "designs"


def ends(name: str) -> list[dict[str, str]]:
    """Settings at one end: of one measure, and of all at once."""
    measures = [m for m in read_design(DESIGNS / f"{name}.yaml").measures if m.lowest is not None and m.highest is not None]
    assert measures
    alone = [{m.name: str(end)} for m in measures for end in (m.lowest, m.highest)]
    return [*alone, {m.name: str(m.lowest) for m in measures}, {m.name: str(m.highest) for m in measures}]


CASES = [
    pytest.param(name, system, setting, id=f"{name}-{system}-{number}")
    for name in ("garden-journal", "season-album")
    for number, setting in enumerate(ends(name))
    for system in ("in", "mm")
]


@pytest.mark.parametrize(("name", "system", "setting"), CASES)
def test_at_the_ends_of_its_range_nothing_blocks_or_warns(name: str, system: str, setting: dict[str, str]) -> None:
    found = work_out(read_design(DESIGNS / f"{name}.yaml"), system, settings=setting)
    assert [run.refused for assembly in found.assemblies for run in assembly.runs if run.refused is not None] == []
    facts = Facts(found, plans_of(found, TRIMMERS[system]), TRIMMERS[system])
    assert [str(finding) for finding in every_finding(facts) if finding.severity != NOTES] == []
