"""Job files: TOML in, TOML out, every wrong field listed at once."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from types import MappingProxyType
from typing import Any

import tomli_w
from pydantic import ValidationError
from pydantic_core import ErrorDetails

from estimating.errors import InputError, InputErrors, Location
from estimating.files import write_aside
from estimating.job.bounds import impossible
from estimating.job.model import Job
from estimating.job.renamed import current
from estimating.job.values import UNKNOWN

MISSING = "an answer; it cannot be left out"
NEEDED = MappingProxyType(
    {
        "extra_forbidden": "a field this file knows; is the name misspelt?",
        "string_type": "words, in quotes",
        "tuple_type": "a list in square brackets",
        "dict_type": "fields and their values",
        "model_type": "fields and their values",
        "model_attributes_type": "fields and their values, its kind among them",
        "bool_type": "true or false",
        "bool_parsing": "true or false",
        "float_type": "a number",
        "float_parsing": "a number",
        "finite_number": "a number",
    }
)


@dataclass(frozen=True)
class JobReader:
    """Reads job files into a model of a job."""

    model: type[Job]

    def read(self, path: Path) -> Job:
        """Return the job in a TOML file; InputErrors lists every field that is wrong."""
        try:
            text = path.read_text(encoding="utf-8")
        except OSError as problem:
            raise InputError("job file", str(path), f"a file that can be read ({problem.strerror})") from problem
        except UnicodeDecodeError as problem:
            raise InputError("job file", str(path), "text in UTF-8") from problem
        return self.parse(text, str(path))

    def parse(self, text: str, name: str = "job") -> Job:
        """Return the job in a TOML text."""
        try:
            plain = tomllib.loads(text)
        except tomllib.TOMLDecodeError as problem:
            raise InputError("job file", name, f"valid TOML ({problem})") from problem
        except RecursionError as problem:
            raise InputError("job file", name, "lists that lie a few deep, not hundreds") from problem
        except ValueError as problem:  # a whole number too long for Python to read
            raise InputError("job file", name, "numbers of a few digits, not thousands") from problem
        return self.build(plain)

    def build(self, plain: Mapping[str, Any]) -> Job:
        """Return the job made of plain values, as a file or a form gives them, under whatever names."""
        today, notices = current(plain)
        try:
            job = self.model.model_validate(today).noting(notices)
        except ValidationError as problem:
            raise InputErrors([_in_words(each, today) for each in problem.errors()]) from problem
        beyond = impossible(job)
        if beyond:
            raise InputErrors([InputError(spell(e.location, today), e.value, e.needed, e.location) for e in beyond])
        return job


def write_job(job: Job, path: Path) -> None:
    """Write the job as TOML, aside first and then in place, so that no half file is ever left."""
    write_aside(path, dump_job(job))


def dump_job(job: Job) -> str:
    """Return the job as TOML text; what is not known is written as unknown."""
    return tomli_w.dumps(plain_job(job), multiline_strings=False)


def plain_job(job: Job) -> dict[str, Any]:
    """Return the job as plain values, as a form or a file takes them."""
    plain: dict[str, Any] = _spell(job.model_dump(mode="python"))
    plain["own"] = {
        key: {name: each for name, each in own.items() if each != UNKNOWN} for key, own in plain["own"].items()
    }
    return plain


def _spell(value: Any) -> Any:
    if value is None:
        return UNKNOWN
    if isinstance(value, StrEnum):
        return str(value)
    if isinstance(value, Mapping):
        return {name: _spell(each) for name, each in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [_spell(each) for each in value]
    return value


def _in_words(error: ErrorDetails, plain: Mapping[str, Any]) -> InputError:
    place = _without_tags(error["loc"], plain)
    field = spell(place, plain)
    raised = error.get("ctx", {}).get("error")
    refused = raised if isinstance(raised, InputError) else _refused(error)
    inner = "" if refused.field in ("length", "quantity", "count", "percent") else refused.field
    path = " · ".join(part for part in (field, inner) if part and part != "job")
    return InputError(path or "job", refused.value, refused.needed, (*place, inner) if inner else place)


def _refused(error: ErrorDetails) -> InputError:
    """Return what the model has against a field, as the field itself would have said it."""
    context = error.get("ctx", {})
    match error["type"]:
        case "missing":
            return InputError("", "nothing", MISSING)
        case "union_tag_not_found":
            return InputError("kind", "nothing", MISSING)
        case "union_tag_invalid":
            return InputError("kind", context["tag"], f"one of {context['expected_tags']}")
        case "enum" | "literal_error":
            return InputError("", error["input"], f"one of {context['expected']}")
        case "too_short":
            return InputError("", f"{context['actual_length']} that can be read", f"{context['min_length']} or more")
        case other:
            needed = NEEDED.get(other) or error["msg"].removeprefix("Input should be ")
            return InputError("", UNKNOWN if error["input"] is None else error["input"], needed)


def _without_tags(location: Location, plain: Any) -> Location:
    """Return a place in the file without the words by which a union chose its kind: they are no field."""
    kept: list[str | int] = []
    here = plain
    for step in location:
        if isinstance(here, Mapping) and here.get("kind") == step and step not in here:
            continue
        kept.append(step)
        here = _inside(here, step)
    return tuple(kept)


def _inside(here: Any, step: str | int) -> Any:
    if isinstance(step, int):
        return here[step] if isinstance(here, Sequence) and step < len(here) else None
    return here.get(step) if isinstance(here, Mapping) else None


def spell(location: Location, plain: Any) -> str:
    """Return a place in the file in words, such as rooms[2] "parlour" · height."""
    words: list[str] = []
    here = plain
    for step in location:
        here = _inside(here, step)
        if isinstance(step, int):
            label = (here.get("name") or here.get("room")) if isinstance(here, Mapping) else None
            words[-1] += f"[{step}]" + (f' "{label}"' if label else "")
        else:
            words.append(step)
    return " · ".join(words) or "job"
