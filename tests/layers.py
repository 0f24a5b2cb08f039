"""Which part of the package may know which: read from the import statements, held by test_layers.py.

Run it to see the problems and nothing else:  python tests/layers.py
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "estimating"
LAYERS = (  # each may import what stands above it in this list, and its own row
    (
        "errors",
        "units",
        "origins",
        "bounds",
        "rules",
        "figures",
        "row_key",
        "printed_ends",
        "evidence",
        "printed",
        "norms",
        "files",
        "terminal",
    ),
    ("trade",),
    ("job", "takeoff"),
    ("estimate",),
    ("learning",),
    ("scopes",),
    ("records",),
    ("workbook",),
    ("review",),
    ("reports",),
    ("leave_one_out", "leave_one_out_report", "evidence_report", "command", "business", "__main__"),
    ("desk",),
)
APART = ("start", "lab")  # they open the workbook, and know nothing of it
ROW = {name: row for row, names in enumerate(LAYERS) for name in names}
MAY_NAME_A_KIND = ("trade",)
MOST_FLOORS = 3  # of folders in scopes: a kind of work, what is shared, what all of them hand over
FILE_MODULES = frozenset({"pathlib", "csv", "json", "io", "os", "shutil", "sqlite3", "tempfile", "tomllib"})


@dataclass(frozen=True)
class Module:
    """One module of the package: its dotted name below the package, its text, and what it imports."""

    name: str
    text: str
    imports: frozenset[str]

    @property
    def part(self) -> str:
        """The top-level module or folder it belongs to."""
        return self.name.split(".")[0]

    @property
    def tree(self) -> ast.Module:
        """The module as Python reads it."""
        return ast.parse(self.text)


def _imported(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (each.name for each in node.names)
    elif isinstance(node, ast.ImportFrom):
        start = "." * node.level + (node.module or "")
        yield from (f"{start}.{each.name}" for each in node.names)


def read_package(folder: Path) -> dict[str, Module]:
    """Return every module of the package in `folder` by its name below it; an empty __init__ is left out."""
    modules = {}
    for path in sorted(folder.rglob("*.py")):
        parts = path.relative_to(folder).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        text = path.read_text(encoding="utf-8")
        imports = frozenset(each for node in ast.walk(ast.parse(text)) for each in _imported(node))
        if name:
            modules[name] = Module(name, text, imports)
    return modules


def inner_imports(module: Module, modules: Mapping[str, Module]) -> set[str]:
    """Return the modules of the package that a module imports, by their names below it."""
    found = set()
    for each in module.imports:
        name = each.removeprefix("estimating.")
        if name == each:
            continue
        while name and name not in modules:
            name = name.rpartition(".")[0]
        found.add(name or each.split(".")[1])
    return found - {module.name}


def direction_problems(modules: Mapping[str, Module]) -> Iterator[str]:
    """Yield a sentence for each import that runs upward, is relative, or belongs to no layer."""
    for module in modules.values():
        if any(each.startswith(".") for each in module.imports):
            yield f"{module.name} imports by dots; write the full name"
        if module.part not in ROW and module.part not in APART:
            yield f"{module.name} has no layer; give it one in tests/layers.py"
        for other in sorted(inner_imports(module, modules)):
            target = other.split(".")[0]
            if target == module.part:
                continue
            if module.part in APART or target in APART:
                yield f"{module.name} imports {other}; what opens the workbook stands apart"
            elif ROW.get(target, 99) > ROW.get(module.part, 99):
                yield f"{module.name} imports {other}, which lies above it"


def loop_problems(modules: Mapping[str, Module]) -> Iterator[str]:
    """Yield a sentence if modules import each other in a ring."""
    try:
        TopologicalSorter({name: inner_imports(module, modules) for name, module in modules.items()}).prepare()
    except CycleError as problem:
        yield f"a ring of imports: {' > '.join(problem.args[1])}"


def outside_problems(modules: Mapping[str, Module]) -> Iterator[str]:
    """Yield a sentence for each outside package in a place where it has no business."""
    for module in modules.values():
        outside = {each.split(".")[0] for each in module.imports if not each.startswith((".", "estimating"))}
        if "ipywidgets" in outside and module.part != "desk":
            yield f"{module.name} imports ipywidgets; only the desk may"
        if module.name == "start":
            for each in sorted(outside - sys.stdlib_module_names):
                yield f"start imports {each}; it runs before anything is installed"
        if module.part == "trade":
            for each in sorted(outside & FILE_MODULES):
                yield f"{module.name} imports {each}; a rule of the trade touches no file"
            if any(isinstance(node, ast.Name) and node.id == "open" for node in ast.walk(module.tree)):
                yield f"{module.name} opens a file; a rule of the trade touches none"


def kinds_of_work(modules: Mapping[str, Module]) -> list[str]:
    """Return the kinds of work there are: the folders in scopes/kinds/."""
    found = {each.group(1) for name in modules if (each := re.match(r"scopes\.kinds\.(\w+)", name))}
    return sorted(found)


def word_problems(modules: Mapping[str, Module]) -> Iterator[str]:
    """Yield a sentence for each kind of work named outside its own folder, in code or in words.

    The trade has rules on more than kinds of work, and may call a topic as a kind is called.
    """
    for kind in kinds_of_work(modules):
        word = re.compile(rf"\b{kind.replace('_', '[-_ ]')}", re.IGNORECASE)
        for module in modules.values():
            own = module.name.startswith(f"scopes.kinds.{kind}")
            if not own and module.part not in MAY_NAME_A_KIND and word.search(module.text):
                yield f"{module.name} mentions {kind}; only its own folder knows a kind of work"


def folder(module: str) -> str:
    """Return the folder of scopes that a module lies in: a kind, what is shared, or scopes itself."""
    parts = module.split(".")
    return ".".join(parts[:3] if parts[1:2] == ["kinds"] else parts[:2] if parts[1:2] == ["shared"] else parts[:1])


def floor_problems(modules: Mapping[str, Module]) -> Iterator[str]:
    """Yield a sentence for each circle of folders in scopes, and where they stand on more floors than MOST_FLOORS."""
    inside = {name: each for name, each in modules.items() if each.part == "scopes"}
    below: dict[str, set[str]] = {folder(name): set() for name in inside}
    for name, module in inside.items():
        others = {folder(other) for other in inner_imports(module, modules) if other in inside}
        below[folder(name)] |= others - {folder(name)}
    try:
        floors: dict[str, int] = {}
        for each in TopologicalSorter(below).static_order():
            floors[each] = 1 + max((floors[other] for other in below[each]), default=0)
    except CycleError as problem:
        yield f"a ring of folders: {' > '.join(problem.args[1])}"
    else:
        if max(floors.values(), default=0) > MOST_FLOORS:
            yield f"the folders of scopes stand on {max(floors.values())} floors; {MOST_FLOORS} are enough"
    for name in inside:
        if name.count(".") > MOST_FLOORS:
            yield f"{name} lies deeper than {MOST_FLOORS} folders"


def problems(folder: Path) -> list[str]:
    """Return everything that is wrong with the layers of the package in `folder`."""
    modules = read_package(folder)
    checks = (direction_problems, loop_problems, outside_problems, word_problems, floor_problems)
    return [sentence for check in checks for sentence in check(modules)]


if __name__ == "__main__":
    found = problems(PACKAGE)
    print("\n".join(found) or "The layers hold.")
    sys.exit(bool(found))
