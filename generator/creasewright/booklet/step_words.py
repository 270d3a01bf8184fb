"""What a step's sentence is filled with: pieces, panels, sides and measures in the reader's words, by the kind of step.

The sentences themselves are text templates of the layout (`fold`, `glue`, `join` …). Values may hold `**bold**` for pieces and measures
and `*italic*` for the names of parts.
"""

from fractions import Fraction
from itertools import pairwise

from creasewright.booklet.fold_pictures import moving_panels
from creasewright.booklet.fold_words import fold_sentence, ways_seen
from creasewright.booklet.hidden_letters import letter_spot
from creasewright.booklet.insert_pictures import goes_behind
from creasewright.booklet.join_pictures import new_glue
from creasewright.booklet.part_words import as_seen, pocket_words
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.side_words import Word, side_words
from creasewright.booklet.standing_words import Names, standing_sentence
from creasewright.booklet.typeset import literal
from creasewright.fitting.gate_measures import border
from creasewright.folding.fold_scores import piece_of
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.references import panels_named
from creasewright.folding.state import GlueArea, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import apply, rotate, same_place
from creasewright.joining.compass import faces_maker
from creasewright.joining.pockets import open_as_seen
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.scoring.scored_lines import folds_of, scored_lines
from creasewright.units.quantity import MM_PER_INCH
from creasewright.units.ruler import UP, Ruler, length_in_words, mark_in_words, pair_in_words

Values = dict[str, object]
LIKE_SQUARE = (1.0, 1.25)
"""The longer side of a piece that is easily laid the wrong way up: more than so many mm longer, and less than so many times as long."""
DIRECTED = {"one-way", "two-way", "by panel"}
"""Prints that tell the way up."""
LEVEL = 0.01
"""mm by which what lies in one plane may leave it."""


class StepWords:
    """Fills the sentence of one step. `word` turns an engine word into the reader's."""

    def __init__(self, run: StepRun, parts: ShownParts, word: Word, flipped: bool = False) -> None:
        """`flipped`: the picture shows the work turned over for this step."""
        self.run, self.parts, self.word = run, parts, word
        self.swap = parts.mirrored != flipped
        self.state = run.after
        self.ways = ways_seen(run)

    def template(self) -> str:
        """Which sentence: the action's own word."""
        action = self.run.written.action
        told = self.told_apart()
        if told is not None:
            return told[0]
        names: dict[type, str] = {
            design.Fold: "fold", design.Unfold: "unfold", design.Crease: "crease", design.Lay: "lay",
            design.TurnOver: "turn over", design.Turn: "turn", design.Insert: "insert", design.TurnIn: "turn in",
            design.Sew: "sew",
        }  # fmt: skip
        if isinstance(action, design.Make) and action.at is not None:
            return f"{action.verb} {action.at}"
        if isinstance(action, design.Join | design.Tie | design.Make | design.Wait):
            return action.verb
        return names[type(action)]

    def values(self) -> Values:
        action = self.run.written.action
        found: Values = {"pieces": self.counted(self.run.parts)}
        told = self.told_apart()
        if told is not None:
            return found | told[1]
        for kind, fill in (
            (design.Fold, self.fold), (design.Unfold, self.fold), (design.Crease, self.fold), (design.Lay, self.lay),
            (design.Join, self.join), (design.Insert, self.insert), (design.Tie, self.tie), (design.Make, self.make),
            (design.TurnOver, self.turn_over), (design.Turn, self.turn), (design.TurnIn, self.turn_in), (design.Sew, self.sew),
        ):  # fmt: skip
            if isinstance(action, kind):
                found |= fill()
        if isinstance(action, design.Wait):
            found |= {"what": literal(str(action.what)), "time": literal(str(action.for_ or ""))}
        return found

    def told_apart(self) -> tuple[str, Values] | None:
        """The sentence of a step on a standing thing, or of a fold of many scores, with its values; None for all others."""
        names = Names(self.word, self.panel_owner, self.score, self.piece, self.paper_side)
        return fold_sentence(self.run, self.word, self.panel_owner, self.score) or standing_sentence(
            self.run, self.parts, names, self.join
        )

    def paper_side(self, key: PanelKey, side: str) -> str:
        return side_words(self.parts.paper(self.state.blanks[key[0]]), side, self.word)

    # --- names

    def length(self, mm: float) -> str:
        return f"**{mark_in_words(mm, self.parts.worked.ruler).text}**"

    def listed(self, names: list[str]) -> str:
        names = list(dict.fromkeys(names))
        if len(names) < 2:
            return "".join(names)
        return ", ".join(names[:-1]) + f" {self.word('and')} {names[-1]}"

    def counted(self, parts: tuple[str, ...]) -> str:
        """Pieces by name, equal ones counted: `2 × seed card **E**`."""
        names = [self.piece(part) for part in parts]
        return self.listed(
            [
                f"{names.count(name)} × {name}" if names.count(name) > 1 and "/" not in part else name
                for name, part in zip(names, parts, strict=True)
            ]
        )

    def piece(self, part: str) -> str:
        """`the front block` for what was made before, `left strip **A**` for a piece, the name of a thing."""
        top = part.split("/")[0]
        if "/" in part:
            return f"{self.word('the')} {literal(top)}"
        name = top.rstrip(" 0123456789")
        name = literal(as_seen(name) if self.parts.mirrored else name)
        letter = self.parts.letter(part)
        return f"{name} **{letter}**" if letter else f"{self.word('the')} {name}"

    def panel(self, key: PanelKey) -> str:
        """`the *flap* of A`; a piece of one panel by its letter alone."""
        blank = self.state.blanks[key[0]]
        if len(blank.panels) == 1:
            return self.piece(key[0]) if "/" not in key[0] else self.panel_owner(key)
        return f"{self.word('the')} *{literal(self.parts.panel_name(key[1]))}* {self.word('of')} {self.panel_owner(key)}"

    def panels(self, keys: list[PanelKey]) -> str:
        """Several panels; more than two that are numbered alike on one piece as `each *up* of **A**`."""
        names = []
        for key in dict.fromkeys(keys):
            stem = key[1].rstrip(" 0123456789")
            alike = [other for other in keys if other[0] == key[0] and other[1].rstrip(" 0123456789") == stem]
            if stem != key[1] and len(set(alike)) > 2:
                names.append(f"{self.word('each')} *{literal(self.parts.panel_name(stem))}* {self.word('of')} {self.panel_owner(key)}")
            else:
                names.append(self.panel(key))
        return self.listed(names)

    def panel_owner(self, key: PanelKey) -> str:
        letter = self.parts.letter(key[0])
        if "/" in key[0]:
            return f"**{letter}** {self.word('of')} {self.word('the')} {literal(key[0].split('/')[0])}" if letter else self.piece(key[0])
        return f"**{letter}**" if letter else literal(key[0])

    def sides(self, words: tuple[str, ...]) -> str:
        """Sides as they are written, left and right changed over where the reader sees them so."""
        return self.listed([self.word(self.side(side)) for side in words])

    def side(self, word: str) -> str:
        return as_seen(word) if self.swap else word

    # --- actions

    def fold(self) -> Values:
        run = self.run
        movers = moving_panels(run)
        action = run.written.action
        towards = {self.way(key) for key in run.targets}
        angles = {round(abs(angle)) for angle in run.targets.values()}
        scores = [self.score(key) for key in run.targets if self.leads(key)]
        return {
            "what": self.listed([self.panel(panel) for panel in movers]) if 0 < len(movers) <= 2 else "",
            "scores": self.listed(scores),
            "many": len(dict.fromkeys(scores)) > 2,
            "way": next(iter(towards)) if len(towards) == 1 else "both",
            "toward": self.listed([self.score(key) for key in run.targets if self.leads(key) and self.way(key) == "toward"]),
            "away": self.listed([self.score(key) for key in run.targets if self.leads(key) and self.way(key) == "away"]),
            "turns": self.turns(angles) if len(angles) > 1 else [],
            "angle": angles.pop() if len(angles) == 1 else 0,
            "comes": self.coming(),
            "both": isinstance(action, design.Fold) and len(towards) == 2,
            "curved": all(piece_of(self.state, key).arc is not None for key in run.targets),
            **self.bent(),
        }

    def turns(self, angles: set[int]) -> list[Values]:
        """For scores that turn by different angles: those of each angle together, in the order of the step."""
        own = {key: round(abs(angle)) for key, angle in self.run.targets.items() if self.leads(key)}
        return [
            {"angle": turn, "scores": self.listed([self.score(key) for key, angle in own.items() if angle == turn])}
            for turn in dict.fromkeys(own.values())
            if turn in angles
        ]

    def bent(self) -> Values:
        """Of curved scores: the ears that go in, the work, and how far the fold goes at its ends."""
        ears = [key for key in self.run.after.curved if self.run.after.curved[key].ear and not _was_folded(self.run, key)]
        names = [f"*{literal(self.parts.panel_name(ear[1]))}*" for ear in ears]
        first = bool(ears) and not any(key[0] == ears[0][0] for key in self.run.before.curved)
        least = round(self.run.after.curved[ears[0]].arch.fold_at_ends) if ears else 0
        return {"bent": bool(ears), "ears": self.listed(names), "count": len(ears), "first": first, "least": least}

    def coming(self) -> str:
        """What was made before and comes along when it folds: `the back block`."""
        before = self.run.before.placed
        gone = [key[0] for key, placed in self.run.after.placed.items() if key in before and not same_place(before[key], placed)]
        return self.listed([self.piece(part) for part in gone if "/" in part])

    def way(self, key: tuple[str, str]) -> str:
        """`toward` or `away` from the maker, as the work lies before the step."""
        return self.ways[key]

    def leads(self, key: tuple[str, str]) -> bool:
        """Not a piece made like another's panels, which only goes along."""
        return self.state.blanks[key[0]].source is None

    def score(self, key: tuple[str, str]) -> str:
        """`between *page* and *centre*`: by its own name where the whole score folds, else by the panels it lies between."""
        piece = piece_of(self.state, key)
        whole = [p for p in self.state.blanks[key[0]].pieces if p.score == piece.score]
        first, slash, second = piece.score.partition("/")
        if not slash or not all((key[0], p.name) in self.run.targets for p in whole):
            first, second = piece.first, piece.second
        first, second = (literal(self.parts.panel_name(name)) for name in (first, second))
        return f"{self.word('between')} *{first}* {self.word('and')} *{second}*"

    def lay(self) -> Values:
        action = self.run.written.action
        assert isinstance(action, design.Lay)
        part = self.run.parts[0]
        body = self.state.body_of(part)
        key = next(
            (
                (p, panel.name)
                for p in self.run.parts
                for panel in self.state.blanks[p].panels
                if panel.name == str(action.part).split(" of ")[0]
            ),
            None,
        )
        key = key or widest_panel(self.state, part)
        front = faces_maker(front_normal(self.state.placed[key]), body)
        paper = self.parts.paper(self.state.blanks[key[0]])
        name = self.piece(part) if " of " not in str(action.part) else f"{self.word('the')} {self.word('work')}"
        side = side_words(paper, "front" if front else "back", self.word)
        return {
            "what": name,
            "side": side,
            "groove": self.groove(part, "front" if front else "back") if part == str(action.part) else "",
            "letter": self.letter_lies(part, "front" if front else "back") if part == str(action.part) and not side else "",
            "away": self.panel_away(parts_panels(self.state, part)) if action.turned is not None else "",
            "panel": self.panel(key) if " of " in str(action.part) else "",
            "turned": int(float(str(action.turned))) if action.turned is not None and is_number(str(action.turned)) else 0,
        }

    def groove(self, part: str, up: str) -> str:
        """`up` or `down`: where the grooves of a scored piece lie as it is laid; empty where it has none, or has them on both sides."""
        folds = next((found for path, found in folds_of(self.parts.worked).items() if path == part or path.endswith(f"/{part}")), {})
        pressed = {line.up for line in scored_lines(self.state.blanks[part], folds) if line.folds != "never"}
        if len(pressed) != 1:
            return ""
        return self.word("up") if up in pressed else self.word("down")

    def letter_lies(self, part: str, up: str) -> str:
        """`up` or `underneath`: where a piece is pencilled as it is laid; empty where no place stays hidden, or glue covers it already."""
        path = self.parts.prefix + part
        piece = next((one for one in self.parts.worked.pieces if path in one.parts), None)
        spot = letter_spot(self.parts.worked, piece) if piece else None
        if spot is None or any(part in (area.panel[0], area.onto[0]) for area in self.run.before.glue):
            return ""
        return self.word("up") if spot.sides[self.parts.letter(part)] == up else self.word("underneath")

    def panel_away(self, keys: list[PanelKey]) -> str:
        """The panel that lies farthest from the maker."""
        body = self.state.body_of(keys[0][0])
        return self.panel(min(keys, key=lambda key: min(y for _, y in seen_corners(self.state, key, body.view))))

    def turn_over(self) -> Values:
        action = self.run.written.action
        assert isinstance(action, design.TurnOver)
        return {"like": self.word(f"like a {action.like}")}

    def turn(self) -> Values:
        action = self.run.written.action
        assert isinstance(action, design.Turn)
        return {"angle": str(action.by or "180")}

    def join(self) -> Values:
        action = self.run.written.action
        assert isinstance(action, design.Join)
        areas = new_glue(self.run)
        strips = [area for area in areas if area.width]
        material = areas[0].material if areas else ""
        facts = next((m for m in self.parts.worked.design.materials if m.name == material), None)
        bonds = self.run.new_bonds
        onto = list(dict.fromkeys(area.onto for area in areas) or dict.fromkeys(bond.first for bond in bonds))
        own = self.run.parts[0] if self.run.parts else ""
        what = self.panels(list(self.run.panels)) if action.verb == "glue" else self.listed([self.piece(p) for p in self.run.parts])
        return {
            "what": what,
            "by": self.listed([self.panel(key).removesuffix(f" of {what}") for key in self.run.panels]) if action.by is not None else "",
            "onto": self.panels(onto),
            "relation": self.word(action.landing.relation if action.landing is not None else "onto"),
            "adhesive": self.adhesive(material),
            "kind": facts.kind if facts is not None else "",
            "cut": self.cut_to(areas[0]) if areas and facts is not None and facts.kind in ("foam", "tape") else "",
            "sides": self.sides(tuple(str(side) for side in action.along)),
            "width": self.length(strips[0].width) if strips else "",
            "setback": self.length(areas[0].setback) if areas and areas[0].setback else "",
            "pocket": pocket_words(self.word, str(action.makes)) if action.makes is not None else "",
            "open": self.open_sides(str(action.makes)) if action.makes is not None else "",
            "meets": self.meets(action),
            "free": any(str(side) == "free edges" for side in action.along),
            "folds": bool(own) and bool(self.state.blanks[own].pieces),
            "pile": self.pile(onto),
            "one": self.piece(own) if own else "",
            "told": self.sides_told(own) if own else [],
            "own place": bool(own) and self.state.blanks[own].source is not None,
            "border": self.border(own),
            "up": self.up_side(own) if action.verb != "glue" and own and "/" not in own else "",
            **self.boards(own),
        }

    def border(self, own: str) -> str:
        """How far a piece that is made like others' panels ends inside the lines round it; empty where it covers them."""
        if not own or self.state.blanks[own].source is None:
            return ""
        found = border(self.state, self.state.body_of(own), self.run)
        return self.length(found.mm) if found is not None else ""

    def boards(self, own: str) -> Values:
        """Of boards that are put onto their cover: how far from its edges, and from one another."""
        mine = self.state.blanks[own].name if own else ""
        wraps = [blank.wrap for blank in self.state.blanks.values() if blank.wrap is not None]
        wrap = next((wrap for wrap in wraps if any(place.board == mine for place in wrap.boards)), None)
        if wrap is None:
            return {"rim": "", "apart": ""}
        gaps = {round(float(b.left - a.left - a.width), 3) for a, b in pairwise(wrap.boards)}
        return {"rim": self.length(float(wrap.turn_in)), "apart": self.length(gaps.pop()) if len(gaps) == 1 else ""}

    def cut_to(self, glue: GlueArea) -> str:
        """What an adhesive sheet is cut to; empty for a strip."""
        if glue.width:
            return ""
        wide, high = (max(axis) - min(axis) for axis in zip(*glue.polygon, strict=True))
        return f"**{pair_in_words(wide, high, self.parts.worked.ruler, UP)}**"

    def turn_in(self) -> Values:
        areas = new_glue(self.run)
        material = areas[0].material if areas else ""
        boards = list(dict.fromkeys(area.onto for area in areas if area.onto[0] not in self.run.parts))
        return {
            "what": self.listed([self.piece(part) for part in self.run.parts]),
            "adhesive": self.adhesive(material),
            "boards": self.listed([self.panel(key) for key in boards]),
        }

    def adhesive(self, material: str) -> str:
        """By its name where the assembly first uses it; then, if it is the only one of its kind, by that: `glue`."""
        materials = self.parts.worked.design.materials
        facts = next((m for m in materials if m.name == material), None)
        used = any(area.material == material and not brought_in(area) for area in self.run.before.glue)
        if used and facts is not None and sum(each.kind == facts.kind for each in materials) == 1:
            return self.word(facts.kind)
        return literal(str(facts.called) if facts is not None and facts.called is not None else material)

    def pile(self, onto: list[PanelKey]) -> int:
        """How many equal pieces lie on one another after the step, where it only piles them; else 0."""
        names = {self.state.blanks[part].name for part in (*self.run.parts, *(key[0] for key in onto))}
        return len({*self.run.parts, *(key[0] for key in onto)}) if len(names) == 1 and not self.run.panels else 0

    def up_side(self, part: str) -> str:
        """Which side of a piece that is laid on is up where it is glued, where its sides differ."""
        body = self.state.body_of(part)
        key = next((key for key in self.run.panels if key[0] == part), None) or widest_panel(self.state, part)
        front = faces_maker(front_normal(self.state.placed[key]), body)
        return side_words(self.parts.paper(self.state.blanks[part]), "front" if front else "back", self.word)

    def sides_told(self, part: str) -> list[str]:
        """Width and height, as it is placed, of a nearly square piece that neither a print nor a place of its own shows the way up."""
        blank = self.state.blanks[part]
        paper = self.parts.paper(blank)
        if "/" in part or len(blank.panels) != 1 or paper is None or blank.source is not None or {paper.front, paper.back} & DIRECTED:
            return []
        short, long = sorted((float(blank.width), float(blank.height)))
        if not short + LIKE_SQUARE[0] < long < short * LIKE_SQUARE[1]:
            return []
        view, placed = self.state.body_of(part).view, self.state.placed[part, blank.panels[0].name]
        spots = [rotate(view, apply(placed, (x, y, 0.0))) for x, y in blank.panels[0].polygon]
        sizes = [size for axis in zip(*spots, strict=True) if (size := max(axis) - min(axis)) > LEVEL]
        if sorted(round(size, 2) for size in sizes) != [round(short, 2), round(long, 2)]:
            return []
        told = [self.length(size) for size in sizes]
        return told if told[0] != told[1] else []

    def front_of(self, part: str) -> str:
        return side_words(self.parts.paper(self.state.blanks[part]), "front", self.word)

    def open_sides(self, pocket: str) -> str:
        made = self.run.after.pockets.get(pocket)
        return self.listed([self.word(side) for side in open_as_seen(self.run.after, made)]) if made is not None else ""

    def meets(self, action: design.Join) -> str:
        """Where the part goes, in words: `its right edge 3/8 in in from the right edge`."""
        if action.meet is None:
            return ""
        words = []
        for mine, theirs in action.meet.pairs:
            own = self.line(str(mine.line), True)
            other = self.line(str(theirs.line), False)
            gap = self.gap(mine, theirs)
            way = self.word("beyond" if outwards(theirs.by or mine.by) else "from")
            words.append(f"{own} {gap + ' ' + way if gap else self.word('on')} {other}")
        return self.listed(words)

    def line(self, text: str, own: bool) -> str:
        side = text.split(" of ")[0]
        if side in ("head", "tail", "left", "right"):
            name = f"{self.word(self.side(side))} {self.word('edge')}"
            return f"{self.word('its' if own else 'the')} {name}"
        if text.startswith("middle of "):
            return f"{self.word('the middle of the')} *{literal(text.removeprefix('middle of ').split(' of ')[0])}*"
        pair = [self.parts.panel_name(name) for name in side.split("/")]
        return f"{self.word('the score between')} *{literal(pair[0])}* {self.word('and')} *{literal(pair[-1])}*"

    def gap(self, mine: design.MeetLine, theirs: design.MeetLine) -> str:
        text = theirs.by or mine.by
        if text is None:
            return ""
        value = next((m.values[0] for m in self.parts.worked.measures if m.name == str(text).removeprefix("-")), None)
        return self.length(float(value)) if value is not None else f"**{literal(str(text))}**"

    def insert(self) -> Values:
        fit = self.run.after.fits[-1] if len(self.run.after.fits) > len(self.run.before.fits) else None
        made = self.run.after.pockets.get(fit.pocket) if fit is not None else None
        behind = made is not None and goes_behind(self.run)
        return {
            "what": self.piece(self.run.parts[0]),
            "pocket": pocket_words(self.word, fit.pocket) if fit is not None else "",
            "behind": self.panel(made.back) if made is not None and behind else "",
            "between": self.listed([self.panel(key) for key in self.faces()]) if fit is not None and fit.room_depth is not None else "",
            "adhesive": self.adhesive(new_glue(self.run)[0].material) if new_glue(self.run) else "",
        }

    def faces(self) -> list[PanelKey]:
        """The two faces that an insert goes between."""
        action = self.run.written.action
        assert isinstance(action, design.Insert)
        return [panels_named(self.state, str(ref))[0] for ref in action.landing.refs]

    def tie(self) -> Values:
        closure = self.run.after.closures[-1] if self.run.after.closures else None
        if closure is None:
            none = ("material", "length", "ends", "at", "band", "lap", "outside", "adhesive", "edge", "across")
            return {**dict.fromkeys(none, ""), "holes": []}
        whole = mark_in_words(closure.girth + closure.extra, ribbon_ruler(self.parts.worked.system), UP).text
        return {
            "material": self.material(closure.material),
            "length": f"**{whole}**",
            "ends": self.length(closure.extra / 2),
            "at": self.length(closure.at - (closure.wide / 2 if closure.band else 0.0)),
            "edge": self.word("head" if closure.across == "width" else "left"),
            "across": closure.across == "width",
            "band": self.piece(closure.band) if closure.band else "",
            "lap": self.length(closure.extra) if closure.band and closure.extra else "",
            "outside": self.front_of(closure.band) if closure.band else "",
            "adhesive": self.lap_glue(),
            "holes": [self.word("down" if k % 2 == 0 else "up") for k, _ in enumerate(closure.path)],
        }

    def sew(self) -> Values:
        if len(self.run.after.sewings) == len(self.run.before.sewings):
            return {"way": [], "places": "", "holes": 0, "length": "", "material": "", "begins": "", "ends": ""}
        sewing = self.run.after.sewings[-1]
        going = ("out", "in") if sewing.begins == "inside" else ("in", "out")
        whole = mark_in_words(sewing.length, ribbon_ruler(self.parts.worked.system), UP).text
        return {
            "holes": len(sewing.stations),
            "places": self.listed([self.length(at) for at in sewing.stations]),
            "length": f"**{whole}**",
            "material": self.material(sewing.material),
            "begins": self.word(sewing.begins),
            "way": [{"through": self.word(going[k % 2]), "hole": hole} for k, hole in enumerate(sewing.order)],
            "ends": self.length(sewing.ends),
        }

    def lap_glue(self) -> str:
        """What the lap of a band is stuck with in this step; empty where it is not."""
        areas = new_glue(self.run)
        return self.material(areas[0].material) if areas else ""

    def material(self, name: str) -> str:
        """What a material is called."""
        written = next((m for m in self.parts.worked.design.materials if m.name == name), None)
        return literal(str(written.called) if written is not None and written.called is not None else name)

    def trimmed_off(self) -> str:
        """The most that comes off a leaf at its fore edge: `just under 1/32 in`; empty where nothing was trimmed."""
        if len(self.run.after.trims) == len(self.run.before.trims):
            return ""
        return length_in_words(max(off for _, off in self.run.after.trims[-1].leaves), self.parts.worked.system)

    def make(self) -> Values:
        action = self.run.written.action
        assert isinstance(action, design.Make)
        radii = {float(r) for part in self.run.parts for r in (self.state.blanks[part].corner_radius or {}).values()}
        return {
            "template": literal(str(action.with_ or "")),
            "off": self.trimmed_off() if action.at is not None else "",
            "radius": self.listed([self.length(r) for r in sorted(radii)]),
            "what": self.listed([f"*{literal(str(text))}*" for text in action.parts]),
            "corners": self.trimmed_corners(),
            "turned": self.listed([self.piece(part) for part in self.run.parts if self.parts.is_mirror_image(part)]),
        }

    def trimmed_corners(self) -> str:
        """The corners that reusable templates shape, as the pieces lie: `the top left corner`; where pieces differ in them with the
        pieces, `the top left corner of **A1** and the top right corner of **B1**`.
        """
        found: dict[tuple[str, ...], list[str]] = {}
        for part in self.run.parts:
            cut = [each.what.partition(" ") for each in self.state.blanks[part].cutouts]
            corners = dict.fromkeys(corner_as_it_lies(self.state, part, corner) for corner, _, kind in cut if kind == "corner")
            if corners:
                found.setdefault(tuple(corners), []).append(part)
        told = {
            f"{self.word('the')} " + self.listed([f"{self.word(corner)} {self.word('corner')}" for corner in corners]): parts
            for corners, parts in found.items()
        }
        if len(told) < 2:
            return "".join(told)
        owners = {text: self.listed([self.by_letter(part) for part in parts]) for text, parts in told.items()}
        return self.listed([f"{text} {self.word('of')} {owner}" for text, owner in owners.items()])

    def by_letter(self, part: str) -> str:
        letter = self.parts.letter(part)
        return f"**{letter}**" if letter else self.piece(part)


def outwards(by: design.Text | None) -> bool:
    """Whether a line is moved out beyond the one it is measured from."""
    return by is not None and str(by).startswith("-")


def ribbon_ruler(system: str) -> Ruler:
    """A ribbon is cut to the next half inch or centimetre."""
    return Ruler(system, MM_PER_INCH / 2 if system == "in" else Fraction(10))


def parts_panels(state: State, part: str) -> list[PanelKey]:
    return [(part, panel.name) for panel in state.blanks[part].panels]


def brought_in(area: GlueArea) -> bool:
    """It was glued in an assembly that is now a part of this one."""
    whole, inner, _ = area.panel[0].partition("/")
    return bool(inner) and area.onto[0].startswith(f"{whole}/")


def widest_panel(state: State, part: str) -> PanelKey:
    """The panel whose side is meant when one speaks of the piece's side."""
    return part, max(state.blanks[part].panels, key=lambda panel: round(panel.area, 1)).name


def corner_as_it_lies(state: State, part: str, corner: str) -> str:
    """A corner of a flat piece by the compass word of where the maker sees it."""
    blank, body = state.blanks[part], state.body_of(part)
    placed = state.placed[part, blank.panels[0].name]
    wide, high = float(blank.width), float(blank.height)
    own = (0.0 if "left" in corner else wide, 0.0 if "head" in corner else high)
    (x, y), (mx, my) = (rotate(body.view, apply(placed, (*spot, 0.0)))[:2] for spot in (own, (wide / 2, high / 2)))
    return f"{'head' if y < my else 'tail'}-{'left' if x < mx else 'right'}"


def is_number(text: str) -> bool:
    return text.lstrip("-").replace(".", "", 1).isdigit()


def _was_folded(run: StepRun, ear: PanelKey) -> bool:
    before = run.before.curved.get(ear)
    return before is not None and before.ear is not None
