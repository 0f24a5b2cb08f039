"""Words that nobody is shown: British spelling, and the words this house has put away. Held by test_words.py.

Run it to see where they stand:  python tests/words.py
"""

from __future__ import annotations

import ast
import csv
import json
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BRITISH = (
    r"colou?rise\w*|\w*colour\w*|\w*labour\w*|mould\w*|licence\w*|vapour\w*|louvred?|odour\w*|neighbour\w*|behaviour\w*|"
    r"judgement\w*|grey\w*|centre\w*|\w*metres?|litres?|mobilis\w+|recognis\w+|organis\w+|stor(?:ey|eys)|aluminium|"
    r"favour\w*|travell\w+|draughts?|towards|afterwards|skilful|fulfil|cheque|plough|sulphur|analys(?:e|ed|es)|catalogue|"
    r"ageing|whilst|learnt|practis(?:e|ed|ing)|programme|tyre|kerb|moulding|panelling|levelling|labell(?:ed|ing)"
)
PUT_AWAY = {  # what is not said any more: what is said instead
    r"\bways?\b(?= (?:of|to) (?:doing|do|roll|spray|brush|paint)|s? side by side)": "method",
    r"\bthis way\b(?=:)": "this method",
    r"\bnot here\b": "not recommended here",
    r"\bwith conditions\b": "OK if …",
    r"\bmay be used\b": "OK",
    r"\b(?:method|way) is out\b(?=$|[;,.])": "ruled out",
    r"\bpieces? of work\b": "work item",
    r"\bbulkheads?\b": "soffit",
    r"\brecessed trims?\b": "recessed light",
    r"\bflush lights?\b": "ceiling light",
    r"\bpapering\b": "wallcovering",
    r"\bputting back\b": "clean up and put back",
    r"\bstands until\b": "valid through",
    r"\ballowed for in the price\b": "allowances",
    r"\btake away\b": "remove",
    r"\brecord as sent\b|\bsend as\b": "save as sent",
    r"^why\?$": "show the math",
    r"\bone more test\b(?! worth)": "is one more test worth it?",
    r"\bfives\b": "5-gallon pails",
    r"\bdrinks? unevenly\b|\bpaint drinks\b": "absorbs unevenly",
    r"\bwhat is asked of the household\b": "before we start, please",
    r"\bpeople in the way\b": "crowding",
    r"\bkeep away from [a-z ]+: ": "a whole sentence",
    r"\bmiddling\b": "average",
}
RULES = {re.compile(rf"\b(?:{BRITISH})\b", re.IGNORECASE): "US spelling"} | {
    re.compile(pattern, re.IGNORECASE): instead for pattern, instead in PUT_AWAY.items()
}


AS_OLD_FILES_HAVE_IT = frozenset({"estimating/job/renamed.py", "estimating/units.py"})  # old names
QUOTED = re.compile(r"`[^`]*`")  # a name in a file, as it stands there


@dataclass(frozen=True)
class Shown:
    """A text that somebody may be shown, and where it stands."""

    place: str
    text: str


def _docstrings(tree: ast.AST) -> set[ast.AST]:
    bodies = (getattr(node, "body", None) for node in ast.walk(tree) if not isinstance(node, ast.Lambda))
    firsts = (body[0] for body in bodies if isinstance(body, list) and body)
    return {node.value for node in firsts if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)}


def code_texts() -> Iterator[Shown]:
    """Yield every text in the code of the package but its docstrings: labels, titles, messages, notes."""
    for path in sorted((ROOT / "estimating").rglob("*.py")):
        if str(path.relative_to(ROOT)) in AS_OLD_FILES_HAVE_IT:
            continue
        tree = ast.parse(path.read_text("utf-8"))
        hidden = _docstrings(tree)
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in hidden:
                yield Shown(f"{path.relative_to(ROOT)}:{node.lineno}", node.value)


def table_texts() -> Iterator[Shown]:
    """Yield every word in the reference tables but the sources' own titles and places, which stand as printed."""
    for path in sorted((ROOT / "reference").glob("*.csv")):
        with path.open(newline="", encoding="utf-8") as lines:
            for number, row in enumerate(csv.DictReader(lines), 2):
                for column, text in row.items():
                    if column not in ("source", "place"):
                        yield Shown(f"reference/{path.name}:{number} {column}", text or "")


def notebook_texts() -> Iterator[Shown]:
    """Yield the cells of the notebooks, what they print, the demo jobs and the pages for readers."""
    for path in sorted((ROOT / "notebooks").glob("*.ipynb")):
        for number, cell in enumerate(json.loads(path.read_text("utf-8"))["cells"], 1):
            printed = [text for each in cell.get("outputs", ()) for text in each.get("text", ())]
            yield Shown(f"notebooks/{path.name} cell {number}", "".join([*cell["source"], *printed]))
    for path in (*sorted((ROOT / "notebooks" / "jobs").glob("*.toml")), ROOT / "README.md", ROOT / "CHANGELOG.md"):
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
            yield Shown(f"{path.relative_to(ROOT)}:{number}", QUOTED.sub("", line))


def problems() -> list[str]:
    """Return a line for each word that nobody should be shown."""
    return [
        f"{each.place}: {found.group(0)!r} (say: {instead})"
        for texts in (code_texts, table_texts, notebook_texts)
        for each in texts()
        for rule, instead in RULES.items()
        if (found := rule.search(each.text))
    ]


if __name__ == "__main__":
    listed = problems()
    print("\n".join(listed) or "Every word is one of ours.")
    sys.exit(bool(listed))
