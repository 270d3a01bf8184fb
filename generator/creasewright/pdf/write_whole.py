"""Files that appear whole or not at all; an older good file is not harmed by a failed run."""

import os
import tempfile
from collections.abc import Sequence
from pathlib import Path
from threading import Thread


def write_all_whole(files: Sequence[tuple[Path, bytes]]) -> None:
    """Writes the files of one pack. All are written and safe on the disk before the first takes its place.

    The bytes go to nameless neighbours first, since only a move within one folder is done at one stroke.
    A move can still fail half way (a folder put in the place of a file, say); then those moved so far stay, each whole.
    """
    unfinished: list[tuple[Path, Path]] = []
    try:
        for path, content in files:
            unfinished.append((_written_beside(path, content), path))
        _wait_for_disk([source for source, _ in unfinished])
        for source, path in unfinished:
            _move(source, path)
    finally:
        for source, _ in unfinished:
            source.unlink(missing_ok=True)


def _written_beside(path: Path, content: bytes) -> Path:
    """A finished file in the same folder, under a name of its own."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    unfinished = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
    except BaseException:
        unfinished.unlink(missing_ok=True)
        raise
    return unfinished


def _wait_for_disk(paths: Sequence[Path]) -> None:
    """Until all are safe there. Asked for all at once: the disk takes about as long for two files as for one."""
    faults: list[OSError] = []

    def wait(path: Path) -> None:
        try:
            with path.open("rb+") as file:
                os.fsync(file.fileno())
        except OSError as fault:
            faults.append(fault)

    threads = [Thread(target=wait, args=(path,)) for path in paths]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if faults:
        raise faults[0]


def _move(unfinished: Path, path: Path) -> None:
    """To its place, to be read as any other new file."""
    unfinished.chmod(0o666 & ~_umask())
    os.replace(unfinished, path)


def _umask() -> int:
    """The process's own mask; it can only be read by setting it."""
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
