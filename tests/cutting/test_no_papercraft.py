"""The planner can be used alone: of its folder only `kit_demand.py` knows anything of papercraft."""

import ast
from pathlib import Path

FOLDER = Path(__file__).parents[2] / "generator" / "creasewright" / "cutting"


def test_the_planner_imports_nothing_from_outside_its_folder():
    outside = {}
    for path in sorted(FOLDER.rglob("*.py")):
        nodes = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        modules = {node.module for node in nodes if isinstance(node, ast.ImportFrom) and node.module}
        found = {module for module in modules if module.startswith("creasewright.") and not module.startswith("creasewright.cutting.")}
        if found:
            outside[path.name] = found
    assert set(outside) == {"kit_demand.py"}


def test_the_example_of_the_entrance_says_what_comes_out():
    text = (FOLDER / "plan_rectangles.py").read_text(encoding="utf-8")
    lines = [line.strip() for line in text.split('"""')[1].splitlines() if line.startswith("    ")]
    scope: dict[str, object] = {}
    exec("\n".join(lines[:3]), scope)
    plan = scope["plan"]
    assert lines[3].split("#")[1].strip() == f"{plan.sheet_count}, {plan.lower_bound}, {plan.proved}"
