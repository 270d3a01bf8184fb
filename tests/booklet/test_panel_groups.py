"""Many panels by few names: worked by hand on small blanks."""

from creasewright.blanks.blank import Blank
from creasewright.booklet.panel_groups import PanelGroup, panel_groups
from small_designs import worked_of

BOX = """
    box:
      base: {width: 100 mm, height: 80 mm}
      flaps:
        head wall: {at: head of base, depth: 30 mm}
        tail wall: {at: tail of base, depth: 30 mm}
        side wall: {at: [left of base, right of base], depth: 30 mm}
        tab: {at: [ends of head wall, ends of tail wall], depth: 10 mm, ends: 75}
"""
GRID = "sheet: {across: [left page: 50 mm, right page: 50 mm], down: [rim: 20 mm, wall: 80 mm]}"


def blank_of(text: str) -> Blank:
    return worked_of("blanks:\n" + text if text.startswith("\n") else "blanks: {" + text + "}").blanks[0]


def groups(blank: Blank, *names: str) -> list[tuple[str, int]]:
    return [(group.name, group.count) for group in panel_groups(blank, list(names))]


def test_all_panels_of_one_kind_go_by_their_kind() -> None:
    box = blank_of(BOX)
    every = ["head wall", "tail wall", "side wall 1", "side wall 2", "tab 1", "tab 2", "tab 3", "tab 4"]
    assert groups(box, *every) == [("wall", 4), ("tab", 4)]


def test_some_panels_of_a_kind_go_by_their_own_names_and_numbered_ones_by_their_stem() -> None:
    box = blank_of(BOX)
    assert groups(box, "side wall 2", "side wall 1") == [("side wall", 2)]
    assert groups(box, "head wall", "side wall 1", "tab 1") == [("head wall", 1), ("side wall 1", 1), ("tab 1", 1)]


def test_panels_that_fill_a_band_go_by_the_band() -> None:
    grid = blank_of(GRID)
    assert groups(grid, "rim left page", "rim right page") == [("rim", 1)]
    assert groups(grid, "rim left page", "wall left page") == [("left page", 1)]
    assert panel_groups(grid, ["wall left page"]) == [PanelGroup("wall left page", 1)]


def test_letters_behind_a_word_are_no_kind() -> None:
    strip = blank_of("strip: {height: 50 mm, across: [side a: 20 mm, back: 60 mm, part a: 20 mm]}")
    assert groups(strip, "side a", "part a") == [("side a", 1), ("part a", 1)]
