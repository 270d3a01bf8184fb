"""Every piece and planned sheet of a design as SVG and DXF, read back before it is written: the run, one line a stage."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from msgspec import Struct, json

from creasewright.checked import Checked
from creasewright.cutfiles.blank_drawing import blank_drawing
from creasewright.cutfiles.cut_drawing import CutDrawing
from creasewright.cutfiles.perforation import Perforation, perforated
from creasewright.cutfiles.sheet_drawing import sheet_drawing
from creasewright.cutfiles.write_dxf import dxf_bytes
from creasewright.cutfiles.write_svg import svg_bytes
from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked
from creasewright.geometry.point import Point
from creasewright.pdf.write_whole import write_all_whole
from creasewright.readback.compare_drawing import DrawingReadBack, compare_drawing
from creasewright.readback.read_dxf import read_dxf
from creasewright.readback.read_svg import read_svg
from creasewright.scoring.scored_lines import folds_of

FORMATS: dict[str, Callable[[CutDrawing], bytes]] = {"svg": svg_bytes, "dxf": dxf_bytes}
LIST = "files.json"
"""What lies in the folder: for other programs, and so that a later run takes away what it no longer makes."""
LONGEST_NAME = 40


class Drawn(Struct, frozen=True):
    name: str
    """Of its files, without what tells the format."""
    facts: dict[str, Any]
    """What the list of files says of it."""
    drawing: CutDrawing


class Written(Struct, frozen=True):
    folder: Path
    paths: tuple[Path, ...]
    read_back: tuple[tuple[str, DrawingReadBack], ...]
    """By file name."""

    @property
    def largest_error_mm(self) -> float:
        return max((one.largest_error_mm for _, one in self.read_back), default=0.0)


def drawings_of(done: Checked, how: Perforation | None) -> list[Drawn]:
    """Pieces in the order of their letters, then sheets."""
    worked = done.worked
    pieces = {piece.letter: piece for piece in worked.pieces}
    plain = {letter: piece_drawing(worked, piece) for letter, piece in pieces.items()}
    drawings = {letter: perforated(one, how) if how is not None else one for letter, one in plain.items()}
    found = [
        Drawn(
            f"{letter}-{slug(pieces[letter].blank.name)}",
            {
                "what": "piece", "letter": letter, "blank": pieces[letter].blank.name, "paper": pieces[letter].blank.paper,
                "count": pieces[letter].count * worked.makers,
            },
            drawing,
        )
        for letter, drawing in drawings.items()
    ]  # fmt: skip
    number = 0
    for plan in done.plans:
        for sheet in plan.sheets:
            number += 1
            title = f"{worked.design.title}: sheet {number} of {plan.paper}, {sheet.count} to cut"
            drawing = sheet_drawing(sheet, worked.papers[plan.paper], pieces, drawings, title)
            facts = {"what": "sheet", "paper": plan.paper, "count": sheet.count, "pieces": [p.key for p in sheet.placements]}
            found.append(Drawn(f"sheet-{number}-{slug(plan.paper)}", facts, drawing))
    return found


def piece_drawing(worked: Worked, piece: Piece) -> CutDrawing:
    """The folds of all its parts taken together."""
    all_folds = folds_of(worked)
    folds: dict[str, tuple[float, ...]] = {}
    for part in piece.parts:
        for name, angles in all_folds.get(part, {}).items():
            folds[name] = folds.get(name, ()) + angles
    sewings = worked.finished.state.sewings if worked.finished is not None else ()
    pricks = {spot for sewing in sewings for part, spot in sewing.pricks if part in piece.parts}
    title = f"{worked.design.title}: {piece.letter} {piece.blank.name}, {piece.count * worked.makers} to cut"
    return blank_drawing(piece.blank, folds, [Point(*spot) for spot in sorted(pricks)], title)


def write_machine_files(
    done: Checked, folder: Path, formats: tuple[str, ...], how: Perforation | None, say: Callable[[str], None]
) -> Written:
    """Writes `DIR/<design>-files-<units>[-x<makers>]/`, all files or none. What does not read back true is not written."""
    worked = done.worked
    say("drawing the pieces and sheets")
    drawn = drawings_of(done, how)
    files: list[tuple[str, bytes]] = []
    read_back: list[tuple[str, DrawingReadBack]] = []
    for one in drawn:
        for kind in formats:
            name = f"{one.name}.{kind}"
            say(f"drawing {name}")
            content = FORMATS[kind](one.drawing)
            files.append((name, content))
            read_back.append((name, read_again(one.drawing, kind, content)))
    home = folder / (f"{worked.design.name}-files-{worked.system}" + (f"-x{worked.makers}" if worked.makers > 1 else ""))
    made = Written(home, tuple(home / name for name, _ in files), tuple(read_back))
    if all(one.true for _, one in read_back):
        before = listed(home / LIST)
        list_text = json.format(json.encode(contents(done, drawn, formats, how, made)), indent=1) + b"\n"
        write_all_whole([*((home / name, content) for name, content in files), (home / LIST, list_text)])
        for name in before - {name for name, _ in files}:
            (home / name).unlink(missing_ok=True)
    return made


def read_again(drawing: CutDrawing, kind: str, content: bytes) -> DrawingReadBack:
    return compare_drawing(drawing, read_svg(content) if kind == "svg" else read_dxf(content, drawing.height))


def contents(done: Checked, drawn: list[Drawn], formats: tuple[str, ...], how: Perforation | None, made: Written) -> dict[str, Any]:
    worked = done.worked
    return {
        "creasewright files": 1,
        "units": "mm",
        "design": worked.design.name,
        "system": worked.system,
        "makers": worked.makers,
        "perforated": None if how is None else {"dash": how.dash, "gap": how.gap},
        "largest error": round(made.largest_error_mm, 6),
        "files": [
            {"name": f"{one.name}.{kind}", **one.facts, "width": round(one.drawing.width, 6), "height": round(one.drawing.height, 6)}
            for one in drawn
            for kind in formats
        ],
    }


def listed(path: Path) -> frozenset[str]:
    """The names in an older list that can be files of ours; none where there is no such list."""
    try:
        names = [str(one["name"]) for one in json.decode(path.read_bytes())["files"]]
    except (OSError, ValueError, KeyError, TypeError):
        return frozenset()
    return frozenset(name for name in names if re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9-]*\.(svg|dxf)", name))


def slug(name: str) -> str:
    """A name as a part of a file's name: small letters and digits with hyphens; `piece` where nothing is left."""
    return re.sub("[^a-z0-9]+", "-", name.lower()).strip("-")[:LONGEST_NAME].strip("-") or "piece"
