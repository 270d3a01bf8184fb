"""The commands as a maker runs them: what is written, what is said, how they end."""

import json
import subprocess
import sys
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from command_runs import run
from creasewright.cli import main
from creasewright.places import built_in_designs

# the flap is 50 wide; 3 mm from its edge runs a strip of glue 6 mm wide: 50 - 3 - 6 = 41
TOO_WIDE = """
creasewright: 1
title: Too wide a photo
papers: {card: {sheet: A4, grammage: 300, caliper: 0.4 mm}}
materials: {glue: {kind: glue}}
blanks:
  strip: {height: 100 mm, across: [flap: 50 mm, page: 60 mm]}
  photo: {width: 80 mm, height: 90 mm}
steps:
  - {fold: flap}
  - {glue: flap, onto: page, along: [tail, right], makes: pocket}
  - {insert: photo, into: pocket}
finished: {front: page}
"""
SAIL = """
creasewright: 1
title: Sail
papers: {cloth: {sheet: [5000 mm, 5000 mm], grammage: 100, caliper: 0.1 mm}}
blanks:
  sail: {height: 3000 mm, across: [west: 2000 mm, east: 2000 mm]}
steps:
  - {fold: west}
finished: {front: east}
"""
FAULTY = """
creasewright: 1
title: Faulty
papers: {card: {sheet: A4, front: one-wey}}
blanks: {strip: {hieght: 100 mm, across: [flap: 50 mm, page: 60 mm]}}
"""


@pytest.fixture
def in_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "none"))
    monkeypatch.delenv("CREASEWRIGHT_CONFIG", raising=False)
    return tmp_path


@pytest.mark.parametrize("name", built_in_designs())
@pytest.mark.parametrize(("page", "units"), [("letter", "in"), ("letter", "mm"), ("a4", "in"), ("a4", "mm")])
def test_every_design_packs_and_the_file_is_sound(in_folder: Path, name: str, page: str, units: str) -> None:
    assert run("pack", name, "--page", page, "--units", units, "--quiet") == 0
    written = in_folder / "output" / f"{name}-{page}-{units}.pdf"
    with pikepdf.open(written) as pdf:
        assert pdf.check_pdf_syntax() == []
        # ISO 32000-1:2008, table 150: the viewer is asked not to scale
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en-US"
    record = json.loads(written.with_suffix(".json").read_text(encoding="utf-8"))
    assert record["creasewright record"] == 1
    assert (record["units"], record["page"], record["system"], record["makers"]) == ("mm", page, units, 1)
    assert [each for each in record["findings"] if each["check"] != "score setting"] == []  # a ruler does what no groove does
    assert record.get("read back", {"true": True})["true"]


@pytest.mark.parametrize("name", built_in_designs())
def test_the_same_design_gives_the_same_bytes_in_another_process(in_folder: Path, name: str) -> None:
    # sets of words come in another order with every seed
    package = str(Path(sys.modules["creasewright"].__file__ or "").parent.parent)
    makers = "30" if name == "swap-day-card" else "2"
    for seed in ("1", "2"):
        command = [sys.executable, "-m", "creasewright", "pack", name, "--makers", makers, "--quiet", "--out", seed]
        subprocess.run(command, check=True, env={"PYTHONHASHSEED": seed, "PYTHONPATH": package, "PATH": ""})
    for ending in ("pdf", "json"):
        files = [in_folder / seed / f"{name}-letter-in-x{makers}.{ending}" for seed in ("1", "2")]
        assert len({file.read_bytes() for file in files}) == 1


def test_what_cannot_be_built_is_refused_and_nothing_is_written(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (in_folder / "wide.yaml").write_text(TOO_WIDE)
    assert run("pack", "wide.yaml", "--units", "mm") == 1
    said = capsys.readouterr().err
    assert "wide.yaml:12:5: cannot be built (insert): photo is 80 mm wide, but pocket has 41 mm" in said
    assert not (in_folder / "output").exists()


def test_printed_anyway_it_bears_its_fault_on_the_cover(in_folder: Path) -> None:
    (in_folder / "wide.yaml").write_text(TOO_WIDE)
    assert run("pack", "wide.yaml", "--units", "mm", "--page", "a4", "--anyway", "--quiet") == 0
    cover = pypdfium2.PdfDocument(in_folder / "output" / "wide-a4-mm.pdf")[0].get_textpage().get_text_bounded()
    assert "photo is 80 mm wide, but pocket has 41 mm" in " ".join(cover.split())


def test_faults_of_the_input_come_all_at_once_and_an_old_pack_is_not_harmed(
    in_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old = in_folder / "output" / "faulty-letter-in.pdf"
    old.parent.mkdir()
    old.write_bytes(b"an older pack")
    (in_folder / "faulty.yaml").write_text(FAULTY)
    assert run("pack", "faulty.yaml") == 2
    said = capsys.readouterr().err
    assert "faulty.yaml:4:35: `one-wey` for `front`" in said
    assert "did you mean `height`?" in said
    assert old.read_bytes() == b"an older pack"
    assert [path.name for path in old.parent.iterdir()] == ["faulty-letter-in.pdf"]


def test_check_prints_measures_blanks_and_findings_and_writes_nothing(
    in_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("check", "seed-swap-folio", "--units", "mm") == 0
    said = capsys.readouterr().out
    assert "page width   105 mm  (92 mm to 110 mm)" in said
    assert "left strip: 265 × 140 mm, meadow, 2 to cut" in said  # 55 + 105 + 105
    assert "Nothing found against it." in said
    assert list(in_folder.iterdir()) == []


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("pack", "seed-swap-folo"), "did you mean `seed-swap-folio`?"),
        (("check", "swap-day-card", "--set", "fase=3 in"), "there is no measure `fase` to set"),
        (("check", "swap-day-card", "--set", "face"), "--set face has no value"),
        (("check", "swap-day-card", "--makers", "0"), "--makers 0 is out of reach"),
        (("pack", "swap-day-card", "--overlap", "2 in"), "--overlap 2 in is out of reach; take 5 to 25 mm, or 1/4 to 15/16 in"),
        (("pack", "swap-day-card", "--overlap", "9"), "--overlap 9: 9 has no unit"),
        (("pack", "swap-day-card", "--overlap", "9 mm", "--joining", "butt"), "--overlap 9 mm with butt joins, which have none"),
        (("check", "swap-day-card", "--set", "face=3 in + 2"), "`3 in + 2` is a length plus a plain number"),
    ],
)
def test_options_that_cannot_be_used_are_told(
    in_folder: Path, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], words: str
) -> None:
    assert run(*arguments) == 2
    assert words in capsys.readouterr().err


def test_templates_of_all_pieces_are_joined_as_asked_and_proved(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("pack", "open-day-card", "--templates", "all", "--joining", "butt", "--proof") == 0
    said = capsys.readouterr().out
    assert "4 of them templates (no arrangement takes fewer than 4)" in said
    assert "over lines, marks, check squares and 2 joins" in said
    assert "templates measured at 600 dots per inch: largest error 0.0" in said
    facts = json.loads((in_folder / "output" / "open-day-card-letter-in.json").read_text())
    assert (facts["template pages"]["printed"], facts["template pages"]["least"]) == (4, 4)
    assert facts["proof"]["true"]


def test_a_template_of_too_many_pages_ends_the_run_with_one_line(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (in_folder / "sail.yaml").write_text(SAIL)
    assert run("pack", "sail.yaml", "--quiet", "--anyway", "--templates", "all", "--page", "a4", "--units", "mm") == 2
    # 4 m by 3 m on windows of 182 by 236 mm: 279.4
    assert capsys.readouterr().err.splitlines()[-1].endswith(
        "the template of `sail` would take 280 pages; make the piece smaller, or mark it out with a ruler: templates go up to 200 pages"
    )
    assert not (in_folder / "output").exists()


def test_the_configuration_file_gives_other_defaults(in_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (in_folder / "mine.yaml").write_text("page: a4\nunits: mm\n")
    monkeypatch.setenv("CREASEWRIGHT_CONFIG", str(in_folder / "mine.yaml"))
    assert run("pack", "swap-day-card", "--quiet") == 0
    assert (in_folder / "output" / "swap-day-card-a4-mm.pdf").exists()


def test_help_loads_neither_the_pdf_library_nor_the_readers() -> None:
    code = "import sys; from creasewright.cli import parser; parser(); print(sorted({m.split('.')[0] for m in sys.modules}))"
    package = str(Path(sys.modules["creasewright"].__file__ or "").parent.parent)
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env={"PYTHONPATH": package})
    loaded = set(eval(shown.stdout, {"__builtins__": {}}))  # a list of names that this very test printed
    assert loaded & {"reportlab", "jinja2", "yaml", "msgspec", "pyclipper"} == set()
    assert "creasewright" in loaded


def test_a_check_tells_every_clearance_and_takes_the_maker_s_own_hands(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("check", "swap-day-card", "--units", "mm") == 0
    # 3 mm short less the bend, pi 2 0.27 / 4; 2 x 0.5 for the first score and 0.5 for the second: 1.12
    line = "  inner of card under the fold middle/cover: room 2.58 mm, hand error 1.12 mm, none in 30 would fail"
    assert line in capsys.readouterr().out.splitlines()
    (in_folder / "tools.yaml").write_text("hand errors: {scored: 1.5 mm}\n", encoding="utf-8")
    assert run("check", "swap-day-card", "--units", "mm", "--tools", "tools.yaml") == 0
    assert "warning (forgiveness): inner of card under the fold middle/cover: 2.58 mm of room against 3.35 mm" in capsys.readouterr().out


def test_the_record_holds_each_clearance_with_what_makes_it(in_folder: Path) -> None:
    assert run("pack", "swap-day-card", "--units", "mm", "--quiet") == 0
    record = json.loads((in_folder / "output" / "swap-day-card-letter-mm.json").read_text(encoding="utf-8"))
    (one,) = record["clearances"]
    assert (one["kind"], one["part"], one["step"]) == ("inner panel", "card", 3)
    assert [(cause["operation"], cause["line"], cause["slope"]) for cause in one["causes"]] == [
        ("scored", "inner/middle", -2), ("scored", "middle/cover", 1),
    ]  # fmt: skip
    assert record["hand errors"]["scored"] == 0.5


def test_gates_are_told_where_they_are_asked_for(capsys: pytest.CaptureFixture[str]):
    assert main(["check", "swap-day-card"]) == 0
    assert "Gates" not in capsys.readouterr().out
    assert main(["check", "swap-day-card", "--gates"]) == 0
    assert "Gates" in capsys.readouterr().out
    assert main(["check", "seed-packet-envelope", "--units", "mm", "--gates"]) == 0
    assert "before the glue of step 2: width of the border beside liner 6 mm, give or take 1 mm; shows" in capsys.readouterr().out
