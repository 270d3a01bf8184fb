"""A file to text. Nothing larger than a design is read, and nothing that is not a plain file."""

import stat
from pathlib import Path

from creasewright.problems import Where
from creasewright.reading.faults import Faults
from creasewright.reading.yaml_nodes import MOST_BYTES, too_big


def read_file(path: Path) -> str:
    """The text of a UTF-8 file; raises ProblemsFound."""
    file, faults = str(path), Faults()
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise faults.stop(Where(file), "this is not a file", "name the design file itself")
        with path.open("rb") as opened:
            raw = opened.read(MOST_BYTES + 1)
            size = len(raw) if len(raw) <= MOST_BYTES else path.stat().st_size
    except FileNotFoundError:
        raise faults.stop(Where(file), "there is no such file", "look at the spelling and the folder") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise faults.stop(Where(file), f"the file cannot be opened ({reason})", "look at its place and who may read it") from None
    if size > MOST_BYTES:
        raise faults.stop(Where(file), *too_big(size))
    return _decoded(raw, file, faults)


def _decoded(raw: bytes, file: str, faults: Faults) -> str:
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8", "replace").splitlines() or [""]
        where = Where(file, len(before), len(before[-1]) + 1)
        raise faults.stop(where, f"byte {raw[error.start]:02X} is not UTF-8 text", "save the file as UTF-8") from None
