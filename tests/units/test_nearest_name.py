from creasewright.nearest_name import did_you_mean, nearest


def test_one_slip_of_the_pen_finds_the_name():
    assert nearest("page widht", ["page width", "page height", "pocket"]) == "page width"
    assert nearest("poket", ["page width", "pocket"]) == "pocket"


def test_underscores_hyphens_and_capitals_are_no_slips():
    assert nearest("Page_Width", ["page width", "page wide"]) == "page width"


def test_words_in_another_order_are_one_slip():
    assert nearest("pocket front", ["front pocket", "pocket"]) == "front pocket"


def test_nothing_near_is_none():
    assert nearest("ribbon", ["flap", "page width"]) is None
    assert nearest("", ["flap"]) is None
    assert nearest("flap", []) is None


def test_of_equally_near_names_the_first_in_order_is_told_whatever_order_they_come_in():
    assert nearest("flop", ["flip", "flap"]) == nearest("flop", ["flap", "flip"]) == "flap"


def test_a_very_long_name_is_not_compared():
    assert nearest("a" * 100_000, ["a" * 99_999]) is None


def test_the_hint_names_the_nearest_or_lists_the_few_known():
    assert did_you_mean("flop", ["flap", "page"]) == "did you mean `flap`?"
    assert did_you_mean("ribbon", ["flap", "page"]) == "write one of `flap`, `page`"
    assert did_you_mean("ribbon", ["flap"]) == "write `flap`"
    assert did_you_mean("ribbon", []) == ""
    assert did_you_mean("ribbon", [f"q{n}" for n in range(10)]).endswith("`q7` and 2 more")
