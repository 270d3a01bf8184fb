"""Files appear whole or not at all."""

import os
from pathlib import Path

import pytest

from creasewright.pdf.write_whole import write_all_whole


def test_a_file_is_written(tmp_path: Path) -> None:
    target = tmp_path / "new" / "pack.pdf"
    write_all_whole([(target, b"whole")])
    assert target.read_bytes() == b"whole"
    assert os.listdir(target.parent) == ["pack.pdf"]


def test_a_new_file_may_be_read_as_any_other_new_file(tmp_path: Path) -> None:
    (tmp_path / "plain").write_bytes(b"")
    write_all_whole([(tmp_path / "pack.pdf", b"whole")])
    assert (tmp_path / "pack.pdf").stat().st_mode == (tmp_path / "plain").stat().st_mode


@pytest.mark.parametrize("error", [ValueError("no"), KeyboardInterrupt(), SystemExit(1), MemoryError()])
@pytest.mark.parametrize("broken_off", ["fdopen", "replace"])
def test_a_run_broken_off_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException, broken_off: str
) -> None:
    def fails(*_: object) -> None:
        raise error

    target = tmp_path / "pack.pdf"
    target.write_bytes(b"old and good")
    with monkeypatch.context() as broken, pytest.raises(type(error)):
        broken.setattr(os, broken_off, fails)
        write_all_whole([(target, b"new")])
    assert target.read_bytes() == b"old and good"
    assert os.listdir(tmp_path) == ["pack.pdf"]


def test_nothing_is_left_where_the_place_is_taken_by_a_folder(tmp_path: Path) -> None:
    (tmp_path / "pack.pdf").mkdir()
    with pytest.raises(OSError):
        write_all_whole([(tmp_path / "pack.pdf", b"whole")])
    assert os.listdir(tmp_path) == ["pack.pdf"]


def test_several_files_appear_together(tmp_path: Path) -> None:
    write_all_whole([(tmp_path / "a.pdf", b"A"), (tmp_path / "b" / "b.png", b"B")])
    assert (tmp_path / "a.pdf").read_bytes() == b"A"
    assert (tmp_path / "b" / "b.png").read_bytes() == b"B"


def test_if_one_of_several_cannot_be_written_none_is(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(b"old")
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(OSError):
        write_all_whole([(tmp_path / "a.pdf", b"A"), (tmp_path / "file" / "b.png", b"B")])
    assert (tmp_path / "a.pdf").read_bytes() == b"old"
    assert sorted(os.listdir(tmp_path)) == ["a.pdf", "file"]


def test_a_disk_that_does_not_keep_a_file_harms_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    (tmp_path / "a.pdf").write_bytes(b"old")
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_all_whole([(tmp_path / "a.pdf", b"A"), (tmp_path / "b.json", b"B")])
    assert (tmp_path / "a.pdf").read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["a.pdf"]
