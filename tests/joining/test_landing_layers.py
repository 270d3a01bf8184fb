"""Which layer a part comes to lie in when it is laid down."""

from creasewright.folding.state import PanelKey, State
from small_designs import made, with_steps


def order_at(state: State, panel: PanelKey) -> list[PanelKey]:
    """The stack of a panel, lowest first as it lies before the maker."""
    body = state.body_of(panel[0])
    stack = next(stack for stack in body.stacks if panel in stack.order)
    up = sum(body.view[6 + k] * stack.normal[k] for k in range(3)) < 0
    return list(stack.order) if up else list(reversed(stack.order))


COVER = """
cover: {height: 80 mm, across: [left turn: 20 mm, back: 60 mm, spine: 4 mm, front: 60 mm, right turn: 20 mm]}
leaf: {width: 100 mm, height: 70 mm}
"""


def test_a_leaf_laid_on_the_spine_lies_over_the_turned_in_ends_that_it_reaches():
    state = made(
        with_steps(
            COVER,
            "{lay: cover, up: back}",
            "{fold: [left turn, right turn]}",
            "{place: leaf, onto: spine, meet: centre}",
        )
    )
    order = order_at(state, ("leaf", "leaf"))
    # it reaches 48 mm to either side of the spine, and the ends turned in begin 40 mm from it
    assert order[-1] == ("leaf", "leaf")


def test_a_slip_laid_on_what_a_flap_covers_slides_in_under_the_flap():
    blanks = "strip: {height: 80 mm, across: [flap: 40 mm, page: 60 mm]}\nslip: {width: 20 mm, height: 20 mm}"
    state = made(
        with_steps(blanks, "{fold: flap}", "{place: slip, onto: page, meet: {left: {from: left, by: 5 mm}, head: head}}")
    )
    order = order_at(state, ("slip", "slip"))
    assert order.index(("strip", "page")) < order.index(("slip", "slip")) < order.index(("strip", "flap"))


def test_leaves_laid_on_a_leaf_of_their_own_pile_up_in_order():
    leaf = "leaf: {height: 80 mm, across: [left half: 50 mm, right half: 50 mm]}"
    state = made(with_steps(leaf, "{place: leaf 2 to last, onto: leaf 1}") + "parts: {leaf: 4}\n")
    order = order_at(state, ("leaf 1", "left half"))
    assert [part for part, panel in order if panel == "left half"] == ["leaf 1", "leaf 2", "leaf 3", "leaf 4"]
    assert len(state.bodies) == 1
