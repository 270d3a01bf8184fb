"""Small templates on pages together."""

from hypothesis import given
from hypothesis import strategies as st

from creasewright.booklet.tiling.share import GAP, share_pages
from creasewright.booklet.tiling.window import PageSize, window_of
from template_cases import rectangle

WINDOW = window_of(PageSize(215.9, 279.4))
SIZES = st.lists(st.tuples(st.floats(10, 187), st.floats(10, 187)), min_size=1, max_size=9)


def pieces(sizes):
    return tuple(rectangle(f"piece {k}", width, height, (chr(65 + k),)) for k, (width, height) in enumerate(sizes))


def always(placed):
    return True


@given(SIZES)
def test_every_template_is_on_one_page_within_the_window_and_apart_from_the_others(sizes):
    layouts = share_pages(pieces(sizes), WINDOW, 60, always)
    keys = [one.template.key for layout in layouts for one in layout.placed]
    assert sorted(keys) == sorted(template.key for template in pieces(sizes))
    for layout in layouts:
        for k, one in enumerate(layout.placed):
            assert one.left >= -1e-6 and one.head >= -1e-6
            assert one.left + one.width <= WINDOW.width + 1e-6 and one.head + one.height <= WINDOW.height + 1e-6
            for other in layout.placed[:k]:
                across = max(one.left, other.left) - min(one.left + one.width, other.left + other.width)
                down = max(one.head, other.head) - min(one.head + one.height, other.head + other.height)
                assert max(across, down) >= GAP - 1e-6


def test_four_quarters_share_one_page():
    # two of 84 and the gaps: 6 + 84 + 6 + 84 + 6 = 186 of 187.9; down 6 + 100 + 6 + 100 + 6 = 218 of 218.4
    assert len(share_pages(pieces([(84, 100)] * 4), WINDOW, 60, always)) == 1


def test_a_page_without_room_for_the_check_square_is_filled_again_with_its_place_kept():
    sizes = [(84, 100)] * 4
    layouts = share_pages(pieces(sizes), WINDOW, 60, lambda placed: len(placed) < 4)
    assert sorted(len(layout.placed) for layout in layouts) == [1, 3]


def test_no_templates_take_no_pages():
    assert share_pages((), WINDOW, 60, always) == []
