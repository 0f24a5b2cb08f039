"""The kinds of work there are: every folder of scopes/kinds, asked for what it hands over."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from estimating.job.file import JobReader
from estimating.job.model import job_model
from estimating.scopes import kinds
from estimating.scopes.protocol import KindOfWork


def find_kinds() -> Mapping[str, KindOfWork]:
    """Return each kind of work by the word a job file uses for it: the KIND in `kind.py` of each folder."""
    folders = (each.name for each in iter_modules(kinds.__path__) if each.ispkg)
    found = (import_module(f"{kinds.__name__}.{folder}.kind").KIND for folder in folders)
    return MappingProxyType({kind.key: kind for kind in found})


KINDS = find_kinds()
JOB = job_model([kind.notes for kind in KINDS.values()])
READER = JobReader(JOB)
