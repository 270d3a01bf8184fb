"""Random templates for the tests and the bench of tiling: the same for the same seed, on every machine.

Five kinds in turn, by Python's `random.Random(seed)` (Mersenne Twister): star-shaped polygons, staircases cut from a rectangle,
slanted strips, round-cornered sheets with a hole and a slit, and trays with four walls; each from 40 to 520 mm long. The first four
fifths of the kinds carry a score across where one fits.
"""

from math import cos, pi, radians, sin
from random import Random

from creasewright.booklet.tiling.template import Template, TemplateScore
from creasewright.geometry.point import Point
from template_cases import outline_of, rounded, template_of, tray

SEED = 20240607
LEAST, MOST = 40.0, 520.0


def random_templates(count: int, seed: int = SEED) -> list[Template]:
    chance = Random(seed)
    kinds = (_star, _stairs, _slanted, _sheet, _tray)
    return [kinds[k % len(kinds)](f"outline {k}", chance) for k in range(count)]


def _star(key: str, chance: Random) -> Template:
    count = chance.randint(5, 14)
    across, down = chance.uniform(LEAST, MOST / 2), chance.uniform(LEAST, MOST / 2)
    corners = []
    for k in range(count):
        radius = chance.uniform(0.3, 1.0)
        corners.append((across * radius * cos(2 * pi * k / count), down * radius * sin(2 * pi * k / count)))
    return template_of(key, outline_of(_at_origin(corners)))


def _stairs(key: str, chance: Random) -> Template:
    """A rectangle with steps cut from its head-right corner."""
    steps = chance.randint(1, 4)
    width, height = chance.uniform(100, MOST), chance.uniform(100, MOST)
    xs = sorted(chance.uniform(0.2, 0.95) * width for _ in range(steps))
    ys = sorted(chance.uniform(0.05, 0.8) * height for _ in range(steps))
    corners = [(0.0, 0.0), (xs[0], 0.0)]
    for k in range(steps):
        corners.append((xs[k], ys[k]))
        corners.append((xs[k + 1] if k + 1 < steps else width, ys[k]))
    corners += [(width, height), (0.0, height)]
    level = ys[-1] + (height - ys[-1]) / 2
    score = TemplateScore("foot", Point(0.0, level), Point(width, level), "valley")
    return template_of(key, outline_of(corners), scores=(score,))


def _slanted(key: str, chance: Random) -> Template:
    """A strip lying at any angle."""
    long, wide, turn = chance.uniform(150, MOST), chance.uniform(10, 90), radians(chance.uniform(0, 180))
    lying = [(0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide), (long / 2, 0.0), (long / 2, wide)]
    turned = _at_origin([(x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)) for x, y in lying])
    score = TemplateScore("middle", Point(*turned[4]), Point(*turned[5]), "mountain")
    return template_of(key, outline_of(turned[:4]), scores=(score,))


def _sheet(key: str, chance: Random) -> Template:
    width, height = chance.uniform(LEAST, MOST), chance.uniform(LEAST, MOST)
    return rounded(key, width, height, chance.uniform(4, min(width, height) / 3))


def _tray(key: str, chance: Random) -> Template:
    wall = chance.uniform(24, 80)
    made = tray(chance.uniform(60, MOST - 2 * wall), chance.uniform(60, MOST - 2 * wall), wall, chance.uniform(10, min(22, wall - 2)))
    return template_of(key, made.outline, scores=made.scores)


def _at_origin(corners: list[tuple[float, float]]) -> list[tuple[float, float]]:
    left, head = min(x for x, _ in corners), min(y for _, y in corners)
    return [(x - left, y - head) for x, y in corners]
