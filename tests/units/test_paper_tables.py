from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.lib import pagesizes

from creasewright.units.paper_tables import (
    STANDARD_SHEETS,
    PaperFault,
    caliper_bracket,
    grammage_of,
    is_small_unit,
    is_standard_sheet,
    read_caliper,
    sheet_system,
    standard_sheet,
)
from creasewright.units.quantity import mm
from creasewright.units.read_length import LengthFault


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # PWG 5101.1 media names (OpenPrinting/cups, cups/pwg-media.c, commit 119f46f3)
        ("A3", "297", "420"),
        ("A4", "210", "297"),
        ("A5", "148", "210"),
        ("A6", "105", "148"),
        ("B4", "250", "353"),
        ("B5", "176", "250"),
        ("B10", "31", "44"),
        ("C5", "162", "229"),
        ("C6", "114", "162"),
        # 8.5 x 11, 8.5 x 14, 11 x 17 in (PWG 5101.1), times 25.4
        ("letter", "215.9", "279.4"),
        ("legal", "215.9", "355.6"),
        ("ledger", "279.4", "431.8"),
        ("tabloid", "279.4", "431.8"),
    ],
)
def test_standard_sheets_stand_upright_at_their_published_size(name, width, height):
    assert standard_sheet(name) == standard_sheet(name.swapcase()) == (Fraction(width), Fraction(height))


@pytest.mark.parametrize(("series", "long", "short"), [("A", 1189, 841), ("B", 1414, 1000), ("C", 1297, 917)])
def test_each_iso_sheet_is_half_of_the_one_before(series, long, short):
    # ISO 216, ISO 269: halve the longer side and round down; reproduces all 33 rows of PWG 5101.1
    for number in range(11):
        assert standard_sheet(f"{series}{number}") == (short, long)
        long, short = short, long // 2


def test_every_iso_sheet_agrees_with_a_general_library():
    # reportlab.lib.pagesizes holds points, 72 to the inch
    for name, (width, height) in STANDARD_SHEETS.items():
        points = getattr(pagesizes, name.upper() if name != "ledger" else "TABLOID")
        assert sorted(points) == pytest.approx([float(width) / 25.4 * 72, float(height) / 25.4 * 72], abs=1e-3)


def test_a_sheet_belongs_to_a_system():
    assert sheet_system("Letter") == sheet_system("tabloid") == "in"
    assert sheet_system("a4") == "mm"
    assert is_standard_sheet("A4") and not is_standard_sheet("A11") and not is_standard_sheet("12 in")


def test_an_unknown_sheet_names_the_nearest():
    with pytest.raises(PaperFault) as caught:
        standard_sheet("leter")
    assert (caught.value.what, caught.value.hint) == ("`leter` is not a standard sheet", "did you mean `letter`?")
    with pytest.raises(PaperFault) as caught:
        standard_sheet("folio size")
    assert caught.value.hint == "write letter, A4, or [width, height]"


# --- grammage -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "factor"),
    [
        # g/m² to the pound: GNU Units db 3.15, run; PrintWiki "Grammage" gives 3.760, 1.480, 2.704, 1.627
        ("bond", 3.759730),
        ("text", 1.480146),
        ("cover", 2.704114),
        ("tag", 1.627476),
        ("index", 1.807958),
        ("bristol", 2.192810),
    ],
)
def test_a_pound_of_each_kind_of_paper(kind, factor):
    assert float(grammage_of(f"1 lb {kind}")) == pytest.approx(factor, abs=1e-6)


@pytest.mark.parametrize(
    ("text", "grammage"),
    [
        # GNU Units db 3.15, run
        ("20 lb bond", 75.19),
        ("24 lb bond", 90.23),
        ("28 lb bond", 105.27),
        ("65 lb cover", 175.77),
        ("80 lb cover", 216.33),
        ("100 lb cover", 270.41),
        ("110 lb cover", 297.45),
        ("90 lb index", 162.72),
        ("110 lb index", 198.88),
        ("140 lb index", 253.11),
        ("67 lb bristol", 146.92),
        ("125 lb tag", 203.43),
    ],
)
def test_basis_weights_in_grammage(text, grammage):
    assert float(grammage_of(text)) == pytest.approx(grammage, abs=0.0051)


@pytest.mark.parametrize(
    ("text", "rounded", "within"),
    [
        # US Government Printing Office standards L20 (cover, 5 %), K10 (index, 10 %), D10 (writing, 5 %)
        ("50 lb cover", 135, 0.05),
        ("65 lb cover", 175, 0.05),
        ("80 lb cover", 215, 0.05),
        ("90 lb index", 165, 0.10),
        ("170 lb index", 305, 0.10),
        ("12 lb writing", 45, 0.05),
        ("20 lb writing", 75, 0.05),
    ],
)
def test_official_roundings_hold(text, rounded, within):
    assert float(grammage_of(text)) == pytest.approx(rounded, rel=within)


def test_a_letter_sheet_of_20_lb_bond_weighs_a_hundredth_of_a_pound():
    # by the definition: 500 sheets of 17 x 22 in weigh 20 lb, and a sheet of 17 x 22 is four of 8.5 x 11
    width, height = standard_sheet("letter")
    grams = grammage_of("20 lb bond") * width * height / 1_000_000
    assert grams == Fraction("4.5359237")


def test_the_same_number_of_another_kind_is_another_card():
    assert float(grammage_of("110 lb cover") - grammage_of("110 lb index")) == pytest.approx(297.5 - 198.9, abs=0.05)


def test_the_published_130_lb_cover_of_400_is_wrong():
    # a card-stock chart says 400 g/m²; GNU Units gives 351.53
    assert float(grammage_of("130 lb cover")) == pytest.approx(351.535, abs=1e-3)


@pytest.mark.parametrize("text", ["216", "216 gsm", "216 g/m²", "216 g/m2", "216gsm", " 216  GSM "])
def test_plain_grammage(text):
    assert grammage_of(text) == 216


@pytest.mark.parametrize("text", ["80 lb cover", "80lb cover", "80# cover", "80 lbs cover", "80 lb. Cover"])
def test_spellings_of_a_basis_weight(text):
    assert grammage_of(text) == grammage_of("80 lb cover")


@pytest.mark.parametrize(
    ("text", "what", "hint"),
    [
        ("80 lb", "80 lb does not say of which kind of paper", "write 80 lb cover or 80 lb text, or the g/m² of the pack"),
        ("80 lb covr", "`covr` is not a kind of paper with a basis weight", "did you mean `cover`?"),
        ("heavy", "`heavy` is not a grammage", "write it as 216 (g/m²) or 80 lb cover"),
        ("80 stone", "`80 stone` is not a grammage", "write it as 216 (g/m²) or 80 lb cover"),
        ("0", "0 is not the grammage of a paper", "write the g/m² on the pack: copy paper has 80, heavy card 300"),
        ("216000", "216000 is not the grammage of a paper", "write the g/m² on the pack: copy paper has 80, heavy card 300"),
        ("2 1/0", "1/0 is not a fraction", "write the lower number as 2, 4, 8 or 16"),
    ],
)
def test_a_grammage_that_cannot_be_read(text, what, hint):
    with pytest.raises(PaperFault) as caught:
        grammage_of(text)
    assert (caught.value.what, caught.value.hint) == (what, hint)


@given(st.text(max_size=50))
def test_any_text_is_a_grammage_or_a_told_fault(text):
    try:
        assert grammage_of(text) > 0
    except PaperFault as fault:
        assert fault.what and fault.hint


# --- caliper --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("grammage", "thin", "thick"),
    [(160, 0.184, 0.200), (200, 0.230, 0.250), (250, 0.287, 0.312), (300, 0.345, 0.375)],  # grammage / 870, grammage / 800
)
def test_the_bracket_of_a_caliper(grammage, thin, thick):
    assert [float(each) for each in caliper_bracket(Fraction(grammage))] == pytest.approx([thin, thick], abs=0.00051)


@pytest.mark.parametrize(("grammage", "official"), [(165, 0.190), (200, 0.230), (255, 0.290), (305, 0.350)])
def test_official_index_card_lies_in_the_bracket_within_its_tolerance(grammage, official):
    # US Government Printing Office standard K10: thickness +/- 0.013 mm (0.020 for 305 g/m²)
    thin, thick = caliper_bracket(Fraction(grammage))
    assert thin - Fraction("0.013") <= official <= thick + Fraction("0.013")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("10 pt", mm(Fraction("0.254"))),  # 1 point = 0.001 in (GNU Units db 3.15)
        ("12 pt", mm(Fraction("0.3048"))),
        ("5 points", mm(Fraction("0.127"))),  # 0.005 in, not the 0.0005 of a published chart
        ("270 µm", mm(Fraction("0.27"))),
        ("0.27 mm", mm(Fraction("0.27"))),
        ("0.012 in", mm(Fraction("0.3048"))),
    ],
)
def test_calipers(text, expected):
    assert read_caliper(text) == expected


def test_points_are_told_from_lengths():
    assert is_small_unit("12 pt") and not is_small_unit("0.3 mm")
    with pytest.raises(LengthFault):
        read_caliper("12")
