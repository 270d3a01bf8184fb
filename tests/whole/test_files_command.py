"""Files for cutting machines, as a maker asks for them: what is written, what is said, what stays when something fails."""

import json
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from command_runs import run
from creasewright import machine_files
from creasewright.cutfiles.write_svg import svg_bytes

SVG = "{http://www.w3.org/2000/svg}"
HOME = Path("output") / "seed-packet-envelope-files-mm"


@pytest.fixture
def in_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "none"))
    monkeypatch.delenv("CREASEWRIGHT_CONFIG", raising=False)
    return tmp_path


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def files(*more: str) -> int:
    return run("files", "seed-packet-envelope", "--units", "mm", *more)


def test_pieces_and_sheets_are_written_and_the_largest_error_is_told(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert files() == 0
    assert names(in_folder / HOME) == [
        "A-envelope.dxf", "A-envelope.svg", "B-liner.dxf", "B-liner.svg", "files.json", "sheet-1-plain.dxf", "sheet-1-plain.svg",
        "sheet-2-leafy.dxf", "sheet-2-leafy.svg",
    ]  # fmt: skip
    assert capsys.readouterr().out.startswith(f"{HOME}: 8 files, each read back: largest error 0.000000")
    told = json.loads((in_folder / HOME / "files.json").read_text(encoding="utf-8"))
    assert (told["units"], told["largest error"] < 0.00001, len(told["files"])) == ("mm", True, 8)
    assert told["files"][0] == {
        "name": "A-envelope.svg", "what": "piece", "letter": "A", "blank": "envelope", "paper": "plain", "count": 1,
        "width": pytest.approx(told["files"][0]["width"]), "height": pytest.approx(told["files"][0]["height"]),
    }  # fmt: skip


def test_layers_are_groups_named_for_what_is_done_there(in_folder: Path) -> None:
    assert files("--format", "svg") == 0
    root = ElementTree.parse(in_folder / HOME / "A-envelope.svg").getroot()
    assert [group.get("id") for group in root.iter(f"{SVG}g")] == ["cut", "score-mountain"]
    assert root.get("width", "").endswith("mm")
    cut = next(root.iter(f"{SVG}path")).get("d") or ""
    assert (cut.count("M"), cut.endswith("Z"), " A " in cut) == (1, True, True)


def test_a_later_run_takes_away_what_it_no_longer_makes_and_nothing_else(in_folder: Path) -> None:
    assert files() == 0
    (in_folder / HOME / "my notes.txt").write_text("mine")
    (in_folder / HOME / "other.svg").write_text("mine too")
    assert files("--format", "svg") == 0
    assert names(in_folder / HOME) == [
        "A-envelope.svg", "B-liner.svg", "files.json", "my notes.txt", "other.svg", "sheet-1-plain.svg", "sheet-2-leafy.svg",
    ]  # fmt: skip


def test_a_list_of_files_that_was_changed_takes_away_nothing_outside(in_folder: Path) -> None:
    (in_folder / "precious.svg").write_text("mine")
    (in_folder / HOME).mkdir(parents=True)
    (in_folder / HOME / "files.json").write_text('{"files": [{"name": "../../precious.svg"}, {"name": 7}]}')
    assert files() == 0
    assert (in_folder / "precious.svg").exists()


def test_a_file_that_does_not_read_back_true_stops_the_run_and_older_files_stay(
    in_folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert files() == 0
    before = {path.name: path.read_bytes() for path in (in_folder / HOME).iterdir()}
    capsys.readouterr()
    monkeypatch.setitem(machine_files.FORMATS, "svg", lambda drawing: svg_bytes(drawing).replace(b"L ", b"L 1", 1))
    assert files() == 1
    said = capsys.readouterr().err
    assert any(line.startswith("A-envelope.svg does not read back as it was drawn (cut at ") for line in said.splitlines())
    assert said.endswith("nothing was written; more than 0.01 mm is a fault of the program\n")
    assert {path.name: path.read_bytes() for path in (in_folder / HOME).iterdir()} == before


def test_scores_are_rows_of_cuts_on_wish(in_folder: Path) -> None:
    assert files("--format", "svg", "--perforate", "3 mm, 1 mm") == 0
    root = ElementTree.parse(in_folder / HOME / "A-envelope.svg").getroot()
    scores = next(group for group in root.iter(f"{SVG}g") if group.get("id") == "score-mountain")
    assert len(list(scores.iter(f"{SVG}path"))) > 50
    told = json.loads((in_folder / HOME / "files.json").read_text(encoding="utf-8"))
    assert told["perforated"] == {"dash": 3.0, "gap": 1.0}


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ("3 mm", '--perforate 3 mm is not two lengths; write the dash and the gap: `--perforate "3 mm, 1 mm"`\n'),
        ("3, 1 mm", "--perforate: 3 has no unit; write 3 mm or 3 in\n"),
        ("0 mm, 1 mm", "--perforate 0 mm, 1 mm is out of reach; give a dash and a gap of 0.2 to 50 mm each\n"),
        ("3 mm, 9 in", "--perforate 3 mm, 9 in is out of reach; give a dash and a gap of 0.2 to 50 mm each\n"),
    ],
)
def test_dashes_that_cannot_be_cut_are_told(in_folder: Path, capsys: pytest.CaptureFixture[str], given: str, said: str) -> None:
    assert files("--perforate", given) == 2
    assert capsys.readouterr().err == said
    assert not (in_folder / "output").exists()


def test_a_thing_that_cannot_be_built_gets_no_files_unless_asked_anyway(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (in_folder / "wide.yaml").write_text(
        "creasewright: 1\ntitle: Wide\npapers: {card: {sheet: A4, grammage: 300, caliper: 0.4 mm}}\n"
        "blanks: {strip: {width: 400 mm, height: 100 mm}}\n"
    )
    assert run("files", "wide.yaml", "--units", "mm") == 1
    assert capsys.readouterr().err.endswith("No file was written. `--anyway` writes them all the same.\n")
    assert not (in_folder / "output").exists()
    assert run("files", "wide.yaml", "--units", "mm", "--anyway", "--quiet") == 0
    assert names(in_folder / "output" / "wide-files-mm") == ["A-strip.dxf", "A-strip.svg", "files.json"]


def test_a_place_that_cannot_be_written_to_is_one_line(in_folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (in_folder / "taken").write_text("a file")
    assert files("--out", "taken", "--quiet") == 2
    assert capsys.readouterr().err.endswith("choose another folder with `--out`\n")


def test_the_library_for_dxf_is_not_loaded_before_it_is_needed() -> None:
    code = "import sys, creasewright.cli, creasewright.commands.files; sys.exit('ezdxf' in sys.modules or 'numpy' in sys.modules)"
    package = str(Path(sys.modules["creasewright"].__file__ or "").parent.parent)
    assert subprocess.run([sys.executable, "-c", code], env={"PYTHONPATH": package, "PATH": ""}).returncode == 0
