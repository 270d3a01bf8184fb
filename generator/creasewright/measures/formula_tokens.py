"""The words of a formula: numbers, lengths, names, qualities and signs, each with its place.

A name may hold blanks and inner hyphens, so a run of words is one name, and a minus between two names needs blanks round it.
"""

import re
from fractions import Fraction

from msgspec import Struct

from creasewright.measures.formula import FUNCTIONS, QUALITIES, LengthLiteral, Name, NumberLiteral, Quality
from creasewright.nearest_name import did_you_mean
from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.reading.design import Text
from creasewright.units.misread import Misread
from creasewright.units.spellings import LENGTH, PLAIN, count_of, mm_of, system_of

LONGEST = 500
"""Characters of one formula."""

END = "end"
LITERAL = "literal"
FUNCTION = "function"
COMPARE = "compare"

_SIGNS = {"×": "*", "·": "*", "÷": "/", "−": "-", "≤": "<=", "≥": ">=", "==": "=", "=<": "<=", "=>": ">="}
"""Other ways to write a sign."""
_SIGN = re.compile("<=|>=|==|=<|=>|[-+*/()|,<>=≤≥×÷−·]")
_WORD = r"\w+(?:-\w+)*"
_PHRASE = re.compile(rf"{_WORD}(?: +{_WORD})*")
_THING = re.compile(rf"{_WORD}(?:[ /]{_WORD})*")
_OF = re.compile(r" +of(?![-\w])")
_ENDS_THING = frozenset("(),|<>=≤≥+*×÷−·")
_AFTER_NUMBER = re.compile(r"[\w.]")


class Token(Struct, frozen=True):
    kind: str
    """LITERAL (with its node), FUNCTION, COMPARE, END, or a sign itself: `+ - * / ( ) , |`."""
    text: str
    start: int
    end: int
    node: NumberLiteral | LengthLiteral | Name | Quality | None = None


class Tokens:
    """Reads the tokens of one formula. Raises ProblemsFound."""

    def __init__(self, text: Text, names: frozenset[str]) -> None:
        self.source = text.text.replace("\n", " ").replace("\t", " ").replace("\r", " ")
        self._text = text
        self._names = names

    def where(self, start: int) -> Where:
        """The place of a character; of the whole formula when that is written over several lines, or is in no file."""
        at = self._text.where
        if not at.line or "\n" in self._text.text.strip():
            return at
        return Where(at.file, at.line, at.column + start)

    def fault(self, start: int, what: str, hint: str) -> ProblemsFound:
        return ProblemsFound([Problem(self.where(start), what, hint)])

    def read(self) -> list[Token]:
        if len(self.source) > LONGEST:
            what = f"`{self.source[:30].strip()}…` has {len(self.source)} characters, more than the {LONGEST} of one formula"
            raise self.fault(0, what, "give its parts names of their own under `measures`")
        tokens: list[Token] = []
        position = self._skip_blanks(0)
        while position < len(self.source):
            tokens.append(self._token(position))
            position = self._skip_blanks(tokens[-1].end)
        tokens.append(Token(END, "", len(self.source.rstrip()), len(self.source)))
        return tokens

    def _skip_blanks(self, position: int) -> int:
        while position < len(self.source) and self.source[position].isspace():
            position += 1
        return position

    def _token(self, start: int) -> Token:
        number = LENGTH.match(self.source, start) or PLAIN.match(self.source, start)
        phrase = _PHRASE.match(self.source, start)
        if number is not None and not (phrase and phrase.end() > number.end() and _plain(phrase[0]) in self._names):
            return self._number(number)
        if phrase is not None:
            return self._phrase(phrase)
        sign = _SIGN.match(self.source, start)
        if sign is None:
            raise self._odd_character(start)
        plain = _SIGNS.get(sign[0], sign[0])
        return Token(COMPARE if plain in ("<", "<=", "=", ">=", ">") else plain, plain, start, sign.end())

    def _odd_character(self, start: int) -> ProblemsFound:
        odd = self.source[start]
        hint = "write + - * / ( ) between numbers, lengths and names"
        if odd in "°º":
            hint = "leave it out: an angle is a plain number of degrees"
        elif odd == "^":
            hint = "multiply instead: a * a"
        elif odd in "[]{}":
            hint = "write round brackets in a formula"
        return self.fault(start, f"`{odd}` means nothing in a formula", hint)

    def _number(self, found: re.Match[str]) -> Token:
        start, end, written = found.start(), found.end(), found[0]
        after = _AFTER_NUMBER.match(self.source, end)
        if after is not None:
            run = self.source[start : _end_of_run(self.source, end)]
            rest = run[len(written) :]
            hint = f"write {written} * {rest} to multiply" if rest.isalpha() else "write it as 4.75 or 4 3/4"
            raise self.fault(start, f"`{run}` is neither a number nor a name", hint)
        if found.re is PLAIN:
            return Token(LITERAL, written, start, end, NumberLiteral(written, self.where(start), self._worth(found)))
        if found.groupdict()["over"] is not None and start and self.source[start - 1] in "/÷":
            hint = f"write / ({written}), or put brackets round what comes before"
            raise self.fault(start, f"`/{written}` can be read in two ways", hint)
        literal = LengthLiteral(written, self.where(start), self._worth(found, mm=True), system_of(found))
        return Token(LITERAL, written, start, end, literal)

    def _worth(self, found: re.Match[str], mm: bool = False) -> Fraction:
        try:
            return mm_of(found) if mm else count_of(found)
        except Misread as fault:
            raise self.fault(found.start(), fault.what, fault.hint) from None

    def _phrase(self, found: re.Match[str]) -> Token:
        words = found[0].split()
        if "of" in words[1:]:
            return self._quality(found)
        name = " ".join(words)
        called = name in FUNCTIONS and self.source[self._skip_blanks(found.end()) :].startswith("(")
        if name in self._names and not called:
            return Token(LITERAL, name, found.start(), found.end(), Name(name, self.where(found.start()), name))
        if name in FUNCTIONS:
            return Token(FUNCTION, name, found.start(), found.end())
        raise self._unknown(name, found.start())

    def _unknown(self, name: str, start: int) -> ProblemsFound:
        if "-" in name and all(part in self._names or part.isdigit() for part in name.split("-")):
            spaced = name.replace("-", " - ")
            return self.fault(start, f"`{name}` is not a name known here", f"to subtract, put blanks round the minus: {spaced}")
        words = name.split()
        for i in range(1, len(words)):
            first, second = " ".join(words[:i]), " ".join(words[i:])
            if first in self._names and second in self._names:
                return self.fault(start, f"`{name}` are two names with nothing between", f"put + - * or / after `{first}`")
        return self.fault(start, f"`{name}` is not a name known here", did_you_mean(name, self._names))

    def _quality(self, found: re.Match[str]) -> Token:
        of = _OF.search(self.source, found.start(), found.end())
        before = self.source[found.start() : of.start()] if of else found[0]
        word = _plain(before)
        if of is None or word not in QUALITIES:
            hint = did_you_mean(word, QUALITIES)
            hint = hint if hint.startswith("did") else "write width, height, length, caliper … before `of`"
            raise self.fault(found.start(), f"`{word}` is not a thing to ask for with `of`", hint)
        end = self._end_of_thing(of.end())
        text = self.source[found.start() : end].rstrip()
        thing, _, stage = (part.strip() for part in _plain(self.source[of.end() : end]).partition(" when "))
        for part in (thing, stage) if stage else (thing,):
            self._check_thing(part, text, found.start())
        end = found.start() + len(text)
        return Token(LITERAL, text, found.start(), end, Quality(text, self.where(found.start()), word, thing, stage or None))

    def _end_of_thing(self, start: int) -> int:
        """Where the thing after `of` ends: at a sign no name can hold, or at a minus or stroke with blanks on both sides."""
        for position in range(start, len(self.source)):
            character = self.source[position]
            if character in _ENDS_THING:
                return position
            if character in "-/":
                blank_before = self.source[position - 1].isspace()
                blank_after = position + 1 == len(self.source) or self.source[position + 1].isspace()
                if blank_before and blank_after:
                    return position
                if blank_before or blank_after:
                    does = "subtract" if character == "-" else "divide"
                    hint = f"to {does}, put a blank on both sides of `{character}`; inside a name, none"
                    raise self.fault(position, f"`{character}` has a blank on one side only", hint)
        return len(self.source)

    def _check_thing(self, thing: str, text: str, start: int) -> None:
        if not thing or thing.startswith("when "):
            raise self.fault(start, f"`{text}` does not say of what", "write the name of a part after `of`")
        if _THING.fullmatch(thing) is None:
            hint = "write words of letters and digits, parted by blanks"
            raise self.fault(start, f"`{thing}` is not the name of a part", hint)
        last = thing.rpartition("/")[2]
        if "/" in thing and last.isdigit():
            hint = f"to divide, put blanks round the stroke: / {last}"
            raise self.fault(start, f"`{thing}` reads as the name of a score", hint)


def _plain(text: str) -> str:
    return " ".join(text.split())


def _end_of_run(source: str, position: int) -> int:
    while position < len(source) and _AFTER_NUMBER.match(source, position):
        position += 1
    return position
