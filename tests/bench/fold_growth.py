"""How folding grows with the number of panels: strips of 10, 100 and 1,000, and the designs of the package.

    python tests/bench/fold_growth.py [runs] [largest]

shaping     the blank of a strip, from its bands to its panels
accordion   that strip folded in one step, valley and mountain in turn
roll        a strip rolled up, a fold a step, each with all that lies there already (as far as 100 panels)
bulk map    of the folded accordion, whose panels all end at different places
designs     all steps of each built-in design, and all that follows from them

Seconds of processor time, medians. `growth` is the time of a row over that of the row above it, beside what n log n would make of it.
Prints; judges nothing.
"""

import statistics
import sys
import time
from collections.abc import Callable
from math import log2

from creasewright.folding.state import State
from creasewright.joining.bulk_map import bulk_map
from creasewright.places import built_in_designs
from creasewright.reading.design import Design
from creasewright.reading.read_design import read_design, read_design_text
from creasewright.work_out import work_out
from creasewright.workshop import Workshop

SIZES = (10, 100, 1000)
ROLLED = 100
Rows = list[tuple[int, float]]


def strip(widths: list[float], steps: list[str]) -> Design:
    bands = ", ".join(f"p{k}: {width} mm" for k, width in enumerate(widths, 1))
    lines = "".join(f"  - {step}\n" for step in steps)
    return read_design_text(
        "creasewright: 1\ntitle: Strip\npapers: {paper: {sheet: [100 mm, 100000 mm], caliper: 0.1 mm}}\n"
        f"blanks:\n  strip: {{height: 50 mm, across: [{bands}]}}\nsteps:\n{lines}",
        "strip.yaml",
    )


def accordion(n: int) -> Design:
    """A little narrower from panel to panel; every score in one step, towards the front and away in turn."""
    scores = [f"p{k}/p{k + 1}" for k in range(1, n)]
    step = f"{{fold: [{', '.join(scores[::2])}], mountain: [{', '.join(scores[1::2])}], stays: p1, seen from: front}}"
    return strip([60 - 20 * k / n for k in range(n)], [step])


def roll(n: int) -> Design:
    """From the last score to the first, each turn a little wider than what it goes round."""
    steps = [f"{{fold: p{k}/p{k + 1}, stays: p1, seen from: front}}" for k in range(n - 1, 0, -1)]
    return strip([60 - 20 * k / n for k in range(n)], steps)


def shaped(design: Design) -> Workshop:
    shop = Workshop(design, "mm")
    shop.blank("strip")
    return shop


def folded(shop: Workshop) -> State:
    """The state after all steps; every one of them could be made."""
    state = shop.final("")
    refused = [run.refused for run in shop.assembling("").runs if run.refused is not None]
    if refused:
        raise SystemExit(f"the strip could not be folded: {refused[0]}")
    return state


def seconds(prepare: Callable[[], Workshop], work: Callable[[Workshop], object], runs: int) -> float:
    """Median of the work alone, each time on something new."""
    times = []
    for _ in range(runs):
        made = prepare()
        start = time.process_time()
        work(made)
        times.append(time.process_time() - start)
    return statistics.median(times)


def table(name: str, rows: Rows) -> None:
    print(name)
    for number, (n, took) in enumerate(rows):
        line = f"  {n:>5} panels  {took:9.4f} s"
        if number:
            last, before = rows[number - 1]
            line += f"   growth {took / before:7.1f}   n log n {n * log2(n) / (last * log2(last)):5.1f}"
        print(line, flush=True)


def main(runs: int, largest: int) -> None:
    sizes = [n for n in SIZES if n <= largest]
    designs = {n: accordion(n) for n in sizes}
    table("shaping", [(n, seconds(lambda n=n: Workshop(designs[n], "mm"), lambda shop: shop.blank("strip"), runs)) for n in sizes])
    table("accordion", [(n, seconds(lambda n=n: shaped(designs[n]), folded, runs)) for n in sizes])
    rolls = {n: roll(n) for n in sizes if n <= ROLLED}
    table("roll", [(n, seconds(lambda n=n: shaped(rolls[n]), folded, runs)) for n in rolls])
    states = {n: folded(shaped(designs[n])) for n in sizes}
    maps: Rows = []
    for n, state in states.items():
        maps.append((n, seconds(lambda n=n: shaped(designs[n]), lambda _, state=state: bulk_map(state, state.bodies[0]), runs)))
    table("bulk map", maps)
    print("designs")
    for name, file in built_in_designs().items():
        design = read_design(file)
        took = seconds(lambda design=design: Workshop(design, "mm"), lambda shop: work_out(shop.design, "mm"), runs)
        print(f"  {name}: {took:.3f} s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3, int(sys.argv[2]) if len(sys.argv) > 2 else max(SIZES))
