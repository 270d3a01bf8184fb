"""The designer's own photograph of the finished thing, for the cover: read from beside the design file, made small and plain.

Only a JPEG or PNG file in the design's own folder is opened, and only if it is of a size that a camera makes. What a pack carries
is a new JPEG of its dots alone: turned upright, no larger than a page can show, without the place and the camera that the file
may tell of. This file is the only door to the image library, which is loaded when a design names a photograph.
"""

import warnings
from io import BytesIO
from pathlib import Path, PurePosixPath, PureWindowsPath

from creasewright.booklet.drawing import Photograph
from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.reading.design import Text

FORMATS = ("JPEG", "PNG")
MOST_BYTES = 30_000_000
MOST_DOTS = 60_000_000
"""Files beyond these are no photographs of a camera, or made to fill the memory."""
LONGEST = 1600
"""Dots of the longer side in a pack: 300 to the inch over 135 mm."""
QUALITY = 88
"""Of the JPEG, of 100."""


def photograph(design: Path, named: Text) -> Photograph:
    """The file that `named` names, relative to the folder of the design; raises ProblemsFound at the place of the name."""
    return _made_plain(_content(_place(design, named), named), named)


def _place(design: Path, named: Text) -> Path:
    name = named.text
    apart = PurePosixPath(name.replace("\\", "/"))
    if apart.is_absolute() or PureWindowsPath(name).drive or ".." in apart.parts or not name.isprintable():
        raise _fault(named.where, f"the photo `{name}` does not lie in the folder of the design", "put it there, and name it by its name")
    folder = design.parent.resolve()
    try:
        path = (folder / apart).resolve()
        inside, is_file = path.is_relative_to(folder), path.is_file()
    except OSError:
        inside, is_file = True, False
    if not inside:
        raise _fault(named.where, f"the photo `{name}` leads out of the folder of the design", "put the picture itself there")
    if not is_file:
        raise _fault(named.where, f"there is no file `{name}` beside the design", "look at its name, or take `photo` out")
    return path


def _content(path: Path, named: Text) -> bytes:
    try:
        with path.open("rb") as opened:
            content = opened.read(MOST_BYTES + 1)
    except OSError as error:
        what = f"the photo `{named.text}` cannot be opened ({error.strerror or error})"
        raise _fault(named.where, what, "look at who may read it") from None
    if len(content) > MOST_BYTES:
        raise _fault(named.where, f"the photo `{named.text}` is larger than {MOST_BYTES // 1_000_000} MB", "save it smaller")
    return content


def _made_plain(content: bytes, named: Text) -> Photograph:
    from PIL import Image, ImageOps

    try:
        with warnings.catch_warnings(action="ignore"), Image.open(BytesIO(content), formats=FORMATS) as found:
            if found.width * found.height > MOST_DOTS:
                what = f"the photo `{named.text}` has {found.width} × {found.height} dots"
                raise _fault(named.where, what, f"save it with at most {MOST_DOTS // 1_000_000} million")
            upright = ImageOps.exif_transpose(found)
            upright.thumbnail((LONGEST, LONGEST))
            plain = Image.new("RGB", upright.size, "white")
            whole = upright.convert("RGBA")
            plain.paste(whole, mask=whole.getchannel("A"))
    except (OSError, ValueError, SyntaxError, EOFError, Image.DecompressionBombError) as error:
        what = f"the photo `{named.text}` cannot be read as JPEG or PNG"
        raise _fault(named.where, what, "save it anew as one of these") from error
    out = BytesIO()
    plain.save(out, "JPEG", quality=QUALITY)
    return Photograph(out.getvalue(), plain.width, plain.height)


def _fault(where: Where, what: str, hint: str) -> ProblemsFound:
    return ProblemsFound([Problem(where, what, hint)])
