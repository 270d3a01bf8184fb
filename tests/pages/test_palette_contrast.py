"""Text can be read on what lies under it, in colour and in grey."""

import pytest

from creasewright.reading.page_layout import PageLayout

AA = 4.5
"""Least contrast of text: WCAG 2.0 success criterion 1.4.3 (w3c/wcag, contrast-minimum)."""
LARGE = 3.0
"""Of large text (18 pt, or 14 pt bold), and of lines and symbols: WCAG 1.4.3, 1.4.11."""


def luminance(colour: str) -> float:
    """WCAG 2.0, definition of relative luminance: 0.2126 R + 0.7152 G + 0.0722 B of linearised sRGB."""
    channels = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: str, b: str) -> float:
    """WCAG 2.0, definition of contrast ratio: (L1 + 0.05) / (L2 + 0.05)."""
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize(
    ("colour", "ratio"),
    # black on white 21; #767676 is the lightest grey that passes on white, #777777 fails (WCAG techniques)
    [("#000000", 21.0), ("#767676", 4.54), ("#777777", 4.48), ("#595959", 7.0)],
)
def test_the_formula_gives_the_published_ratios(colour: str, ratio: float) -> None:
    assert contrast(colour, "#FFFFFF") == pytest.approx(ratio, abs=0.005)


PAPERS = [f"paper {k} {side}" for k in (1, 2, 3, 4) for side in ("front", "back")]


@pytest.mark.parametrize(
    ("text", "grounds"),
    [
        ("INK", ["WHITE", *PAPERS, "board", "offcut", "ACC2", "ACC3", "wall", "floor", "shadow"]),
        ("INK2", ["WHITE", "offcut", "wall", "floor"]),
        ("ACC", ["WHITE", "ACC3", "paper 1 front", *(f"paper {k} back" for k in (1, 2, 3, 4))]),
    ],
)
def test_text_colours_can_be_read_on_their_grounds(pack_layout: PageLayout, text: str, grounds: list[str]) -> None:
    palette = pack_layout.palette
    ratios = {ground: contrast(palette[text], palette[ground]) for ground in grounds}
    assert {ground: ratio for ground, ratio in ratios.items() if ratio < AA} == {}


def test_white_numbers_can_be_read_on_ink(pack_layout: PageLayout) -> None:
    assert contrast(pack_layout.palette["WHITE"], pack_layout.palette["INK"]) >= AA


def test_accent_lines_show_on_every_paper(pack_layout: PageLayout) -> None:
    palette = pack_layout.palette
    for ground in ("WHITE", *PAPERS, "board"):
        assert contrast(palette["ACC"], palette[ground]) >= LARGE


def test_all_types_are_set_in_a_text_colour(pack_layout: PageLayout) -> None:
    assert {style.colour for style in pack_layout.types.values()} <= {"INK", "INK2", "ACC", "WHITE"}
