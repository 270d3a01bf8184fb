"""Templates on pages: how few, how true, how fast.

    python tests/bench/tiles.py [count] [--no-raster] [--joining overlap|butt] [--page letter|a4]

pages    each of the random outlines (tests/random_outlines.py, its seed) by itself: pages printed, the better of two plain grids (box
         at the first window's corner, straight and turned by 90 degrees, blank tiles printed: none), and the bound by area and span
proof    each put together again from the 600 dpi rasters of its pages: largest error, largest slip at a join, gaps, doubled lines
speed    100 of them in one file, against a plain reportlab writer putting out as many pages of as many paths and words; medians of 5

Prints; judges nothing.
"""

import argparse
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parent)]

from pack_ratio import PLAIN_WRITER, drawn, turn_about

from creasewright.booklet.tiling.grid import tile_over_pages
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Joining, PageSize, window_of
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.proof import prove
from creasewright.readback.raster import page_rasters
from creasewright.readback.read_marks import read_marks
from plain_grid import plain_grid_pages
from random_outlines import SEED, random_templates
from template_cases import written

PAGES = {"letter": PageSize(215.9, 279.4), "a4": PageSize(210.0, 297.0)}
TOGETHER = 100


def pages(templates, window):
    layouts = [tile_over_pages(template, window) for template in templates]
    plain = [plain_grid_pages(template.polygon, window) for template in templates]
    ours = [len(layout.printed) for layout in layouts]
    worse = sum(a > b for a, b in zip(ours, plain, strict=True))
    fewer = sum(a < b for a, b in zip(ours, plain, strict=True))
    met = sum(count == layout.least for count, layout in zip(ours, layouts, strict=True))
    slanted = sum(layout.placed[0].turn % 90 != 0 for layout in layouts)
    near = sum(bool(layout.near_joins) for layout in layouts)
    print(f"pages: {sum(ours)}; better of two plain grids {sum(plain)}; fewer {fewer} times, more {worse} times")
    print(f"bound: {sum(layout.least for layout in layouts)} in all, met {met} of {len(ours)} times; slanted {slanted}")
    print(f"joins nearer than 15 mm to a line along them, a curve or a small part: {near} of {sum(c > 1 for c in ours)} tiled outlines")


def proof(templates, page, window):
    worst = {"vector": 0.0, "raster": 0.0, "square": 0.0, "join": 0.0, "doubled": 0.0}
    untrue, joins, places, count, worst_one = [], 0, 0, 0, (0.0, "")
    for template in templates:
        done = tile_templates((template,), page, FontRuler(), TileWords(), window)
        data, numbers = written(done.pages, done.forms), range(len(done.pages))
        marks = read_marks(data, numbers)
        read = compare(done.tiles, (template,), marks)
        seen = prove(done.tiles, (template,), marks, page_rasters(data, numbers))
        found = (read.worst_mm, seen.largest_error_mm, seen.largest_square_error_mm, seen.largest_join_error_mm, seen.widest_mm)
        worst = {name: max(value, now) for (name, value), now in zip(worst.items(), found, strict=True)}
        worst_one = max(worst_one, (seen.largest_error_mm, template.key))
        joins, places, count = joins + seen.joins, places + seen.places, count + len(done.pages)
        if not (read.true and seen.true):
            untrue.append((template.key, seen.lost[:2], read.missing[:2]))
    said = ", ".join(f"{name} {value:.4f}" for name, value in worst.items())
    print(f"proof: {count} pages, {places} places, {joins} lines over joins; largest, mm: {said}")
    print(f"largest on the raster: {worst_one[1]}")
    print(f"not true: {len(untrue)}", *untrue, sep="\n  " if untrue else "")


def speed(templates, page, window, runs=5):
    with tempfile.TemporaryDirectory() as folder:
        ours = [sys.executable, __file__, str(len(templates)), "--write", f"{folder}/tiles.pdf"]
        subprocess.run(ours, check=True)
        counts = drawn(Path(folder) / "tiles.pdf")
        plain = [sys.executable, "-c", PLAIN_WRITER, f"{folder}/plain.pdf", *map(str, counts)]
        took, plainly = turn_about(ours, plain, runs)
    print(f"speed: {len(templates)} templates on {counts[0]} pages {took:.2f} s; plain writer {plainly:.2f} s; ratio {took / plainly:.2f}")


def main():
    asked = argparse.ArgumentParser()
    asked.add_argument("count", type=int, nargs="?", default=500)
    asked.add_argument("--no-raster", action="store_true")
    asked.add_argument("--joining", default="overlap")
    asked.add_argument("--page", default="letter")
    asked.add_argument("--write")
    options = asked.parse_args()
    page = PAGES[options.page]
    window = window_of(page, Joining(options.joining))
    templates = random_templates(options.count)
    if options.write:
        done = tile_templates(tuple(templates), page, FontRuler(), TileWords(), window)
        Path(options.write).write_bytes(written(done.pages, done.forms))
        return
    print(f"{options.count} outlines, seed {SEED}, {options.page}, {options.joining}")
    start = time.perf_counter()
    pages(templates, window)
    print(f"({time.perf_counter() - start:.1f} s)")
    speed(templates[:TOGETHER], page, window)
    if not options.no_raster:
        start = time.perf_counter()
        proof(templates, page, window)
        print(f"({time.perf_counter() - start:.0f} s)")


if __name__ == "__main__":
    main()
