"""What fits where: every insert against its space, with its room to spare and how forgiving it is; every pocket with its mouth; every room
that hands could use up.

Rows that say the same are one row with a count. Sizes of things are said to the next mark up, room and clearance to the mark
below, so that a row never promises more room than there is.
"""


from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.covering_rows import covering_blocks
from creasewright.booklet.forgiveness_table import forgiveness_table
from creasewright.booklet.forgiving import how_forgiving
from creasewright.booklet.length_words import said_depth, said_room
from creasewright.booklet.part_words import part_words, pocket_kind
from creasewright.booklet.piece_marks import part_marks
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text
from creasewright.booklet.table import Cell, grid_columns, table
from creasewright.booklet.text_blocks import text_blocks
from creasewright.booklet.typeset import literal
from creasewright.fitting.pieces import bare
from creasewright.folding.state import InsertFit, Pocket, State
from creasewright.hands.clearance import Clearance
from creasewright.hands.every_clearance import every_clearance
from creasewright.joining.pockets import open_as_seen
from creasewright.units.ruler import DOWN, UP, length_in_words, mark_in_words, pair_in_words

TOLD = 0.05
"""mm: what goes to an insert's thickness is told from here."""


class FitRow(Struct, frozen=True):
    """Inserts that read alike, and the spaces they go into."""

    name: str
    fits: tuple[InsertFit, ...]

    @property
    def first(self) -> InsertFit:
        return self.fits[0]


def build(context: PackContext) -> Section | None:
    """None where nothing is put in, nothing goes over anything and no room is left anywhere."""
    finished = context.worked.finished
    rooms = forgiveness_table(context)
    if finished is None or not (finished.state.fits or finished.state.coverings or rooms):
        return None
    state = finished.state
    intro = section_text(context, "intro") if state.fits else ""
    blocks = [
        *(text_blocks(intro, context.layout, context.page.measure, context.text, space_before=0.0) if intro else ()),
        *(_fits(context, state) if state.fits else ()),
        *covering_blocks(context, state),
        *(_pockets(context, state) if state.fits else ()),
        *rooms,
    ]
    section, scope = context.section, section_text(context, "scope", count=len(state.fits), over=len(state.coverings))
    return Section(section.key, section.title, scope, section.numbered, tuple(blocks))


# --- inserts ----------------------------------------------------------------------------------------------------------


def forgiving(context: PackContext, fit: InsertFit) -> str:
    """As `how_forgiving`; `none` also where the fit itself, as it was measured, has no room."""
    if min(fit.spare_width, fit.spare_height, fit.spare_depth or 0.0) < 0:
        return "none"
    rooms = every_clearance(context.worked, context.errors)
    return how_forgiving(context, (one for one in rooms if one.kind == "insert" and is_of(one, fit)))


def is_of(one: Clearance, fit: InsertFit) -> bool:
    """The clearance of the same piece, or of one that is put in alike, as its own assembly names it."""
    own, alike = fit.part.split("/")[-1], one.part.split("/")[-1]
    return bare(own) == bare(alike) if one.times > 1 else own == alike


def fit_rows(context: PackContext, fits: tuple[InsertFit, ...]) -> tuple[FitRow, ...]:
    """Fits that would be printed in the same words, together."""
    found: dict[tuple[str, ...], list[InsertFit]] = {}
    for fit in fits:
        name = part_words(context.worked, fit.part.split("/")[-1])
        found.setdefault((name, *_measures(context, fit)), []).append(fit)
    return tuple(FitRow(key[0], tuple(each)) for key, each in found.items())


def _measures(context: PackContext, fit: InsertFit) -> tuple[str, ...]:
    ruler = context.worked.ruler
    return (
        pair_in_words(fit.width, fit.height, ruler, UP),
        pair_in_words(fit.room_width, fit.room_height, ruler, DOWN),
        said_room(context.system, ruler, fit.spare_width),
        said_room(context.system, ruler, fit.spare_height),
        length_in_words(fit.thick, context.system),
        mark_in_words(fit.out_of, ruler, UP).text if fit.out_of > 0.5 else "",
        said_depth(fit.room_depth, context.system),
        said_depth(fit.spare_depth, context.system),
    )


def _fits(context: PackContext, state: State) -> tuple[Block, ...]:
    heads = [line.strip() for line in section_text(context, "fit heads").split("\n")]
    places = ((0, 1), (1, 2), (3, 1), (4, 2)) if context.page.columns >= 6 else ((0, 1), (1, 1), (2, 1), (3, 1))
    columns = grid_columns(context.page, [(head, *place) for head, place in zip(heads, places, strict=True)])
    rows = [_fit_row(context, state, row) for row in fit_rows(context, state.fits)]
    return table(
        "fits", (replace(columns[0], names_row=True), *columns[1:]), rows, context.layout, context.text, context.page.measure,
        section_text(context, "fits"),
    )  # fmt: skip


def _fit_row(context: PackContext, state: State, row: FitRow) -> list[Cell]:
    fit = row.first
    size, room, across, down, thick, out, deep, spare_deep = _measures(context, fit)
    spaces = [_space(context, each) for each in row.fits]
    values: dict[str, object] = {
        "name": literal(row.name),
        "letter": _letter(context, fit),
        "count": len(row.fits),
        "size": size,
        "thick": thick if fit.thick else "",
        "room": room,
        "across": across,
        "down": down,
        "thick_across": thick if "wide" not in fit.stands_out and fit.room_width - fit.width - fit.spare_width > TOLD else "",
        "thick_down": thick if "high" not in fit.stands_out and fit.room_height - fit.height - fit.spare_height > TOLD else "",
        "out": out,
        "deep": deep,
        "spare_deep": spare_deep,
        "forgiving": forgiving(context, fit),
        "spaces": list(dict.fromkeys(spaces)),
    }
    return [section_text(context, name, **values) for name in ("what", "where", "spare", "how forgiving")]


def _letter(context: PackContext, fit: InsertFit) -> str:
    """Of the piece that is put in; empty for a thing that is bought."""
    return part_marks(context.worked).get(fit.part, "")


def _space(context: PackContext, fit: InsertFit) -> str:
    return _pocket(context, fit.pocket) if fit.pocket else ""


def _pocket(context: PackContext, path: str) -> str:
    return pocket_kind(context.word, path.split("/")[-1]) + literal(part_words(context.worked, path))


# --- pockets ----------------------------------------------------------------------------------------------------------


def _pockets(context: PackContext, state: State) -> tuple[Block, ...]:
    if not state.pockets:
        return ()
    heads = [line.strip() for line in section_text(context, "pocket heads").split("\n")]
    places = ((0, 2), (2, 1), (3, 1), (4, 2)) if context.page.columns >= 6 else ((0, 1), (1, 1), (2, 1), (3, 1))
    columns = grid_columns(context.page, [(head, *place) for head, place in zip(heads, places, strict=True)])
    found: dict[tuple[object, ...], list[Pocket]] = {}
    for pocket in state.pockets.values():
        alike = (pocket.name.split("/")[-1], open_as_seen(state, pocket), _room(context, pocket), _held(context, state, pocket))
        found.setdefault(alike, []).append(pocket)
    rows = [_pocket_row(context, state, pockets) for pockets in found.values()]
    return table(
        "pockets", (replace(columns[0], names_row=True), *columns[1:]), rows, context.layout, context.text, context.page.measure,
        section_text(context, "pockets"), section_text(context, "pockets note"),
    )  # fmt: skip


def _room(context: PackContext, pocket: Pocket) -> str:
    return pair_in_words(pocket.room_width, pocket.room_height, context.worked.ruler, DOWN)


def _held(context: PackContext, state: State, pocket: Pocket) -> tuple[str, ...]:
    inside = [fit for fit in state.fits if fit.pocket == pocket.name]
    names = [part_words(context.worked, fit.part.split("/")[-1]) for fit in inside]
    return tuple(f"{literal(name)} {_letter(context, fit)}".strip() for name, fit in zip(names, inside, strict=True))


def _pocket_row(context: PackContext, state: State, alike: list[Pocket]) -> list[Cell]:
    pocket = alike[0]
    values: dict[str, object] = {
        "names": [_pocket(context, each.name) for each in alike],
        "sides": [context.word(side) for side in open_as_seen(state, pocket)],
        "room": _room(context, pocket),
        "holds": list(dict.fromkeys(_held(context, state, pocket))),
    }
    return [section_text(context, name, **values) for name in ("pocket", "opens", "pocket room", "holds")]
