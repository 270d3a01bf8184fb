"""Laws that hold for any strip and any run of folds."""

from itertools import combinations
from math import dist

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from creasewright.folding.mirrored import mirrored_state, under_prefix
from creasewright.folding.state import PanelKey, State
from creasewright.geometry.clip import area
from creasewright.geometry.rigid_transform import apply, rotate, times, transposed
from creasewright.joining.compass import polygon_in_view
from small_designs import from_the_table, made, runs_of, with_steps

Corner = tuple[float, float, float]


@st.composite
def strips(draw: st.DrawFn) -> tuple[str, list[str]]:
    """A strip of two to six bands, its far corner cut, and the scores of it."""
    widths = draw(st.lists(st.integers(10, 90), min_size=2, max_size=6))
    bands = ", ".join(f"p{k}: {wide} mm" for k, wide in enumerate(widths, start=1))
    cut = min(widths) - 5
    blank = f"strip: {{height: 60 mm, across: [{bands}], corners: {{head-right: {{cut: [{cut} mm, 20 mm]}}}}}}"
    return blank, [f"p{k}/p{k + 1}" for k in range(1, len(widths))]


@st.composite
def folded_strips(draw: st.DrawFn) -> tuple[str, list[str]]:
    """A strip and a run of folds in any order and to any angle."""
    blank, scores = draw(strips())
    steps = []
    for score in draw(st.permutations(scores)):
        verb = draw(st.sampled_from(["fold", "mountain"]))
        angle = draw(st.sampled_from([180, 180, 180, 90, 45, 137]))
        steps.append(f"{{{verb}: {score}, to: {angle}, seen from: front}}")
    return blank, steps


def corners(state: State) -> dict[PanelKey, list[Corner]]:
    return {
        key: [apply(placed, (x, y, 0.0)) for x, y in state.blanks[key[0]].panel(key[1]).polygon]
        for key, placed in state.placed.items()
    }


def close(a: Corner, b: Corner) -> bool:
    return dist(a, b) < 1e-6


@given(folded_strips())
@settings(max_examples=40, deadline=None)
def test_folding_keeps_areas_and_distances(wish: tuple[str, list[str]]):
    for run in runs_of(with_steps(*[wish[0], *wish[1]])):
        state = run.after
        for key, points in corners(state).items():
            panel = state.blanks[key[0]].panel(key[1])
            for (a, p), (b, q) in combinations(zip(panel.polygon, points, strict=True), 2):
                assert abs(dist(a, b) - dist(p, q)) < 1e-6
            turn = state.placed[key].turn
            product = times(turn, transposed(turn))
            assert all(abs(v - w) < 1e-9 for v, w in zip(product, (1, 0, 0, 0, 1, 0, 0, 0, 1), strict=True))


@given(folded_strips())
@settings(max_examples=40, deadline=None)
def test_neighbours_still_share_their_score_after_any_folds(wish: tuple[str, list[str]]):
    state = runs_of(with_steps(*[wish[0], *wish[1]]))[-1].after
    for part, blank in state.blanks.items():
        for piece in blank.pieces:
            for point in (piece.start, piece.end):
                here = apply(state.placed[(part, piece.first)], (float(point.x), float(point.y), 0.0))
                there = apply(state.placed[(part, piece.second)], (float(point.x), float(point.y), 0.0))
                assert close(here, there)


@given(folded_strips())
@settings(max_examples=40, deadline=None)
def test_layers_are_an_ordering_of_all_panels_each_once(wish: tuple[str, list[str]]):
    for run in runs_of(with_steps(*[wish[0], *wish[1]])):
        listed = [key for body in run.after.bodies for stack in body.stacks for key in stack.order]
        assert sorted(listed) == sorted(run.after.placed)


@given(folded_strips())
@settings(max_examples=40, deadline=None)
def test_folds_undone_in_reverse_bring_every_panel_back(wish: tuple[str, list[str]]):
    blank, steps = wish
    undo = [step.split(": ")[1].split(",")[0] for step in reversed(steps)]
    runs = runs_of(with_steps(blank, *steps, *(f"{{unfold: {score}, stays: p1}}" for score in undo)))
    # a fold that was refused left the strip as it was; what was made can be undone, last first
    assert all(run.refused is None for run in runs[len(steps) :])
    state = runs[-1].after
    flat = runs[0].before
    first = apply(state.placed[("strip", "p1")], (0.0, 0.0, 0.0))
    for key, points in corners(state).items():
        for (x, y), point in zip(flat.blanks[key[0]].panel(key[1]).polygon, points, strict=True):
            # the strip may lie elsewhere as a whole: it is compared in the frame of its first panel
            away = (point[0] - first[0], point[1] - first[1], point[2] - first[2])
            assert close(rotate(transposed(state.placed[("strip", "p1")].turn), away), (x, y, 0.0))


@given(folded_strips())
@settings(max_examples=25, deadline=None)
def test_turned_over_twice_is_unchanged(wish: tuple[str, list[str]]):
    blank, steps = wish
    once = runs_of(with_steps(blank, *steps))[-1].after
    for like in ("page", "pad"):
        over = f"{{turn over: strip, like: {like}}}"
        twice = runs_of(with_steps(blank, *steps, over, over))[-1].after
        assert twice == once
        half = runs_of(with_steps(blank, *steps, over))[-1].after
        assert half.body_of("strip").view != once.body_of("strip").view
        assert from_the_table(half, "strip") == from_the_table(once, "strip")[::-1]


@given(folded_strips())
@settings(max_examples=40, deadline=None)
def test_the_mirror_image_of_the_mirror_image_is_the_state_itself(wish: tuple[str, list[str]]):
    state = runs_of(with_steps(*[wish[0], *wish[1]]))[-1].after
    once = mirrored_state(state)
    twice = mirrored_state(once)
    assert twice.angles == state.angles
    assert [body.stacks for body in twice.bodies] == [body.stacks for body in state.bodies]
    for key, points in corners(state).items():
        image = corners(twice)[key]
        assert len(image) == len(points)
        assert all(any(close(a, b) for b in image) for a in points)
    # and once is the reflection of it: every corner at -x
    for key, points in corners(state).items():
        image = corners(once)[key]
        assert all(any(close((-x, y, z), other) for other in image) for x, y, z in points)


@given(folded_strips())
@settings(max_examples=25, deadline=None)
def test_a_mirror_image_covers_the_same_area_in_every_view(wish: tuple[str, list[str]]):
    state = runs_of(with_steps(*[wish[0], *wish[1]]))[-1].after
    image = mirrored_state(state)
    for key in state.placed:
        shapes = [polygon_in_view(s, s.body_of(key[0]), key) for s in (state, image)]
        assert abs(abs(area(shapes[0])) - abs(area(shapes[1]))) < 1e-6


def test_a_prefix_keeps_everything_and_only_renames():
    body = "materials: {glue: {kind: glue}}\nthings: {photo: {width: 30 mm, height: 20 mm, thick: 0.2 mm}}\n" + with_steps(
        "strip: {height: 50 mm, across: [a: 60 mm, b: 60 mm]}",
        "{fold: a/b}",
        "{glue: b, onto: a, along: tail, makes: pocket}",
        "{insert: photo, into: pocket}",
        "{tie: glue, around: all, across: width, ends: 100 mm}",
        "{trim: strip}",
    )
    state = made(body)
    under = under_prefix(state, "front block")

    def key(old: PanelKey) -> PanelKey:
        return f"front block/{old[0]}", old[1]

    assert under.blanks == {f"front block/{part}": blank for part, blank in state.blanks.items()}
    assert under.thick == {f"front block/{part}": thick for part, thick in state.thick.items()}
    assert under.placed == {key(panel): placed for panel, placed in state.placed.items()}
    assert under.angles == {key(piece): angle for piece, angle in state.angles.items()}
    assert under.creased == {key(piece) for piece in state.creased}
    assert [[s.order for s in b.stacks] for b in under.bodies] == [
        [tuple(key(k) for k in s.order) for s in b.stacks] for b in state.bodies
    ]
    assert [b.view for b in under.bodies] == [b.view for b in state.bodies]
    bonds = [(key(b.first), key(b.second), b.relative) for b in state.bonds]
    assert [(b.first, b.second, b.relative) for b in under.bonds] == bonds
    assert [(g.panel, g.onto, g.polygon) for g in under.glue] == [(key(g.panel), key(g.onto), g.polygon) for g in state.glue]
    pocket, old = under.pockets["front block/pocket"], state.pockets["pocket"]
    assert (pocket.front, pocket.back, pocket.room_width) == (key(old.front), key(old.back), old.room_width)
    assert [(f.part, f.pocket, f.spare_width) for f in under.fits] == [
        ("front block/photo", "front block/pocket", state.fits[0].spare_width)
    ]
    assert under.closures == tuple(replace(closure, on=f"front block/{closure.on}") for closure in state.closures)
    assert under.made == {(f"front block/{part}", what) for part, what in state.made}
    assert len(state.fits) == len(state.closures) == len(state.made) == 1


def test_of_two_panels_standing_face_to_face_each_goes_with_its_own_neighbour():
    steps = (
        "{mountain: p2/p3, to: 180, seen from: front}",
        "{fold: p3/p4, to: 90, seen from: front}",
        "{mountain: p1/p2, to: 90, seen from: front}",
    )
    blank = "strip: {height: 60 mm, across: [p1: 10 mm, p2: 10 mm, p3: 10 mm, p4: 10 mm]}"
    assert runs_of(with_steps(blank, *steps, "{unfold: p1/p2, stays: p1}"))[-1].refused is None
