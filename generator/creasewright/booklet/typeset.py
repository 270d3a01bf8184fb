"""Running text: markup-light strings to lines of runs. Lengths in mm, type in pt, y down.

Markup is `**bold**` and `*italic*` and nothing else; an asterisk that opens or closes nothing, or `\\*`, is an asterisk.
Lines are ragged right and never hyphenated. A value and its unit never part; `5 1/4 × 7 1/2 in` stays whole where it fits
and else breaks after the multiplication sign. Fractions written `3/16` become true fractions.
"""

import re
import unicodedata
from functools import lru_cache

from creasewright.booklet.drawing import Run, Words
from creasewright.booklet.fraction_text import UNITS, with_true_fractions
from creasewright.booklet.text_ruler import TextRuler
from creasewright.reading.page_layout import TypeStyle

MM_PER_PT = 25.4 / 72
KEPT = "\u00a0"
"""A space where no line may end."""

_NUMBER = r"\d[\d.,\u2064\u2044]*"
_BEFORE_UNIT = re.compile(rf"({_NUMBER}\**) (?=(?:{'|'.join(re.escape(unit) for unit in UNITS)})(?![\w/]))")
_TIMES = re.compile(rf"(\d\**(?:[ {KEPT}](?:in|mm|cm))?\**) × (?=\**\d)")
_MARKUP = re.compile(r"\\\*|\*+")
_UNSEEN = dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u200e\u200f\ufeff"))

Piece = tuple[str, str]
"""Text and its face; no breaking space inside."""
Word = tuple[Piece, ...]
"""What stays on one line."""


def plain(text: str) -> str:
    """The text without its markup and with ordinary spaces: for bookmarks, document titles, alternative texts."""
    return "".join(piece for piece, _ in _faces(_tidy(text), "Regular", "Italic")).replace(KEPT, " ")


def literal(text: str) -> str:
    """The text with its asterisks kept from being markup: for names and values put into a marked-up text."""
    return text.replace("*", "\\*")


def set_lines(text: str, width_mm: float, ruler: TextRuler, style: TypeStyle) -> tuple[tuple[Run, ...], ...]:
    """The text in lines no wider than `width_mm`, each a tuple of runs. A word wider than the line is cut as a last resort."""
    lines: list[list[Word]] = [[]]
    left = width_mm
    for word, needed in _fitting(_words(text, style.face, style.italic), width_mm, ruler, style.size):
        space = ruler.width(" ", lines[-1][-1][-1][1], style.size) if lines[-1] else 0.0
        if lines[-1] and space + needed > left + 1e-9:
            lines.append([])
            left, space = width_mm, 0.0
        lines[-1].append(word)
        left -= space + needed
    return tuple(_runs(line, style) for line in lines if line)


def one_line(text: str, style: TypeStyle) -> tuple[Run, ...]:
    """The text on one line, however wide."""
    return _runs(list(_words(text, style.face, style.italic)), style)


def line_width(runs: tuple[Run, ...], ruler: TextRuler) -> float:
    return sum(ruler.width(run.text, run.face, run.size) for run in runs)


def first_baseline(ruler: TextRuler, style: TypeStyle) -> float:
    """From the top of a block to its first baseline: the leading that is not letter is shared above and below."""
    up, down = ruler.ascent(style.face, style.size), ruler.descent(style.face, style.size)
    return (style.leading * MM_PER_PT - up - down) / 2 + up


def paragraph(
    text: str, x: float, y: float, width: float, ruler: TextRuler, style: TypeStyle, anchor: str = "start"
) -> tuple[tuple[Words, ...], float]:
    """The lines of a paragraph whose top left corner is (x, y), and the height it takes.

    `anchor` `end` sets the lines flush to x + width, `middle` centres them on it.
    """
    start = {"start": x, "middle": x + width / 2, "end": x + width}[anchor]
    baseline = y + first_baseline(ruler, style)
    step = style.leading * MM_PER_PT
    lines = set_lines(text, width, ruler, style)
    items = tuple(Words(start, baseline + k * step, runs, anchor, role="text") for k, runs in enumerate(lines))
    return items, len(lines) * step


def paragraphs(text: str) -> tuple[str, ...]:
    """The paragraphs of a longer text, parted by empty lines."""
    return tuple(part for part in re.split(r"\n\s*\n", text.strip()) if part.strip())


def _tidy(text: str) -> str:
    """Composed letters, single spaces, true fractions, and spaces that no line may end at."""
    text = " ".join(with_true_fractions(unicodedata.normalize("NFC", text).translate(_UNSEEN)).split())
    return _TIMES.sub(rf"\1{KEPT}×{KEPT}", _BEFORE_UNIT.sub(rf"\1{KEPT}", text))


@lru_cache(maxsize=4096)
def _words(text: str, face: str, italic: str) -> tuple[Word, ...]:
    words: list[list[Piece]] = [[]]
    for piece, its_face in _faces(_tidy(text), face, italic):
        first, *more = piece.split(" ")
        if first:
            words[-1].append((first, its_face))
        words.extend([(part, its_face)] if part else [] for part in more)
    return tuple(tuple(word) for word in words if word)


def _faces(text: str, face: str, italic: str) -> list[Piece]:
    """The text in pieces of one face. Marks that find no partner are taken as asterisks."""
    marks = list(_MARKUP.finditer(text))
    partner = _partners(text, marks)
    pieces: list[Piece] = []
    on: set[str] = set()
    at = 0
    for mark in marks:
        pieces.append((text[at : mark.start()], _face(face, italic, on)))
        if mark.start() in partner:
            on ^= partner[mark.start()]
        else:
            pieces.append((mark.group().replace("\\", ""), _face(face, italic, on)))
        at = mark.end()
    pieces.append((text[at:], _face(face, italic, on)))
    return [piece for piece in pieces if piece[0]]


def _partners(text: str, marks: list[re.Match[str]]) -> dict[int, set[str]]:
    """Places of the marks that open or close something, and what each switches."""
    switches = {"*": {"italic"}, "**": {"bold"}, "***": {"bold", "italic"}}
    open_at: dict[str, int] = {}
    found: dict[int, set[str]] = {}
    for mark in marks:
        sign = mark.group()
        if sign not in switches:
            continue
        before, after = text[: mark.start()][-1:], text[mark.end() :][:1]
        if sign in open_at and before.strip():
            found[open_at.pop(sign)] = found[mark.start()] = switches[sign]
        elif after.strip() and not before.isalnum():
            open_at[sign] = mark.start()
    return found


def _face(face: str, italic: str, on: set[str]) -> str:
    bold = "bold" in on or face in ("Bold", "BoldItalic")
    slanted = ("italic" in on and italic != "Regular") or face in ("Italic", "BoldItalic")
    if face == "Black":
        return face
    if bold:
        return "BoldItalic" if slanted else "Bold"
    return "Italic" if slanted else face


def _width(word: Word, ruler: TextRuler, size: float) -> float:
    if len(word) == 1:
        return ruler.width(*word[0], size)
    return sum([ruler.width(text, face, size) for text, face in word])


def _fitting(words: tuple[Word, ...], width: float, ruler: TextRuler, size: float) -> list[tuple[Word, float]]:
    """The words with their widths, those wider than a line broken after a multiplication sign, else where the line is full."""
    fitting: list[tuple[Word, float]] = []
    for word in words:
        needed = _width(word, ruler, size)
        if needed <= width:
            fitting.append((word, needed))
            continue
        for part in _after_times(word):
            fits = _width(part, ruler, size) <= width
            fitting += [(each, _width(each, ruler, size)) for each in ([part] if fits else _cut(part, width, ruler, size))]
    return fitting


def _after_times(word: Word) -> list[Word]:
    """The word broken after each multiplication sign."""
    parts: list[list[Piece]] = [[]]
    for text, face in word:
        for k, piece in enumerate(text.split(f"×{KEPT}")):
            if k:
                parts[-1].append(("×", face))
                parts.append([])
            if piece:
                parts[-1].append((piece, face))
    return [tuple(part) for part in parts if part]


def _cut(word: Word, width: float, ruler: TextRuler, size: float) -> list[Word]:
    """A word too wide for the line, in lines that are; each holds at least one character. Fractions stay whole."""
    lines: list[list[Piece]] = [[]]
    left = width
    for text, face in word:
        for part in re.findall(r"[\d\u2064]*\d\u2044\d+|.", text):
            needed = ruler.width(part, face, size)
            if lines[-1] and needed > left:
                lines.append([])
                left = width
            lines[-1].append((part, face))
            left -= needed
    return [tuple(line) for line in lines if line]


def _runs(words: list[Word], style: TypeStyle) -> tuple[Run, ...]:
    """One line as runs: neighbours of one face become one run; the space between words goes with the word before."""
    joined: list[list[str]] = []
    for k, word in enumerate(words):
        for j, (text, face) in enumerate(word):
            if k and j == 0:
                joined[-1][0] += " "
            if joined and joined[-1][1] == face:
                joined[-1][0] += text
            else:
                joined.append([text, face])
    return tuple(Run(text.replace(KEPT, " "), face, style.size, style.colour) for text, face in joined)
