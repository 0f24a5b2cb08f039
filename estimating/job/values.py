"""Field types of a job file. In Python an unknown answer is None; in the file it is the word `unknown`."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainSerializer, PlainValidator, model_validator

from estimating.errors import InputError
from estimating.units import LONGEST_TEXT, Reading, read_length, read_quantity

UNKNOWN = "unknown"
MOST = 1_000_000  # of anything that is counted; what is unusual is asked about long before
NONE = "none"
E = TypeVar("E", bound=StrEnum)


class Notes(BaseModel):
    """A part of the job file: frozen, and closed to fields it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)

    @model_validator(mode="before")
    @classmethod
    def _unknown_is_no_answer(cls, given: Any) -> Any:
        """Take `unknown` and an empty text as no answer at all, where there may be none.

        A count that is 1 unless told otherwise is not quietly given its 1, nor is a misspelt field passed over.
        """
        if not isinstance(given, dict):
            return given
        for name, answer in given.items():
            if isinstance(answer, str) and not _can_be_written(answer):
                raise InputError(str(name), answer, "letters that can be written; half of a pair stands alone in it")
        may_be_open = {name for name, field in cls.model_fields.items() if not isinstance(field.default, int)}
        return {name: answer for name, answer in given.items() if name not in may_be_open or not _is_unknown(answer)}


def _can_be_written(text: str) -> bool:
    """Say whether a text can go into a file; a lone surrogate, as a broken paste leaves it, cannot."""
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True


def _is_unknown(answer: object) -> bool:
    return isinstance(answer, str) and answer.strip().lower() in ("", UNKNOWN)


def _length(given: object) -> Reading:
    return given if isinstance(given, Reading) else read_length(given)


def _offset(given: object) -> Reading:
    if isinstance(given, Reading):
        return given
    text = str(given).strip()
    if text in ("0", "0.0"):
        return Reading(text, 0.0, "ft")
    if text.startswith("-"):
        return Reading(text, -read_length(text[1:]).value, "ft")
    return read_length(text)


def _temperature(given: object) -> Reading:
    return given if isinstance(given, Reading) else read_quantity(given, "degF")


def _whole(given: object) -> int:
    if isinstance(given, str) and given.strip().lower() == NONE:
        return 0
    text = str(given).strip().replace(",", "")
    number = int(text) if re.fullmatch(r"\d{1,9}", text) else -1
    if isinstance(given, bool) or not 0 <= number <= MOST:
        raise InputError("count", str(given)[:LONGEST_TEXT], f"a whole number, 0 or more and at most {MOST:,}")
    return number


def _percent(given: object) -> float:
    text = str(given).strip().removesuffix("%")
    try:
        share = float(text)
    except ValueError:
        share = -1.0
    if isinstance(given, bool) or not 0 <= share <= 100:
        raise InputError("percent", given, "a share from 0 to 100 percent")
    return share


def _listed(given: object) -> object:
    return [] if isinstance(given, str) and given.strip().lower() == NONE else given


def _as_typed(reading: Reading) -> str:
    return reading.text


Length = Annotated[Reading, PlainValidator(_length), PlainSerializer(_as_typed)]
Offset = Annotated[Reading, PlainValidator(_offset), PlainSerializer(_as_typed)]
Temperature = Annotated[Reading, PlainValidator(_temperature), PlainSerializer(_as_typed)]
Whole = Annotated[int, PlainValidator(_whole)]
Percent = Annotated[float, PlainValidator(_percent)]
T = TypeVar("T")
Listed = Annotated[tuple[T, ...], BeforeValidator(_listed)]  # `none` is an empty list; a missing list is unknown


class Answer(StrEnum):
    """A plain answer; no answer at all is None."""

    YES = "yes"
    NO = "no"
