"""What hangs on what, worked by hand on a strip of three panels and on a box."""

from msgspec.structs import replace

from creasewright.folding.hanging import hanging
from creasewright.geometry.rigid_transform import Rigid
from small_designs import runs_of, with_steps

STRIP = with_steps("strip: {height: 50 mm, across: [a: 40 mm, b: 60 mm, c: 30 mm]}", "{lay: strip}", "{fold: {a/b: 90, b/c: 90}}")


def test_each_moving_panel_hangs_on_its_neighbour_nearer_to_what_stays() -> None:
    run = runs_of(STRIP)[1]
    tree = hanging(run.before, run.after, run.after.body_of("strip"), run.targets)
    assert tree is not None
    assert tree.root == ("strip", "b")  # the largest stays
    assert tree.parent == {("strip", "a"): ("strip", "b"), ("strip", "c"): ("strip", "b")}
    assert tree.about == {("strip", "a"): ("strip", "a/b"), ("strip", "c"): ("strip", "b/c")}


def test_a_panel_that_is_carried_by_another_hangs_on_that() -> None:
    run = runs_of(STRIP.replace("{a/b: 90, b/c: 90}", "{a/b: 90, b/c: 90}, stays: a"))[1]
    tree = hanging(run.before, run.after, run.after.body_of("strip"), run.targets)
    assert tree is not None
    assert tree.root == ("strip", "a")
    assert tree.parent == {("strip", "b"): ("strip", "a"), ("strip", "c"): ("strip", "b")}


def test_there_is_no_tree_where_nothing_stays() -> None:
    run = runs_of(STRIP)[1]
    lifted = {key: Rigid(at.turn, (at.shift[0], at.shift[1], at.shift[2] - 5.0)) for key, at in run.after.placed.items()}
    after = replace(run.after, placed=lifted)
    assert hanging(run.before, after, after.body_of("strip"), run.targets) is None
