"""The stage `closed` is how the finished thing lies: a step may not bring a part to it after that."""

from pathlib import Path

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out

DESIGN = """\
creasewright: 1
title: Bed marker
papers:
  card: {called: Card, sheet: letter | A4, caliper: 0.3 mm}
materials:
  glue: {kind: glue, called: glue}
blanks:
  marker: {paper: card, across: [near half: 50 mm, far half: 50 mm], height: 100 mm}
  label: {paper: card, width: 30 mm, height: 30 mm}
steps:
  - {lay: marker, up: front}
  - {fold: near half/far half, stage: NAME}
  - {join: label, onto: near half, meet: centre}
"""


def worked(folder: Path, name: str) -> object:
    file = folder / "marker.yaml"
    file.write_text(DESIGN.replace("NAME", name), encoding="utf-8")
    return work_out(read_design(file), "mm")


def test_a_part_that_comes_after_the_closed_stage_is_a_fault_at_that_step(tmp_path: Path) -> None:
    with pytest.raises(ProblemsFound) as found:
        worked(tmp_path, "closed")
    (problem,) = found.value.problems
    assert problem.where.line == 12
    assert problem.what == "`closed` is how the finished thing lies, but label comes to it after this step"


def test_any_other_stage_may_come_before_it(tmp_path: Path) -> None:
    worked(tmp_path, "folded")
