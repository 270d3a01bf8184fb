"""How good the cutting plans are: sheets, bounds and times over published instances, beside published results.

    python tests/bench/cutting_bars.py FOLDER                      # all bars; half an hour on one core
    python tests/bench/cutting_bars.py FOLDER --sets CLASS --variants R --every 5
    python tests/bench/cutting_bars.py FOLDER --sets CLASS --every 5 --effort high
    python tests/bench/cutting_bars.py FOLDER --beside baselines:ffdh_shelf --sets CLASS --every 5

FOLDER holds `run.py` (loads the instances and has the checker that judges every plan, written apart from this program),
`instances.json` and `published.json`. Variants: R all pieces may be turned, O none, M every second. Times are of the process, so
that other work on the machine does not count; the exit status is 1 if a plan is wrong or a bar missed.
"""

import argparse
import sys
from collections.abc import Callable, Iterator
from importlib import import_module
from pathlib import Path
from statistics import median
from time import process_time
from types import ModuleType
from typing import Any, NamedTuple

from creasewright.cutting.demand import EFFORTS, NO_LIMITS, Effort, Piece, Stock, Wishes
from creasewright.cutting.plan_rectangles import plan_rectangles

Sheets = list[list[tuple[int, float, float, bool]]]
"""For each sheet: number of the piece, left, top, turned."""
EVERYTHING = (("CLASS", "RO"), ("KIT", "RO"), ("KIT30", "R"), ("KIT300", "R"), ("KIT3000", "R"), ("X30", "RO"), ("CSP", "O"), ("BPP", "RO"))
MOST_BINS = {"R": 5423, "O": 5588}
"""Charalambous & Fleszar (2011), over the 250 instances; aims: 5402 (Cui, Cui & Tang 2015), 5565 (Lodi, Monaci & Pietrobuoni 2017)."""


class Row(NamedTuple):
    name: str
    group: str
    sheets: int
    bound: int
    best: int | None
    """The best known, with cuts in three stages."""
    seconds: float
    wrong: list[str]


def planned(sheet: tuple[int, int], pieces: list[tuple[int, int, int, bool]], effort: Effort) -> tuple[Sheets, int]:
    wanted = [Piece(str(number), *piece) for number, piece in enumerate(pieces)]
    plan = plan_rectangles(wanted, [Stock("sheet", *sheet)], NO_LIMITS, Wishes(), effort)
    laid = [
        [(int(p.key), float(p.x), float(p.y), p.turned) for p in one.placements] for one in plan.sheets for _ in range(one.count)
    ]
    return laid, plan.lower_bound


def other(plan: Callable[..., Sheets]) -> Callable[..., tuple[Sheets, int]]:
    """A plan function of the folder, which gives no bound."""
    return lambda sheet, pieces, effort: (plan(sheet=sheet, pieces=pieces), 0)


def rows_of(judge: ModuleType, name: str, variant: str, every: int, make: Callable[..., Any], effort: Effort) -> Iterator[Row]:
    for instance in judge.load([name])[::every]:
        sheet, pieces = tuple(instance["sheet"]), judge.pieces_of(instance, variant)
        start = process_time()
        laid, bound = make(sheet, pieces, effort)
        seconds = process_time() - start
        best = instance.get("best3", {}).get(variant)
        wrong = judge.check_plan(sheet, pieces, laid)
        if bound > len(laid) or (best is not None and bound > best):
            wrong.append(f"the bound {bound} is too high")
        yield Row(instance["name"], instance["group"], len(laid), bound, best, seconds, wrong)


def told(name: str, variant: str, rows: list[Row]) -> None:
    proved, best = sum(row.sheets == row.bound for row in rows), [row.best for row in rows if row.best is not None]
    seconds = [row.seconds for row in rows]
    beside = f", best known {sum(best)}" if len(best) == len(rows) else ""
    sheets, bound = sum(row.sheets for row in rows), sum(row.bound for row in rows)
    print(
        f"{name:8}{variant}  {len(rows):4} demands  {sheets:7} sheets (bound {bound}{beside}), "
        f"proved {proved} ({100 * proved / len(rows):.0f} %), seconds: median {median(seconds):.2f}, most {max(seconds):.2f}"
    )  # fmt: skip
    for row in rows:
        for fault in row.wrong:
            print(f"    WRONG {row.name}: {fault}")


def missed(name: str, variant: str, rows: list[Row], whole: bool) -> Iterator[str]:
    """The bars, in words, that these rows do not reach."""
    if name == "CLASS" and whole and sum(row.sheets for row in rows) > MOST_BINS[variant]:
        yield f"more than {MOST_BINS[variant]} sheets"
    if name == "CLASS" and (median(row.seconds for row in rows) > 1 or max(row.seconds for row in rows) > 10):
        yield "median over 1 s or worst over 10 s"
    if name == "X30" or name.startswith("KIT"):
        wide = [row for row in rows if row.sheets - row.bound > max(1, 0.003 * row.bound)]
        if 10 * len(wide) > len(rows) or any(row.sheets - row.bound > max(1, 0.01 * row.bound) for row in rows):
            yield f"over the bound: {', '.join(row.name for row in wide)}"
        if median(row.seconds for row in rows) > 3 or max(row.seconds for row in rows) > 20:
            yield "median over 3 s or worst over 20 s"
    if name == "CSP" and variant == "O":
        yield from (
            f"{row.name}: {row.sheets}, best known {row.best}"
            for row in rows
            if row.best is not None and row.sheets > row.best + row.name.startswith("ATP")
        )


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("folder", type=Path)
    asked.add_argument("--sets", help="of CLASS, KIT, KIT30, KIT300, KIT3000, X30, CSP, BPP; usual: all")
    asked.add_argument("--variants", help="R, O or M, one letter each")
    asked.add_argument("--every", type=int, default=1, help="only every so-manyth instance")
    asked.add_argument("--effort", choices=tuple(EFFORTS), default="usual")
    asked.add_argument("--beside", metavar="MODULE:FUNCTION", help="another plan function of the folder, measured in the same run")
    given = asked.parse_args()
    sys.path.insert(0, str(given.folder))
    judge = import_module("run")
    makers: dict[str, Callable[..., Any]] = {"": planned}
    if given.beside:
        module, _, function = given.beside.partition(":")
        makers[f" {function}"] = other(getattr(import_module(module), function))
    chosen = [(name, given.variants or "RO") for name in given.sets.split(",")] if given.sets else list(EVERYTHING)
    bad = False
    middles: dict[str, float] = {}
    for name, variants in chosen:
        for variant in variants:
            for called, make in makers.items():
                rows = list(rows_of(judge, name, variant, given.every, make, EFFORTS[given.effort]))
                told(f"{name}{called}", variant, rows)
                if not called:
                    faults = list(missed(name, variant, rows, given.every == 1))
                    print("\n".join(f"    MISSED {fault}" for fault in faults) or "    bars reached")
                    bad = bad or bool(faults) or any(row.wrong for row in rows)
                    middles[f"{name} {variant}"] = median(row.seconds for row in rows)
    if "KIT30 R" in middles and "KIT3000 R" in middles:
        print(f"KIT3000 takes {middles['KIT3000 R'] / middles['KIT30 R']:.1f} times as long as KIT30 (medians; bar: 2)")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
