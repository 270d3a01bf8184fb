"""Square roots and trigonometry on exact numbers: exact where the result is rational, else a rational number close to it."""

from fractions import Fraction
from math import acos, asin, atan, cos, degrees, isqrt, radians, sin

ROOT_DIGITS = 30
"""Significant digits of a square root that is irrational."""

_THIRTY = Fraction(30)
_SINES = {0: Fraction(0), 30: Fraction(1, 2), 90: Fraction(1), 150: Fraction(1, 2)}
"""Sines of whole degrees from 0 to 180 that are rational (Niven's theorem: there are no others)."""
_ARC_SINES = {Fraction(0): 0, Fraction(1, 2): 30, Fraction(1): 90, Fraction(-1, 2): -30, Fraction(-1): -90}


def square_root(value: Fraction) -> Fraction:
    """Of a number that is not negative; exact for the square of a rational number, else correctly rounded to ROOT_DIGITS."""
    top, bottom = isqrt(value.numerator), isqrt(value.denominator)
    if top * top == value.numerator and bottom * bottom == value.denominator:
        return Fraction(top, bottom)
    places = ROOT_DIGITS - _digits_before_point(value) // 2
    root = _scaled_root(value, places)
    while root >= 10**ROOT_DIGITS:
        places -= 1
        root = _scaled_root(value, places)
    while root < 10 ** (ROOT_DIGITS - 1):
        places += 1
        root = _scaled_root(value, places)
    return root / Fraction(10) ** places


def _digits_before_point(value: Fraction) -> int:
    """About how many; negative for a small value. 1233 bits are 371 digits: log10(2) is nearly 0.30103."""
    return (value.numerator.bit_length() - value.denominator.bit_length()) * 30103 // 100000


def _scaled_root(value: Fraction, places: int) -> int:
    """The root times 10^places to the nearest whole number."""
    scaled = value * Fraction(100) ** places
    floor_root = isqrt(scaled.numerator // scaled.denominator)
    return floor_root + (scaled > (floor_root + Fraction(1, 2)) ** 2)


def sine(degrees_: Fraction) -> Fraction:
    angle = degrees_ % 360
    if angle >= 180:
        return -sine(angle - 180)
    if angle in _SINES:
        return _SINES[int(angle)]
    return Fraction(sin(radians(float(angle))))


def cosine(degrees_: Fraction) -> Fraction:
    angle = degrees_ % 360
    if (angle + 90) % _THIRTY == 0:
        return sine(angle + 90)
    return Fraction(cos(radians(float(angle))))


def tangent(degrees_: Fraction) -> Fraction | None:
    """None where there is none: at 90 degrees and every 180 from there."""
    if degrees_ % 180 == 90:
        return None
    if degrees_ % 45 == 0:
        return Fraction((0, 1, 0, -1)[int(degrees_ % 180) // 45])
    return sine(degrees_) / cosine(degrees_)


def arc_sine(ratio: Fraction) -> Fraction:
    """In degrees, from -90 to 90; the ratio from -1 to 1."""
    if ratio in _ARC_SINES:
        return Fraction(_ARC_SINES[ratio])
    return Fraction(degrees(asin(float(ratio))))


def arc_cosine(ratio: Fraction) -> Fraction:
    """In degrees, from 0 to 180; the ratio from -1 to 1."""
    if ratio in _ARC_SINES:
        return 90 - Fraction(_ARC_SINES[ratio])
    return Fraction(degrees(acos(float(ratio))))


def arc_tangent(ratio: Fraction) -> Fraction:
    """In degrees, from -90 to 90."""
    if abs(ratio) in (0, 1):
        return 45 * ratio
    if abs(ratio) > 10**300:  # more than a float holds; the angle is a right one to the last digit
        return Fraction(90 if ratio > 0 else -90)
    return Fraction(degrees(atan(float(ratio))))
