"""A printer measured once, and packs made for it, as a maker types it."""

import json
from pathlib import Path

import pytest

from command_runs import run
from creasewright.readback.read_marks import read_marks

POINT = 25.4 / 72
KITCHEN = ("printer", "kitchen", "--across", "174 mm", "--along", "207 mm", "--margins", "4 mm, 4 mm, 4 mm, 12 mm")


@pytest.fixture
def in_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("CREASEWRIGHT_CONFIG", str(tmp_path / "config" / "settings.yaml"))
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "settings.yaml").write_text("page: letter\n")
    return tmp_path


def longest_lines(pdf: bytes, page: int) -> tuple[float, float]:
    """The longest straight line across the page and the longest down it, mm in the file."""
    across = down = 0.0
    for path in read_marks(pdf, [page])[0].paths:
        if len(path.corners) == 2 and path.stroked:
            (x0, y0), (x1, y1) = path.corners
            across, down = max(across, abs(x1 - x0) * POINT), max(down, abs(y1 - y0) * POINT)
    return across, down


@pytest.mark.parametrize(("page", "lines"), [("letter", (177.8, 203.2)), ("a4", (180.0, 210.0))])
def test_the_test_page_has_its_lines_at_true_length(in_folder: Path, page: str, lines: tuple[float, float]) -> None:
    assert run("test-page", "--page", page) == 0
    pdf = (in_folder / "output" / f"test-page-{page}.pdf").read_bytes()
    assert longest_lines(pdf, 0) == pytest.approx(lines, abs=0.001)


def test_the_probes_tell_places_of_the_page_itself_whatever_the_printer(in_folder: Path) -> None:
    assert run(*KITCHEN) == 0
    assert run("test-page", "--printer", "kitchen") == 0
    assert run("test-page") == 0
    tails = []
    for name in ("test-page-letter", "test-page-letter-for-kitchen"):
        pdf = (in_folder / "output" / f"{name}.pdf").read_bytes()
        level = sorted(
            round(path.corners[0][1] * POINT, 2)
            for path in read_marks(pdf, [0])[0].paths
            if len(path.corners) == 2 and abs(path.corners[0][1] - path.corners[1][1]) < 0.001 and path.corners[0][1] * POINT < 15.5
        )
        tails.append(level)
    assert tails[0] == tails[1] == [float(k) for k in range(1, 16)]


def test_a_page_made_for_the_printer_has_its_lines_longer_by_what_the_printer_takes(in_folder: Path) -> None:
    assert run(*KITCHEN) == 0
    assert run("test-page", "--printer", "kitchen") == 0
    pdf = (in_folder / "output" / "test-page-letter-for-kitchen.pdf").read_bytes()
    # 7 in came out as 174 mm, 8 in as 207 mm
    across, down = longest_lines(pdf, 0)
    assert (across * 174 / 177.8, down * 207 / 203.2) == pytest.approx((177.8, 203.2), abs=0.001)


def test_the_back_of_the_sheet_is_moved_to_where_it_should_land(in_folder: Path) -> None:
    assert run(*KITCHEN, "--back", "2 mm right, 1 mm down") == 0
    assert run("test-page") == 0
    assert run("test-page", "--printer", "kitchen") == 0
    middles = []
    for name in ("test-page-letter", "test-page-letter-for-kitchen"):
        marks = read_marks((in_folder / "output" / f"{name}.pdf").read_bytes(), [1])[0]
        cross = [path.corners for path in marks.paths if len(path.corners) == 2]
        middles.append((sum(x for line in cross for x, _ in line) / 4 * POINT, sum(y for line in cross for _, y in line) / 4 * POINT))
    # what lands 2 mm to the right, seen through the paper, lies 2 mm to the left on the back: it goes 2 mm right there, and 1 mm up
    assert (middles[1][0] - middles[0][0]) * 174 / 177.8 == pytest.approx(2, abs=0.001)
    assert (middles[1][1] - middles[0][1]) * 207 / 203.2 == pytest.approx(1, abs=0.001)


def test_a_pack_for_the_printer_bears_its_name_and_its_rulers_are_put_right(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(*KITCHEN) == 0
    assert run("pack", "seed-packet-envelope", "--printer", "kitchen") == 0
    said = capsys.readouterr().out
    assert "templates read back from the file: largest error 0.00" in said
    written = in_folder / "output" / "seed-packet-envelope-letter-in-for-kitchen.pdf"
    record = json.loads(written.with_suffix(".json").read_text(encoding="utf-8"))
    assert record["printer"] == {
        "name": "kitchen", "scale": [0.978628, 1.018701], "margins": [4, 4, 4, 12], "back": [0, 0],
    }  # fmt: skip
    pdf = written.read_bytes()
    levels = [  # both rulers are 6 in long, and nothing else of that page is
        (across, down)
        for across, down in (longest_lines(pdf, page) for page in range(1, 4))
        if abs(down * 207 / 203.2 - 152.4) < 0.05
    ]
    assert len(levels) == 1


def test_the_settings_name_the_usual_printer_and_none_takes_it_back(in_folder: Path) -> None:
    assert run(*KITCHEN) == 0
    (in_folder / "config" / "settings.yaml").write_text("printer: kitchen\n")
    assert run("pack", "seed-packet-envelope", "--quiet") == 0
    assert run("pack", "seed-packet-envelope", "--quiet", "--printer", "none") == 0
    assert run("pack", "seed-packet-envelope", "--quiet", "--page", "a4") == 2
    assert sorted(path.name for path in (in_folder / "output").glob("*.pdf")) == [
        "seed-packet-envelope-letter-in-for-kitchen.pdf", "seed-packet-envelope-letter-in.pdf",
    ]  # fmt: skip


def test_without_a_printer_no_file_of_printers_is_asked_for(in_folder: Path) -> None:
    (in_folder / "config" / "printers.yaml").write_text("this: [is, no, file, of, printers\n")
    assert run("pack", "seed-packet-envelope", "--quiet") == 0


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            ("--across", "125 mm"),
            "--across: 125 mm for a line of 177.8 mm means that the printer prints at 70.3 %, and at most 3 % off is put right;"
            " print the test page at 100 % (not “fit to page”) and measure again\n",
        ),
        (
            ("--margins", "60 mm"),
            "printer `kitchen` on letter paper: these margins leave 80 × 116 mm of a page for a template, and 120 × 100 mm is the"
            " least; type the smallest figure at each edge of the test page whose line is whole\n",
        ),
        (("--back", "far off"), "--back: `far off` is not a shift of the back; write it as 0.5 mm right, 1 mm down\n"),
    ],
)
def test_what_cannot_be_put_right_is_one_line_and_nothing_is_kept(
    in_folder: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...], said: str
) -> None:
    assert run(*KITCHEN, *more) == 2
    assert capsys.readouterr().err == said
    assert not (in_folder / "config" / "printers.yaml").exists()


def test_one_value_is_measured_again_and_a_printer_is_forgotten(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(*KITCHEN) == 0
    assert run("printer", "kitchen", "--across", "178 mm") == 0
    capsys.readouterr()
    assert run("printer") == 0
    assert capsys.readouterr().out.splitlines() == [
        "kitchen on letter paper: prints at 100.11 % across and 101.87 % down the page",
        "  margins: left 4 mm, top 4 mm, right 4 mm, bottom 12 mm; back: none",
    ]
    assert run("printer", "kitchen", "--forget") == 0
    assert run("printer") == 0
    assert capsys.readouterr().out.splitlines() == ["`kitchen` is forgotten", "no printer is kept; `creasewright test-page` begins"]
    assert run("printer", "kitchen", "--margins", "4 mm") == 2
    assert capsys.readouterr().err == "`--across` is missing; measure A to B on the test page and write what it reads\n"


@pytest.mark.parametrize("joining", ["overlap", "butt"])
def test_templates_for_a_printer_are_joined_and_proved_as_it_prints_them(
    in_folder: Path, capsys: pytest.CaptureFixture[str], joining: str
) -> None:
    assert run(*KITCHEN) == 0
    assert run("pack", "garden-journal", "--printer", "kitchen", "--joining", joining, "--proof") == 0
    said = capsys.readouterr().out
    assert "templates read back from the file: largest error 0.00" in said
    assert "templates measured at 600 dots per inch: largest error 0.0" in said
    facts = json.loads((in_folder / "output" / "garden-journal-letter-in-for-kitchen.json").read_text())
    assert facts["read back"]["true"] and facts["proof"]["true"]
