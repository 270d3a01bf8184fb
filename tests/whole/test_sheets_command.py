"""`creasewright sheets`: plain rectangles from a file, planned, told and written; what cannot be is told, a line each."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from creasewright.cli import main

TABLE = "name,width,height,count,turn\nsquare,50,50,7,no\nstrip,20,100,2,yes\n"


@pytest.fixture
def table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shelf.csv").write_text(TABLE)
    return "shelf.csv"


def test_a_plan_is_told_with_its_proof_and_its_cuts(table: str, capsys: pytest.CaptureFixture[str]) -> None:
    # Seven squares of 50 and 40 x 100 in strips: 17500 + 4000 = 21500 of 10000 a sheet, so three.
    assert main(["sheets", table, "--sheet", "100x100"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("3 sheets; no plan can do with fewer; ")
    assert "square at 0, 0: 50 x 50" in told
    assert "cut 1: " in told


def test_the_plan_is_written_for_other_programs(table: str, tmp_path: Path) -> None:
    assert main(["sheets", table, "--sheet", "100x100", "--quiet", "--out", "plan.json"]) == 0
    plan = json.loads((tmp_path / "plan.json").read_text())
    assert (plan["sheets"], plan["least"], plan["proved"]) == (3, 3, True)
    laid = [(p["piece"], one["times"]) for one in plan["patterns"] for p in one["placements"]]
    assert sum(times for piece, times in laid if piece == "square") == 7
    assert sum(times for piece, times in laid if piece == "strip") == 2


def test_a_plan_that_cannot_be_finished_leaves_the_one_before(table: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "plan.json").write_text("the plan before")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    assert main(["sheets", table, "--sheet", "100x100", "--quiet", "--out", "plan.json"]) == 2
    assert (tmp_path / "plan.json").read_text() == "the plan before"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["plan.json", "shelf.csv"]

def test_prices_and_limits_are_kept(table: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheets", table, "--sheet", "100x100:2@1", "--sheet", "100x200@2.5", "--quiet"]) == 0
    # Four squares at 1, the rest on one sheet at 2.5; both cheap ones hold 20000 of the 21500, so a dear one must be there, and
    # it alone does not hold all. By the bound, the dear one costs 2.5 a share of its 20000 only: 2 x 1 + 1500 / 20000 x 2.5 < 3.5.
    assert capsys.readouterr().out.startswith("2 sheets for 3 1/2; no plan can cost less than 2 1/2;")


def test_a_blank_that_fits_no_sheet_and_stock_used_up_are_told(table: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheets", table, "--sheet", "60x60:2", "--quiet"]) == 1
    told = capsys.readouterr()
    assert told.err.splitlines() == [
        "shelf.csv:3:1: strip is 20 x 100: it fits no sheet; make it smaller, or add a sheet",
        "5 of square find no place: the sheets are used up; add sheets",
    ]
    assert told.out == "2 sheets, with pieces missing; 1 settings\n"


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ([], "shelf.csv: no sheet is given; add `--sheet 305x305`, or `sheets:` in a YAML file"),
        (["--sheet", "100"], "--sheet 100 is not a size; write it as 305x305, or 305x305:20@0.35 for twenty at 0.35 each"),
        (["--sheet", "9x9", "--makers", "0"], "--makers 0 is out of reach; give a number up to 3000"),
        (["--sheet", "9x9", "--stages", "0"], "--stages 0 allows no cut; give a number from 1"),
        (["--sheet", "9x9", "--seconds", "-1"], "--seconds -1 is out of reach; give a number up to 86400"),
        (
            ["--sheet", "9x9", "--setting-price", "dear"],
            "`dear` for `--setting-price` is not a number; write a number such as 40, 40.5 or 40 1/2",
        ),
    ],
)  # fmt: skip
def test_options_that_cannot_be_used_are_told(
    table: str, capsys: pytest.CaptureFixture[str], options: list[str], words: str
) -> None:
    assert main(["sheets", table, *options]) == 2
    assert capsys.readouterr().err.strip() == words


def test_slow_libraries_are_not_loaded_where_the_quick_bound_settles_the_plan(tmp_path: Path) -> None:
    code = (
        "import sys; from creasewright.cli import main; main(['check', 'seed-swap-folio']); main(['check', 'plant-diary']);"
        "sys.exit(bool({'numpy', 'highspy'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, check=False).returncode == 0
