"""The folders stand in one order, and every outside library has its own door."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "generator" / "creasewright"
FREE = ("problems", "nearest_name", "exit_codes", "units", "geometry")
ORDER = (
    "problems", "nearest_name", "exit_codes", "units", "geometry", "reading", "measures", "blanks", "folding", "joining",
    "fitting", "hands", "scoring", "cutting", "checks", "booklet", "pages", "pdf", "cutfiles", "readback",
)  # fmt: skip
"""Whatever else there is (the workshop, the run, the commands) sees all of these, and none of these sees it."""
OF_READING = {
    "creasewright.reading.design": ORDER[ORDER.index("measures") : ORDER.index("pages") + 1],
    "creasewright.reading.page_layout": ("booklet", "pages"),
    "creasewright.reading.settings": ("booklet", "pages"),
}
DOORS = {
    "yaml": ("reading/yaml_nodes.py", "reading/node_builder.py"),
    "pyclipper": ("geometry/clip.py", "geometry/offset.py"),
    "pypdfium2": ("readback/raster.py",),
    "reportlab": ("pdf/",),
    "jinja2": ("booklet/texts.py", "booklet/text_tree.py"),
    "fontpkg_lato": ("pdf/",),
    "highspy": ("cutting/search/master.py",),
    "numpy": ("cutting/search/master.py", "cutting/search/pricing.py"),
    "ezdxf": ("cutfiles/write_dxf.py",),
    "PIL": ("photograph.py",),
}
LATE = ("highspy", "numpy", "pypdfium2", "PIL")
"""Loaded inside a function, when a plan, a proof or a photograph needs them: start-up time is a promise of the command line."""
NEVER = ("shapely", "networkx", "pikepdf", "pypdf", "pdfplumber")
FILES = sorted(PACKAGE.rglob("*.py"))


def name_of(path: Path) -> str:
    return str(path.relative_to(PACKAGE))


def folder_of(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def rank(folder: str) -> int:
    return ORDER.index(folder) if folder in ORDER else len(ORDER)


def imports(path: Path) -> Iterator[tuple[str, bool]]:
    """(module, at the top of the file) of every import, inside functions too."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    at_top = set(map(id, tree.body))
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, id(node) in at_top) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0 and node.module is not None, f"{name_of(path)} has a relative import"
            for alias in node.names:
                within = PACKAGE.parent / node.module.replace(".", "/") / f"{alias.name}.py"
                yield (f"{node.module}.{alias.name}" if within.exists() else node.module), id(node) in at_top


def test_the_walk_sees_the_package():
    assert len(FILES) > 100
    assert any(module == "creasewright.problems" for path in FILES for module, _ in imports(path))
    assert set(ORDER) <= {folder_of(path) for path in FILES}


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_a_file_imports_only_from_its_own_folder_and_earlier_ones(path: Path):
    here = folder_of(path)
    for module, _ in imports(path):
        if not module.startswith("creasewright."):
            continue
        there = module.split(".")[1]
        assert there in FREE or rank(there) <= rank(here), f"{name_of(path)} imports {module}"
        if there == "reading" and here in OF_READING["creasewright.reading.design"]:
            assert here in OF_READING.get(module, ()), f"{name_of(path)} imports {module}"


def test_every_outside_library_has_one_door():
    for path in FILES:
        for module, _ in imports(path):
            library = module.split(".")[0]
            assert library not in NEVER, f"{name_of(path)} imports {library}"
            for door in DOORS.get(library, (name_of(path),)):
                if name_of(path).startswith(door):
                    break
            else:
                raise AssertionError(f"{name_of(path)} imports {library}")


def test_libraries_that_are_slow_to_load_are_loaded_late():
    at_start = [(name_of(path), module) for path in FILES for module, at_top in imports(path) if at_top and module.split(".")[0] in LATE]
    assert at_start == []


def test_nothing_of_our_own_is_imported_inside_a_function():
    lower = [(name_of(path), module) for path in FILES for module, at_top in imports(path) if not at_top]
    inside = [pair for pair in lower if pair[1].startswith("creasewright")]
    assert inside == []


def test_no_import_is_for_the_type_checker_alone():
    assert [name_of(path) for path in FILES if "TYPE_CHECKING" in path.read_text(encoding="utf-8")] == []


def test_every_init_holds_one_docstring_and_nothing_else():
    for path in FILES:
        if path.name == "__init__.py":
            body = ast.parse(path.read_text(encoding="utf-8")).body
            assert [type(node) for node in body] == [ast.Expr], name_of(path)
            assert isinstance(body[0], ast.Expr) and isinstance(body[0].value, ast.Constant), name_of(path)


def test_no_file_hands_on_what_it_imports():
    assert [name_of(path) for path in FILES if "__all__" in path.read_text(encoding="utf-8")] == []
