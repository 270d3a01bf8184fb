"""The constructions that the language must express, read from whole files."""

from pathlib import Path

import pytest

from creasewright.reading.design import (
    Band,
    Design,
    FlapsShape,
    Fold,
    Insert,
    Join,
    Lay,
    LikeShape,
    Make,
    Meet,
    MirrorShape,
    Repeat,
    SameShape,
    SheetShape,
    Text,
    Tie,
    TurnIn,
    Unfold,
    WrapShape,
)
from creasewright.reading.read_design import read_design, read_design_text

CONSTRUCTIONS = Path(__file__).parent / "constructions"

READ_WHOLE = [
    "side-pocket-folio",
    "one-sheet-booklet",
    "letter-fold-card",
    "gate-fold-card",
    "envelope-and-liner",
    "tray-and-lid",
    "hexagonal-box",
    "gusseted-bag",
    "pop-up-step-card",
    "accordion-album",
    "cased-cover",
    "pamphlet",
    "pillow-box",
]


def read(name: str) -> Design:
    return read_design(CONSTRUCTIONS / f"{name}.yaml")


def texts(written: tuple[Text, ...]) -> list[str]:
    return [str(text) for text in written]


def find(items, name):
    return next(item for item in items if item.name == name)


@pytest.mark.parametrize("name", READ_WHOLE)
def test_a_construction_reads_without_a_fault(name):
    design = read(name)
    assert design.name == name
    assert str(design.title) in (name.replace("-", " ").capitalize(), "Seed-swap folio")


def test_every_construction_has_its_test():
    assert {path.stem for path in CONSTRUCTIONS.glob("*.yaml")} == set(READ_WHOLE)


def test_the_folio_has_its_head_data():
    design = read("side-pocket-folio")
    assert (str(design.title), design.level, str(design.time)) == ("Seed-swap folio", "steady", "120")
    assert str(design.about).startswith("Two folding blocks")
    assert design.subtitle is None


def test_the_folio_s_papers_and_materials_are_read_with_their_usual_values():
    design = read("side-pocket-folio")
    meadow, kraft = design.papers
    assert (texts(meadow.sheet), meadow.front, meadow.back) == (["12 in", "12 in"], "one-way", "all-over")
    assert (kraft.front, kraft.back, kraft.runs, kraft.back_agrees, kraft.grain) == (
        "plain",
        "plain",
        "height",
        "head-to-head",
        "unknown",
    )
    assert str(kraft.caliper) == "0.33 mm"
    sold = [(item.name, item.kind, item.sold_by) for item in design.materials]
    assert sold == [("glue", "glue", "piece"), ("foam", "foam", "sheet"), ("ribbon", "ribbon", "length")]


def test_the_folio_s_measures_are_read_as_formulas_ranges_and_pairs():
    measures = read("side-pocket-folio").measures
    width = find(measures, "page width")
    assert (texts(width.formulas), str(width.lowest), str(width.highest)) == (
        ["4 1/8 in | 105 mm"],
        "3 1/2 in | 90 mm",
        "4 1/2 in | 115 mm",
    )
    assert texts(find(measures, "slope").formulas) == ["1 1/8 in | 28 mm", "4 1/4 in | 108 mm"]
    assert texts(find(measures, "spine").formulas) == ["up(2 * bulk of block + caliper of kraft)"]


def test_the_folio_s_blanks_are_bands_a_mirror_and_a_sheet():
    design = read("side-pocket-folio")
    left = find(design.blanks, "left strip")
    assert isinstance(left.shape, SheetShape)
    assert [(band.name, str(band.size)) for band in left.shape.across if isinstance(band, Band)] == [
        ("flap", "pocket"),
        ("page", "page width"),
        ("centre", "page width"),
    ]
    assert (left.shape.width, str(left.shape.height), left.shape.down) == (None, "page height", ())
    (corner,) = left.corners
    assert (corner.which, texts(corner.cut), corner.template, corner.round) == ("head-left", ["slope"], "slope template", None)
    right = find(design.blanks, "right strip")
    assert isinstance(right.shape, MirrorShape)
    assert (str(right.shape.of), right.paper, right.sizes) == ("left strip", None, "score to score")


def test_the_folio_s_parts_are_counts_and_a_mirrored_block():
    block, folio = read("side-pocket-folio").assemblies
    assert [(part.name, str(part.is_), str(part.count)) for part in block.parts] == [
        ("left strip", "left strip", "1"),
        ("right strip", "right strip", "1"),
        ("seed card", "seed card", "2"),
    ]
    assert [(part.name, str(part.is_), part.mirrored, part.count is None) for part in folio.parts][:2] == [
        ("front block", "block", False, True),
        ("back block", "block", True, True),
    ]


def test_the_folio_s_steps_are_read_one_action_each():
    block, folio = read("side-pocket-folio").assemblies
    trim, fold, glue = (step.action for step in block.steps[:3])
    assert isinstance(trim, Make) and (trim.verb, texts(trim.parts), str(trim.with_)) == (
        "trim",
        ["left strip", "right strip"],
        "slope template",
    )
    assert isinstance(fold, Fold) and [str(target.ref) for target in fold.fold] == ["flap of left strip"] and fold.mountain == ()
    assert isinstance(glue, Join) and (glue.verb, str(glue.makes), texts(glue.along)) == ("glue", "front pocket", ["tail"])
    joined = block.steps[5].action
    assert isinstance(joined, Join) and joined.landing is not None and joined.meet is not None
    assert (joined.verb, str(joined.by), joined.landing.relation) == ("join", "centre of right strip", "onto")
    assert [(str(own.line), str(other.line)) for own, other in joined.meet.pairs] == [
        ("left", "page/centre of left strip"),
        ("head", "head"),
    ]
    inserted = block.steps[6].action
    assert isinstance(inserted, Insert) and (str(inserted.thing), inserted.landing.relation) == ("seed card 1", "into")
    assert str(block.steps[9].say) == "The block now folds like a Z."
    assert isinstance(folio.steps[0].action, Lay) and folio.steps[0].action.up == "back"
    tie = folio.steps[6].action
    assert isinstance(tie, Tie) and (str(tie.what), str(tie.around), tie.across, str(tie.ends)) == (
        "ribbon",
        "folio",
        "width",
        "8 in | 200 mm",
    )


def test_an_inward_offset_belongs_to_the_line_of_the_target():
    mat = read("side-pocket-folio").assemblies[1].steps[5].action
    assert isinstance(mat, Join) and mat.meet is not None
    own, target = mat.meet.pairs[0]
    assert (str(own.line), own.by, str(target.line), str(target.by)) == ("right", None, "right", "border")


def test_the_folio_s_stages_and_wishes_are_read():
    design = read("side-pocket-folio")
    folio = design.assemblies[1]
    assert [step.stage for step in folio.steps if step.stage] == ["open", "closed"]
    (spread,) = folio.stages
    assert (spread.name, str(spread.from_)) == ("spread", "open")
    assert isinstance(spread.action, Unfold) and str(spread.action.scores[0].ref) == "page/centre of left strip of front block"
    wishes = [(str(wish.panel), str(wish.stage)) for wish in design.finished.upright]
    assert wishes[1] == ("flap of left strip of front block", "spread")
    assert wishes[0] == ("page of right strip of front block", "None")
    assert texts(design.finished.expect) == ["bulk at spine of folio >= bulk at fore edge of folio - ease"]


def test_places_are_those_of_the_file():
    file = CONSTRUCTIONS / "side-pocket-folio.yaml"
    lines = file.read_text().split("\n")
    design = read_design(file)
    for text in (
        design.finished.upright[1].panel,
        design.finished.upright[1].stage,
        find(design.measures, "slope").formulas[1],
        design.assemblies[1].parts[1].is_,
        design.assemblies[0].steps[9].say,
    ):
        written = lines[text.where.line - 1][text.where.column - 1 :]
        assert written.startswith(text.text)


def test_the_booklet_has_a_map_of_panels_and_one_step_with_both_folds():
    design = read("one-sheet-booklet")
    (sheet,) = design.blanks
    assert sheet.panels is not None
    assert sheet.panels.rows == (("seven", "six", "five", "four"), ("eight", "one", "two", "three"))
    (slit,) = sheet.slits
    assert (slit.name, texts(slit.on), texts(slit.over)) == ("heart", ["top/bottom"], ["b", "c"])
    (assembly,) = design.assemblies
    assert (assembly.name, assembly.parts) == ("", None)
    close = assembly.steps[2].action
    assert isinstance(close, Fold)
    assert [str(target.ref) for target in close.mountain][:2] == ["eight/one", "one/two"]
    assert [str(target.ref) for target in close.fold] == ["two/three", "four/five", "six/seven"]


def test_a_quoted_formula_keeps_its_comma():
    short_by = find(read("letter-fold-card").measures, "short by")
    assert texts(short_by.formulas) == ["up(3 * caliper of card, 1/16 in | 1 mm)"]


def test_the_envelope_has_slanted_scores_anchors_and_a_liner_like_its_panels():
    envelope, liner = read("envelope-and-liner").blanks
    score = find(envelope.scores, "top fold")
    assert (score.across, texts(score.at), score.from_, score.line) == ("head-left", ["wide / sqrt(2) + 2 * reach"], None, None)
    assert [texts(pair) for pair in envelope.cut_away] == [["all crossings"]]
    assert envelope.panels is not None
    assert [(name, str(place.word)) for name, place in envelope.panels.anchors][:2] == [
        ("pocket", "centre"),
        ("top flap", "head-left"),
    ]
    assert isinstance(liner.shape, LikeShape)
    assert (texts(liner.shape.panels), str(liner.shape.inset), liner.shape.seen_from, str(liner.shape.turned)) == (
        ["pocket of envelope", "top flap of envelope"],
        "1/4 in | 6 mm",
        "back",
        "-45",
    )


def test_the_tray_has_flaps_at_several_places_and_the_lid_is_the_same_with_other_measures():
    tray, lid = read("tray-and-lid").blanks
    assert isinstance(tray.shape, FlapsShape)
    assert (tray.shape.base, str(tray.shape.width), tray.shape.sides) == ("base", "length", None)
    assert [(flap.name, texts(flap.at), str(flap.ends)) for flap in tray.shape.flaps][2:] == [
        ("side wall", ["left of base", "right of base"], "None"),
        ("tab", ["ends of head wall", "ends of tail wall"], "75"),
    ]
    assert isinstance(lid.shape, SameShape)
    assert [(str(name), str(formula)) for name, formula in lid.shape.replaced][2] == ("depth", "lid depth")


def test_an_assembly_that_is_the_same_as_another_has_its_steps_with_names_replaced():
    tray_box, lid_box, box = read("tray-and-lid").assemblies
    assert [str(step.action.part) for step in (tray_box.steps[0], lid_box.steps[0]) if isinstance(step.action, Lay)] == [
        "tray",
        "lid",
    ]
    assert lid_box.steps[1] == tray_box.steps[1]  # walls and tabs have the same names on both
    placed = box.steps[1].action
    assert isinstance(placed, Join) and (placed.verb, placed.meet) == ("place", Meet(centre=True))
    assert placed.landing is not None and (placed.landing.relation, texts(placed.landing.refs)) == ("around", ["tray box"])


def test_a_band_goes_round_and_has_a_lap():
    band = read("gate-fold-card").assemblies[1].steps[0].action
    assert isinstance(band, Tie) and (band.verb, str(band.what), str(band.around), str(band.lap)) == (
        "band",
        "belly",
        "gate card",
        "lap",
    )


LESS = {
    "pop-up-step-card": [", follow: [wall/top, top/front, front/floor]"],
    "hexagonal-box": [", to: meet"],
}


def read_without(name: str) -> Design:
    text = (CONSTRUCTIONS / f"{name}.yaml").read_text()
    for part in LESS[name]:
        assert part in text
        text = text.replace(part, "")
    return read_design_text(text, "design.yaml")


def test_the_bag_has_scores_in_cells_and_a_stage_that_is_folded_otherwise():
    design = read("gusseted-bag")
    bag = design.blanks[0]
    gusset = find(bag.scores, "gusset")
    assert gusset.line is not None and [str(place.word) for place in gusset.line] == ["head-right", "tail-left"]
    assert texts(gusset.over) == ["lower side a", "lower side c"]
    seam = find(bag.scores, "seam gusset")
    assert seam.line is not None and seam.line[1].xy is not None
    assert texts(seam.line[1].xy) == ["left of seam", "tail of lower - seam"]
    assert texts(find(bag.scores, "upper/lower").over) == ["seam", "front", "side a", "side d"]
    opened = design.assemblies[0].steps[6].action
    assert isinstance(opened, Fold) and opened.seen_from == "back"
    bent = find(design.assemblies[0].stages, "flat")
    assert isinstance(bent.action, Fold) and bent.action.bending
    assert [(str(target.ref), str(target.angle)) for target in opened.fold][-1] == ("side c/side d", "0")
    (flat,) = design.assemblies[0].stages
    assert isinstance(flat.action, Fold) and len(flat.action.mountain) == 5


def test_the_pop_up_takes_band_scores_away_and_puts_a_slit_on_two_of_them():
    (card,) = read_without("pop-up-step-card").blanks
    assert [score.name for score in card.scores if score.removed] == ["side a/strip", "strip/side b"]
    assert texts(card.slits[0].on) == ["side a/strip", "strip/side b"]
    assert find(card.scores, "card fold").from_.text == "head"


def test_the_album_repeats_three_bands():
    strip = read("accordion-album").blanks[0]
    assert isinstance(strip.shape, SheetShape)
    repeat = strip.shape.across[1]
    assert isinstance(repeat, Repeat)
    assert (str(repeat.times), [band.name for band in repeat.bands]) == ("leaves", ["gap", "up", "down"])


def test_a_part_may_be_a_thing_and_a_count_a_measure():
    parts = {part.name: part for part in read("accordion-album").assemblies[1].parts}
    assert (str(parts["front photo"].is_), str(parts["front photo"].count)) == ("photo", "leaves")
    assert (str(parts["leaf"].is_), str(parts["leaf"].count)) == ("leaf", "leaves")
    assert (str(parts["front cover"].is_), parts["front cover"].count) == ("cover", None)


def test_the_hexagon_has_six_equal_sides():
    pot = read_without("hexagonal-box").blanks[0].shape
    assert isinstance(pot, FlapsShape)
    assert (str(pot.sides), str(pot.side), pot.width) == ("6", "side", None)


def test_the_pillow_s_ears_lie_between_two_arcs_and_are_folded_with_bending():
    design = read("pillow-box")
    shape = design.blanks[0].shape
    assert isinstance(shape, FlapsShape)
    ear = find(shape.flaps, "ear")
    assert (str(ear.depth), str(ear.far_rise), str(ear.seam_rise), len(ear.at)) == ("0 mm", "bulge", "-bulge", 4)
    folds = [step.action for step in design.assemblies[0].steps if isinstance(step.action, Fold)]
    assert [fold.bending for fold in folds] == [False, False, True, True]


def test_a_file_read_twice_gives_the_same_design():
    assert read("tray-and-lid") == read("tray-and-lid")


def test_a_case_is_wrapped_round_its_boards_and_turned_in():
    design = read("cased-cover")
    cloth = find(design.blanks, "case cloth").shape
    assert isinstance(cloth, WrapShape)
    assert (texts(cloth.boards), str(cloth.gaps), str(cloth.turn_in), cloth.corner_gap) == (
        ["back board", "spine board", "front board"], "joint", "5/8 in | 15 mm", None
    )  # fmt: skip
    turned = design.assemblies[0].steps[2].action
    assert isinstance(turned, TurnIn) and (str(turned.cover), turned.with_) == ("case cloth", None)


def test_a_cover_of_one_board_needs_no_gaps():
    cover = find(read("accordion-album").blanks, "cover paper").shape
    assert isinstance(cover, WrapShape) and (texts(cover.boards), cover.gaps) == (["board"], None)
