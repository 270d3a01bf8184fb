"""The maker's own settings and tools."""

from fractions import Fraction
from pathlib import Path

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.read_config import read_settings_text, read_tools_text, settings_file, usual_settings
from creasewright.reading.settings import MakerSettings, TemplateWishes, ToolLength, Tools

INCH = Fraction("25.4")


def test_without_a_file_the_built_in_values_hold(monkeypatch, tmp_path):
    monkeypatch.delenv("CREASEWRIGHT_CONFIG", raising=False)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    monkeypatch.setenv("APPDATA", str(tmp_path))
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    assert usual_settings() == MakerSettings(page="letter", units="in", makers=1, audience="home")


def test_the_built_in_trimmer_is_12_in_or_305_mm():
    tools = Tools()
    assert (tools.longest_cut.mm("in"), tools.longest_cut.mm("mm")) == (12 * INCH, 305)
    assert (tools.narrowest_strip.mm("in"), tools.narrowest_strip.mm("mm")) == (INCH / 2, 12)
    assert (tools.least_trim.mm("in"), tools.least_trim.mm("mm")) == (INCH / 8, 3)


def test_settings_are_read():
    text = "page: A4\nunits: mm\nmakers: 30\naudience: class\nruler: 0.5 mm\n"
    half = Fraction(1, 2)
    assert read_settings_text(text, "s") == MakerSettings("a4", "mm", 30, "class", ToolLength(half, half))


def test_wishes_about_templates_are_read():
    settings = read_settings_text("templates: {pieces: all, joining: butt, overlap: 3/8 in | 10 mm}\n", "s")
    assert settings.templates == TemplateWishes("all", "butt", ToolLength(Fraction(3, 8) * INCH, Fraction(10)))


def test_tools_are_read_in_either_order_of_the_pair():
    tools = read_tools_text(
        "trimmer: {longest cut: 320 mm | 12 1/2 in, least trim: 2 mm}\nscore board: {grooves: 1/8 in | 5 mm}\n", "t"
    )
    assert tools.longest_cut == ToolLength(Fraction("12.5") * INCH, Fraction(320))
    assert tools.least_trim == ToolLength(Fraction(2), Fraction(2))
    assert tools.narrowest_strip == Tools().narrowest_strip


def test_a_score_board_has_spacers_and_a_stop_side():
    tools = read_tools_text("score board: {range: 30 cm, spacers: [1/16 in | 2 mm, 3 mm], stop: right}\n", "t")
    assert tools.board == ToolLength(Fraction(300), Fraction(300)) and tools.grooves == Tools().grooves
    assert tools.spacers == (ToolLength(INCH / 16, Fraction(2)), ToolLength(Fraction(3), Fraction(3)))
    assert (tools.stop, Tools().stop, Tools().spacers) == ("right", "left", ())


def test_a_score_board_that_cannot_be_used():
    with pytest.raises(ProblemsFound) as caught:
        read_tools_text("score board: {spacers: [thin], stop: top}\n", "t")
    assert [str(each).split(";")[0] for each in caught.value.problems] == [
        "t:1:25: thin is not a length", "t:1:38: `top` for `stop` is not left or right",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("pag: a4\n", ["s:1:1: `pag` is not a key of the configuration; did you mean `page`?"]),
        ("page: a5\nunits: inches\n", [
            "s:1:7: `a5` for `page` is not letter, a4 or A4; did you mean `A4`?",
            "s:2:8: `inches` for `units` is not in or mm; write one of `in`, `mm`",
        ]),
        ("makers: 0\n", ["s:1:9: 0 makers; write a number from 1 to 1000"]),
        ("ruler: 1 mm | 2 mm\n", ["s:1:8: `1 mm | 2 mm` is not one length in inches and one in mm; write it as 12 in | 305 mm"]),
        ("templates: {joining: but}\n", ["s:1:22: `but` for `joining` is not overlap or butt; did you mean `butt`?"]),
        ("templates: {overlap: 40 mm}\n", ["s:1:1: this overlap is out of reach; take 5 to 25 mm, or 1/4 to 15/16 in"]),
        ("ruler: 0 mm\n", ["s:1:8: `0 mm` is nothing; write a length greater than nothing"]),
        ("ruler: 5\n", ["s:1:8: 5 has no unit; write 5 mm or 5 in"]),
    ],
)  # fmt: skip
def test_settings_that_cannot_be_used(text, faults):
    with pytest.raises(ProblemsFound) as caught:
        read_settings_text(text, "s")
    assert [str(problem) for problem in caught.value.problems] == faults


def test_a_tool_that_is_not_known():
    with pytest.raises(ProblemsFound) as caught:
        read_tools_text("trimmer: {blade: new}\ntrimer: {}\n", "t")
    assert [problem.what for problem in caught.value.problems] == [
        "`blade` is not a key of `trimmer`",
        "`trimer` is not a key of the tool file",
    ]


def test_the_maker_s_own_hand_errors_are_read_by_their_names():
    tools = read_tools_text("hand errors: {trimmed: 1/64 in | 0.4 mm, traced and scissored: 2 mm, placed by eye: 1 mm}\n", "t")
    assert {name: float(length.mm("mm")) for name, length in tools.hand_errors.items()} == {"trimmed": 0.4, "traced": 2.0, "placed": 1.0}
    assert float(tools.hand_errors["trimmed"].mm("in")) == pytest.approx(0.396875)


def test_a_hand_error_of_nothing_or_of_no_operation_is_told():
    with pytest.raises(ProblemsFound) as caught:
        read_tools_text("hand errors: {trimmed: 0 mm, sawn: 1 mm}\n", "t")
    assert [problem.what for problem in caught.value.problems] == ["`0 mm` is nothing", "`sawn` is not a key of `hand errors`"]


@pytest.mark.parametrize(
    ("environment", "system", "place"),
    [
        ({"CREASEWRIGHT_CONFIG": "/x/mine.yaml", "XDG_CONFIG_HOME": "/c"}, "linux", "/x/mine.yaml"),
        ({"XDG_CONFIG_HOME": "/c"}, "linux", "/c/creasewright/settings.yaml"),
        ({}, "linux", "/home/m/.config/creasewright/settings.yaml"),
        ({"APPDATA": "/r"}, "win32", "/r/creasewright/settings.yaml"),
        ({}, "darwin", "/home/m/Library/Application Support/creasewright/settings.yaml"),
    ],
)
def test_the_file_s_place_is_the_platform_s(environment, system, place):
    assert settings_file(environment, Path("/home/m"), system) == Path(place)


def test_a_place_that_was_named_must_hold_a_file(monkeypatch, tmp_path):
    monkeypatch.setenv("CREASEWRIGHT_CONFIG", str(tmp_path / "none.yaml"))
    with pytest.raises(ProblemsFound, match="there is no such file"):
        usual_settings()
