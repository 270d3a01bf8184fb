"""`creasewright check`: the measures, the blanks and what was found; writes nothing."""

from argparse import Namespace
from collections.abc import Iterable

from creasewright.blanks.blank import Score
from creasewright.checked import AtEnd, Checked, checked_at_ends
from creasewright.checks.forgiveness import WAYS
from creasewright.commands.adhesive_lines import adhesive_lines
from creasewright.commands.given import given
from creasewright.commands.groove_lines import groove_lines
from creasewright.commands.score_lines import score_lines
from creasewright.commands.told import finding_line, tell_problems
from creasewright.cutting.plan import PaperPlan
from creasewright.exit_codes import CANNOT_BE_BUILT, CANNOT_BE_USED, GOOD
from creasewright.fitting.bulk import Thick, layer_called
from creasewright.fitting.gate_measures import LAID
from creasewright.fitting.gates import DRY, gates_of
from creasewright.fitting.worked import Finished, MeasureValue, Worked
from creasewright.folding.closing_error import closing
from creasewright.geometry.point import Number
from creasewright.groove_sizes import better_sizes
from creasewright.hands.every_clearance import every_clearance
from creasewright.hands.gate_leeway import leeway_mark
from creasewright.hands.outcome import failing_share, in_words
from creasewright.problems import ProblemsFound
from creasewright.progress import Progress
from creasewright.units.ruler import length_in_words, mark_in_words, pair_in_words

LAYERS_SHOWN = 12


def run(options: Namespace) -> int:
    progress = Progress()
    try:
        work = given(options, progress)
    except ProblemsFound as found:
        progress.done()
        tell_problems(found.problems)
        return CANNOT_BE_USED
    progress.done()
    done = work.checked
    worked = done.worked
    print(f"{worked.design.title} ({worked.design.file}), in {worked.system}, for {worked.makers}")
    gates = gate_lines(done) if options.gates else []
    lines = [
        *measures(worked), *blanks(worked), *score_lines(done), *adhesive_lines(worked), *gates, *finished(worked),
        *clearances(done), *sheets(done.plans), *notes(worked),
    ]  # fmt: skip
    print("\n".join(lines))
    for finding in done.findings:
        print(finding_line(finding))
    print(outcome(len(done.findings), done.blocked))
    if options.grooves:
        for line in groove_lines(done, better_sizes(work.design, done, work.makers, work.measures, work.settings)):
            print(line)
    blocked = done.blocked
    if options.ranges:
        blocked = tell_ranges(checked_at_ends(work.design, done, work.makers, work.measures, work.settings)) or blocked
    return CANNOT_BE_BUILT if blocked and not options.anyway else GOOD


def tell_ranges(ends: Iterable[AtEnd]) -> bool:
    """Prints what is found at each end, as it is found; whether one of them cannot be built."""
    print("\nRanges")
    blocked = False
    none = True
    for end in ends:
        none = False
        blocked = blocked or end.blocked
        print(f"  {end.end}: {'cannot be built' if end.blocked else f'{len(end.findings)} found' if end.findings else 'nothing found'}")
        for line in (*map(str, end.problems), *map(finding_line, end.findings)):
            print(f"    {line}")
    if none:
        print("  no measure of this design has a range (`from`, `to`)")
    return blocked


def outcome(count: int, blocked: bool) -> str:
    if not count:
        return "Nothing found against it."
    return f"{count} found; " + ("it cannot be built as it stands." if blocked else "nothing that keeps it from being built.")


def length(worked: Worked, value: Number) -> str:
    """On the maker's ruler; off it, how far off."""
    marked = mark_in_words(value, worked.ruler)
    if marked.exact:
        return marked.text
    sign = "+" if marked.residue_mm > 0 else "-"
    return f"{marked.text} {sign} {length_in_words(abs(marked.residue_mm), worked.system)}"


def measures(worked: Worked) -> list[str]:
    if not worked.measures:
        return []
    width = max(len(m.name) for m in worked.measures)
    return ["", "Measures", *(f"  {m.name.ljust(width)}  {values(worked, m)}{span(worked, m)}" for m in worked.measures)]


def values(worked: Worked, measure: MeasureValue) -> str:
    if measure.power == 1:
        return " and ".join(length(worked, value) for value in measure.values)
    return f"{float(measure.values[0]):g}" + (" mm²" if measure.power == 2 else "")


def span(worked: Worked, measure: MeasureValue) -> str:
    if measure.lowest is None and measure.highest is None:
        return ""
    ends = [
        length(worked, v) if measure.power == 1 else f"{float(v):g}" for v in (measure.lowest, measure.highest) if v is not None
    ]
    return f"  ({' to '.join(ends)})"


def blanks(worked: Worked) -> list[str]:
    lines = ["", "Blanks"]
    pieces = {piece.blank.name: piece for piece in reversed(worked.pieces)}
    for blank in worked.blanks:
        piece = pieces.get(blank.name)
        letters = "+".join(p.letter for p in worked.pieces if p.blank.name == blank.name) or "-"
        count = sum(p.count for p in worked.pieces if p.blank.name == blank.name) * worked.makers if piece else 0
        lines.append(
            f"  {letters}  {blank.name}: {pair_in_words(blank.width, blank.height, worked.ruler)}, {blank.paper}, {count} to cut"
            + (f", turned {piece.turn}°" if piece is not None and piece.turn else "")
            + (", back of the paper up" if piece is not None and piece.back_up else "")
        )
        lines.append(f"      panels: {', '.join(panel.name for panel in blank.panels)}")
        if blank.scores:
            lines.append("      scores: " + ", ".join(score_words(worked, s) for s in blank.scores))
    return lines


def score_words(worked: Worked, score: Score) -> str:
    name, (ax, ay), (bx, by) = score.name, score.start, score.end
    if score.arc is not None:
        return f"{name} curved"
    if abs(float(ax - bx)) < 1e-6:
        return f"{name} at {length(worked, ax)} from left"
    if abs(float(ay - by)) < 1e-6:
        return f"{name} at {length(worked, ay)} from head"
    return f"{name} aslant"


def gate_lines(done: Checked) -> list[str]:
    """Where the steps stop to measure, how near it must come, and which mistakes would show there."""
    found = []
    worked = done.worked
    for name, gates in gates_of(worked).items():
        for gate in gates:
            measure, size = gate.measure, mark_in_words(gate.measure.mm, worked.ruler).text
            what = f"{measure.panel} of {measure.part}" if measure.panel else "over what is laid" if measure.part == LAID else "over all"
            what = f"of the border beside {measure.part}" if measure.sides else what
            place = "before the glue of" if gate.kind == DRY else "after"
            shows = ", ".join(f"{one.mistake.kind} {one.mistake.part or '(templates)'}" for one in gate.symptoms)
            of = f" of {name}" if name else ""
            mark = leeway_mark(worked, gate, done.errors)
            near = f", give or take {mark_in_words(mark, worked.ruler).text}" if mark is not None else ""
            found.append(f"  {place} step {gate.number}{of}: {measure.way} {what} {size}{near}" + (f"; shows {shows}" if shows else ""))
    return ["", "Gates", *found] if found else []


def finished(worked: Worked) -> list[str]:
    if worked.finished is None:
        return []
    width, height, thick = worked.finished.size
    lines = [
        "",
        "Finished",
        f"  closed {pair_in_words(width, height, worked.ruler)}, {length_in_words(round(thick, 2), worked.system)} thick",
    ]
    lines += bulk(worked, worked.finished)
    lines += loops(worked)
    for result in worked.wishes:
        part, panel = result.wish.panel
        stands = "reads upright" if result.upright else "does not read upright"
        drawn = " (drawn upside down on the flat sheet)" if result.upright and result.turn == 180 else ""
        lines.append(f"  {panel} of {part} in {result.wish.stage}: {stands}{drawn}")
    return lines


def loops(worked: Worked) -> list[str]:
    """How nearly the loops close, over all states that have some."""
    found = [closing(run.after) for assembly in worked.assemblies for run in assembly.runs]
    most = max((one.loops for one in found), default=0)
    if most == 0:
        return []
    return [f"  loops: up to {most}, closed within {max(c.mm for c in found):.4f} mm and {max(c.degrees for c in found):.4f}°"]


def bulk(worked: Worked, finished: Finished) -> list[str]:
    """The thickest place with its layers, the two edges, and both when empty."""

    def mm(thick: Thick) -> str:
        return length_in_words(round(thick.mm, 2), worked.system)

    full, empty = finished.bulk, finished.bulk_empty
    names = [layer_called(key) for key in full.greatest.layers]
    shown = ", ".join(names if len(names) <= LAYERS_SHOWN else [*names[: LAYERS_SHOWN - 1], f"{len(names) - LAYERS_SHOWN + 1} more"])
    lines = [f"  thickest {mm(full.greatest)}, from the table up: {shown}"]
    if full.spine is not None:
        lines.append(f"  layers {mm(full.at_spine)} thick at the spine ({full.spine}), {mm(full.at_fore_edge)} at the fore edge")
    if empty != full:
        edges = f", {mm(empty.at_spine)} at the spine, {mm(empty.at_fore_edge)} at the fore edge" if empty.spine is not None else ""
        lines.append(f"  empty: {mm(empty.greatest)} at the thickest{edges}")
    return lines


def clearances(done: Checked) -> list[str]:
    """Every clearance: its room, what hands err by, how many would fail."""
    found = every_clearance(done.worked, done.errors)
    system, makers = done.worked.system, done.worked.makers
    lines = ["", "Clearances"] if found else []
    for one in found:
        error = one.error(done.errors)
        said = f"room {length_in_words(round(max(one.room.value, 0.0), 2), system)}, hand error {length_in_words(round(error, 2), system)}"
        times = f"{one.times} × " if one.times > 1 else ""
        worse = f" ({one.worse})" if one.worse else ""
        fails = in_words(failing_share(one.room.value, error), makers)
        lines.append(f"  {times}{one.what}{WAYS[one.way]}: {said}{worse}, {fails} would fail")
    return lines


def sheets(plans: tuple[PaperPlan, ...]) -> list[str]:
    lines = ["", "Sheets"]
    for plan in plans:
        bound = "no plan needs fewer" if plan.proved else f"at least {plan.lower_bound} are needed"
        stopped = "; stopped before the search was done" if plan.stopped else ""
        lines.append(f"  {plan.paper}: {plan.sheet_count} ({bound}{stopped})")
    return lines


def notes(worked: Worked) -> list[str]:
    return ["", *(f"note: {note}" for note in worked.notes), ""] if worked.notes else [""]
