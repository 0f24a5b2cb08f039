"""Functions and modules stay short enough to be read in one look."""

from __future__ import annotations

import statistics
from pathlib import Path

from sizes import PACKAGE, code_lines, function_sizes, sizes

LONGEST_FUNCTION = 40  # lines of code
MEDIAN_FUNCTION = 8
LONGEST_MODULE = 400  # lines of text


def test_functions_stay_short() -> None:
    """No function is over 40 lines of code, and half of them have 8 or fewer."""
    functions, _ = sizes(PACKAGE)
    assert "\n".join(str(each) for each in functions if each.lines > LONGEST_FUNCTION) == ""
    assert statistics.median(each.lines for each in functions) <= MEDIAN_FUNCTION


def test_modules_stay_short() -> None:
    """No module is over 400 lines."""
    _, modules = sizes(PACKAGE)
    assert "\n".join(str(each) for each in modules if each.lines > LONGEST_MODULE) == ""


def test_only_code_counts(tmp_path: Path) -> None:
    """Blank lines, comments, docstrings and decorators are no code; every line of one long call is."""
    path = tmp_path / "one.py"
    path.write_text(
        '@mark\ndef one(\n    a,\n):\n    """Say.\n\n    More.\n    """\n    # why\n\n    return (\n        a\n    )\n'
    )
    assert code_lines(path.read_text()) == {1, 2, 3, 4, 11, 12, 13}
    (size,) = function_sizes(path, tmp_path)
    assert (size.place, size.lines) == ("one.py:2 one", 6)
