"""Files that appear whole or not at all; an older good file is not harmed by a failed run."""

import os
import tempfile
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import BinaryIO


def write_whole(path: Path, write: Callable[[BinaryIO], object]) -> None:
    """Writes a file through `write`. If that fails or is interrupted, what was at `path` is still there, and nothing else is.

    The bytes go to a nameless neighbour first, since only a move within one folder is done at one stroke.
    """
    unfinished = _written_beside(path, write)
    try:
        os.replace(unfinished, path)
    except BaseException:
        unfinished.unlink(missing_ok=True)
        raise


def write_all_whole(files: Sequence[tuple[Path, bytes]]) -> None:
    """Writes the files of one pack. All are written and safe on the disk before the first takes its place.

    A move can still fail half way (a folder put in the place of a file, say); then those moved so far stay, each whole.
    """
    unfinished: list[tuple[Path, Path]] = []
    try:
        for path, content in files:
            unfinished.append((_written_beside(path, partial(_put, content)), path))
        for source, path in unfinished:
            os.replace(source, path)
    finally:
        for source, _ in unfinished:
            source.unlink(missing_ok=True)


def _written_beside(path: Path, write: Callable[[BinaryIO], object]) -> Path:
    """A finished file in the same folder, under a name of its own."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    unfinished = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            write(out)
            out.flush()
            os.fsync(out.fileno())
        unfinished.chmod(0o666 & ~_umask())
    except BaseException:
        unfinished.unlink(missing_ok=True)
        raise
    return unfinished


def _put(content: bytes, out: BinaryIO) -> None:
    out.write(content)


def _umask() -> int:
    """The process's own mask; it can only be read by setting it."""
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
