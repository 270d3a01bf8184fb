"""Each check: silent on a sound design, and exactly these words on a bad one."""

from collections.abc import Callable
from fractions import Fraction

import pytest

from creasewright.checks.adhesives_suit import adhesives_suit
from creasewright.checks.author_checks import expectations_hold, measures_in_range
from creasewright.checks.bands_close import bands_close
from creasewright.checks.bent_panels import curved_scores_told
from creasewright.checks.bulk_even import bulk_even, calipers_known
from creasewright.checks.cut_in_time import cut_in_time
from creasewright.checks.double_scores import scores_go_round
from creasewright.checks.every_check import CHECKS, every_finding
from creasewright.checks.facts import Facts
from creasewright.checks.flaps_land import flaps_land
from creasewright.checks.fore_edges_even import fore_edges_even
from creasewright.checks.forgiveness import forgiveness
from creasewright.checks.gates_meet import gates_meet
from creasewright.checks.glue_stays_clear import glue_stays_clear
from creasewright.checks.inner_panels import inner_panels
from creasewright.checks.inserts_fit import inserts_fit
from creasewright.checks.order_of_work import order_of_work
from creasewright.checks.prints_upright import prints_upright
from creasewright.checks.scores_on_grooves import scores_on_grooves
from creasewright.checks.sheets_hold import blanks_fit_sheets, stock_suffices, trimmer_holds
from creasewright.checks.steps_can_be_made import steps_can_be_made
from creasewright.checks.wraps_close import wraps_close
from creasewright.cutting.demand import Trimmer
from creasewright.cutting.kit_demand import Sheets, Supplies, plans_of
from creasewright.problems import BLOCKS, NOTES, WARNS, Finding
from small_designs import PLAIN_PAPER, TRIMMER, facts_of, found_by, with_steps, worked_of

Check = Callable[[Facts], list[Finding]]
HEAVY = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, grammage: 250}}"
ONE_WAY = "papers: {card: {sheet: [300 mm, 300 mm], caliper: 0.2 mm, front: one-way, back: one-way}}"
GLUE = "materials: {glue: {kind: glue}}\n"
HALVES = "card: {width: 80 mm, down: [upper: 60 mm, lower: 60 mm]}"


def slot(wide: str, high: str, thick: str, along: str = "tail", more: str = "") -> str:
    things = f"things: {{seed card: {{width: {wide}, height: {high}, thick: {thick}}}}}\n"
    glued = f"{{glue: flap, onto: page, along: {along}, makes: slot}}"
    steps = ["{fold: flap}", glued, f"{{insert: seed card, into: slot{more}}}"]
    return GLUE + things + with_steps("strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}", *steps)


def letter_fold(inner: str) -> str:
    card = f"card: {{height: 100 mm, across: [inner: {inner}, middle: 70 mm, cover: 70 mm]}}"
    return with_steps(card, "{lay: card, up: back}", "{fold: inner}", "{fold: cover}")


def patched(left: str) -> str:
    """A patch of 20 x 30 glued on the page of a pocket whose flap ends 50 mm from the fold, `left` from that fold."""
    blanks = "strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}\npatch: {width: 20 mm, height: 30 mm}"
    steps = [
        "{fold: flap}",
        "{glue: flap, onto: page, along: tail, makes: slot}",
        f"{{join: patch, onto: page, meet: {{left: {{from: left, by: {left}}}, head: {{from: head, by: 10 mm}}}}}}",
    ]
    return GLUE + with_steps(blanks, *steps)


def bound(spine: str) -> str:
    """A case with a slip on foam in the middle of its back."""
    blanks = f"""
        case: {{height: 90 mm, across: [back: 60 mm, spine: {spine}, front: 60 mm]}}
        slip: {{width: 20 mm, height: 80 mm}}
    """
    steps = ["{lay: case, up: back}", "{join: slip, onto: back, meet: centre, with: foam}", "{fold: [back/spine, spine/front], to: 90}"]
    foam = "materials: {foam: {kind: foam, thick: 4 mm, sold by: sheet}}\n"
    return foam + with_steps(blanks, *steps) + "finished: {front: front}\n"


def wedge(third: str) -> str:
    cover = f"strip: {{height: 50 mm, across: [front: 80 mm, back: 80 mm, turn: {third}]}}"
    steps = ["{fold: turn}", "{fold: front/back}"] if third != "1 mm" else ["{fold: front/back}"]
    return with_steps(cover, *steps) + "finished: {front: front}\n"


THICK = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.8 mm, grammage: 120}}"



def roll_fold(second: str) -> str:
    """Four panels rolled up from the left: the third fold closes over the second panel, with the first inside it."""
    card = f"card: {{height: 100 mm, across: [innermost: 64 mm, rolled: {second}, middle: 70 mm, cover: 70 mm]}}"
    return with_steps(card, "{lay: card, up: back}", "{fold: innermost/rolled}", "{fold: rolled/middle}", "{fold: middle/cover}")


def gate_fold(left: str) -> str:
    card = f"card: {{height: 100 mm, across: [left gate: {left}, middle: 100 mm, right gate: 48 mm]}}"
    return with_steps(card, "{lay: card, up: back}", "{fold: [left gate/middle, middle/right gate]}")


def wrapped(spine: str) -> str:
    """A cover round a board of 4 mm: 4.0 inside and 0.3 of the cover itself ask a spine of 4.3."""
    blanks = f"""
    case: {{paper: card, height: 100 mm, across: [back: 60 mm, spine: {spine}, front: 60 mm]}}
    block: {{paper: thick, width: 50 mm, height: 90 mm}}
    """
    steps = ["{lay: case, up: back}", "{place: block, onto: back, meet: centre}", "{fold: [back/spine, spine/front], to: 90}"]
    return with_steps(blanks, *steps)


TWO_PAPERS = """papers:
  card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, grammage: 120}
  thick: {sheet: [600 mm, 600 mm], caliper: 4 mm}
"""


def banded(length: str) -> str:
    """Round a card of 60 x 0.3 lies a girth of 120.6; the band's own middle line is pi * 0.3 = 0.94 longer."""
    blanks = f"board: {{width: 60 mm, height: 50 mm}}\nbelly: {{width: {length}, height: 20 mm}}"
    return with_steps(blanks, "{band: belly, around: board, across: width, lap: 15 mm}")


def sleeved(room: str) -> str:
    """A sleeve of two walls and a roof over a board of 60 x 50: inside it has its own width less one caliper of 0.3."""
    blanks = f"""
    board: {{width: 60 mm, height: 50 mm}}
    sleeve: {{height: 50 mm, across: [left wall: 20 mm, roof: {room}, right wall: 20 mm]}}
    """
    return with_steps(blanks, "{fold: [left wall/roof, roof/right wall], to: 90}", "{place: sleeve, around: board, meet: centre}")


def padded(thick: str) -> str:
    """A card folded over a slip that ends 2 mm from the fold."""
    things = f"things: {{slip: {{width: 60 mm, height: 80 mm, thick: {thick}}}}}\n"
    meet = "meet: {left: {from: left, by: 2 mm}, head: {from: head, by: 10 mm}}"
    steps = ["{lay: card, up: back}", f"{{join: slip, onto: page, {meet}}}", "{fold: cover}"]
    return GLUE + things + with_steps("card: {height: 100 mm, across: [page: 80 mm, cover: 80 mm]}", *steps)


def folded_leaves(leaves: int, *more: str) -> str:
    steps = ["{place: leaf 2 to last, onto: leaf 1}", "{fold: verso/recto of each leaf}", *more]
    leaf = "leaf: {height: 140 mm, across: [verso: 90 mm, recto: 90 mm]}"
    return with_steps(leaf, *steps) + f"parts: {{leaf: {leaves}}}\n"


# check, a sound design, a bad one, the paper, and what is found
CASES: list[tuple[Check, str, str, str, list[tuple[str, str, str]]]] = [
    (
        steps_can_be_made,
        with_steps(HALVES, "{fold: upper/lower}"),
        GLUE + with_steps(HALVES, "{glue: upper, onto: lower}"),
        PLAIN_PAPER,
        [(
            BLOCKS, "step 1 cannot be made: upper of card does not lie against lower of card",
            "fold it there first, or name the panel that it does lie on",
        )],
    ),
    (
        blanks_fit_sheets,
        "blanks: {board: {width: 290 mm, height: 210 mm}}\n",
        "blanks: {board: {width: 305 mm, height: 210 mm}}\n",
        "papers: {card: {sheet: A4, caliper: 0.3 mm}}",
        [(
            BLOCKS, "board is 305 × 210 mm, but a sheet of card has 210 × 297 mm to use",
            "make it at least 8 mm smaller, or take a larger sheet",
        )],
    ),
    (
        blanks_fit_sheets,
        "blanks: {board: {width: 210 mm, height: 290 mm}}\n",
        "blanks: {board: {width: 250 mm, height: 200 mm}}\nsteps: [{lay: board}]\nfinished: {upright: [board]}\n",
        "papers: {card: {sheet: A4, caliper: 0.3 mm, front: one-way}}",
        [],
    ),
    (
        inserts_fit, slot("60 mm", "80 mm", "0.3 mm"), slot("85 mm", "80 mm", "0.3 mm"), PLAIN_PAPER,
        [(WARNS, "seed card stands 5 mm out of slot", "make it smaller, or say how much may show with `shows:`")],
    ),
    (
        # closed at both sides: 41 wide; a card of 40 and 2 thick asks 42 and 1.5 to spare: 2.5 too many, 3 on the ruler
        inserts_fit,
        slot("35 mm", "80 mm", "0.3 mm", "[right, tail]"),
        slot("40 mm", "80 mm", "2 mm", "[right, tail]"),
        PLAIN_PAPER,
        [(
            BLOCKS, "seed card is 40 mm wide, but slot has 41 mm (it is 2 mm thick)",
            "make seed card at least 3 mm less wide, or the pocket that much larger",
        )],
    ),
    (
        inserts_fit,
        slot("39 mm", "80 mm", "0.3 mm", "[right, tail]"),
        slot("40 mm", "80 mm", "0.3 mm", "[right, tail]"),
        PLAIN_PAPER,
        [(
            WARNS, "seed card has 0.7 mm to spare in slot, where 1.5 mm is asked for",
            "make it 1 mm less wide, or say a smaller `clearance:`",
        )],
    ),
    (
        inserts_fit,
        slot("35 mm", "80 mm", "0.3 mm", "[right, tail]"),
        slot("35 mm", "75 mm", "0.3 mm", "free edges"),
        PLAIN_PAPER,
        [(
            BLOCKS, "slot is closed on all four sides, so seed card cannot go in",
            "leave one side out of `along:` in the step that makes it",
        )],
    ),
    (
        inserts_fit, slot("60 mm", "95 mm", "0.3 mm", "tail", ", shows: 10 mm"), slot("60 mm", "95 mm", "0.3 mm"), PLAIN_PAPER,
        [(WARNS, "seed card stands 4 mm out of slot", "make it smaller, or say how much may show with `shows:`")],
    ),
    (
        flaps_land,
        with_steps("card: {height: 60 mm, across: [flap: 40 mm, page: 60 mm]}", "{fold: flap, stays: page}"),
        with_steps("card: {height: 60 mm, across: [flap: 40 mm, page: 36 mm]}", "{fold: flap, stays: page}"),
        PLAIN_PAPER,
        [(
            WARNS, "flap of card reaches 4 mm past page of card at the right",
            "make flap at least 4 mm shorter, or what it lands on longer",
        )],
    ),
    (
        # trade guides: 1/16 in | 1.5 mm at least; half a millimetre too few is a whole one on the ruler
        inner_panels, letter_fold("68 mm"), letter_fold("69 mm"), PLAIN_PAPER,
        [(
            WARNS, "inner of card ends 1 mm short of the fold that closes over it, where 1.5 mm is wanted",
            "make inner at least 1 mm narrower",
        )],
    ),
    (
        # roll fold: first 64 on 68 is short enough; the second, with the first in it, ends 68 of 70: 2 mm. At 69 it ends 1 mm short,
        # where text weight asks for 1.5 (two trade guides: each further panel 1/16 to 3/32 in less)
        inner_panels, roll_fold("68 mm"), roll_fold("69 mm"), PLAIN_PAPER,
        [(
            WARNS, "rolled of card ends 1 mm short of the fold that closes over it, where 1.51 mm is wanted",
            "make rolled at least 1 mm narrower",
        )],
    ),
    (
        # open gate: 1/8 in | 3 mm where the doors meet (one trade guide); 100 - 48 - 51 = 1
        gates_meet, gate_fold("49 mm"), gate_fold("51 mm"), PLAIN_PAPER,
        [(
            WARNS, "left gate of card and right gate end 1 mm apart, where 3 mm is wanted between doors",
            "make each of them at least 1 mm narrower",
        )],
    ),
    (
        wraps_close, wrapped("4.3 mm"), wrapped("3 mm"), TWO_PAPERS,
        [(
            WARNS, "spine of case leaves 2.7 mm between back and front, but what lies there is 4 mm thick",
            "make spine at least 2 mm wider: what lies inside, and one thickness of the cover",
        )],
    ),
    (
        bands_close, banded("137 mm"), banded("130 mm"), PLAIN_PAPER,
        [(
            WARNS, "belly laps by 8.46 mm, where 15 mm is asked for",
            "make it at least 7 mm longer",
        )],
    ),
    (
        bands_close, banded("138 mm"), banded("120 mm"), PLAIN_PAPER,
        [(
            BLOCKS, "belly is 120 mm long, but once round board takes 121.54 mm",
            "make it at least 17 mm longer",
        )],
    ),
    (
        bands_close, banded("142 mm"), banded("150 mm"), PLAIN_PAPER,
        [(
            WARNS, "belly has 13.46 mm to spare round board, so it slides off",
            "make it 13.46 mm shorter, or its lap longer",
        )],
    ),
    (
        # a board of 0.9 mm lies at the fold; two scores 0.9 + 0.3 apart
        scores_go_round, padded("0.6 mm"), padded("0.9 mm"), PLAIN_PAPER,
        [(
            WARNS, "page/cover of card closes over 0.9 mm of layers, more than the 0.6 mm that one score goes round",
            "put two scores there, 2 mm apart: what lies inside, and one thickness of the sheet",
        )],
    ),
    (
        forgiveness, sleeved("62 mm"), sleeved("60.5 mm"), PLAIN_PAPER,
        [(
            # two scores and the board's far edge: sqrt(0.5² + 0.5² + 0.8²) = 1.07; Phi(-0.2 / (1.07 / 1.96)) = 0.357, 10.7 in 30
            WARNS, "sleeve over board: 0.2 mm of room in width against 1.07 mm of hand error: about 11 in 30 would fail",
            "make sleeve 2 mm larger that way",
        )],
    ),
    (
        # trade guides: 1/8 in | 3 mm for cover weight
        inner_panels, letter_fold("67 mm"), letter_fold("68 mm"), HEAVY,
        [(
            WARNS, "inner of card ends 2 mm short of the fold that closes over it, where 3 mm is wanted",
            "make inner at least 1 mm narrower",
        )],
    ),
    (
        # from 55 to 75 beside the flap's edge at 50; from 40 to 60 across it, glued on 30 - 2 * 3 = 24 mm of that edge
        glue_stays_clear, patched("55 mm"), patched("40 mm"), PLAIN_PAPER,
        [(
            BLOCKS, "this glue closes the opening of slot over 24 mm",
            "keep it off that side with `along:`, or make the pocket after this step",
        )],
    ),
    (
        prints_upright,
        with_steps(HALVES, "{lay: card}") + "finished: {upright: [upper, lower]}\n",
        with_steps(HALVES, "{fold: upper/lower}") + "finished: {upright: [lower, upper]}\n",
        ONE_WAY,
        [(
            WARNS, "the print on upper of card stands upside down in stage closed: "
            "lower of card, higher on the list, needs its blank the other way",
            "move it up the list, or cut card in two at upper/lower and join the halves over a strip 10 mm wide along 80 mm "
            "(one piece more, 1 sheet of card as before), or use a paper printed all over for card (1 sheet)",
        )],
    ),
    (
        prints_upright,
        letter_fold("68 mm") + "finished: {upright: [cover]}\n",
        letter_fold("68 mm") + "finished: {upright: [inner]}\n",
        ONE_WAY,
        [(
            WARNS, "inner of card does not show in stage closed",
            "name a stage in which it is seen, or take it off the list",
        )],
    ),
    (
        # creep of the innermost of five: 4 * 0.3, more than hands err at the trimmer (0.8 mm; common practice, no source)
        fore_edges_even, folded_leaves(5, "{trim: each leaf, at: fore edge}"), folded_leaves(5), PLAIN_PAPER,
        [(
            WARNS, "of 5 leaves folded in one another the innermost stands out 1.2 mm at the fore edge",
            "cut them even while they are folded, with `trim: …, at: fore edge`, or take fewer leaves",
        )],
    ),
    (
        fore_edges_even, folded_leaves(2, "{trim: each leaf, at: fore edge}"), folded_leaves(2), PLAIN_PAPER,
        [(
            NOTES, "of 2 leaves folded in one another the innermost stands out 0.3 mm at the fore edge",
            "cut them even while they are folded, with `trim: …, at: fore edge`, or take fewer leaves",
        )],
    ),
    (
        # two layers of 0.8 at the spine, three at the open edge
        bulk_even, wedge("1 mm"), wedge("30 mm"), THICK,
        [(
            WARNS, "closed, it is 2.4 mm thick at the open edge (3 layers: back of strip, turn of strip, front of strip) "
            "and 1.6 mm at the spine",
            # from middle to middle of the two outer layers 2.4 - 0.8 = 1.6 mm
            "put a band 2 mm wide in place of the score front/back of strip, "
            "or glue 1 strip of card, 12 mm wide and 50 mm long, onto back of strip beside the spine",
        )],
    ),
    (
        # the slip and its foam, 4.8 mm, between covers whose middles the spine holds apart: 4.8 + 0.8 has to be its width
        bulk_even, bound("6 mm"), bound("3 mm"), THICK,
        [(
            WARNS, "closed, its covers lie over 4.8 mm (2 layers: foam under slip, slip), and its spine holds them 2.2 mm apart",
            "make spine of case at least 6 mm wide; it is 3 mm",
        )],
    ),
    (
        trimmer_holds,
        "blanks: {strip: {width: 12 mm, height: 100 mm}}\n",
        "blanks: {strip: {width: 8 mm, height: 600 mm}}\n",
        PLAIN_PAPER,
        [
            (WARNS, "strip is 8 mm wide; the trimmer holds 10 mm", "cut it with knife and ruler, or make it wider"),
            (
                WARNS, "cut 1 of sheet 1 of card leaves a strip of 8 mm; the trimmer holds 10 mm",
                "make that cut with knife and ruler",
            ),
        ],
    ),
    (
        measures_in_range,
        "measures: {wide: {is: 100 mm, from: 90 mm, to: 110 mm}}\nblanks: {page: {width: wide, height: 50 mm}}\n",
        "measures: {wide: {is: 120 mm, from: 90 mm, to: 110 mm}}\nblanks: {page: {width: wide, height: 50 mm}}\n",
        PLAIN_PAPER,
        [(WARNS, "wide is 120 mm, over 110 mm", "stay in the range that the design promises")],
    ),
    (
        measures_in_range,
        "measures: {wide: {is: 90 mm, from: 90 mm, to: 110 mm}}\nblanks: {page: {width: wide, height: 50 mm}}\n",
        "measures: {leaves: {is: 2, from: 3}}\nblanks: {page: {width: leaves * 10 mm, height: 50 mm}}\n",
        PLAIN_PAPER,
        [(WARNS, "leaves is 2, under 3", "stay in the range that the design promises")],
    ),
    (
        expectations_hold,
        "blanks: {page: {width: 60 mm, height: 50 mm, expect: [width of page > height of page]}}\n",
        "blanks: {page: {width: 40 mm, height: 50 mm, expect: [width of page > height of page]}}\n",
        PLAIN_PAPER,
        [(
            WARNS, "`width of page > height of page`: 40 mm against 50 mm does not hold",
            "change the sizes, or the line in `expect:`",
        )],
    ),
]  # fmt: skip


@pytest.mark.parametrize(
    ("check", "sound", "bad", "papers", "expected"),
    CASES,
    ids=[f"{case[0].__name__}-{number}" for number, case in enumerate(CASES)],
)
def test_a_check_is_silent_on_a_sound_design_and_says_these_words_on_a_bad_one(
    check: Check, sound: str, bad: str, papers: str, expected: list[tuple[str, str, str]]
):
    assert found_by(check, sound, papers) == []
    assert found_by(check, bad, papers) == expected


def test_a_maker_in_inches_is_told_in_inches():
    # 2 3/4 - 2 11/16 = 1/16 in, where cover weight asks for 1/8 in
    inches = letter_fold("2 11/16 in").replace("70 mm", "2 3/4 in")
    assert found_by(inner_panels, inches, HEAVY, "in") == [
        (
            WARNS, "inner of card ends 1/16 in short of the fold that closes over it, where 1/8 in is wanted",
            "make inner at least 1/16 in narrower",
        )
    ]  # fmt: skip


def test_sheets_that_are_too_few_are_told_with_what_finds_no_place():
    # Four boards of 300 x 300 fill a sheet of 600 x 600; nine take three, and there are two.
    worked = worked_of(with_steps("board: {width: 300 mm, height: 300 mm}", "{lay: board}"), makers=9)
    what = "the sheets of card in the drawer are too few: 1 of A find no place"
    for limit, expected in ((3, []), (2, [(BLOCKS, what, "get more sheets, or take the count out of the drawer")])):
        supplies = Supplies({"card": (Sheets(Fraction(600), Fraction(600), limit),)})
        facts = Facts(worked, plans_of(worked, TRIMMER, supplies), TRIMMER)
        assert [(found.severity, found.what, found.hint) for found in stock_suffices(facts)] == expected


def test_a_missing_caliper_is_asked_for_with_what_the_grammage_suggests():
    body = with_steps(HALVES, "{fold: upper/lower}")
    assert found_by(calipers_known, body) == []
    # 160 / 870 = 0.18 and 160 / 800 = 0.20 mm
    assert found_by(calipers_known, body, "papers: {card: {sheet: A4, grammage: 160}}") == [
        (
            NOTES, "card has no caliper, so thickness is not counted for it",
            "measure a stack of ten sheets and write a tenth of it as `caliper:` (at 160 g/m² often 0.18 to 0.20 mm)",
        )
    ]  # fmt: skip


def test_a_cut_longer_than_the_trimmer_is_told():
    short = Trimmer(Fraction(150), Fraction(10), Fraction(2))
    a4 = "papers: {card: {sheet: A4, caliper: 0.3 mm}}"
    facts = facts_of("blanks: {board: {width: 200 mm, height: 180 mm}}\n", a4, trimmer=short)
    found = [finding.what for finding in trimmer_holds(facts)]
    assert found[0].startswith("cut 1 of sheet 1 of card is ")
    assert found[0].endswith("mm long; the trimmer cuts 150 mm")


def test_every_check_stands_in_the_list_once_and_what_blocks_comes_first():
    assert len(set(CHECKS)) == len(CHECKS)
    own = {calipers_known, curved_scores_told, stock_suffices, order_of_work, cut_in_time, adhesives_suit, scores_on_grooves}
    assert {case[0] for case in CASES} | own == set(CHECKS)
    # too long for its sheet of 600, and a join of what does not lie together
    body = GLUE + with_steps("card: {height: 700 mm, across: [a: 60 mm, b: 30 mm]}", "{glue: a, onto: b}")
    severities = [finding.severity for finding in every_finding(facts_of(body))]
    assert severities == sorted(severities, key=[BLOCKS, WARNS, NOTES].index)
    assert severities.count(BLOCKS) == 2


def test_what_the_author_knows_is_left_out_unless_it_blocks():
    bad = letter_fold("69 mm")
    known = "known: [{check: inner panel, about: inner of card, because: it is meant so}]\n"
    assert [f.check for f in every_finding(facts_of(bad))] == ["inner panel", "forgiveness"]
    assert [f.check for f in every_finding(facts_of(bad + known))] == ["forgiveness"]
    both = known.replace("inner panel", "forgiveness").removeprefix("known: [")
    assert every_finding(facts_of(bad + known.replace("}]\n", "}, ") + both)) == ()
    other = known.replace("inner of card", "cover of card")
    assert [f.check for f in every_finding(facts_of(bad + other))] == ["inner panel", "forgiveness"]
    blocked = GLUE + with_steps(HALVES, "{glue: upper, onto: lower}") + "known: [{check: step, because: it is meant so}]\n"
    assert [f.check for f in every_finding(facts_of(blocked))] == ["step"]
