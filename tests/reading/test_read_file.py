"""A path to text, or one clear fault."""

import os

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.read_design import read_design
from creasewright.reading.read_file import read_file


def fault(path) -> str:
    with pytest.raises(ProblemsFound) as caught:
        read_file(path)
    (problem,) = caught.value.problems
    return str(problem).removeprefix(str(path))


def test_a_utf_8_file_is_read_with_or_without_its_mark(tmp_path):
    for name, raw in (("plain", "ü".encode()), ("marked", b"\xef\xbb\xbf" + "ü".encode())):
        (tmp_path / name).write_bytes(raw)
        assert read_file(tmp_path / name) == "ü"


def test_a_file_that_is_not_there(tmp_path):
    assert fault(tmp_path / "none.yaml") == ": there is no such file; look at the spelling and the folder"


def test_a_folder(tmp_path):
    assert fault(tmp_path) == ": this is not a file; name the design file itself"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    assert fault(tmp_path / "pipe") == ": this is not a file; name the design file itself"


def test_another_encoding_is_told_with_line_and_column(tmp_path):
    (tmp_path / "old.yaml").write_bytes(b"title: x\nabout: f\xfcr\n")  # u with dots in Latin-1
    assert fault(tmp_path / "old.yaml") == ":2:9: byte FC is not UTF-8 text; save the file as UTF-8"


def test_a_file_of_ten_million_bytes_is_not_read_whole(tmp_path):
    (tmp_path / "big.yaml").write_bytes(b"a" * 10_000_000)
    assert fault(tmp_path / "big.yaml").startswith(": the file holds 10,000,000 bytes, and 262,144 is the most that is read;")


def test_a_path_with_a_null_in_it(tmp_path):
    assert "cannot be opened" in fault(tmp_path / "a\0b")


def test_faults_of_a_design_name_the_file_as_it_was_named(tmp_path):
    (tmp_path / "design.yaml").write_text("creasewright: 2\n")
    with pytest.raises(ProblemsFound) as caught:
        read_design(tmp_path / "design.yaml")
    assert [problem.where.file for problem in caught.value.problems] == [str(tmp_path / "design.yaml")]
