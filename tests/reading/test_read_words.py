from pathlib import Path

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.read_words import ENGINE_WORDS, LONGEST_WORD, read_words, words_from_text

SHIPPED = Path(__file__).parents[2] / "layouts" / "words-home.yaml"
WHOLE = "words: test\ntable:\n" + "".join(f"  {word}: reader's {word}\n" for word in ENGINE_WORDS)


def faults(text: str) -> list[str]:
    with pytest.raises(ProblemsFound) as found:
        words_from_text(text, "w.yaml")
    return [str(problem) for problem in found.value.problems]


def test_the_shipped_table_turns_the_trade_s_words_into_a_crafter_s() -> None:
    words = read_words(SHIPPED)
    assert (words["blank"], words["caliper"], words["head"], words["tail"]) == ("piece", "thickness", "top", "bottom")
    assert (words["valley"], words["offcut"], words["upright"]) == ("fold toward you", "leftover", "right way up")
    assert words["fore edge"] == "open edge" and words["registration mark"] == "join mark"


def test_every_engine_word_needs_an_entry() -> None:
    assert set(words_from_text(WHOLE, "w.yaml")) == set(ENGINE_WORDS)
    (fault,) = faults(WHOLE.replace("  caliper: reader's caliper\n", ""))
    assert "`table` has no `caliper`" in fault


def test_words_of_one_s_own_are_welcome() -> None:
    assert words_from_text(WHOLE + "  bookmark: ribbon to mark a page\n", "w.yaml")["bookmark"] == "ribbon to mark a page"


def test_faults_are_told_together_with_their_lines() -> None:
    long = "x" * (LONGEST_WORD + 1)
    text = WHOLE.replace("reader's blank", long).replace("  panel: reader's panel\n", "  panel: [a, b]\n")
    found = faults(text + "colour: red\n")
    assert [fault.split(":")[1] for fault in found] == ["3", "4", str(text.count("\n") + 1)]
    assert "is too long for a word" in found[0] and "`panel` holds a list" in found[1] and "`colour` is not a key" in found[2]


def test_a_file_without_a_table_is_told_so() -> None:
    assert any("has no `table`" in fault for fault in faults("words: empty\n"))
