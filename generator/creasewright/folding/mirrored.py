"""An assembly's state as its mirror image, and under a prefix: what a larger assembly takes over as a part."""

from collections.abc import Callable

from msgspec.structs import replace

from creasewright.blanks.blank import Blank, ScorePiece
from creasewright.blanks.derived import mirror_image
from creasewright.folding.curved import Curved, Ear
from creasewright.folding.state import Body, Bond, GlueArea, InsertFit, PanelKey, PieceKey, Pocket, Stack, State
from creasewright.geometry.edges import edge_middle
from creasewright.geometry.rigid_transform import Matrix, Rigid, Vector

SWAPPED = {"left": "right", "right": "left"}


def flip_x(v: Vector) -> Vector:
    return (-v[0], v[1], v[2])


def conjugate(m: Matrix) -> Matrix:
    """X m X, with X the reflection of x: again a rotation."""
    return (m[0], -m[1], -m[2], -m[3], m[4], m[5], -m[6], m[7], m[8])


def reflected(placed: Rigid, width: float) -> Rigid:
    """X placed B, with B the reflection x -> width - x of the mirrored blank: where its mirror image lies."""
    m, s = placed
    shifted = (s[0] + m[0] * width, s[1] + m[3] * width, s[2] + m[6] * width)
    return Rigid(conjugate(m), flip_x(shifted))


def reflected_bond(bond: Bond, widths: dict[str, float]) -> Bond:
    """Relative placement between two mirrored blanks: B1 relative B2."""
    w1, w2 = widths[bond.first[0]], widths[bond.second[0]]
    m, s = bond.relative
    x = s[0] + m[0] * w2
    y, z = s[1] + m[3] * w2, s[2] + m[6] * w2
    return replace(bond, relative=Rigid(conjugate(m), (w1 - x, y, z)))


def mirrored_blank(blank: Blank) -> Blank:
    """The mirror image, under the blank's own name."""
    return mirror_image(blank, blank.name, blank.name)


def mirrored_keys(state: State, images: dict[str, Blank]) -> dict[PieceKey, PieceKey]:
    """Each score piece's key to that of its image: images are named as they lie, so names may change."""
    found: dict[PieceKey, PieceKey] = {}
    for part, blank in state.blanks.items():
        width = float(blank.width)
        image = {middle_of(piece, None): piece.name for piece in images[part].pieces}
        for piece in blank.pieces:
            found[(part, piece.name)] = (part, image[middle_of(piece, width)])
    return found


def middle_of(piece: ScorePiece, width: float | None) -> tuple[float, float]:
    """Of a score piece (on its arc, if it is curved), or of its image in a blank of that width; to 0.001 mm."""
    x, y = (float(value) for value in edge_middle(piece.edge))
    return (round(x if width is None else width - x, 3) + 0.0, round(y, 3))


def mirror_images(state: State) -> dict[str, Blank]:
    """The mirror image of every part's blank; parts of one blank share it.

    A blank and its mirror image bear one name, so they are told apart as objects.
    """
    images = {number: mirrored_blank(blank) for number, blank in {id(b): b for b in state.blanks.values()}.items()}
    return {part: images[id(blank)] for part, blank in state.blanks.items()}


def mirrored_state(state: State, blanks: dict[str, Blank] | None = None) -> State:
    """The whole state reflected left for right: blanks become their mirror images, folds keep their direction.

    `blanks` are the images, where the caller has them already.
    """
    widths = {part: float(blank.width) for part, blank in state.blanks.items()}
    blanks = blanks if blanks is not None else mirror_images(state)
    keys = mirrored_keys(state, blanks)
    bodies = tuple(
        Body(
            body.parts,
            tuple(Stack(flip_x(stack.normal), stack.order) for stack in body.stacks),
            conjugate(body.view),
        )
        for body in state.bodies
    )
    return replace(
        state,
        blanks=blanks,
        placed={key: reflected(placed, widths[key[0]]) for key, placed in state.placed.items()},
        angles={keys[key]: angle for key, angle in state.angles.items()},
        creased=frozenset(keys[key] for key in state.creased),
        bonds=tuple(
            replace(reflected_bond(bond, widths), hinge=keys[bond.hinge] if bond.hinge is not None else None) for bond in state.bonds
        ),
        bodies=bodies,
        glue=tuple(reflected_glue(area, widths[area.panel[0]]) for area in state.glue),
        pockets={name: reflected_pocket(pocket, widths[pocket.back[0]]) for name, pocket in state.pockets.items()},
        closures=tuple(
            replace(closure, path=tuple((part, (widths[part] - x, y)) for part, (x, y) in closure.path)) for closure in state.closures
        ),
        sewings=tuple(
            replace(
                sewing,
                line=keys[sewing.line],
                pricks=tuple((part, (widths[part] - x, y)) for part, (x, y) in sewing.pricks),
            )
            for sewing in state.sewings
        ),
        curved={key: reflected_curve(curved, widths[key[0]]) for key, curved in state.curved.items()},
    )


def reflected_curve(curved: Curved, width: float) -> Curved:
    """Along the rulings all is counted the other way: they lie a quarter turn clockwise of what is now turned round."""
    ear = curved.ear
    return replace(
        curved,
        start=(width - curved.start[0], curved.start[1]),
        along=(-curved.along[0], curved.along[1]),
        ear=Ear(-ear.chord_at, -ear.bows, ear.over) if ear is not None else None,
    )


def reflected_glue(area: GlueArea, width: float) -> GlueArea:
    return replace(area, polygon=tuple((width - x, y) for x, y in reversed(area.polygon)))


def reflected_pocket(pocket: Pocket, width: float) -> Pocket:
    """`width` is that of the blank behind."""
    x = pocket.corner[0] + pocket.rightwards[0] * pocket.room_width
    y = pocket.corner[1] + pocket.rightwards[1] * pocket.room_width
    return replace(
        pocket,
        closed=tuple(SWAPPED.get(side, side) for side in pocket.closed),
        open=tuple(SWAPPED.get(side, side) for side in pocket.open),
        corner=(width - x, y),
        rightwards=(pocket.rightwards[0], -pocket.rightwards[1]),
        tailwards=(-pocket.tailwards[0], pocket.tailwards[1]),
    )


def under_prefix(state: State, prefix: str) -> State:
    """Every part, panel and pocket of a state under the name of the part it becomes."""

    def part(name: str) -> str:
        return f"{prefix}/{name}"

    def key(panel: PanelKey) -> PanelKey:
        return part(panel[0]), panel[1]

    return State(
        blanks={part(name): blank for name, blank in state.blanks.items()},
        thick={part(name): thick for name, thick in state.thick.items()},
        placed={key(panel): placed for panel, placed in state.placed.items()},
        angles={key(piece): angle for piece, angle in state.angles.items()},
        creased=frozenset(key(piece) for piece in state.creased),
        bonds=tuple(
            replace(bond, first=key(bond.first), second=key(bond.second), hinge=key(bond.hinge) if bond.hinge is not None else None)
            for bond in state.bonds
        ),
        bodies=tuple(
            Body(
                frozenset(part(name) for name in body.parts),
                tuple(Stack(stack.normal, tuple(key(panel) for panel in stack.order)) for stack in body.stacks),
                body.view,
            )
            for body in state.bodies
        ),
        glue=tuple(replace(area, panel=key(area.panel), onto=key(area.onto)) for area in state.glue),
        pockets={part(name): prefixed_pocket(pocket, prefix, key) for name, pocket in state.pockets.items()},
        fits=tuple(prefixed_fit(fit, prefix) for fit in state.fits),
        faced={part(name): side for name, side in state.faced.items()},
        coverings=tuple(
            replace(fit, cover=tuple(part(name) for name in fit.cover), around=tuple(part(name) for name in fit.around))
            for fit in state.coverings
        ),
        closures=tuple(
            replace(
                closure,
                on=part(closure.on),
                band=part(closure.band) if closure.band else "",
                path=tuple((part(name), spot) for name, spot in closure.path),
            )
            for closure in state.closures
        ),
        sewings=tuple(
            replace(
                sewing,
                line=key(sewing.line),
                parts=tuple(part(name) for name in sewing.parts),
                pricks=tuple((part(name), spot) for name, spot in sewing.pricks),
            )
            for sewing in state.sewings
        ),
        trims=tuple(replace(trim, leaves=tuple((part(name), off) for name, off in trim.leaves)) for trim in state.trims),
        curved={key(panel): curved for panel, curved in state.curved.items()},
        made=frozenset((part(name), what) for name, what in state.made),
    )


def prefixed_pocket(pocket: Pocket, prefix: str, key: Callable[[PanelKey], PanelKey]) -> Pocket:
    return replace(
        pocket,
        name=f"{prefix}/{pocket.name}",
        front=key(pocket.front),
        back=key(pocket.back),
        closing=tuple(key(panel) for panel in pocket.closing),
    )


def prefixed_fit(fit: InsertFit, prefix: str) -> InsertFit:
    pocket = f"{prefix}/{fit.pocket}" if fit.pocket else ""
    return replace(fit, part=f"{prefix}/{fit.part}", pocket=pocket)


def both(a: State, b: State) -> State:
    """Two states side by side, sharing nothing."""
    return State(
        blanks={**a.blanks, **b.blanks},
        thick={**a.thick, **b.thick},
        placed={**a.placed, **b.placed},
        angles={**a.angles, **b.angles},
        creased=a.creased | b.creased,
        bonds=a.bonds + b.bonds,
        bodies=a.bodies + b.bodies,
        glue=a.glue + b.glue,
        pockets={**a.pockets, **b.pockets},
        fits=a.fits + b.fits,
        faced={**a.faced, **b.faced},
        coverings=a.coverings + b.coverings,
        closures=a.closures + b.closures,
        sewings=a.sewings + b.sewings,
        trims=a.trims + b.trims,
        curved={**a.curved, **b.curved},
        made=a.made | b.made,
    )
