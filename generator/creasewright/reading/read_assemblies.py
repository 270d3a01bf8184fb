"""Assemblies as written: their parts, steps and stages."""

from creasewright.problems import Where
from creasewright.reading.copy_assembly import Copier
from creasewright.reading.design import Assembly, PartWritten, Text
from creasewright.reading.faults import shown
from creasewright.reading.fields import Fields, fields_of, one_text
from creasewright.reading.names import check_name
from creasewright.reading.nodes import Mapping, Node, Scalar, Sequence
from creasewright.reading.read_steps import read_stages, read_steps

INSIDE = ("parts", "steps", "stages")
MIRRORED = "mirrored "


def read_assemblies(top: Fields, part_names: frozenset[str], other_names: frozenset[str]) -> tuple[Assembly, ...]:
    """All assemblies; the one written at the top level has no name.

    part_names    blanks and things; with the assemblies, what a part can be
    other_names   measures, papers, materials: told apart from part names where an assembly is copied
    """
    mapping = top.mapping("assemblies")
    entries = mapping.entries if mapping else ()
    known = part_names | {name.text for name, _ in entries}
    alone = [key for key in INSIDE if top.has(key)]
    if alone and top.has("assemblies"):
        top.faults.note(top.place(alone[0]), f"`{alone[0]}` stands beside `assemblies`", "move it under a name in `assemblies`")
    written: dict[str, Assembly] = {}
    copies: list[tuple[Assembly, Text, Fields]] = []
    for name, node in entries:
        check_name(name, "assembly", top.faults)
        fields = fields_of(node, f"assembly {shown(name.text)}", top.faults, name.where)
        model = fields.text("same as")
        written[name.text] = assembly = _assembly(name.text, name.where, fields, known)
        if model:
            copies.append((assembly, model, fields))
        else:
            fields.finish({"where": "use it with `same as`"})
    copied = {assembly.name for assembly, _, _ in copies}
    copier = Copier({name: assembly for name, assembly in written.items() if name not in copied}, known | other_names)
    for assembly, model, fields in copies:
        written[assembly.name] = copier.copy(assembly, model, fields)
    if alone or not entries:
        written[""] = _assembly("", top.place(alone[0]) if alone else top.where, top, known)
    return tuple(written.values())


def _assembly(name: str, where: Where, fields: Fields, known: frozenset[str]) -> Assembly:
    if name and not fields.unread and not any(fields.has(key) for key in ("steps", "parts", "same as")):
        fields.missing("steps", "[…]")
    return Assembly(name, where, _parts(fields, known), read_steps(fields), read_stages(fields))


def _parts(fields: Fields, known: frozenset[str]) -> tuple[PartWritten, ...] | None:
    node = fields.node("parts")
    if node is None:
        return None
    if isinstance(node, Mapping):
        return tuple(_named_part(name, what, fields, known) for name, what in node.entries)
    parts = []
    for item in node.items if isinstance(node, Sequence) else (node,):
        text = one_text(item, "parts", fields.faults)
        if text:
            parts.append(PartWritten(text.text, text.where, text, None, False))
    _twice(parts, fields)
    return tuple(parts)


def _twice(parts: list[PartWritten], fields: Fields) -> None:
    seen: set[str] = set()
    for part in parts:
        if part.name in seen:
            fields.faults.note(
                part.where,
                f"{shown(part.name)} is written twice in `parts`",
                f"write it once, with its count: {{{part.name}: 2}}",
            )
        seen.add(part.name)


def _named_part(name: Scalar, node: Node, owner: Fields, known: frozenset[str]) -> PartWritten:
    check_name(name, "part", owner.faults)
    if isinstance(node, Mapping):
        fields = Fields(node, f"part {shown(name.text)}", owner.faults, name.where)
        is_, count = fields.need_text("is", "a blank or an assembly"), fields.text("count")
        fields.finish()
        return _part(name, is_, count)
    what = one_text(node, name.text, owner.faults) or Text(name.text, name.where)
    counts = what.text not in known and not what.text.startswith(MIRRORED) and (name.text in known or _is_number(what.text))
    if counts:
        return PartWritten(name.text, name.where, Text(name.text, name.where), what, False)
    return _part(name, what, None)


def _part(name: Scalar, is_: Text, count: Text | None) -> PartWritten:
    mirrored = is_.text.startswith(MIRRORED)
    what = (
        Text(is_.text[len(MIRRORED) :], Where(is_.where.file, is_.where.line, is_.where.column + len(MIRRORED)))
        if mirrored
        else is_
    )
    return PartWritten(name.text, name.where, what, count, mirrored)


def _is_number(text: str) -> bool:
    return text[:1].isdigit()
