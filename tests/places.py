"""Where things lie that tests read, said once, so that a test may stand in any folder."""

from pathlib import Path

TESTS = Path(__file__).resolve().parent
ROOT = TESTS.parent
JOBS = ROOT / "notebooks" / "jobs"
NOTEBOOKS = tuple(sorted(path.stem for path in (ROOT / "notebooks").glob("*.ipynb")))
PUBLISHED = ROOT / "reference" / "printed"
