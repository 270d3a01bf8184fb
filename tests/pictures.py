"""Remakes the pictures of the README from real packs, in `.pictures/`.

    python tests/pictures.py

A picture is one page of a built-in design's pack, found by the section it belongs to: 700 px wide, in few colours, 60 KB at most.
"""

import tempfile
from dataclasses import dataclass
from pathlib import Path

import pypdfium2
from PIL import Image, ImageOps

from creasewright.cli import main

FOLDER = Path(__file__).resolve().parents[1] / ".pictures"
WIDE = 700
"""px"""
FRAME = "#B4BABC"
MOST_BYTES = 60_000
COLOURS = (96, 64, 48, 32, 24, 16)
"""Tried in turn until the file is small enough. They are spread over all colours of the page, so that a rare accent is kept."""


@dataclass(frozen=True)
class Shown:
    picture: str
    design: str
    section: str
    """Title of the section, as in the outline of the PDF."""
    page: int = 0
    """Counted from the section's first page."""


SHOWN = (
    Shown("cover", "seed-swap-folio", "Cover"),
    Shown("sheet-plans", "seed-swap-folio", "Sheet plans"),
    Shown("score-guide", "seed-swap-folio", "Score guide"),
    Shown("steps", "seed-packet-envelope", "Steps"),
    Shown("template", "seed-packet-envelope", "Templates"),
)


def page_number(pdf: pypdfium2.PdfDocument, shown: Shown) -> int:
    """From 0."""
    for entry in pdf.get_toc():
        if entry.get_title() == shown.section:
            return int(entry.get_dest().get_index()) + shown.page
    raise SystemExit(f"the pack of {shown.design} has no section `{shown.section}`")


def picture_of(pdf: pypdfium2.PdfDocument, number: int) -> Image.Image:
    """The page at `WIDE` px, with a thin frame."""
    page = pdf[number]
    large = page.render(scale=2 * WIDE / page.get_width()).to_pil().convert("RGB")
    height = round(large.height * (WIDE - 2) / large.width)
    return ImageOps.expand(large.resize((WIDE - 2, height), Image.Resampling.LANCZOS), 1, FRAME)


def save(image: Image.Image, path: Path) -> None:
    for colours in COLOURS:
        image.quantize(colours, Image.Quantize.MAXCOVERAGE, kmeans=3, dither=Image.Dither.NONE).save(path, optimize=True)
        if path.stat().st_size <= MOST_BYTES:
            return


def remake() -> None:
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        for design in dict.fromkeys(shown.design for shown in SHOWN):
            if main(["pack", design, "--quiet", "--page", "letter", "--units", "in", "--makers", "1", "--out", folder]) != 0:
                raise SystemExit(f"{design} could not be packed")
        for shown in SHOWN:
            pdf = pypdfium2.PdfDocument(Path(folder) / f"{shown.design}-letter-in.pdf")
            path = FOLDER / f"{shown.picture}.png"
            save(picture_of(pdf, page_number(pdf, shown)), path)
            pdf.close()
            print(f"{path.name}: {path.stat().st_size:,} bytes")


if __name__ == "__main__":
    remake()
