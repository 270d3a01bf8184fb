"""What a maker writes about a printer, on the command line or in the file of printers, to exact lengths. Raises Misread."""

import re
from fractions import Fraction

from creasewright.units.misread import Misread
from creasewright.units.printer import MOST_ERROR, Reading
from creasewright.units.read_length import read_length

NAME = re.compile("[a-z0-9]+(?:[ -][a-z0-9]+)*")
LONGEST_NAME = 30
NO_PRINTER = "none"
"""Where a printer's name is asked for: any printer that prints at 100 %."""
FAR = 20
"""mm; a back farther off is a slip."""
WAYS = {"right": (1, 0), "left": (-1, 0), "down": (0, 1), "up": (0, -1)}


def read_printer_name(text: str) -> str:
    name = " ".join(text.split())
    if not NAME.fullmatch(name) or len(name) > LONGEST_NAME:
        raise Misread(f"`{name[:LONGEST_NAME]}` is not a name for a printer", f"use small letters and digits, {LONGEST_NAME} at most")
    if name == NO_PRINTER:
        raise Misread("`none` stands for no printer", "take another name")
    return name


def read_reading(text: str) -> Reading:
    """`178.6 mm of 180 mm`: a length as measured, and as it should be."""
    measured, of, true = text.partition(" of ")
    if not of:
        raise Misread(f"`{text}` does not say what the length should be", "write it as 178.6 mm of 180 mm")
    return checked_reading(read_length(measured).mm, read_length(true).mm, text)


def checked_reading(measured: Fraction, true: Fraction, text: str) -> Reading:
    """Refuses one that means more than 3 %."""
    if true <= 0:
        raise Misread(f"`{text}` asks for a line of no length", "write it as 178.6 mm of 180 mm")
    reading = Reading(measured, true)
    if reading.too_far_off:
        raise Misread(
            f"{text} means that the printer prints at {float(reading.scale):.1%}".replace("%", " %")
            + f", and at most {float(MOST_ERROR):.0%}".replace("%", " %")
            + " off is put right",
            "print the test page at 100 % (not “fit to page”) and measure again",
        )
    return reading


def read_margin(text: str) -> Fraction:
    return read_length(text).mm


def read_margins(text: str) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """`4 mm`, all round, or `4 mm, 5 mm, 4 mm, 12 mm`: left, top, right, bottom."""
    lengths = [read_margin(part) for part in text.split(",")]
    if len(lengths) == 1:
        lengths *= 4
    if len(lengths) != 4:
        raise Misread(f"`{text}` is not four margins", "write left, top, right and bottom: 4 mm, 5 mm, 4 mm, 12 mm")
    left, head, right, tail = lengths
    return left, head, right, tail


def read_back_shift(text: str) -> tuple[Fraction, Fraction]:
    """`0.5 mm right, 1 mm down`, either alone, or `none`: to the right and down, mm."""
    right = down = Fraction(0)
    seen: set[bool] = set()
    for part in text.split(",") if text.strip() != NO_PRINTER else ():
        length, _, way = part.strip().rpartition(" ")
        if way not in WAYS or (level := WAYS[way][0] != 0) in seen:
            raise Misread(f"`{text}` is not a shift of the back", "write it as 0.5 mm right, 1 mm down")
        seen.add(level)
        amount = read_length(length).mm
        if amount > FAR:
            raise Misread(f"`{text}` is more than {FAR} mm", "look at the paper guides of the printer, and measure again")
        right, down = right + WAYS[way][0] * amount, down + WAYS[way][1] * amount
    return right, down


def in_mm(length: Fraction) -> str:
    """Exact to a millionth: `178.59375 mm`."""
    return f"{float(round(length, 6)):.6f}".rstrip("0").rstrip(".") + " mm"


def back_in_words(back: tuple[Fraction, Fraction]) -> str:
    right, down = back
    parts = [f"{in_mm(abs(right))} {'right' if right > 0 else 'left'}"] if right else []
    parts += [f"{in_mm(abs(down))} {'down' if down > 0 else 'up'}"] if down else []
    return ", ".join(parts) or NO_PRINTER
