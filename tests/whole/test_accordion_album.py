"""The season album: pleats of one strip at right angles, a leaf on each, and a spine that is as thick as what it holds."""

from pathlib import Path

import pytest

from creasewright.fitting.worked import Worked
from creasewright.folding.state import State
from creasewright.geometry.rigid_transform import apply
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out

ALBUM = Path(__file__).parents[2] / "designs" / "season-album.yaml"
STRIP = "hinge strip"


def album(leaves: int) -> Worked:
    return work_out(read_design(ALBUM), "mm", settings={"leaves": str(leaves)})


def after_folding(found: Worked) -> State:
    runs = next(one for one in found.assemblies if one.name == "album").runs
    assert [run.refused for run in runs if run.refused is not None] == []
    return runs[3].after


def middle(state: State, panel: str) -> tuple[float, float, float]:
    polygon = state.blanks[STRIP].panel(panel).polygon
    x, y = (sum(spot[axis] for spot in polygon) / len(polygon) for axis in (0, 1))
    return apply(state.placed[(STRIP, panel)], (x, y, 0.0))


@pytest.mark.parametrize("leaves", [3, 6, 8])
def test_pleats_stand_a_gap_apart_on_one_plane(leaves):
    # gap 2 x 1.5 = 3 mm; a pleat takes no place on the plane, so pleat k stands k gaps from the front tab and its middle 5 mm above it
    state = after_folding(album(leaves))
    base = middle(state, "gap 1")
    for k in range(1, leaves + 1):
        for wall in ("up", "down"):
            x, y, z = middle(state, f"{wall} {k}")
            assert (x - base[0], y, z) == pytest.approx((1.5 + 3 * (k - 1), base[1], base[2] - 5))
    gaps = [middle(state, f"gap {k}") for k in range(1, leaves + 1)]
    assert [round(spot[2] - base[2], 6) for spot in gaps] == [0.0] * leaves
    assert middle(state, "end gap") == pytest.approx((base[0] + 3 * leaves, base[1], base[2]))


def test_each_pleat_is_a_valley_a_mountain_and_a_valley():
    angles = after_folding(album(6)).angles
    by_pair = {name: angle for (part, name), angle in angles.items() if part == STRIP}
    assert {by_pair[f"gap {k}/up {k}"] for k in range(1, 7)} == {90.0}
    assert {abs(by_pair[f"up {k}/down {k}"]) for k in range(1, 7)} == {180.0}
    assert {by_pair[f"gap {k}/up {k}"] + by_pair[f"up {k}/down {k}"] + by_pair[name] for k, name in (
        (1, "down 1/gap 2"), (6, "down 6/end gap")
    )} == {0.0}  # fmt: skip


@pytest.mark.parametrize("leaves", [3, 6, 8])
def test_the_leaves_with_their_pictures_are_as_thick_as_the_spine_holds_open(leaves):
    # a leaf of 0.27 with two pictures of 1.5 between covers of board 2, paper 0.15 (and its turn-in), tab and lining 0.27 each
    found = album(leaves)
    assert found.finished is not None
    assert found.finished.bulk.greatest.mm == pytest.approx(leaves * (0.27 + 2 * 1.5) + 2 * (2 + 2 * 0.15 + 2 * 0.27))
    between_tabs = (leaves + 1) * 3
    assert leaves * (0.27 + 2 * 1.5) <= between_tabs
    # over all: what the tabs hold apart, and beyond each the half of its tab, three layers of turn-in at a mitre, board and paper
    assert found.finished.size[2] == pytest.approx(between_tabs + 2 * (0.27 / 2 + 3 * 0.15 + 2 + 0.15))


def test_every_leaf_lies_on_its_own_pleat():
    found = album(6)
    assert found.finished is not None
    state = found.finished.state
    held = {(bond.first, bond.second) for bond in state.bonds if bond.second[0].startswith("leaf")}
    assert held >= {((STRIP, f"up {k}"), (f"leaf {k}", "leaf")) for k in range(1, 7)}
    assert [(piece.names[0], piece.count) for piece in found.pieces] == [
        ("hinge strip", 1), ("leaf", 6), ("board", 2), ("cover sheet", 2), ("cover lining", 2)
    ]  # fmt: skip
