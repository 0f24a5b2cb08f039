"""The name of a reference row: its table and its keys, and the one place that writes and reads it as text."""

from __future__ import annotations

from dataclasses import dataclass

BETWEEN = "/"


@dataclass(frozen=True, order=True)
class RowKey:
    """The address of one row, or of all rows whose first keys are these; as text it stands in files and CSVs.

    >>> str(RowKey("production", ("roll_ceiling", "roll", "popcorn")))
    'production/roll_ceiling/roll/popcorn'
    """

    table: str
    keys: tuple[str, ...] = ()

    @classmethod
    def of(cls, table: str, *keys: str) -> RowKey:
        """Return the address of a table and keys."""
        return cls(table, keys)

    @classmethod
    def parse(cls, text: str, *, most: int = -1) -> RowKey:
        """Return the address that a text writes; with `most`, what follows that many keys belongs to the last one.

        Any text parses: whether there is such a row is for the library to say.
        """
        table, *keys = text.split(BETWEEN, most)
        return cls(table, tuple(keys))

    def __str__(self) -> str:
        """Return the address as it is written in a file: production/roll_ceiling/popcorn."""
        return BETWEEN.join((self.table, *self.keys))

    def below(self, part: RowKey) -> bool:
        """Say whether this row lies in a part of the tables: the same table, its first keys the same."""
        return self.table == part.table and self.keys[: len(part.keys)] == part.keys

    @property
    def within_table(self) -> str:
        """The keys alone, as text."""
        return BETWEEN.join(self.keys)
