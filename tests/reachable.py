"""Which definitions of the package something leads to: a command, the desk, a document or a notebook.

Read from the text alone: a definition leads to every name it mentions, followed through the imports of its module to
where the name is defined. Run it to see what nothing leads to:  python tests/reachable.py
"""

from __future__ import annotations

import ast
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from places import ROOT

PACKAGE = ROOT / "estimating"
DOORS = ("__main__", "evidence_report", "start", "lab", "desk", "reports.exports")  # what a person opens or runs
FOUND_BY_FOLDER = ("scopes.kinds",)  # the registry imports these without naming them
AT_IMPORT = ""  # the statements of a module that define nothing, run whenever it is imported
COMMAND = "__name__ == '__main__'"


@dataclass
class Names:
    """A module's definitions, each with the names it mentions, and where its imported names come from."""

    mentions: dict[str, set[str]] = field(default_factory=dict)
    imported: dict[str, str] = field(default_factory=dict)
    lines: dict[str, int] = field(default_factory=dict)
    is_command: bool = False


def _mentioned(node: ast.AST) -> set[str]:
    found: set[str] = set()
    for each in ast.walk(node):
        if isinstance(each, ast.Name):
            found.add(each.id)
        elif isinstance(each, ast.Attribute) and isinstance(each.value, ast.Name):
            found.add(f"{each.value.id}.{each.attr}")
    return found


def _defined(node: ast.stmt) -> list[str]:
    if isinstance(node, ast.FunctionDef | ast.ClassDef | ast.AsyncFunctionDef):
        return [node.name]
    targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
    return [each.id for target in targets if target for each in ast.walk(target) if isinstance(each, ast.Name)]


def _note_import(node: ast.stmt, names: Names, package: str) -> None:
    if isinstance(node, ast.ImportFrom):
        start = package.rsplit(".", node.level - 1)[0] if node.level else ""
        base = ".".join(part for part in (start, node.module) if part)
        names.imported |= {each.asname or each.name: f"{base}.{each.name}" for each in node.names}
    elif isinstance(node, ast.Import):
        names.imported |= {each.asname: each.name for each in node.names if each.asname}


def read_names(text: str, package: str) -> Names:
    """Return the definitions and imports of a module; imports inside a function count as the module's."""
    tree = ast.parse(text)
    names = Names(mentions={AT_IMPORT: set()})
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom | ast.Import):
            _note_import(node, names, package)
    for node in tree.body:
        for name in _defined(node) or [AT_IMPORT]:
            names.mentions.setdefault(name, set()).update(_mentioned(node))
            names.lines[name] = (node.end_lineno or node.lineno) - node.lineno + 1
        names.is_command |= isinstance(node, ast.If) and ast.unparse(node.test) == COMMAND
    return names


def read_all(package: Path = PACKAGE) -> dict[str, Names]:
    """Return every module of the package by its full dotted name."""
    found = {}
    for path in sorted(package.rglob("*.py")):
        parts = path.relative_to(package.parent).with_suffix("").parts
        folder = ".".join(parts[:-1])
        name = folder if parts[-1] == "__init__" else ".".join(parts)
        found[name] = read_names(path.read_text(encoding="utf-8"), folder)
    return found


def notebook_names(folder: Path) -> Iterator[Names]:
    """Yield the names that the code cells of each notebook mention."""
    for path in sorted(folder.glob("*.ipynb")):
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        code = "\n".join("".join(each["source"]) for each in cells if each["cell_type"] == "code")
        yield read_names(code, "")


def _resolve(dotted: str, modules: Mapping[str, Names]) -> Iterator[tuple[str, str]]:
    """Yield the module and the name that a full dotted name stands for, re-exports followed."""
    if dotted in modules:
        yield dotted, AT_IMPORT
        return
    module, _, name = dotted.rpartition(".")
    if module in modules:
        yield module, name if name in modules[module].mentions else AT_IMPORT
        if name in modules[module].imported:
            yield from _resolve(modules[module].imported[name], modules)


def _leads_to(names: Names, here: str, mention: str, modules: Mapping[str, Names]) -> Iterator[tuple[str, str]]:
    first, _, rest = mention.partition(".")
    if first in names.mentions:
        yield here, first
    elif first in names.imported:
        full = names.imported[first]
        yield from _resolve(full, modules)
        if rest:
            yield from _resolve(f"{full}.{rest}", modules)


def _starts(modules: Mapping[str, Names]) -> Iterator[tuple[str, str]]:
    top = PACKAGE.name
    places = [f"{top}.{each}" for each in (*DOORS, *FOUND_BY_FOLDER)]
    for module, names in modules.items():
        if any(module == place or module.startswith(f"{place}.") for place in places):
            yield from ((module, name) for name in names.mentions)
        elif names.is_command:
            yield module, AT_IMPORT
    for names in notebook_names(ROOT / "notebooks"):
        for mention in {each for mentioned in names.mentions.values() for each in mentioned}:
            yield from _leads_to(names, "", mention, modules)


def reached(modules: Mapping[str, Names]) -> set[tuple[str, str]]:
    """Return every definition, as module and name, that a door leads to."""
    seen: set[tuple[str, str]] = set()
    waiting = list(_starts(modules))
    while waiting:
        module, name = waiting.pop()
        if (module, name) in seen or module not in modules:
            continue
        seen.add((module, name))
        names = modules[module]
        waiting.append((module, AT_IMPORT))
        for mention in names.mentions.get(name, ()):
            waiting.extend(_leads_to(names, module, mention, modules))
    return seen


def unreached(modules: Mapping[str, Names]) -> dict[str, int]:
    """Return what nothing leads to, as dotted names with their lines; names that are only typed as private too."""
    seen = reached(modules)
    return {
        f"{module}.{name}": names.lines[name]
        for module, names in modules.items()
        for name in names.mentions
        if name and (module, name) not in seen
    }


if __name__ == "__main__":
    dead = unreached(read_all())
    for name, lines in dead.items():
        print(f"{lines:4d}  {name}")
    print(f"{len(dead)} definitions, {sum(dead.values())} lines that nothing leads to")
