"""How long functions and modules are: read from the sources, held by test_sizes.py.

Run it to see the numbers and the longest:  python tests/sizes.py
"""

from __future__ import annotations

import ast
import io
import statistics
import tokenize
from dataclasses import dataclass
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "estimating"
SILENT = {tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT, tokenize.ENDMARKER}


@dataclass(frozen=True)
class Size:
    """Something with a place in the sources and a number of lines."""

    place: str
    lines: int

    def __str__(self) -> str:
        return f"{self.lines:5}  {self.place}"


def code_lines(text: str) -> set[int]:
    """Return the numbers of the lines that hold code: neither blank nor comment nor docstring."""
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    lines = {line for each in tokens if each.type not in SILENT for line in range(each.start[0], each.end[0] + 1)}
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str):
            lines -= set(range(node.lineno, (node.end_lineno or node.lineno) + 1))
    return lines


def function_sizes(path: Path, root: Path) -> list[Size]:
    """Return each function with its lines of code: from `def` to its end, without decorators and docstring."""
    text = path.read_text(encoding="utf-8")
    lines = code_lines(text)
    return [
        Size(f"{path.relative_to(root)}:{node.lineno} {node.name}", len(lines & set(range(node.lineno, end + 1))))
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and (end := node.end_lineno)
    ]


def sizes(package: Path) -> tuple[list[Size], list[Size]]:
    """Return the functions and the modules of a package, the longest first."""
    paths = sorted(package.rglob("*.py"))
    functions = [each for path in paths for each in function_sizes(path, package)]
    modules = [Size(str(path.relative_to(package)), len(path.read_text("utf-8").splitlines())) for path in paths]
    return _longest_first(functions), _longest_first(modules)


def _longest_first(several: list[Size]) -> list[Size]:
    return sorted(several, key=lambda size: -size.lines)


def main() -> None:
    """Print the numbers."""
    functions, modules = sizes(PACKAGE)
    print(f"{len(functions)} functions, lines of code: median {statistics.median(each.lines for each in functions):g}")
    print(f"{len(modules)} modules, {sum(each.lines for each in modules)} lines of text in all")
    for title, longest in (("longest functions", functions[:10]), ("longest modules", modules[:5])):
        print(f"\n{title}")
        for each in longest:
            print(each)


if __name__ == "__main__":
    main()
