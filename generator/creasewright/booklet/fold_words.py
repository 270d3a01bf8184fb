"""What a fold of many scores is told as: its flaps by name, walls until they meet, parts that follow, a bottom with all its lines.

Gives the name of a sentence of the layout and its values, or None for a fold that the plain sentence tells well.
"""

from collections.abc import Callable

from creasewright.booklet.panel_groups import PanelGroup, panel_groups
from creasewright.booklet.part_words import reader_name
from creasewright.folding.fold_scores import piece_of
from creasewright.folding.hanging import hanging
from creasewright.folding.panel_graph import nearer_sides
from creasewright.folding.state import PanelKey, PieceKey, State
from creasewright.geometry.rigid_transform import same_place
from creasewright.joining.run_step import StepRun
from creasewright.joining.step_folds import valley_sign
from creasewright.reading import design

Word = Callable[[str], str]
Values = dict[str, object]
FEW = 2
"""So many scores the plain sentence tells well."""
FLAT = 179
"""Degrees: what is folded so far lies flat."""
MANY_LINES = 4
"""More written lines than this are not told one by one."""


def fold_sentence(
    run: StepRun, word: Word, owner: Callable[[PanelKey], str], score: Callable[[PieceKey], str]
) -> tuple[str, Values] | None:
    """`owner` is how a panel's piece is called (`**A**`), `score` how a line is (`between *a* and *b*`)."""
    action = run.written.action
    if not isinstance(action, design.Fold | design.Unfold) or not run.targets or run.refused is not None:
        return None
    if any(piece_of(run.after, key).arc is not None for key in run.targets):
        return None  # curves have sentences of their own
    teller = FoldTeller(run, word, owner, score)
    if action.follow:
        return "fold with followers", teller.with_followers()
    if not isinstance(action, design.Fold):
        return None
    if action.meet:
        return "fold to meet", teller.to_meet()
    if teller.opens():
        return "open out", teller.open_out()
    if teller.flaps() and (len(teller.keys) > FEW or teller.stand()):
        return "fold flaps", teller.of_flaps()
    region = teller.region()
    if region and len(teller.lines()) > MANY_LINES:
        return "fold part", {"part": region, "bending": action.bending}
    if teller.both_ways_part():
        return "fold both ways", teller.both_ways()
    return None


def ways_seen(run: StepRun) -> dict[PieceKey, str]:
    """`toward` or `away` from the maker: as seen on the panel beside each score that is nearer to what stays, before the step."""
    found: dict[PieceKey, str] = {}
    for parts in dict.fromkeys(run.before.body_of(key[0]).parts for key in run.targets):
        body = next(body for body in run.before.bodies if body.parts == parts)
        own = [key for key in run.targets if key[0] in parts]
        tree = hanging(run.before, run.after, body, run.targets)
        firsts = {key: (key[0], piece_of(run.before, key).first) for key in own}
        for key, near in (nearer_sides(run.before, body, tree.root, own) if tree is not None else firsts).items():
            found[key] = "toward" if run.targets[key] * valley_sign(run.before, body, near) > 0 else "away"
    return found


class FoldTeller:
    def __init__(self, run: StepRun, word: Word, owner: Callable[[PanelKey], str], score: Callable[[PieceKey], str]) -> None:
        self.run, self.word, self.owner, self.score = run, word, owner, score
        self.keys = [key for key in run.targets if run.after.blanks[key[0]].source is None]
        assert isinstance(run.written.action, design.Fold | design.Unfold)
        self.action = run.written.action
        self.ways = ways_seen(run)

    # --- what is told

    def of_flaps(self) -> Values:
        flaps = self.flaps()
        angles = {round(abs(self.run.targets[key])) for key in self.keys}
        return {
            "flaps": self.called(flaps),
            "several": len(flaps) > 1,
            "way": self.way(self.keys),
            "angle": angles.pop() if len(angles) == 1 else 0,
            "bending": isinstance(self.action, design.Fold) and self.action.bending,
        }

    def to_meet(self) -> Values:
        """Each kind of flap with the angle that it was found to turn by, in whole degrees."""
        flaps = self.flaps()
        turns: dict[tuple[str, int], list[PanelKey]] = {}
        for key, panel in zip(self.keys, flaps, strict=True):
            groups = panel_groups(self.run.after.blanks[key[0]], [each[1] for each in flaps if each[0] == key[0]])
            home = next((g.name for g in groups if panel[1] == g.name or panel[1].startswith(f"{g.name} ")), panel[1])
            turns.setdefault((home, round(abs(self.run.targets[key]))), []).append(panel)
        angles: dict[str, set[int]] = {}
        for name, angle in turns:
            angles.setdefault(name, set()).add(angle)
        names = {name: f"*{reader_name(self.word, name)}*" for name in angles}
        told = [{"name": names[name], "angle": each.copy().pop()} for name, each in angles.items() if len(each) == 1]
        return {"flaps": self.called(flaps), "way": self.way(self.keys), "turns": told, "names": list(names.values())}

    def with_followers(self) -> Values:
        """The panel that is moved by hand, and what comes along."""
        written = {str(target.ref) for target in self.action.follow}
        tree = hanging(self.run.before, self.run.after, self.run.after.body_of(self.run.parts[0]), self.run.targets)
        followers = [key for key in self.keys if self.is_written(key, written)]
        drivers = [key for key in self.keys if key not in followers]
        led = [panel for panel, key in tree.about.items() if key in drivers] if tree else []
        sides = [(key[0], name) for key in followers for name in (self.piece_first(key), self.piece_second(key))]
        along = [panel for panel in dict.fromkeys(sides) if panel not in led and self.moves(panel)]
        angles = {round(abs(self.run.targets[key])) for key in drivers}
        return {
            "what": self.called(led) or self.listed(list(dict.fromkeys(self.score(key) for key in drivers))),
            "followers": self.called(along),
            "several": len(along) > 1,
            "way": self.way(drivers),
            "angle": angles.pop() if len(angles) == 1 else 0,
            "opens": not isinstance(self.action, design.Fold),
        }

    def open_out(self) -> Values:
        """The lines that stand after the step, by angle, and those that lie flat again."""
        up: dict[int, list[str]] = {}
        flat: list[str] = []
        for key in self.keys:
            angle = round(abs(self.run.targets[key]))
            (flat if angle == 0 else up.setdefault(angle, [])).append(self.score(key))
        standing = [{"lines": self.listed(lines), "angle": angle} for angle, lines in up.items()]
        return {"standing": standing, "flat": self.listed(flat), "bending": isinstance(self.action, design.Fold) and self.action.bending}

    def both_ways(self) -> Values:
        toward = [self.score(key) for key in self.keys if self.way([key]) == "toward"]
        away = [self.score(key) for key in self.keys if self.way([key]) == "away"]
        angles = {round(abs(self.run.targets[key])) for key in self.keys}
        return {"toward": self.listed(toward), "away": self.listed(away), "angle": angles.pop()}

    # --- what it is

    def flaps(self) -> list[PanelKey]:
        """The panels that hang on the scores, one for each, where every score is a flap's own; else none."""
        found = []
        for key in self.keys:
            piece = piece_of(self.run.after, key)
            if piece.score not in (piece.first, piece.second):
                return []
            found.append((key[0], piece.score))
        return found

    def opens(self) -> bool:
        """Some line that was folded lies flat, or nearly, after a step that raises others."""
        before = self.run.before.angles
        shut = [key for key in self.keys if abs(before.get(key, 0.0)) > abs(self.run.targets[key]) + 1]
        return bool(shut) and len(shut) < len(self.keys)

    def region(self) -> str:
        """`the *foot* of **A**` where all that moves is one band; else empty."""
        moved = [key for key in self.run.after.placed if self.moves(key)]
        if not moved or len({key[0] for key in moved}) > 1:
            return ""
        groups = panel_groups(self.run.after.blanks[moved[0][0]], [key[1] for key in moved])
        return f"{self.words(groups)} {self.word('of')} {self.owner(moved[0])}" if len(groups) == 1 else ""

    def stand(self) -> bool:
        return all(0 < abs(self.run.targets[key]) < FLAT for key in self.keys)

    def lines(self) -> set[str]:
        return {piece_of(self.run.after, key).score for key in self.keys}

    def both_ways_part(self) -> bool:
        """Folds both ways that end at one angle, not flat."""
        angles = {round(abs(self.run.targets[key])) for key in self.keys}
        return self.way(self.keys) == "both" and len(angles) == 1 and 0 < min(angles) < 179 and len(self.lines()) <= MANY_LINES

    def way(self, keys: list[PieceKey]) -> str:
        """`toward` or `away` from the maker as the work lies before the step, or `both`."""
        ways = {self.ways[key] for key in keys}
        return ways.pop() if len(ways) == 1 else "both"

    # --- names

    def moves(self, panel: PanelKey) -> bool:
        before = self.run.before.placed
        return panel in before and not same_place(before[panel], self.run.after.placed[panel])

    def is_written(self, key: PieceKey, written: set[str]) -> bool:
        piece = piece_of(self.run.after, key)
        return piece.score in written or key[1] in written or any(ref.split(" in ")[0] == piece.score for ref in written)

    def piece_first(self, key: PieceKey) -> str:
        return piece_of(self.run.after, key).first

    def piece_second(self, key: PieceKey) -> str:
        return piece_of(self.run.after, key).second

    def called(self, panels: list[PanelKey]) -> str:
        return called_panels(self.run.after, panels, self.word, self.owner)

    def words(self, groups: list[PanelGroup]) -> str:
        return self.listed([group_words(group, self.word) for group in groups])

    def listed(self, names: list[str]) -> str:
        return listed(names, self.word)


def called_panels(state: State, panels: list[PanelKey], word: Word, owner: Callable[[PanelKey], str]) -> str:
    """`the four *walls* and the four *tabs* of **A**`, piece by piece."""
    parts = []
    for part in dict.fromkeys(key[0] for key in panels):
        groups = panel_groups(state.blanks[part], [key[1] for key in panels if key[0] == part])
        mine = next(key for key in panels if key[0] == part)
        parts.append(f"{listed([group_words(group, word) for group in groups], word)} {word('of')} {owner(mine)}")
    return listed(parts, word)


def group_words(group: PanelGroup, word: Word) -> str:
    name = reader_name(word, group.name)
    return f"{word('the')} *{name}*" if group.count == 1 else f"{word('the')} {word(str(group.count))} *{name}s*"


def listed(names: list[str], word: Word) -> str:
    names = list(dict.fromkeys(names))
    return "".join(names) if len(names) < 2 else f"{', '.join(names[:-1])} {word('and')} {names[-1]}"
