"""Scores that meet in one point, folded flat at once: the theorems of flat folding, and counts from brute force elsewhere."""

from itertools import pairwise, product

import networkx
import pytest
from flat_vertices import folded_at_once
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.folding.state import State, front_normal
from creasewright.joining.run_step import StepRun

# Counts by brute-force layer ordering of a cone, worked elsewhere; for four creases they agree with the bounds 2^n and
# 2 * C(2n, n - 1) of the literature on counting crease assignments (from memory).
COUNTS = [
    ([90, 90, 90, 90], 8),  # 2 * C(4, 1): one crease of the four differs from the others
    ([90, 45, 90, 135], 4),
    ([60, 60, 120, 120], 6),
    ([45, 45, 135, 135], 6),
    ([60, 100, 120, 80], 4),
    ([60, 60, 60, 60, 60, 60], 30),  # 2 * C(6, 2)
    ([30, 60, 90, 60, 60, 60], 12),
]


def that_fold(angles: list[float]) -> dict[str, StepRun]:
    runs = {"".join(signs): folded_at_once(angles, "".join(signs)) for signs in product("MV", repeat=len(angles))}
    return {signs: run for signs, run in runs.items() if run.refused is None}


@pytest.mark.parametrize(("angles", "count"), COUNTS)
def test_a_vertex_folds_flat_in_as_many_ways_as_brute_force_counts(angles: list[float], count: int):
    ways = that_fold(angles)
    assert len(ways) == count
    for signs in ways:
        # Maekawa's theorem: mountains and valleys at a flat vertex differ by two (T. Hull, "The Combinatorics of Flat Folds:
        # a Survey", 2002, arXiv:1307.1065)
        assert abs(signs.count("M") - signs.count("V")) == 2


def test_the_two_creases_round_the_smallest_angle_differ():
    # 90, 45, 90, 135: the creases listed in order, each before its angle; assignments from brute force elsewhere
    assert set(that_fold([90, 45, 90, 135])) == {"MMVM", "MVMM", "VMVV", "VVMV"}


@pytest.mark.parametrize(
    ("angles", "left"),
    [
        # Kawasaki's theorem: alternate angles at a flat vertex add up to 180; 100 + 90 = 190 against 80 + 90 = 170
        ([100, 80, 90, 90], "20.00°"),
        # an odd number of creases: three reflections make a reflection, never the identity
        ([120, 120, 120], "180.00°"),
    ],
)
def test_a_vertex_against_kawasaki_is_refused_with_the_gap_of_its_loop(angles: list[float], left: str):
    for signs in product("MV", repeat=len(angles)):
        refused = folded_at_once(angles, "".join(signs)).refused
        assert refused is not None
        assert "do not meet when this is folded" in refused[0]
        assert f"and {left} are left" in refused[0]
        assert refused[1] == "check the sizes round that loop, or fold fewer scores in this step"


@st.composite
def flat_angles(draw: st.DrawFn, pairs: int = 2) -> list[float]:
    """Angles of a vertex that obey Kawasaki: two sets that each add up to 180, one from the other by turns."""
    sets = []
    for _ in range(2):
        cuts = sorted(draw(st.lists(st.integers(25, 155), min_size=pairs - 1, max_size=pairs - 1, unique=True)))
        marks = [0, *cuts, 180]
        sets.append([b - a for a, b in pairwise(marks)])
    return [float(angle) for pair in zip(*sets, strict=True) for angle in pair]


def face_graph(state: State) -> networkx.Graph:
    graph = networkx.Graph()
    for blank in state.blanks.values():
        graph.add_edges_from((piece.first, piece.second) for piece in blank.pieces)
    return graph


@given(flat_angles())
@settings(max_examples=12, deadline=None)
def test_alternate_angles_of_180_fold_flat_with_mountains_and_valleys_two_apart(angles: list[float]):
    ways = that_fold(angles)
    # four creases: at least 2^2, at most 2 * C(4, 1)
    assert 4 <= len(ways) <= 8
    assert all(abs(signs.count("M") - signs.count("V")) == 2 for signs in ways)
    # whatever folds, folds with every sign changed too
    swap = str.maketrans("MV", "VM")
    assert {signs.translate(swap) for signs in ways} == set(ways)


@given(flat_angles())
@settings(max_examples=12, deadline=None)
def test_the_faces_of_a_flat_vertex_are_two_coloured_by_the_side_that_looks_up(angles: list[float]):
    state = next(iter(that_fold(angles).values())).after
    graph = face_graph(state)
    assert networkx.is_bipartite(graph)
    up = {key[1]: front_normal(placed)[2] < 0 for key, placed in state.placed.items()}
    assert all(up[a] != up[b] for a, b in graph.edges)
    assert all(abs(abs(front_normal(placed)[2]) - 1) < 1e-9 for placed in state.placed.values())


@given(flat_angles(), st.integers(1, 20), st.sampled_from(["MMMV", "VVVM", "MVMV"]))
@settings(max_examples=30, deadline=None)
def test_a_vertex_off_kawasaki_by_an_angle_is_refused_with_twice_that_angle(angles: list[float], off: int, signs: str):
    # one angle larger and its neighbour smaller by `off`: alternate sums 180 + off and 180 - off, a gap of 2 * off
    bent = [angles[0] + off, angles[1] - off, *angles[2:]]
    if bent[1] < 5:
        bent = [angles[0] - off, angles[1] + off, *angles[2:]]
    refused = folded_at_once(bent, signs).refused
    assert refused is not None
    assert f"and {2 * off:.2f}° are left" in refused[0]
