"""Gates on the pages: the table stands with its step, says what must measure what, and shows what mistakes look like."""

from creasewright.booklet.block import Block
from creasewright.booklet.gate_blocks import ACROSS, GateMaker, seen_gates
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.sections import steps
from creasewright.booklet.sections.steps import loosened
from creasewright.fitting.gates import gates_of
from section_cases import context_of, said, shipped


def pages(design: str) -> str:
    section = steps.build(context_of(shipped(design, "mm"), "steps"))
    assert section is not None
    return said(section)


def test_the_folio_says_what_must_measure_what_before_its_glue():
    text = pages("seed-swap-folio")
    assert "Check before you go on" in text
    assert "before the glue of step 3" in text
    # the strip is 55 + 105 + 105 mm; its flap of 55 mm lies folded on the page
    assert "210 mm from left to right, over all" in text
    assert "Do step 3 without its glue first" in text


def test_the_folio_shows_what_mistakes_look_like_with_their_cures():
    text = pages("seed-swap-folio")
    assert "If yours looks like one of these:" in text
    assert "160 mm instead: the fold line between flap and page of left strip A1 was measured from the wrong edge." in text
    assert "The glue of the front pocket reached its open side, top and right: no paper slides in." in text


def test_a_pocket_opens_at_the_sides_that_the_step_which_made_it_names():
    text = pages("seed-swap-folio")
    front, back = text.split("Back block")
    for half, pocket, sides in (
        (front, "front pocket", "top and right"), (front, "back pocket", "top and right"),
        (back, "front pocket", "top and left"), (back, "back pocket", "top and left"),
    ):  # fmt: skip
        assert f"That is the {pocket}, open at the {sides}." in half
        assert f"A strip of paper slides into the {pocket} from the {sides}, as you saw it when you made it." in half


def test_a_gate_before_glue_stays_with_its_step_and_a_second_row_of_mistakes_may_part_from_it():
    worked = shipped("seed-swap-folio", "mm")
    block = pictured_steps(worked)[0]
    maker = GateMaker(context_of(worked, "steps"), block)
    for gate in gates_of(worked)[block.assembly.name]:
        drawn = maker.blocks(gate, keep=True)
        stays = [one.keep_with_next for one in drawn]
        assert stays.count(False) == (1 if len(gate.symptoms) > ACROSS else 0)
        assert stays[-1]


def test_a_mirrored_assembly_has_its_gates_left_for_right_and_the_mistakes_only_once():
    worked = shipped("seed-swap-folio", "mm")
    back = next(one for one in pictured_steps(worked) if one.assembly.mirrored)
    gates = gates_of(worked)[back.assembly.name]
    seen = seen_gates(gates, back)
    assert [one.symptoms for one in seen] == [()] * len(gates)
    assert [round(one.measure.mm, 6) for one in seen] == [round(one.measure.mm, 6) for one in gates]


def test_what_is_together_higher_than_a_page_is_parted_after_its_gate():
    gate = Block(100.0, (), keep_with_next=True, within="Sect gate a 1 dry")
    row = Block(90.0, (), within="L steps")
    assert [one.keep_with_next for one in loosened([gate, row], 150.0)] == [False, False]
    assert [one.keep_with_next for one in loosened([gate, row], 200.0)] == [True, False]


def test_every_glued_joint_has_its_times_and_they_are_summed():
    text = pages("seed-swap-folio")
    assert "Glue and waiting" in text
    assert "Hold it for 30 s; it is dry after 10 min." in text
    # 9 joints of half a minute but the foam of 5 s: 8 x 30 + 5 s; strips dry in 10 min for either block, the hinge in 10
    assert "of these 5 min holding" in text
