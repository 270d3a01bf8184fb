"""Gates on the pages: the table stands with its step, says what must measure what, and shows what mistakes look like."""

import re

import pytest

from creasewright.booklet.drawing import Group, Item, Words
from creasewright.booklet.gate_blocks import ACROSS, GateMaker, factor_of, in_rows, is_plan, seen_gates
from creasewright.booklet.gate_pictures import LENS, TALLEST, lying_so, right_picture
from creasewright.booklet.length_words import SEEN_OFF, drawn_length, said_length
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.section_text import sentence
from creasewright.booklet.sections import steps
from creasewright.booklet.typeset import plain
from creasewright.fitting.gates import gates_of
from section_cases import context_of, every_item, items_of, measures, said, shipped, written
from small_designs import with_steps, worked_of


def pages(design: str) -> str:
    section = steps.build(context_of(shipped(design, "mm"), "steps"))
    assert section is not None
    return said(section)


def test_the_folio_says_what_must_measure_what_before_its_glue():
    text = pages("seed-swap-folio")
    assert "Check before you go on" in text
    assert "step 3 of the front block, before its glue" in text
    assert "after step 11 of the front block" in text
    # the strip is 55 + 105 + 105 mm; its flap of 55 mm lies folded on the page
    assert "210 mm from left to right, over all" in text
    assert "Make step 3 without its glue, sprig side up" in text


def test_what_is_tried_without_glue_is_told_in_the_step_and_checked_right_below_it():
    text = pages("seed-packet-envelope")
    tried = "First try it without glue: a check follows. "
    for step, own, after in ((2, "Put glue stick on the round flap", "Fold the left flap"), (5, "Open the bottom flap", "Slide the seed")):
        places = [text.index(words) for words in (tried + own, f"Check before you glue step {step}, before its glue", after)]
        assert places == sorted(places)
    assert text.count("First try it without glue") == text.count("Check before you glue") == 2


def test_a_gate_says_on_which_side_of_the_mark_the_length_lies():
    # 4 3/4 in inside and a wall of 0.4 mm (half of it at both ends) outside: 0.4 mm over the mark
    section = steps.build(context_of(shipped("seedling-box", "in"), "steps"))
    assert "just over 4 3/4 in from left to right, over all" in said(section)
    assert "≈ 4 3/4 in" in measures(section)
    assert "measures about 4 3/4 × 3 1/2 in" in said(section)
    # score to score 38 mm, half a card of 0.4 mm below and the whole lid above
    assert "just under 39 mm high, over all" in pages("seedling-box")


def test_a_length_is_on_the_mark_that_it_is_no_farther_from_than_the_eye_sees():
    context = context_of(shipped("seedling-box", "mm"), "steps")
    lengths = (120.3, 119.7, 120.31, 119.69)
    assert [said_length(context, mm, SEEN_OFF) for mm in lengths] == ["120 mm", "120 mm", "just over 120 mm", "just under 120 mm"]
    assert drawn_length(context.worked.ruler, 120.3) == "≈ 120 mm"  # in the score guide, which is true to 0.05 mm


def test_the_place_of_what_is_glued_on_is_told_by_its_border_as_its_step_says():
    text = pages("seed-packet-envelope")
    assert "6 mm beside liner B at the left, right and bottom: from its edge to the next edge or fold line, give or take 1 mm" in text
    assert "fold line on fold line, the same border showing all round: 6 mm to the next edge or fold line. Press." in text
    # 2.175 mm, 0.59 mm over the mark: said to the mark, as a step says it
    section = steps.build(context_of(shipped("garden-journal", "in"), "steps"))
    assert section is not None
    assert "1/16 in beside lining D all round: from its edge to the next edge or fold line, give or take 1/16 in" in said(section)
    assert "1/16 in to the next edge or fold line. Press." in said(section)
    assert "just over 1/16 in" not in said(section)


@pytest.mark.parametrize(("name", "wanted"), [("garden-journal", True), ("seed-packet-envelope", True), ("season-album", False)])
def test_a_border_too_small_to_read_is_measured_in_a_lens(name, wanted):
    # 2 and 6 mm at 1:6 or smaller print under 2.5 mm; the album's 15 mm at 1:5 do not
    worked = shipped(name, "mm")
    made, gate = next((one, gate) for one in pictured_steps(worked) for gate in gates_of(worked)[one.assembly.name] if gate.measure.sides)
    lying = lying_so(gate.state, gate.body, made.parts)
    picture = right_picture(gate, lying, (), made.parts, 55.0, context_of(worked, "steps").text)
    assert ("lens" in [item.role for item in groups(picture.items)]) is wanted
    assert picture.width <= 55.0
    assert picture.height <= TALLEST + LENS


def groups(items: tuple[Item, ...]) -> list[Group]:
    own = [item for item in items if isinstance(item, Group)]
    return own + [each for one in own for each in groups(one.items)]


def test_where_one_assembly_is_made_its_steps_need_no_name():
    text = pages("swap-day-card")
    assert "after step 2: half open" in text


def test_the_folio_shows_what_mistakes_look_like_with_their_cures():
    text = pages("seed-swap-folio")
    assert "If yours looks like one of these:" in text
    assert "If yours looks like this:" in text  # the middle pocket has one mistake only
    assert "Already after step 2: A1 shows mostly its seed side; it should be its sprig side." in text
    assert "It measures 160 mm, not 210 mm. It was scored with the wrong edge at the stop, left for right." in text
    assert "A scored line stays: cut a new A1, and score it as the score guide shows." in text
    assert "You see the flap of B1 at the right, its seed side; it should be hidden. Step 4 folds away from you; this was" in text
    assert "Turned over like a page: the flap of B1 lies at the right, not at the left." in text
    assert "Glue on the open sides too, top and right, shuts the front pocket: no paper slides in." in text
    assert "once it holds, cut a new B1, and new A1." in text  # the middle pocket's glue holds both strips


def test_a_cure_goes_by_what_holds_the_piece_by_then():
    # the cover is sewn in step 5; the strip is glued in step 5 before its gate
    assert "Cut the thread of step 5, turn it over like a page and work again from there." in pages("recipe-booklet")
    assert "It is glued already, in step 5: cut a new A, and work again from there." in pages("season-album")


def test_a_print_on_its_head_is_told_by_what_was_done_the_wrong_way_round():
    # an oblong of a print that is the same all over comes from its sheet the same, whichever end is up
    turned = "was turned end for end when it was"
    assert f"{turned} scored and cut to shape: its arrow must point as in the score guide. A scored line" in pages("seed-swap-folio")
    assert f"{turned} scored: its arrow must point as in the score guide. A scored line stays: cut a new A" in pages("swap-day-card")
    assert f"{turned} cut by template B: its print must run as the template shows." in pages("seed-packet-envelope")
    assert "upside down on the sheet" not in pages("seed-swap-folio")


def test_what_is_alike_at_both_ends_but_for_its_print_is_turned_round_while_it_is_loose():
    text = of_labels(("{glue: label, onto: base, meet: {left: {from: left, by: 5 mm}, head: {from: head, by: 15 mm}}}",))
    assert "It was laid end for end. Turn it half round on the table and work again from there." in text
    assert "Cut a new" not in text


def of_labels(joins):
    """All that is said of the mistakes when labels with a one-way print are glued onto a plain base."""
    papers = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: one-way}, plain: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"
    blanks = "base: {paper: plain, width: 80 mm, height: 60 mm}\nlabel: {paper: card, width: 20 mm, height: 30 mm}"
    worked = worked_of("materials: {glue: {kind: glue}}\n" + with_steps(blanks, *joins), papers)
    (made,) = pictured_steps(worked)
    maker = GateMaker(context_of(worked, "steps"), made)
    gates = gates_of(worked)[made.assembly.name]
    return " ".join(plain(maker.symptom_words(gate, one, made.runs[gate.number - 1])) for gate in gates for one in gate.symptoms)


def test_a_mistake_that_another_piece_may_have_too_sends_the_reader_to_it():
    papers = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: one-way}, plain: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"
    label = "{paper: card, width: 20 mm, height: 30 mm}"
    blanks = f"base: {{paper: plain, width: 120 mm, height: 60 mm}}\npea: {label}\nbean: {label}"
    laid = "{{place: {}, onto: base, meet: {{left: {{from: left, by: {} mm}}, head: {{from: head, by: 9 mm}}}}}}"
    worked = worked_of(with_steps(blanks, laid.format("pea", 10), laid.format("bean", 60)), papers)
    text = said(steps.build(context_of(worked, "steps")))
    assert "It has lain wrong side up since step 1." in text
    # wrong side up, and end for end
    assert text.count("Check bean B for the same mistake.") == 2


def test_what_is_tied_up_is_measured_as_it_is_and_not_pressed():
    # the folio's last gate comes after its bow, the card's after its band; the card for the swap day has neither
    for name in ("seed-swap-folio", "open-day-card"):
        assert "Leave it closed, lay it as in the picture" in pages(name).split("Last check")[-1]
    assert "press it flat, and measure" in pages("swap-day-card") and "Leave it closed" not in pages("swap-day-card")


@pytest.mark.parametrize(("name", "ties", "bands"), [("seed-swap-folio", 1, 0), ("open-day-card", 0, 1)])
def test_what_is_measured_tied_up_is_shown_tied_up(name, ties, bands):
    worked = shipped(name)
    last = pictured_steps(worked)[-1]
    gate = gates_of(worked)[last.assembly.name][-1]
    lying = lying_so(gate.state, gate.body, last.parts)
    assert lying.space is not None
    assert (len(lying.space.ties), len(lying.space.bands)) == (ties, bands)


def test_what_no_measure_shows_is_left_to_the_pictures():
    assert "The ruler does not tell the mistakes below; the pictures do." in pages("open-day-card")
    assert "The ruler does not tell" not in pages("swap-day-card")


def how_of(design: str) -> dict[tuple[str, int, str], str]:
    """What is said if a gate's measure fails, by assembly, step and kind."""
    worked = shipped(design, "mm")
    found = {}
    for made in pictured_steps(worked):
        maker = GateMaker(context_of(worked, "steps"), made)
        for gate in seen_gates(gates_of(worked).get(made.assembly.name, ()), made):
            said = plain(sentence(maker.context, "gate how", {**maker.values(gate, made.runs[gate.number - 1]), "up": ""}))
            found[made.assembly.name, gate.number, gate.kind] = re.sub("^.*?(If it measures otherwise, [^.]*[.])?( While.*)?$", r"\1", said)
    return found


def test_a_measure_that_no_mistake_shown_changes_has_its_own_cure():
    move = "If it measures otherwise, move it before you glue."
    unfold = "If it measures otherwise, unfold it and look which fold is off its line."
    assert how_of("seed-swap-folio") == {
        **{(block, number, "dry"): said for block in ("front block", "back block") for number, said in ((3, ""), (5, ""), (6, move))},
        **{(block, 11, "end"): unfold for block in ("front block", "back block")},
        ("folio", 2, "dry"): move, ("folio", 3, "dry"): move, ("folio", 7, "end"): unfold.replace("unfold", "open"),
    }  # fmt: skip
    # the liner's gate shows templates that came out small; the flaps are folded then
    assert list(how_of("seed-packet-envelope").values()) == ["", unfold, unfold]
    # boards are laid in step 2; the card at the bottom of a bag does not make it higher; what is sewn or set over is not unfolded
    assert how_of("garden-journal")["", 2, "dry"] == move.replace("it before", "them before")
    assert how_of("bulb-bag")["", 12, "dry"] == unfold
    assert how_of("recipe-booklet")["booklet", 5, "stage"] == ""
    assert how_of("seedling-box")["box", 2, "end"] == ""


@pytest.mark.parametrize("name", ["seed-swap-folio", "seed-packet-envelope", "season-album", "seedling-box", "welcome-card", "plant-diary"])
def test_every_caption_is_whole(name):
    worked = shipped(name, "in")
    context = context_of(worked, "steps")
    for made in pictured_steps(worked):
        maker = GateMaker(context, made)
        for gate in seen_gates(gates_of(worked).get(made.assembly.name, ()), made):
            for symptom in gate.symptoms:
                text = plain(maker.symptom_words(gate, symptom, made.runs[gate.number - 1]))
                assert text[0].isupper()
                assert text.endswith(".")
                assert [bad for bad in ("  ", " ,", " .", "()", "None", "not .", "step 0") if bad in text] == []


def test_a_pocket_opens_at_the_sides_that_one_sees_in_the_picture_beside_the_words():
    text = pages("seed-swap-folio")
    front, back = text.split("Back block")
    behind = " (behind, as in the picture)"
    # step 5 is shown with the work turned over, flap toward the reader; its gate is not: the pocket lies behind, left for right
    for half, pocket, sides, lies, tried in (
        (front, "front pocket", "top and right", "", "top and right"), (front, "back pocket", "top and right", behind, "top and left"),
        (back, "front pocket", "top and left", "", "top and left"), (back, "back pocket", "top and left", behind, "top and right"),
    ):  # fmt: skip
        assert f"That is the {pocket}, open at the {sides}." in half
        assert f"While the glue is wet, try with a strip of paper: it slides into the {pocket}{lies} from the {tried}." in half
    # the picture of glue at the mouth shows the flap, and so the work turned over
    assert "Glue on the open sides too, top and right, shuts the front pocket" in text
    assert "Turned over like a page: glue on the open sides too, top and right, shuts the back pocket" in text


def test_a_gate_s_mistakes_stay_loosely_with_what_is_right():
    worked = shipped("seed-swap-folio", "mm")
    block = pictured_steps(worked)[0]
    maker = GateMaker(context_of(worked, "steps"), block)
    for gate in gates_of(worked)[block.assembly.name]:
        drawn = maker.blocks(gate)
        assert [one.keep_with_next for one in drawn] == [True] * (len(drawn) - 1) + [False]
        wrong = [one for one in drawn if one.within.startswith("Sect")]
        assert [one.loosely for one in drawn] == [False] * (len(drawn) - 1 - len(wrong)) + [True] * len(wrong) + [False]
        # where they begin a page it says whose they are
        assert all(one.repeat is not None for one in wrong)
        assert len(wrong) == len(in_rows(len(gate.symptoms)))


@pytest.mark.parametrize("count", range(1, 20))
def test_no_mistake_stands_alone_but_an_only_one(count):
    assert sum(in_rows(count)) == count
    assert set(in_rows(count)) <= ({1} if count == 1 else {2, ACROSS})


def test_words_of_mistakes_lie_on_no_picture():
    worked = shipped("bulb-bag", "in")  # the lens of one of its mistakes is wider than the others' pictures
    context = context_of(worked, "steps")
    (bag,) = pictured_steps(worked)
    maker = GateMaker(context, bag)
    for gate in gates_of(worked)[bag.assembly.name]:
        for one in gate.symptoms:
            text = maker.symptom_words(gate, one, bag.runs[gate.number - 1])
            picture = maker.wrong(gate, one, text, 2)
            row = maker.symptom_row([text, text], [picture, picture], picture.width, "k")
            for entry in row.items[0].items:
                _, text = entry.items[0].items[0].items
                beside = min(words.x for words in text.items)
                assert beside > picture.width or min(words.y for words in text.items) > picture.height


def wrong_pictures(design):
    """Every mistake of the design's gates with its words and its picture."""
    worked = shipped(design)
    context = context_of(worked, "steps")
    for made in pictured_steps(worked):
        maker = GateMaker(context, made)
        for gate in seen_gates(gates_of(worked).get(made.assembly.name, ()), made):
            row = [(one, maker.symptom_words(gate, one, made.runs[gate.number - 1])) for one in gate.symptoms]
            rows = [row[k : k + 2] for k in range(0, len(row), 2)]
            for pair, drawn in zip(rows, maker.in_one_scale(gate, rows), strict=True):
                yield from ((one, text, picture) for (one, text), picture in zip(pair, drawn, strict=True))


@pytest.mark.parametrize("design", ["seed-packet-envelope", "swap-day-card", "seedling-box"])
def test_the_mistakes_of_a_gate_are_drawn_in_one_scale_the_largest_at_which_all_fit(design):
    worked = shipped(design, "mm")
    context = context_of(worked, "steps")
    mended = 0
    for made in pictured_steps(worked):
        maker = GateMaker(context, made)
        for gate in gates_of(worked)[made.assembly.name]:
            row = [(one, maker.symptom_words(gate, one, made.runs[gate.number - 1])) for one in gate.symptoms]
            own = [maker.wrong(gate, one, text, ACROSS) for one, text in row]
            (drawn,) = maker.in_one_scale(gate, [row])
            for plan in (True, False):
                scales = {picture.scale for picture in drawn if is_plan(picture) == plan}
                before = {picture.scale for picture in own if is_plan(picture) == plan}
                assert len(scales) <= 1
                assert scales == ({min(before, key=factor_of)} if before else set())
                mended += len(before) > 1
            assert all(picture.width <= context.page.span(2) for picture in drawn)
    assert mended == (0 if design == "seedling-box" else 1)


@pytest.mark.parametrize("design", ["seed-swap-folio", "seed-packet-envelope", "swap-day-card"])
def test_where_the_print_tells_of_a_mistake_its_picture_shows_the_print(design):
    shown = [(one.tell, list(every_item(picture.items))) for one, _, picture in wrong_pictures(design)]
    telling = [items for tell, items in shown if tell.kind == "print" or (tell.wrong == "front" and tell.kind in ("bare", "mostly"))]
    assert telling
    for items in telling:
        assert [item for item in items if getattr(item, "role", "") in ("motif", "motif outline", "motifs")]


def test_a_mistake_s_picture_tags_what_its_words_tell_of_and_what_shows_most():
    # the front block laid down wrong: B1 is told of and lies on top of all; A1 shows as slivers only, the connector C at the right
    # is not told of. The back block: A1, as much of which is seen, is tagged beside A2
    tags = {text.split(";")[0]: tags_of(picture) for _, text, picture in wrong_pictures("seed-swap-folio")}
    assert tags["You see the *page* of **B1** of the front block, its sprig side"] == ["B1"]
    assert tags["You see the *page* of **A2** of the back block at the right, its sprig side"] == ["A1", "A2"]


def tags_of(picture):
    found = [item for item in every_item(picture.items) if getattr(item, "role", "") == "tag" and isinstance(item, Words)]
    return sorted("".join(run.text for run in item.runs) for item in found)


def test_the_last_gate_of_a_pack_is_its_last_check():
    for name in ("seed-swap-folio", "season-album", "seedling-box"):
        *_, last = pages(name).split("Last check")
        assert "Check before you go on" not in last and pages(name).count("Last check") == 1


def test_the_gate_at_the_end_says_what_a_picture_of_the_result_would():
    text = pages("seedling-box")
    # both boxes end with a glued step, whose gate stands before it; the lidded one is shown by its gate
    assert text.count("It now looks like this") == 2
    # 120 x 90 mm inside; walls of the tray and the lid and the ease between them make it about 3 mm more
    assert "In all: about 123 × 92 mm, 39 mm high." in text.split("Last check")[1]


def test_a_mirrored_assembly_has_its_gates_left_for_right_and_the_mistakes_only_once():
    worked = shipped("seed-swap-folio", "mm")
    back = next(one for one in pictured_steps(worked) if one.assembly.mirrored)
    gates = gates_of(worked)[back.assembly.name]
    seen = seen_gates(gates, back)
    assert [one.symptoms for one in seen] == [()] * len(gates)
    assert [round(one.measure.mm, 6) for one in seen] == [round(one.measure.mm, 6) for one in gates]


def test_a_mirrored_gate_sends_the_reader_to_the_mistakes_of_its_original():
    back = pages("seed-swap-folio").split("mirror image")[1]
    # the front block's left strip is A1; mirrored its place is taken by the right strip, B2
    for step in (3, 5, 6):
        elsewhere = f"If yours looks otherwise, see the mistakes at step {step} of the front block;"
        assert f"{elsewhere} here they show left for right, with B2 for A1 and A2 for B1." in back
    assert "after step 11 of the front block; here" not in back  # that gate has no mistakes of its own


def test_every_glued_joint_has_its_times_and_they_are_summed():
    text = pages("seed-swap-folio")
    assert "Glue and waiting" in text
    assert "Hold for 30 s; dry after 10 min." in text
    # 9 joints of half a minute but the foam of 5 s: 8 x 30 + 5 s; strips dry in 10 min for either block, the hinge in 10
    assert "of these 5 min holding" in text


def test_an_adhesive_has_its_name_where_an_assembly_first_uses_it_and_then_its_kind() -> None:
    front, back = pages("seed-swap-folio").split("Glue and waiting")[0].split("Back block")
    for half in (front, back.split("Folio")[0]):
        assert re.findall(r"put (PVA or tacky glue|glue)", half, re.IGNORECASE)[:2] == ["PVA or tacky glue", "glue"]
        assert half.count("PVA or tacky glue") == 1
    # glued in the blocks, it is named anew in the folio
    assert "Put PVA or tacky glue all over the front tab of C" in back
    assert "Put glue all over the back tab of C" in back
    # two glues of one kind keep their names
    blanks = "base: {width: 100 mm, height: 80 mm}\none: {width: 40 mm, height: 50 mm}\ntwo: {width: 40 mm, height: 50 mm}"
    sides = {"one": "left", "two": "right"}
    joins = [f"{{join: {part}, onto: base, with: paste, meet: {{{side}: {side}, head: head}}}}" for part, side in sides.items()]
    for others, put in (("", "Put glue all over base"), ("\n  gum: {kind: glue}", "Put paste all over base")):
        worked = worked_of(f"materials:\n  paste: {{kind: glue}}{others}\n" + with_steps(blanks, *joins))
        section = steps.build(context_of(worked, "steps"))
        assert section is not None
        assert put in said(section).split("Lay one")[1]


def test_how_long_a_joint_is_held_stands_in_small_type_below_the_step() -> None:
    worked = shipped("seed-swap-folio", "mm")
    context = context_of(worked, "steps")
    section = steps.build(context)
    assert section is not None
    held = [words for words in items_of(section) if isinstance(words, Words) and "Hold for" in written(words.runs[0].text)]
    assert len(held) == 9
    assert {run.size for words in held for run in words.runs} == {context.layout.types["side note"].size}


def test_templates_that_came_out_small_are_printed_as_the_page_of_the_rulers_tells():
    # which may ask for another scale than 100 %
    text = pages("seed-packet-envelope")
    assert "Print them again as the page Print it true tells, measure the 50 mm square, and cut new A and B." in text
    assert "at 100 %" not in text


def test_a_size_that_tells_a_mistake_is_asked_for_beside_the_gate_s_own_measure():
    # the liner's border is 6 mm of 200 at any scale; printed small the whole is 277 mm wide
    text = pages("seed-packet-envelope")
    assert "give or take 1 mm; and 286 mm from left to right, over all" in text
    assert "It is 277 mm wide, not 286 mm." in text
    assert "Mark the corners of liner B lightly with a pencil" in text


def test_a_step_shown_turned_over_is_turned_back_for_its_check():
    text = pages("seed-swap-folio")
    assert text.count("without its glue, turn it back over, sprig side up") == 2  # step 5 of either block
    assert "Make step 5 without its glue, turn it back over" in text


def test_a_thing_that_stands_is_not_taken_for_upside_down():
    gate = gates_of(shipped("seedling-box"))["box"][-1]
    # the lid is low and lies like a sheet; the tray stands
    assert [(one.mistake.kind, one.mistake.part) for one in gate.symptoms] == [("flipped", "lid box")]


def test_where_half_a_turn_would_not_show_the_check_says_to_look_at_the_top():
    text = pages("seed-swap-folio")
    # both blocks, each on its tab
    assert text.count("Half a turn would not show: lay it with its pockets open at the top.") == text.count("Half a turn") == 2
    # the liner's print has a top
    assert "Half a turn" not in pages("seed-packet-envelope")
