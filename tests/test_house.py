"""How the house is built: what is where, who imports what, how big things get, what is public."""

from __future__ import annotations

import ast
import graphlib
import importlib
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
CODE = sorted((ROOT / "seqviz").rglob("*.py"))
ALL = CODE + sorted((ROOT / "tests").rglob("*.py"))

MOST_LINES, MOST_LINES_OF_FUNCTION, MOST_ARGUMENTS = 400, 50, 6
INSIDE_FUNCTIONS_ONLY = {"networkx", "rich", "jinja2", "trimesh", "mapbox_earcut"}
NAMES_THAT_SAY_NOTHING = {"utils", "util", "common", "base", "helpers", "helper", "manager"}

Function = ast.FunctionDef | ast.AsyncFunctionDef


def named(path: Path) -> str:
    return str(path.relative_to(ROOT))


def module_of(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def assigned(tree: ast.Module) -> set[str]:
    """Return the names that the module itself assigns."""
    targets = [target for node in tree.body if isinstance(node, ast.Assign) for target in node.targets]
    return {target.id for target in targets if isinstance(target, ast.Name)}


def functions(path: Path) -> list[Function]:
    return [node for node in ast.walk(tree_of(path)) if isinstance(node, Function)]


def lines_without_docstring(function: Function) -> int:
    own = (function.end_lineno or function.lineno) - function.lineno + 1
    first = function.body[0]
    if ast.get_docstring(function) is None:
        return own
    return own - ((first.end_lineno or first.lineno) - first.lineno + 1)


def imported_on_top(tree: ast.Module) -> set[str]:
    """Return the packages imported outside functions."""
    found: set[str] = set()
    for node in tree.body:
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
    return {name.split(".")[0] for name in found}


def needed(tree: ast.Module, modules: set[str]) -> set[str]:
    """Return which of ``modules`` the tree imports; ``from package import module`` needs only the module."""
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            full = {f"{node.module}.{alias.name}" for alias in node.names}
            found |= full & modules
            found |= {node.module} if full - modules else set()
    return found & modules


def test_the_top_level_holds_only_what_belongs_there() -> None:
    done = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.skip("not a checkout")
    tops = {name.split("/")[0] for name in done.stdout.splitlines()}
    assert {top for top in tops if not top.startswith(".")} == {
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "pyproject.toml",
        "seqviz",
        "models",
        "sequences",
        "tests",
        "docs",
    }


def test_files_stay_small() -> None:
    lines = {named(path): len(path.read_text(encoding="utf-8").splitlines()) for path in ALL}
    assert {name: number for name, number in lines.items() if number > MOST_LINES} == {}


def test_functions_stay_small_and_take_few_arguments() -> None:
    breaches = []
    for path in ALL:
        for function in functions(path):
            given = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
            arguments = [argument for argument in given if argument.arg not in {"self", "cls"}]
            many = len(arguments) > MOST_ARGUMENTS and path in CODE
            if many or lines_without_docstring(function) > MOST_LINES_OF_FUNCTION:
                breaches.append(f"{named(path)}: {function.name}")
    assert breaches == []


def test_heavy_libraries_are_imported_inside_functions() -> None:
    tops = {named(path): imported_on_top(tree_of(path)) for path in CODE}
    assert {name for name, found in tops.items() if found & INSIDE_FUNCTIONS_ONLY} == set()


def test_no_module_has_a_name_that_says_nothing() -> None:
    assert [named(path) for path in ALL if path.stem in NAMES_THAT_SAY_NOTHING] == []


def test_no_import_goes_in_a_circle() -> None:
    modules = {module_of(path): path for path in CODE}
    graph = {name: needed(tree_of(path), set(modules)) - {name} for name, path in modules.items()}
    graphlib.TopologicalSorter(graph).prepare()  # raises CycleError with the circle in it


def test_every_module_says_what_is_public() -> None:
    modules = [path for path in CODE if path.stem != "__main__" and len(tree_of(path).body) > 1]
    assert [named(path) for path in modules if "__all__" not in assigned(tree_of(path))] == []


def test_what_a_module_calls_public_is_there() -> None:
    missing = []
    for path in CODE:
        # What render imports needs graphics libraries to be loaded.
        if "render" not in path.parts and path.stem != "__main__":
            module = importlib.import_module(module_of(path))
            names = getattr(module, "__all__", [])
            missing += [f"{module.__name__}.{name}" for name in names if not hasattr(module, name)]
    assert missing == []


def test_what_is_public_is_explained() -> None:
    silent = []
    for path in CODE:
        tree = tree_of(path)
        silent += [] if ast.get_docstring(tree) else [named(path)]
        for node in tree.body:
            if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
                silent += [] if ast.get_docstring(node) else [f"{named(path)}: {node.name}"]
    assert silent == []


def test_every_folder_of_tests_is_a_package_and_mirrors_the_code() -> None:
    for folder in {path.parent for path in ALL if "tests" in path.relative_to(ROOT).parts[:1]}:
        assert (folder / "__init__.py").exists(), named(folder)
    layers = {path.name for path in (ROOT / "seqviz").iterdir() if (path / "__init__.py").exists()}
    tested = {path.name for path in (ROOT / "tests").iterdir() if (path / "__init__.py").exists()}
    assert layers <= tested


@pytest.mark.parametrize("page", [*ROOT.glob("*.md"), *sorted((ROOT / "docs").rglob("*.md"))], ids=named)
def test_links_between_pages_lead_somewhere(page: Path) -> None:
    prose = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)
    for target in re.findall(r"\]\(([^)#]+)[^)]*\)", prose):
        if not target.startswith("http"):
            assert (page.parent / target).exists(), target


def test_every_dependency_has_a_reason_and_a_licence() -> None:
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    listed = re.search(r"^dependencies = \[(.*?)^\]", text, flags=re.DOTALL | re.MULTILINE)
    assert listed is not None
    names = re.findall(r'"([A-Za-z][A-Za-z0-9-]*)', listed[1])
    assert len(names) == 12
    for page in ("decisions.md", "third-party.md"):
        written = (ROOT / "docs" / page).read_text(encoding="utf-8").lower()
        assert [name for name in names if name not in written] == []
