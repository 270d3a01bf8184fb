"""Whether a plan is what it says: checked from the plan and the demand alone, with nothing of the search.

Sentences come back for whoever maintains the program; a sound plan gives none.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from creasewright.cutting.demand import Piece, Stock
from creasewright.cutting.plan import Box, Cut, Offcut, PaperPlan, Placement, SheetPlan


def faults_of(plan: PaperPlan, pieces: Sequence[Piece]) -> list[str]:
    """Every way in which the plan breaks its promises; empty for a sound plan."""
    faults = list(_demand_faults(plan, pieces))
    for number, sheet in enumerate(plan.sheets, start=1):
        faults += [f"sheet {number}: {fault}" for fault in _sheet_faults(sheet)]
    total = sum(sheet.count for sheet in plan.sheets)
    if total != plan.sheet_count:
        faults.append(f"{plan.sheet_count} sheets stated, {total} planned")
    return faults + list(_bound_faults(plan, total)) + list(_stock_faults(plan))


def _bound_faults(plan: PaperPlan, total: int) -> Iterator[str]:
    if plan.not_laid:
        if plan.proved:
            yield "pieces are missing, and yet it is called proved"
        return
    price = sum((Fraction(sheet.stock.price) * sheet.count for sheet in plan.sheets), Fraction(0))
    if price != plan.price:
        yield f"{plan.price} stated as the price, {price} planned"
    if plan.lower_bound > total:
        yield f"the bound {plan.lower_bound} is above the {total} sheets planned"
    if plan.least_price > price:
        yield f"the bound {plan.least_price} is above the price {price}"
    reached = plan.lower_bound == total, plan.least_price == price
    if plan.proved != any(reached) and plan.proved != all(reached):
        yield "the proof does not follow from the bound"
    settings = {cut.setting for sheet in plan.sheets for cut in sheet.cuts}
    if plan.settings != len(settings):
        yield f"{plan.settings} settings stated, {len(settings)} planned"


def _stock_faults(plan: PaperPlan) -> Iterator[str]:
    used: dict[Stock, int] = {}
    for sheet in plan.sheets:
        used[sheet.stock] = used.get(sheet.stock, 0) + sheet.count
    for stock, count in used.items():
        if stock.limit is not None and count > stock.limit:
            yield f"{count} sheets of {stock.width} x {stock.height} planned, {stock.limit} are there"


def _demand_faults(plan: PaperPlan, pieces: Sequence[Piece]) -> Iterator[str]:
    made: dict[str, int] = {}
    wanted = {piece.key: piece for piece in pieces}
    too_large = {piece.key for piece in plan.too_large}
    not_laid = {piece.key: piece.count for piece in plan.not_laid}
    for sheet in plan.sheets:
        for placement in sheet.placements:
            made[placement.key] = made.get(placement.key, 0) + sheet.count
            if placement.key in wanted:
                yield from _likeness_faults(placement, wanted[placement.key])
            else:
                yield f"{placement.key}: nobody asked for it"
    for key, piece in wanted.items():
        due = 0 if key in too_large else piece.count - not_laid.get(key, 0)
        if made.get(key, 0) != due:
            yield f"{key}: {made.get(key, 0)} cut, {due} wanted"


def _likeness_faults(placement: Placement, piece: Piece) -> Iterator[str]:
    size = (piece.height, piece.width) if placement.turned else (piece.width, piece.height)
    if size != (placement.width, placement.height):
        yield f"{piece.key}: cut {placement.width} x {placement.height}, wanted {size[0]} x {size[1]}"
    if placement.turned and not piece.may_turn:
        yield f"{piece.key}: turned, but must not be"


def _sheet_faults(sheet: SheetPlan) -> Iterator[str]:
    if sheet.count < 1 or not sheet.placements:
        yield "cuts nothing"
    boxes = [_box(placement) for placement in sheet.placements]
    yield from (f"{p.key} leaves the usable area" for p in sheet.placements if not _within(_box(p), _usable(sheet.stock)))
    overlapping = False
    for place, first in enumerate(sheet.placements):
        for second in sheet.placements[place + 1 :]:
            if _overlap(_box(first), _box(second)):
                overlapping = True
                yield f"{first.key} and {second.key} overlap"
    if not overlapping and not separable(boxes):
        yield "no edge-to-edge cuts part the pieces"
    yield from _cut_faults(sheet)


def separable(boxes: Sequence[Box]) -> bool:
    """Whether edge-to-edge cuts, and cuts of what they give, part boxes that do not overlap.

    Any cut that meets no box may be taken: cuts that part all boxes also part those on one side of it.
    """
    if len(boxes) < 2:
        return True
    for axis in (0, 1):
        ordered = sorted(boxes, key=lambda box: box[axis])
        reached = ordered[0][axis] + ordered[0][axis + 2]
        for place, box in enumerate(ordered[1:], start=1):
            if box[axis] >= reached:
                return separable(ordered[:place]) and separable(ordered[place:])
            reached = max(reached, box[axis] + box[axis + 2])
    return False


def _cut_faults(sheet: SheetPlan) -> Iterator[str]:
    """Makes the cuts: each must find its part in hand; in the end all pieces and offcuts are in hand, and no more."""
    in_hand: list[Box] = [(Fraction(0), Fraction(0), Fraction(sheet.stock.width), Fraction(sheet.stock.height))]
    before: Fraction | None = None
    for number, cut in enumerate(sheet.cuts, start=1):
        if cut.number != number:
            yield f"cut {cut.number} comes at place {number}"
        if cut.piece_rect not in in_hand:
            yield f"cut {number}: its part is not in hand"
            return
        in_hand.remove(cut.piece_rect)
        sides = _halves(cut)
        in_hand += sides
        yield from _setting_faults(cut, sides, before)
        yield from _side_faults(cut, sheet)
        before = cut.setting
    for box in [*map(_box, sheet.placements), *map(_box, sheet.offcuts)]:
        if box in in_hand:
            in_hand.remove(box)
        else:
            yield f"the cuts do not give the part at {box[0]}, {box[1]}"
    yield from (f"a part at {x}, {y} is left unnamed" for x, y, w, h in in_hand if _overlap((x, y, w, h), _usable(sheet.stock)))


def _halves(cut: Cut) -> tuple[Box, Box]:
    """The part at the head or left, and the part at the tail or right."""
    x, y, width, height = cut.piece_rect
    if cut.direction == "across":
        return (x, y, width, cut.position), (x, y + cut.position, width, height - cut.position)
    return (x, y, cut.position, height), (x + cut.position, y, width - cut.position, height)


def _setting_faults(cut: Cut, sides: tuple[Box, Box], before: Fraction | None) -> Iterator[str]:
    near = cut.from_edge in ("left", "head")
    kept, other = sides if near else (sides[1], sides[0])
    if min(*kept[2:], *other[2:]) <= 0:
        yield f"cut {cut.number}: misses its part"
    if (cut.direction == "across") != (cut.from_edge in ("head", "tail")):
        yield f"cut {cut.number}: is not parallel to the edge it is set from"
    if cut.setting != (kept[3] if cut.direction == "across" else kept[2]):
        yield f"cut {cut.number}: the setting is not the width of the part kept"
    if cut.same_setting != (cut.setting == before):
        yield f"cut {cut.number}: 'same setting' is wrong"
    if (cut.kept.box, cut.other.box) != (kept, other):
        yield f"cut {cut.number}: its two sides are not what it gives"


def _side_faults(cut: Cut, sheet: SheetPlan) -> Iterator[str]:
    for side in (cut.kept, cut.other):
        keys = tuple(placement.key for placement in sheet.placements if _within(_box(placement), side.box))
        if side.keys != keys or (side.kind == "pieces") != bool(keys):
            yield f"cut {cut.number}: a side names {side.keys}, and holds {keys}"


def _usable(stock: Stock) -> Box:
    return Fraction(stock.usable[0]), Fraction(stock.usable[1]), stock.usable_width, stock.usable_height


def _box(part: Placement | Offcut) -> Box:
    return part.x, part.y, part.width, part.height


def _within(inner: Box, outer: Box) -> bool:
    return all(outer[axis] <= inner[axis] and inner[axis] + inner[axis + 2] <= outer[axis] + outer[axis + 2] for axis in (0, 1))


def _overlap(first: Box, second: Box) -> bool:
    return all(first[axis] < second[axis] + second[axis + 2] and second[axis] < first[axis] + first[axis + 2] for axis in (0, 1))
