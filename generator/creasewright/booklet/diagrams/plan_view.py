"""A plan picture: a flat scene drawn within a box on the page, at the largest scale that fits with measures and labels.

What is set first has the better place: the work, arrows, measures, tags, names, lenses; the motifs come last and give way to all.
Frame while laying out: mm on the page from the scene's origin; the finished picture has its origin at its head-left.
"""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_of
from creasewright.booklet.diagrams.dimension_chains import chain_items, inner_items, outside, page_dimension
from creasewright.booklet.diagrams.dimension_line import TICK
from creasewright.booklet.diagrams.glue_hatch import hatch_lines, hatch_spacing
from creasewright.booklet.diagrams.lens import in_lenses
from creasewright.booklet.diagrams.motifs import motif_group
from creasewright.booklet.diagrams.page_facet import Chain
from creasewright.booklet.diagrams.picture_style import NORMAL, PictureStyle
from creasewright.booklet.diagrams.plan_labels import lens_group, name_items, tag_items, wished_items
from creasewright.booklet.diagrams.plan_marks import (
    actions_in_picture,
    angle_items,
    fold_items,
    press_items,
    repeat_items,
    slide_items,
)
from creasewright.booklet.diagrams.plan_work import Work, work_in_lens, work_of
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scales import SCALES, Scale, scale_named
from creasewright.booklet.diagrams.scene import Picture, PlanScene
from creasewright.booklet.diagrams.stitches import number_items, stitch_items
from creasewright.booklet.drawing import Group, Item
from creasewright.booklet.text_ruler import TextRuler

INK_MARGIN = 0.25
"""mm: half the widest line at the rim of a picture."""
MEASURE_MARGIN = 8.0
"""mm: what a side with a dimension needs, for leaving out scales early."""
TRIES = 3
"""Of the scales that fit only with crowded labels, how many are compared."""


class _Layout(Struct, frozen=True):
    items: tuple[Item, ...]
    extent: Box
    scale: Scale


def draw_plan(
    scene: PlanScene,
    width: float,
    height: float,
    ruler: TextRuler,
    scales: Sequence[Scale] = SCALES,
    scale: str | None = None,
    style: PictureStyle = NORMAL,
) -> Picture:
    """The picture, no larger than `width` x `height` mm if any of the scales allows that.

    `scale` (`1:4`) fixes it. The picture tells its true size: at the smallest scale, or a fixed one, it may outgrow the box.
    Marks of `scene.actions` other than `press` and `repeat` stand beside the step's number: see `action_marks`.
    """
    if not scene.facets:
        return Picture((), 0.0, 0.0, (scale_named(scale) if scale else scales[0])[0])
    layout = _best(scene, width, height, ruler, [scale_named(scale)] if scale else scales, style)
    extent = layout.extent.grown(INK_MARGIN)
    group = Group(layout.items, -extent.x0, -extent.y0, role="plan view")
    return Picture((group,), extent.width, extent.height, layout.scale[0])


def _best(
    scene: PlanScene, width: float, height: float, ruler: TextRuler, scales: Sequence[Scale], style: PictureStyle
) -> _Layout:
    """The largest scale that fits with no label crowded; else, the best of the three largest that nearly do, or the smallest."""
    crowded: list[_Plan] = []
    smallest: list[_Plan] = []
    for each in scales:
        if each is scales[-1] or _may_fit(scene, each[1], width, height):
            plan = _Plan(scene, each, width, height, ruler, style)
            if plan.fits():
                if plan.label():
                    return plan.layout()
                crowded.append(plan)
            smallest = [plan]
    compared = crowded[:TRIES] or smallest
    for plan in compared:
        plan.label(to_the_end=True)
    return min(compared, key=lambda plan: (plan.overflow(), plan.room.crowded)).layout()


def _may_fit(scene: PlanScene, factor: float, width: float, height: float) -> bool:
    """As far as the work, its measures' places and ticks tell, before anything is drawn."""
    body = box_of(spot for facet in scene.facets for spot in facet.polygon)
    sides = {dim.side for dim in scene.dimensions}
    across = [spot[0] for dim in scene.dimensions if dim.side in ("head", "tail") for spot in (dim.start, dim.end)]
    along = [spot[1] for dim in scene.dimensions if dim.side in ("left", "right") for spot in (dim.start, dim.end)]
    wide = _with_ticks(body.x0, body.x1, across, factor)
    tall = _with_ticks(body.y0, body.y1, along, factor)
    aside = MEASURE_MARGIN * len(sides & {"left", "right"})
    above = MEASURE_MARGIN * len(sides & {"head", "tail"})
    free_width, free_height = width - 2 * INK_MARGIN, height - 2 * INK_MARGIN
    return wide + aside <= free_width and tall + above <= free_height


def _with_ticks(low: float, high: float, measured: Sequence[float], factor: float) -> float:
    """mm on the page: the work from end to end, with the ticks of measures that reach to its ends."""
    before = TICK if measured and min(measured) <= low + TICK else 0.0
    after = TICK if measured and max(measured) >= high - TICK else 0.0
    return (high - low) * factor + before + after


class _Plan:
    """One try at one scale: the work, its arrows and measures at once; labels, lenses and motifs when asked for."""

    def __init__(
        self, scene: PlanScene, scale: Scale, width: float, height: float, ruler: TextRuler, style: PictureStyle
    ) -> None:
        self.scene, self.scale, self.ruler, self.style = scene, scale, ruler, style
        self.room = Room(width - 2 * INK_MARGIN, height - 2 * INK_MARGIN)
        self.work = work_of(scene, scale[1], style)
        self.take_work()
        self.body = self.room.extent or Box(0.0, 0.0, 0.0, 0.0)
        self.curves: list[Chain] = []
        self.marks = self.draw_marks()
        self.small = in_lenses(scene.dimensions, scale[1]) if scene.lenses else []
        large = [page_dimension(dim, scale[1]) for dim in scene.dimensions if dim not in self.small]
        self.measures, left = inner_items([dim for dim in large if dim.side == "inside"], self.room, ruler, style)
        outer = [dim for dim in large if dim.side != "inside"] + [outside(dim, self.body) for dim in left]
        self.measures += chain_items(outer, self.work, self.room, ruler, style)
        self.labels: list[Item] = []
        self.waiting = self.label_stages()

    def take_work(self) -> None:
        own = self.work.own_chains
        for chain in self.work.chains[:own]:
            self.room.take_line(chain)
        self.own_lines = len(self.room.lines)
        for chain in self.work.chains[own:]:
            self.room.take_line(chain)
        for ring in self.work.glued:
            for line in hatch_lines((ring,), hatch_spacing(ring)):
                self.room.take_line(line)

    def draw_marks(self) -> list[Item]:
        press, _ = actions_in_picture(self.scene)
        factor, room, style = self.scale[1], self.room, self.style
        marks: list[Item] = []
        for arrow in self.scene.fold_arrows:
            items, curve = fold_items(arrow, self.work, factor, room, style)
            marks += items
            self.curves.append(curve)
        for slide in self.scene.slides:
            marks += slide_items(slide, self.work, factor, room, style)
        marks += stitch_items(self.scene.stitches, self.scene.pricks, self.work.facets, factor, room, style)
        return [*marks, *press_items(self.work, room, self.ruler, style)] if press else marks

    def label_stages(self) -> Iterator[list[Item]]:
        """Angles, tags, names, lenses, the repeat mark, names that may be left out: one after the other."""
        work, body, room, ruler, style = self.work, self.body, self.room, self.ruler, self.style
        factor = self.scale[1]
        for arrow, curve in zip(self.scene.fold_arrows, self.curves, strict=True):
            yield angle_items(arrow, curve, room, ruler, style)
        yield number_items(self.scene.pricks, work.facets, factor, room, ruler, style)
        yield tag_items(work, self.scene.told, self.scene.told_only, body, room, ruler, style)
        yield name_items(self.scene.names, work, body, factor, room, ruler, style)
        yield lens_group(
            self.small, lambda larger, window: work_in_lens(self.scene, larger, window, style), body, factor, room, ruler, style
        )
        _, letters = actions_in_picture(self.scene)
        if letters:
            yield repeat_items(letters, body, room, ruler, style)
        yield wished_items(self.scene.names, work, body, factor, room, ruler, style)

    def overflow(self) -> float:
        """mm by which the picture outgrows its box."""
        extent = self.room.extent or self.body
        return max(0.0, extent.width - self.room.width) + max(0.0, extent.height - self.room.height)

    def fits(self) -> bool:
        return self.overflow() < 1e-6

    def label(self, to_the_end: bool = False) -> bool:
        """Sets the labels; gives up, to be taken up again, once one has no clear place or the picture grows too large."""
        for items in self.waiting:
            self.labels += items
            if not to_the_end and (self.room.crowded or not self.fits()):
                return False
        return not self.room.crowded and self.fits()

    def layout(self) -> _Layout:
        motifs = _motifs(self.work, self.scale[1], self.room, self.own_lines, self.style)
        work = self.work
        items = (*work.paper, *motifs, *work.slivers, *work.glue, *work.lines, *self.measures, *self.marks, *self.labels)
        return _Layout(items, self.room.extent or self.body, self.scale)


def _motifs(work: Work, factor: float, room: Room, own_lines: int, style: PictureStyle) -> list[Item]:
    """The print runs on under the paper's own lines, the first `own_lines` of the room."""
    items: list[Item] = []
    for each in work.visible:
        motif = each.facet.source.motif
        if motif and each.rings:
            shape = motif_group(motif, each.rings, factor, room.near(each.facet.box, own_lines), style, each.path)
            if shape:
                items.append(shape)
    return items

