"""How long the commands take, as ratios to plain work measured in the same run.

    python tests/bench/pack_ratio.py [runs]

pack    a whole pack, process start to end, against a plain reportlab writer putting out as many pages of as many paths and words
check   against bare Python with the YAML import
--help  against bare Python

Whole processes, turn about, medians. Prints; judges nothing.
"""

import re
import statistics
import subprocess
import sys
import tempfile
import time
import zlib
from pathlib import Path

DESIGNS = ("seed-swap-folio", "plant-diary", "swap-day-card", "seed-packet-envelope")

PLAIN_WRITER = """
import sys, random
from reportlab.pdfgen.canvas import Canvas
out, pages, paths, words = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
canvas = Canvas(out, pagesize=(612, 792), invariant=1)
per_page, lines = paths // pages, max(1, words // pages // 8)
for number in range(pages):
    chance = random.Random(number)
    canvas.setFont("Helvetica", 9)
    for line in range(lines):
        canvas.drawString(40, 740 - line % 40 * 17, "cut the panel on the solid line, then")
    for _ in range(per_page):
        x, y = 40 + chance.random() * 500, 60 + chance.random() * 600
        path = canvas.beginPath()
        path.moveTo(x, y)
        path.lineTo(x + 9, y)
        path.curveTo(x + 9, y + 4, x + 6, y + 9, x, y + 9)
        path.lineTo(x + 3, y + 5)
        path.lineTo(x, y)
        canvas.drawPath(path, 1, 0)
    canvas.showPage()
canvas.save()
"""


def timed(command: list[str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return time.perf_counter() - start


def turn_about(one: list[str], other: list[str], runs: int) -> tuple[float, float]:
    """Median seconds of each, run in turn."""
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(runs + 1):
        times[0].append(timed(one))
        times[1].append(timed(other))
    return statistics.median(times[0][1:]), statistics.median(times[1][1:])


STRING = rb"\(((?:\\.|[^\\()])*)\)"
"""A literal string without brackets in it: a pack escapes them."""


def drawn(pdf: Path) -> tuple[int, int, int]:
    """Pages, painted paths and words of a pack, counted in its content streams. A text object's strings make one line of words: a
    fraction is several strings, and a space may be one of its own.
    """
    data = pdf.read_bytes()
    pages = len(re.findall(rb"/Type /Page\b", data))
    paths = words = 0
    for packed in re.findall(rb"stream\r?\n(.*?)endstream", data, re.S):
        try:
            content = zlib.decompress(packed)
        except zlib.error:
            continue
        if b" re" in content or b" l\n" in content or b" Tf" in content:
            lines = [b"".join(re.findall(STRING, text, re.S)) for text in re.findall(rb"(?:^|\n)BT (.*?)\nET(?=\n)", content, re.S)]
            words += sum(len([word for word in line.split(b" ") if word]) for line in lines)
            paths += len(re.findall(rb"(?:^|\s)(?:S|s|f\*?|B\*?|b\*?|F)(?=\s|$)", re.sub(STRING, b"", content, flags=re.S)))
    return pages, paths, words


def main(runs: int) -> None:
    python = sys.executable
    with tempfile.TemporaryDirectory() as folder:
        for name in DESIGNS:
            pack = [python, "-m", "creasewright", "pack", name, "--out", folder, "--quiet"]
            timed(pack)
            pages, paths, words = drawn(Path(folder) / f"{name}-letter-in.pdf")
            plain = [python, "-c", PLAIN_WRITER, f"{folder}/plain.pdf", str(pages), str(paths), str(words)]
            ours, theirs = turn_about(pack, plain, runs)
            plainly = f"plain writer, {pages} pages, {paths} paths, {words} words: {theirs:.2f} s"
            print(f"pack {name}: {ours:.2f} s; {plainly}; ratio {ours / theirs:.2f}")
    check, yaml = turn_about([python, "-m", "creasewright", "check", DESIGNS[0]], [python, "-c", "import yaml"], 3 * runs)
    print(f"check {DESIGNS[0]}: {check:.3f} s; python with yaml: {yaml:.3f} s; ratio {check / yaml:.2f}")
    help_, bare = turn_about([python, "-m", "creasewright", "--help"], [python, "-c", "pass"], 3 * runs)
    print(f"--help: {help_:.3f} s; bare python: {bare:.3f} s; ratio {help_ / bare:.2f}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
