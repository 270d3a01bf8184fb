"""Assemblies that list no parts take what their steps mention: blanks, and assemblies made before."""

from pathlib import Path

from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out

CONSTRUCTIONS = Path(__file__).resolve().parent.parent / "reading" / "constructions"


def test_a_band_goes_round_the_card_that_another_assembly_made() -> None:
    worked = work_out(read_design(CONSTRUCTIONS / "gate-fold-card.yaml"), "mm")
    assert worked.finished is not None
    assert sorted(worked.finished.state.blanks) == ["belly", "gate card/card"]
    # closed: the back panel of 130 x 150 with a gate on each half of it, two layers of 0.27; the band of the
    # same card lies on both faces and once more where it laps: three
    assert [round(size, 2) for size in worked.finished.size] == [130, 150, 1.35]


def test_a_part_of_several_panels_may_be_wished_upright() -> None:
    worked = work_out(read_design(CONSTRUCTIONS / "envelope-and-liner.yaml"), "mm")
    assert [(result.wish.panel[0], result.upright) for result in worked.wishes] == [("liner", True)]
