"""The tables of the practice log, one step for each version of the schema."""

from typing import Final

APPLICATION: Final = 0x426F6F6B
"""Marks an SQLite file as a practice log: "Book" in ASCII."""

TABLES: Final = (
    """
    CREATE TABLE day (
        player TEXT NOT NULL CHECK (length(player) > 0),
        date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
        printed TEXT NOT NULL CHECK (length(printed) = 32),
        instrument TEXT NOT NULL CHECK (length(instrument) > 0),
        size TEXT NOT NULL CHECK (length(size) > 0),
        seed INTEGER NOT NULL,
        plan TEXT NOT NULL CHECK (length(plan) > 0),
        PRIMARY KEY (player, date, printed)
    ) STRICT
    """,
    """
    CREATE TABLE drill (
        player TEXT NOT NULL,
        number INTEGER NOT NULL CHECK (number >= 1),
        date TEXT NOT NULL,
        printed TEXT NOT NULL,
        key TEXT NOT NULL CHECK (length(key) > 0),
        kind TEXT NOT NULL CHECK (length(kind) > 0),
        PRIMARY KEY (player, number),
        FOREIGN KEY (player, date, printed) REFERENCES day (player, date, printed)
    ) STRICT
    """,
    """
    CREATE TABLE entry (
        player TEXT NOT NULL,
        number INTEGER NOT NULL,
        entered TEXT NOT NULL CHECK (length(entered) = 32),
        result TEXT CHECK (result IN ('secure', 'not yet')),
        date TEXT CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
        undoes TEXT,
        PRIMARY KEY (player, number, entered),
        FOREIGN KEY (player, number) REFERENCES drill (player, number),
        FOREIGN KEY (player, number, undoes) REFERENCES entry (player, number, entered),
        CHECK ((result IS NULL) = (date IS NULL)),
        CHECK ((result IS NULL) = (undoes IS NOT NULL)),
        CHECK (undoes IS NULL OR undoes < entered)
    ) STRICT
    """,
)
"""Version 1. Instants are text in UTC with microseconds, so that they sort as they follow.

A day is one printed sheet; the same date may be printed again. An entry is a result, or takes
back an earlier result of the same drill; entries of one call share their instant.
"""

WRITTEN_ONCE: Final = tuple(
    f"""
    CREATE TRIGGER {table}_{verb}_refused BEFORE {verb} ON {table}
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no {verb} of a {table}'); END
    """
    for table in ("day", "drill", "entry")
    for verb in ("update", "delete")
)

STANDING: Final = (
    """
    CREATE TRIGGER entry_undoes_a_result BEFORE INSERT ON entry
    WHEN EXISTS (
        SELECT 1 FROM entry AS earlier
        WHERE earlier.player = NEW.player AND earlier.number = NEW.number
            AND earlier.entered = NEW.undoes AND earlier.result IS NULL
    )
    BEGIN SELECT RAISE(ABORT, 'only a result can be taken back'); END
    """,
    """
    CREATE VIEW standing AS
    SELECT * FROM entry AS result
    WHERE result.result IS NOT NULL AND NOT EXISTS (
        SELECT 1 FROM entry AS undo
        WHERE undo.player = result.player AND undo.number = result.number
            AND undo.undoes = result.entered
    )
    """,
    """
    CREATE VIEW valid AS
    SELECT player, number, result, date, max(entered) AS entered FROM standing
    GROUP BY player, number
    """,
    "CREATE INDEX entry_by_instant ON entry (entered)",
)

MIGRATIONS: Final = (TABLES, (*WRITTEN_ONCE, *STANDING))
"""Step n leads from version n to version n + 1. A step that was once released never changes.

Version 2 refuses changes of what is written, and tells which results stand and which are valid:
of the results of a drill that were not taken back the one that was entered last.
"""
