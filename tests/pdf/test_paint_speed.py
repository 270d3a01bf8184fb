"""Painting costs at most four times what a plain writer takes for as many lines and paths (the project's own bar)."""

import io
import random
import time
from collections.abc import Callable

from reportlab.pdfgen.canvas import Canvas

from creasewright.booklet.drawing import Command, Document, Item, Page, Pen, Run, Shape, Tagged, Words
from creasewright.pdf.paint import paint

MM = 25.4 / 72
TEXT = [f"Line {k}: cut the panel on the solid line, then fold along the dashed line to the edge." for k in range(40)]
Points = list[tuple[float, float]]


def pages() -> list[list[Points]]:
    rng = random.Random(1)
    return [[[(rng.uniform(40, 560), rng.uniform(40, 740)) for _ in range(7)] for _ in range(200)] for _ in range(5)]


def plain(drawn: list[list[Points]]) -> None:
    canvas = Canvas(io.BytesIO(), pagesize=(612, 792), invariant=1)
    for page in drawn:
        canvas.setFont("Helvetica", 9)
        for k, text in enumerate(TEXT):
            canvas.drawString(40, 742 - k * 17, text)
        for q in page:
            path = canvas.beginPath()
            path.moveTo(*q[0])
            path.lineTo(*q[1])
            path.curveTo(*q[2], *q[3], *q[4])
            path.lineTo(*q[5])
            path.lineTo(*q[6])
            canvas.drawPath(path, 1, 0)
        canvas.showPage()
    canvas.save()


def document(drawn: list[list[Points]]) -> Document:
    made = []
    for page in drawn:
        lines = [Words(14, (50 + k * 17) * MM, (Run(text, "Regular", 9),)) for k, text in enumerate(TEXT)]
        items: list[Item] = [Tagged("P", (line,)) for line in lines]
        for q in page:
            a, b, c, d, e, f, g = [(x * MM, y * MM) for x, y in q]
            commands: tuple[Command, ...] = (("M", *a), ("L", *b), ("C", *c, *d, *e), ("L", *f), ("L", *g))
            items.append(Shape(commands, Pen()))
        made.append(Page(215.9, 279.4, tuple(items), ""))
    return Document("t", "", "", "en", tuple(made), (), {"INK": "#1F262B"})


def best_of_three(work: Callable[[], None]) -> float:
    times = []
    for _ in range(3):
        begun = time.process_time()
        work()
        times.append(time.process_time() - begun)
    return min(times)


def test_tagged_pages_take_at_most_four_times_a_plain_writer() -> None:
    drawn = pages()
    packed = document(drawn)
    ours = best_of_three(lambda: paint(packed, io.BytesIO(), b""))
    assert ours <= 4 * best_of_three(lambda: plain(drawn))
