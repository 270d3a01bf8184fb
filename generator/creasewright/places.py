"""Where the designs and layouts that come with the program are: in the installed package, or in the source tree."""

from pathlib import Path

from creasewright.nearest_name import did_you_mean
from creasewright.problems import NOWHERE, Problem, ProblemsFound

PACKAGE = Path(__file__).resolve().parent
SOURCE_TREE = PACKAGE.parent.parent


def shipped(folder: str) -> Path:
    """`designs` or `layouts`."""
    installed = PACKAGE / "shipped" / folder
    return installed if installed.is_dir() else SOURCE_TREE / folder


def built_in_designs() -> dict[str, Path]:
    return {path.stem: path for path in sorted(shipped("designs").glob("*.yaml"))}


def design_file(name: str) -> Path:
    """A built-in design's name, or a path. Raises ProblemsFound."""
    built_in = built_in_designs()
    if name in built_in:
        return built_in[name]
    path = Path(name)
    if path.suffix in (".yaml", ".yml") or path.exists():
        return path
    hint = did_you_mean(name, list(built_in)) or "`creasewright list` names the built-in designs"
    raise ProblemsFound([Problem(NOWHERE, f"`{name}` is neither a built-in design nor a file", hint)])
