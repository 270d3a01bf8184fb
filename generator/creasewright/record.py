"""The record: everything another program needs to check a pack. Plain data in mm; its format is told in DEVELOPERS.md."""

from typing import Any

from msgspec import Struct
from msgspec.structs import asdict

from creasewright.blanks.blank import Blank
from creasewright.booklet.piece_marks import marked_parts
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.tile_templates import Tile
from creasewright.cutting.kit_demand import turn_as_placed
from creasewright.cutting.plan import PaperPlan, SheetPlan
from creasewright.fitting.adhesives import joints_of, waiting
from creasewright.fitting.bulk import Bulk, Thick
from creasewright.fitting.gates import Gate, gates_of
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.worked import StageFacts, Worked
from creasewright.folding.closing_error import closing
from creasewright.folding.curved import Curved
from creasewright.folding.heights import heights
from creasewright.folding.state import Body, PanelKey, Sewing, State
from creasewright.geometry.outline import Arc, Edge, Outline
from creasewright.geometry.point import Point
from creasewright.hands.clearance import Clearance
from creasewright.hands.error_table import HandErrors
from creasewright.hands.every_clearance import every_clearance
from creasewright.hands.gate_leeway import gate_leeway
from creasewright.hands.outcome import failing_share, room_wanted
from creasewright.joining.bulk_map import BulkMap, bulk_map
from creasewright.problems import Finding
from creasewright.scoring.lies import Pass
from creasewright.scoring.matches import Match
from creasewright.scoring.members import Member, scored_members
from creasewright.scoring.on_board import passes_on_board
from creasewright.scoring.score_board import Board
from creasewright.scoring.stop_edges import edge_at_stop
from creasewright.units.printer import Printer

VERSION = 1


def number(value: Any) -> Any:
    """A length or an angle to a millionth; whole numbers as such."""
    if not isinstance(value, float):
        if value is None or isinstance(value, (int, str)):
            return value
        if isinstance(value, (tuple, list)):
            return [number(one) for one in value]
    rounded = round(float(value), 6) + 0.0
    return int(rounded) if rounded.is_integer() else rounded


def spot(point: Point | tuple[float, float]) -> list[Any]:
    return [number(point[0]), number(point[1])]


def edge(one: Edge) -> dict[str, Any]:
    found: dict[str, Any] = {"start": spot(one.start), "end": spot(one.end)}
    if isinstance(one, Arc):
        found |= {"centre": spot(one.centre), "clockwise": one.clockwise}
    return found


def outline(one: Outline) -> list[dict[str, Any]]:
    return [edge(e) for e in one.edges]


def blank(one: Blank) -> dict[str, Any]:
    return {
        "name": one.name,
        "paper": one.paper,
        "width": number(one.width),
        "height": number(one.height),
        "outline": outline(one.outline),
        "scores": [{"name": s.name, **edge(s.edge)} for s in one.scores],
        "slits": [{"name": s.name, "start": spot(s.start), "end": spot(s.end)} for s in one.slits],
        "holes": [{"name": h.name, "centre": spot(h.centre), "across": number(h.across)} for h in one.holes],
        "panels": [{"name": p.name, "outline": outline(p.outline), "area": number(p.area)} for p in one.panels],
        "score pieces": [
            {"name": p.name, "score": p.score, **edge(p.edge), "between": [p.first, p.second]}
            for p in one.pieces
        ],
        "mirror of": one.mirror_of,
        "boards": [
            {"board": p.board, "panel": p.panel, "place": [number(v) for v in (p.left, p.head, p.width, p.height)]}
            for p in (one.wrap.boards if one.wrap is not None else ())
        ],
    }


def state(one: State) -> dict[str, Any]:
    shut = closing(one)
    return {
        "panels": [
            {"part": part, "panel": panel, "turn": [number(v) for v in placed.turn], "shift": [number(v) for v in placed.shift]}
            for (part, panel), placed in one.placed.items()
        ],
        "angles": [
            {"part": part, "score piece": piece.name, "degrees": number(one.angles.get((part, piece.name), 0.0))}
            for part, b in one.blanks.items()
            for piece in b.pieces
        ],
        "curved": [curved_panel(key, curved) for key, curved in one.curved.items()],
        "bodies": [body(one, b) for b in one.bodies],
        "loops": {"count": shut.loops, "mm": number(shut.mm), "degrees": number(shut.degrees)},
    }


def curved_panel(key: PanelKey, one: Curved) -> dict[str, Any]:
    ear = one.ear
    return {
        "part": key[0],
        "panel": key[1],
        "chord": number(one.arch.chord),
        "rise": number(one.arch.rise),
        "width": number(one.arch.width),
        "start": [number(v) for v in one.start],
        "along": [number(v) for v in one.along],
        "up": number(one.up),
        "ear": {"chord at": number(ear.chord_at), "bows": number(ear.bows), "over": number(ear.over)} if ear is not None else None,
    }


def body(one: State, which: Body) -> dict[str, Any]:
    return {
        "parts": sorted(which.parts),
        "view": [number(v) for v in which.view],
        "stacks": [
            {
                "normal": [number(v) for v in stack.normal],
                "low to high": [
                    {"part": key[0], "panel": key[1], "from": number(level[key][0]), "to": number(level[key][1])}
                    for key in stack.order
                ],
            }
            for stack in which.stacks
            for level in [heights(one, which, stack)]
        ],
    }


def stage(one: StageFacts) -> dict[str, Any]:
    return {
        "name": one.name,
        "width": number(one.size[0]),
        "height": number(one.size[1]),
        "thickness": number(one.size[2]),
        "state": state(one.state),
        "faces": [
            {
                "part": face.panel[0], "panel": face.panel[1], "side": face.side, "looks": face.looks,
                "area": number(face.area), "print": face.print, "turn": face.turn,
            }
            for face in one.faces
        ],
    }  # fmt: skip


def gate(worked: Worked, one: Gate, errors: HandErrors) -> dict[str, Any]:
    return {
        "assembly": one.assembly,
        "step": one.number,
        "kind": one.kind,
        "again": one.again,
        "stage": one.stage,
        "measure": {
            "part": one.measure.part, "panel": one.measure.panel, "way": one.measure.way, "border": list(one.measure.sides),
            "mm": number(one.measure.mm),
        },
        "give or take": number(gate_leeway(worked, one, errors)),
        "pocket": one.pocket,
        "mistakes": [
            {
                "kind": s.mistake.kind, "part": s.mistake.part, "also": list(s.also), "score": s.mistake.score,
                "half turn after": s.turns, "other side": s.over, "mm": number(s.mm), "after step": s.at, "glued in": list(s.done.glued),
                "told by": {
                    "fact": s.tell.kind, "part": s.tell.part, "panel": s.tell.panel, "right": s.tell.right, "wrong": s.tell.wrong,
                    "side": s.tell.side, "looks": s.tell.looks, "lies": s.tell.lies, "should lie": s.tell.lay, "way": s.tell.way,
                    "mm": [number(mm) for mm in s.tell.mm],
                },
            }
            for s in one.symptoms
        ],
        "stopped": [
            {"kind": mistake.kind, "part": mistake.part, "score": mistake.score, "at step": step} for mistake, step in one.stops
        ],
    }  # fmt: skip


def bulk(one: Bulk) -> dict[str, Any]:
    return {"greatest": thick(one.greatest), "at spine": thick(one.at_spine), "at fore edge": thick(one.at_fore_edge)}


def thick(one: Thick) -> dict[str, Any]:
    return {"thick": number(one.mm), "layers": [list(key) for key in one.layers]}


def thickness_map(one: BulkMap) -> dict[str, Any]:
    return {
        "layers": [
            {"part": layer.key[0], "panel": layer.key[1], "thick": number(layer.thick), "insert": layer.inserted}
            for layer in one.layers
        ],
        "cells": [
            {
                "thick": number(one.thick(cell)), "area": number(cell.area), "layers": cell.numbers(),
                "outlines": [[spot(corner) for corner in polygon] for polygon in cell.polygons()],
            }
            for cell in one.cells
        ],
    }  # fmt: skip


def sewing(one: Sewing) -> dict[str, Any]:
    return {
        "part": one.line[0],
        "score": one.line[1],
        "stations": [number(at) for at in one.stations],
        "order": list(one.order),
        "begins": one.begins,
        "material": one.material,
        "way": number(one.way),
        "ends": number(one.ends),
        "holes": [{"part": part, "at": [number(v) for v in spot]} for part, spot in one.pricks],
        "step": one.step,
    }


def plan(one: PaperPlan, worked: Worked) -> dict[str, Any]:
    return {
        "paper": one.paper,
        "sheets": number(one.sheet_count),
        "least": number(one.lower_bound),
        "proved": one.proved,
        "price": number(one.price),
        "least price": number(one.least_price),
        "settings": one.settings,
        "missing": {lacking.key: lacking.count for lacking in one.not_laid},
        "patterns": [sheet(s, worked) for s in one.sheets],
    }


def sheet(one: SheetPlan, worked: Worked) -> dict[str, Any]:
    pieces = {piece.letter: piece for piece in worked.pieces}
    paper = worked.papers[one.stock.paper]
    return {
        "times": one.count,
        "sheet": [number(one.stock.width), number(one.stock.height)],
        "lost": [number(v) for v in one.stock.usable],
        "placements": [
            {
                "piece": p.key, "x": number(p.x), "y": number(p.y), "width": number(p.width), "height": number(p.height),
                "turn": turn_as_placed(pieces[p.key], paper, p),
            }
            for p in one.placements
        ],
        "cuts": [
            {
                "number": c.number, "direction": c.direction, "at": number(c.position), "in": [number(v) for v in c.piece_rect],
                "from": c.from_edge, "setting": number(c.setting),
            }
            for c in one.cuts
        ],
        "offcuts": [[number(o.x), number(o.y), number(o.width), number(o.height)] for o in one.offcuts],
    }  # fmt: skip


def tile(one: Tile) -> dict[str, Any]:
    return {
        "template": one.template,
        "page": one.name,
        "row": one.row,
        "column": one.column,
        "points to mm": [number(v) for v in one.to_blank.floats()],
        "window": [number(v) for v in one.window],
    }


def printer(one: Printer | None) -> dict[str, Any] | None:
    if one is None:
        return None
    return {
        "name": one.name, "scale": [number(s) for s in one.scale], "margins": [number(m) for m in one.margins],
        "back": [number(off) for off in one.back],
    }  # fmt: skip


def template(one: Template) -> dict[str, Any]:
    return {
        "key": one.key,
        "letters": list(one.letters),
        "mirrored": one.mirrored,
        "outline": outline(one.outline),
        "scores": [{"name": s.name, **edge(s.edge)} for s in one.scores],
    }


def finding(one: Finding) -> dict[str, Any]:
    return {"severity": one.severity, "check": one.check, "where": str(one.where), "what": one.what, "hint": one.hint}


def clearance(one: Clearance, errors: HandErrors) -> dict[str, Any]:
    error = one.error(errors)
    return {
        "kind": one.kind, "what": one.what, "way": one.way, "part": one.part, "step": one.step, "times": one.times,
        "room": number(one.room.value), "error": number(error), "failing": number(failing_share(one.room.value, error)),
        "wanted": number(room_wanted(error)), "worse": one.worse,
        "causes": [
            {"operation": cause.operation, "part": cause.part, "line": cause.line, "slope": number(slope)}
            for cause, slope in sorted(one.room.slopes.items())
        ],
    }  # fmt: skip


def set_up(member: Member, each: Pass) -> dict[str, Any]:
    return {
        "mark": member.mark, "parts": list(member.parts), "runs": each.run, "up": each.lie.up, "pass": each.number, "passes": each.of,
        "set-up": each.set_up, "set-ups": each.set_ups, "stop": each.stop, "edge": edge_at_stop(each) if each.measured else None,
        "spacer": number(each.spacer),
        "settings": [
            {"place": number(each.from_stop(one.place)), "groove": None if one.groove is None else number(one.groove)}
            for one in each.settings
        ],
    }  # fmt: skip


def matched(one: Match) -> dict[str, Any]:
    ends = [{"mark": end.mark, "runs": end.run, "place": number(end.place)} for end in (one.own, one.other)]
    return {"own": ends[0], "other": ends[1], "joined": one.joined, "alike from": {None: None, False: "left", True: "right"}[one.turned]}


def record(
    worked: Worked,
    plans: tuple[PaperPlan, ...],
    findings: tuple[Finding, ...],
    templates: tuple[Template, ...],
    tiles: tuple[Tile, ...],
    page: str,
    errors: HandErrors,
    board: Board,
    made_for: Printer | None = None,
) -> dict[str, Any]:
    finished = worked.finished
    return {
        "creasewright record": VERSION,
        "units": "mm",
        "design": worked.design.name,
        "title": str(worked.design.title),
        "system": worked.system,
        "page": page,
        "printer": printer(made_for),
        "makers": worked.makers,
        "measures": [
            {"name": m.name, "values": [number(v) for v in m.values], "kind": ("number", "length")[m.power] if m.power < 2 else "area"}
            for m in worked.measures
        ],
        "papers": [paper(p) for p in worked.papers.values()],
        "blanks": [blank(b) for b in worked.blanks],
        "pieces": [
            {
                "letter": p.letter, "blank": p.blank.name, "mirrored": p.blank.mirror_of == p.blank.name, "mirror": p.mirror,
                "paper": p.blank.paper, "count": p.count * worked.makers, "turn": p.turn,
                "back up": p.back_up, "parts": list(p.parts),
                "marks": {mark: list(parts) for mark, parts in marked_parts(worked, p)},
            }
            for p in worked.pieces
        ],
        "parts": [] if finished is None else [
            {"part": part, "blank": b.name, "shape": blank(b)} for part, b in finished.state.blanks.items() if b.mirror_of == b.name
        ],
        "assemblies": [
            {
                "name": a.name, "assembly": a.assembly, "mirrored": a.mirrored, "times": a.times,
                "steps": [{"number": r.number, "state": state(r.after)} for r in a.runs] if not a.mirrored else [],
            }
            for a in worked.assemblies
        ],
        "gates": [gate(worked, g, errors) for gates in gates_of(worked).values() for g in gates],
        "stages": [stage(s) for s in worked.stages],
        "upright": [
            {
                "part": r.wish.panel[0], "panel": r.wish.panel[1], "stage": r.wish.stage, "side": r.side, "turn": r.turn,
                "upright": r.upright, "outranked by": list(r.outranked_by),
            }
            for r in worked.wishes
        ],
        "finished": None if finished is None else {
            "width": number(finished.size[0]), "height": number(finished.size[1]), "thickness": number(finished.size[2]),
            "thickness when empty": number(finished.empty_thickness), "spine": finished.bulk.spine,
            "bulk filled": bulk(finished.bulk), "bulk empty": bulk(finished.bulk_empty),
            "bulk map": thickness_map(bulk_map(finished.state, finished.body)),
        },
        "pockets": [] if finished is None else [
            {
                "name": p.name, "front": list(p.front), "back": list(p.back), "closed": list(p.closed), "open": list(p.open),
                "room width": number(p.room_width), "room height": number(p.room_height),
            }
            for p in finished.state.pockets.values()
        ],
        "fits": [] if finished is None else [{k: number(v) for k, v in plain(f).items()} for f in finished.state.fits],
        "hand errors": plain(errors),
        "clearances": [clearance(one, errors) for one in every_clearance(worked, errors)],
        "score settings": [
            set_up(member, each) for member in scored_members(worked) for each in passes_on_board(member, board)
        ],
        "matching scores": [matched(one) for member in scored_members(worked) for one in member.matches],
        "glue": [] if finished is None else [
            {
                "panel": list(g.panel), "onto": list(g.onto), "side": g.side, "material": g.material, "length": number(g.length),
                "setback": number(g.setback), "width": number(g.width), "area": [spot(s) for s in g.polygon],
            }
            for g in finished.state.glue
        ],
        "joints": [{k: number(v) for k, v in plain(j).items()} for j in joints_of(worked)],
        "waiting": {k: number(v) for k, v in plain(waiting(worked)).items()},
        "closures": [] if finished is None else [{k: number(v) for k, v in plain(c).items()} for c in finished.state.closures],
        "sewings": [] if finished is None else [sewing(each) for each in finished.state.sewings],
        "trimmed": [
            {"leaves": [{"part": part, "off": number(off)} for part, off in trim.leaves], "step": trim.step}
            for trim in (finished.state.trims if finished is not None else ())
        ],
        "sheet plans": [plan(p, worked) for p in plans],
        "templates": [template(t) for t in templates],
        "tiles": [tile(t) for t in tiles],
        "findings": [finding(f) for f in findings],
        "notes": list(worked.notes),
    }  # fmt: skip


def plain(one: Struct) -> dict[str, Any]:
    return asdict(one)


def paper(one: PaperFacts) -> dict[str, Any]:
    return {
        "name": one.name, "sheet": [number(v) for v in one.sheet], "lost": [number(v) for v in one.lost],
        "caliper": number(one.caliper), "grammage": number(one.grammage), "front": one.front, "back": one.back,
        "runs": one.runs, "back agrees": one.back_agrees, "grain": one.grain,
    }  # fmt: skip
