"""The versioned steps that bring a records file forward, oldest first.

A step that has been released is never edited; a change to the tables is a further step at the end.
Times are UTC and dates are ISO 8601 text, so that they sort as written. Money is decimal text, never a binary fraction.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Step:
    """One move of the file from a version to the next: what it does, in words and in SQL."""

    purpose: str
    statements: tuple[str, ...]


def frozen(table: str) -> tuple[str, ...]:
    """Return triggers that let rows be added to a table, and never changed, replaced or removed.

    INSERT OR REPLACE removes a row without firing a delete trigger, so a taken id is refused on the way in.
    """
    refuse = f"SELECT RAISE(ABORT, '{table}: a row once written stays as it is')"
    return (
        f"CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} BEGIN {refuse}; END",
        f"CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} BEGIN {refuse}; END",
        f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} "
        f"WHEN EXISTS (SELECT 1 FROM {table} WHERE id = NEW.id) BEGIN {refuse}; END",
    )


FIRST = Step(
    "jobs, estimates as sent, prices, actuals, tests, releases and own values",
    (
        # Every saving of a job is kept; the newest row of a name is the job as it stands.
        """CREATE TABLE jobs (
            id INTEGER PRIMARY KEY,
            name TEXT NOT NULL CHECK (name <> ''),
            toml TEXT NOT NULL,
            saved_at TEXT NOT NULL
        ) STRICT""",
        "CREATE INDEX jobs_by_name ON jobs (name)",
        *frozen("jobs"),
        """CREATE TABLE estimates (
            id INTEGER PRIMARY KEY,
            job_id INTEGER NOT NULL REFERENCES jobs (id),
            sent_at TEXT NOT NULL,
            price TEXT NOT NULL,
            lines TEXT NOT NULL CHECK (json_valid(lines)),
            assumptions TEXT NOT NULL CHECK (json_valid(assumptions)),
            hash TEXT NOT NULL
        ) STRICT""",
        *frozen("estimates"),
        """CREATE TABLE prices (
            id INTEGER PRIMARY KEY,
            item TEXT NOT NULL CHECK (item <> ''),
            container TEXT NOT NULL CHECK (container <> ''),
            dollars TEXT NOT NULL,
            priced_on TEXT NOT NULL,
            note TEXT NOT NULL
        ) STRICT""",
        "CREATE INDEX prices_by_item ON prices (item, container, priced_on)",
        """CREATE TABLE actuals (
            id INTEGER PRIMARY KEY,
            estimate_id INTEGER NOT NULL REFERENCES estimates (id),
            line TEXT NOT NULL CHECK (line <> ''),
            task TEXT NOT NULL CHECK (task <> ''),
            surface TEXT NOT NULL,
            product TEXT NOT NULL,
            measure TEXT NOT NULL CHECK (measure IN ('hours', 'gallons')),
            amount REAL NOT NULL CHECK (amount >= 0),
            done_on TEXT NOT NULL,
            note TEXT NOT NULL
        ) STRICT""",
        "CREATE INDEX actuals_by_estimate ON actuals (estimate_id)",
        """CREATE TABLE tests (
            id INTEGER PRIMARY KEY,
            job TEXT NOT NULL CHECK (job <> ''),
            place TEXT NOT NULL,
            kind TEXT NOT NULL CHECK (kind <> ''),
            result TEXT NOT NULL CHECK (result <> ''),
            tested_on TEXT NOT NULL,
            note TEXT NOT NULL
        ) STRICT""",
        """CREATE TABLE releases (
            id INTEGER PRIMARY KEY,
            job TEXT NOT NULL CHECK (job <> ''),
            place TEXT NOT NULL,
            history TEXT NOT NULL CHECK (history <> ''),
            way TEXT NOT NULL CHECK (way <> ''),
            odds REAL NOT NULL CHECK (odds > 0),
            worked_area REAL NOT NULL CHECK (worked_area > 0),
            released_area REAL NOT NULL CHECK (released_area >= 0),
            hours_to_fix REAL NOT NULL CHECK (hours_to_fix >= 0),
            done_on TEXT NOT NULL,
            product TEXT NOT NULL,
            passes INTEGER CHECK (passes > 0),
            note TEXT NOT NULL
        ) STRICT""",
        # A reading that was typed wrong stays in the file, and is left out from the day it was taken back.
        """CREATE TABLE withdrawals (
            id INTEGER PRIMARY KEY,
            kind TEXT NOT NULL CHECK (kind IN ('actuals', 'tests', 'releases', 'prices')),
            row INTEGER NOT NULL,
            reason TEXT NOT NULL CHECK (reason <> ''),
            withdrawn_at TEXT NOT NULL,
            UNIQUE (kind, row)
        ) STRICT""",
        # Own values in place of reference rows: each acceptance is a row, and so is each taking back.
        """CREATE TABLE own_values (
            id INTEGER PRIMARY KEY,
            key TEXT NOT NULL CHECK (key <> ''),
            decided_at TEXT NOT NULL,
            decision TEXT NOT NULL CHECK (decision IN ('accepted', 'taken back')),
            value TEXT CHECK (value IS NULL OR json_valid(value)),
            CHECK ((decision = 'accepted') = (value IS NOT NULL))
        ) STRICT""",
        "CREATE INDEX own_values_by_key ON own_values (key)",
        *(trigger for table in ("withdrawals", "own_values") for trigger in frozen(table)),
        *(trigger for table in ("prices", "actuals", "tests", "releases") for trigger in frozen(table)),
    ),
)

METHODS = Step("a release is kept by its method", ("ALTER TABLE releases RENAME COLUMN way TO method",))

CREWS = Step("an actual says which crew it was", ("ALTER TABLE actuals ADD COLUMN crew TEXT NOT NULL DEFAULT ''",))

SHARES = Step(
    "a release says what its method was held to bring down",
    (
        "ALTER TABLE releases ADD COLUMN share REAL NOT NULL DEFAULT 1 CHECK (share > 0 AND share <= 1)",
        "ALTER TABLE releases ADD COLUMN sound REAL NOT NULL DEFAULT 0 CHECK (sound >= 0 AND sound < 1)",
    ),
)

STEPS: tuple[Step, ...] = (FIRST, METHODS, CREWS, SHARES)
