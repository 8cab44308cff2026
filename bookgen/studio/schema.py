"""The tables of the practice log, one step for each version of the schema."""

from typing import Final

APPLICATION: Final = 0x426F6F6B
"""Marks an SQLite file as a practice log: "Book" in ASCII."""

ROLES: Final = {
    "opening": "start",
    "variant": "other way",
    "review": "again",
    "ladder": "step back",
    "test": "cold",
}
"""What version 3 calls the kinds of version 2; all others keep their names."""

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

UNDOES_A_RESULT: Final = """
    CREATE TRIGGER entry_undoes_a_result BEFORE INSERT ON entry
    WHEN EXISTS (
        SELECT 1 FROM entry AS earlier
        WHERE earlier.player = NEW.player AND earlier.number = NEW.number
            AND earlier.entered = NEW.undoes AND earlier.result IS NULL
    )
    BEGIN SELECT RAISE(ABORT, 'only a result can be taken back'); END
    """

STANDING_RESULTS: Final = """
    CREATE VIEW standing AS
    SELECT * FROM entry AS result
    WHERE result.result IS NOT NULL AND NOT EXISTS (
        SELECT 1 FROM entry AS undo
        WHERE undo.player = result.player AND undo.number = result.number
            AND undo.undoes = result.entered
    )
    """

STANDING: Final = (
    UNDOES_A_RESULT,
    STANDING_RESULTS,
    """
    CREATE VIEW valid AS
    SELECT player, number, result, date, max(entered) AS entered FROM standing
    GROUP BY player, number
    """,
    "CREATE INDEX entry_by_instant ON entry (entered)",
)

READ_BY_DRILL: Final = (
    *("DROP VIEW valid", "DROP VIEW standing", "DROP INDEX entry_by_instant"),
    "DROP TRIGGER entry_undoes_a_result",
    *(
        f"DROP TRIGGER {table}_{verb}_refused"
        for table in ("drill", "entry")
        for verb in ("update", "delete")
    ),
    "ALTER TABLE entry RENAME TO entry_of_2",
    "ALTER TABLE drill RENAME TO drill_of_2",
    """
    CREATE TABLE drill (
        player TEXT NOT NULL CHECK (length(player) > 0),
        number INTEGER NOT NULL CHECK (number >= 1),
        key TEXT NOT NULL CHECK (length(key) > 0),
        link TEXT CHECK (length(link) > 0),
        PRIMARY KEY (player, number)
    ) STRICT
    """,
    """
    CREATE TABLE item (
        player TEXT NOT NULL,
        date TEXT NOT NULL,
        printed TEXT NOT NULL,
        turn INTEGER NOT NULL CHECK (turn >= 0),
        number INTEGER NOT NULL,
        role TEXT NOT NULL CHECK (length(role) > 0),
        PRIMARY KEY (player, date, printed, turn),
        FOREIGN KEY (player, date, printed) REFERENCES day (player, date, printed),
        FOREIGN KEY (player, number) REFERENCES drill (player, number)
    ) STRICT
    """,
    """
    CREATE TABLE entry (
        player TEXT NOT NULL,
        number INTEGER NOT NULL,
        entered TEXT NOT NULL CHECK (length(entered) = 32),
        result TEXT CHECK (result IN ('secure', 'not yet')),
        date TEXT CHECK (
            date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND date IS date(date, '+0 days')
        ),
        replaces TEXT CHECK (replaces IN ('day', 'number')),
        undoes TEXT,
        PRIMARY KEY (player, number, entered),
        FOREIGN KEY (player, number) REFERENCES drill (player, number),
        FOREIGN KEY (player, number, undoes) REFERENCES entry (player, number, entered),
        CHECK ((result IS NULL) = (date IS NULL)),
        CHECK ((result IS NULL) = (replaces IS NULL)),
        CHECK ((result IS NULL) = (undoes IS NOT NULL)),
        CHECK (undoes IS NULL OR undoes < entered)
    ) STRICT
    """,
    "INSERT INTO drill (player, number, key) SELECT player, number, key FROM drill_of_2",
    f"""
    INSERT INTO item (player, date, printed, turn, number, role)
    SELECT player, date, printed,
        row_number() OVER (PARTITION BY player, date, printed ORDER BY number) - 1, number,
        CASE kind {" ".join(f"WHEN '{kind}' THEN '{role}'" for kind, role in ROLES.items())}
        ELSE kind END
    FROM drill_of_2
    """,  # noqa: S608
    """
    INSERT INTO entry (player, number, entered, result, date, replaces, undoes)
    SELECT player, number, entered, result, date, iif(result IS NULL, NULL, 'number'), undoes
    FROM entry_of_2
    """,
    *("DROP TABLE entry_of_2", "DROP TABLE drill_of_2"),
    """
    CREATE TRIGGER drill_update_refused BEFORE UPDATE ON drill
    WHEN OLD.link IS NOT NULL OR NEW.player IS NOT OLD.player
        OR NEW.number IS NOT OLD.number OR NEW.key IS NOT OLD.key
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no update of a drill'); END
    """,
    *(
        f"""
        CREATE TRIGGER {table}_{verb}_refused BEFORE {verb} ON {table}
        BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no {verb} of a {table}'); END
        """
        for table, verb in (
            *(("drill", "delete"), ("item", "update"), ("item", "delete")),
            *(("entry", "update"), ("entry", "delete")),
        )
    ),
    *(UNDOES_A_RESULT, STANDING_RESULTS),
    """
    CREATE VIEW valid AS
    SELECT player, number, key, date, result, entered FROM (
        SELECT standing.*, drill.key, row_number() OVER (
            PARTITION BY player, key, standing.date ORDER BY entered DESC, number DESC
        ) AS from_the_last
        FROM standing JOIN drill USING (player, number)
        WHERE NOT EXISTS (
            SELECT 1 FROM standing AS later
            WHERE later.player = standing.player AND later.number = standing.number
                AND later.entered > standing.entered AND later.replaces = 'number'
        )
    ) WHERE from_the_last = 1
    """,
    "CREATE INDEX entry_by_instant ON entry (entered)",
    "CREATE INDEX entry_by_undone ON entry (player, number, undoes) WHERE undoes IS NOT NULL",
    "CREATE INDEX entry_of_number ON entry (player, number, entered) WHERE replaces = 'number'",
)

OTHER_COLUMNS: Final = {
    "day": ("date", "printed", "instrument", "size", "seed", "plan"),
    "drill": ("number", "key", "link"),
    "item": ("date", "printed", "turn", "number", "role"),
    "entry": ("number", "entered", "result", "date", "replaces", "undoes"),
}
"""What stays when a player has another name."""

FIRST_LINK: Final = (
    "OLD.link IS NULL AND NEW.player IS OLD.player AND NEW.number IS OLD.number"
    " AND NEW.key IS OLD.key"
)


def renamed_only(table: str) -> str:
    """The trigger that lets a row have another player only where a renaming says so."""
    same = " AND ".join(f"NEW.{name} IS OLD.{name}" for name in OTHER_COLUMNS[table])
    link = f" AND NOT ({FIRST_LINK})" if table == "drill" else ""
    return f"""
    CREATE TRIGGER {table}_update_refused BEFORE UPDATE ON {table}
    WHEN NOT ({same} AND EXISTS (
        SELECT 1 FROM renaming WHERE formerly = OLD.player AND player = NEW.player
    )){link}
    BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no update of a {table}'); END
    """  # noqa: S608


WITH_NAMES: Final = (
    """
    CREATE TABLE renaming (
        turn INTEGER PRIMARY KEY,
        formerly TEXT NOT NULL CHECK (length(formerly) > 0),
        player TEXT NOT NULL CHECK (length(player) > 0),
        CHECK (formerly <> player)
    ) STRICT
    """,
    *(f"DROP TRIGGER {table}_update_refused" for table in OTHER_COLUMNS),
    *map(renamed_only, OTHER_COLUMNS),
    *(
        f"""
        CREATE TRIGGER renaming_{verb}_refused BEFORE {verb} ON renaming
        BEGIN SELECT RAISE(ABORT, 'the practice log forgets nothing: no {verb} of a renaming'); END
        """
        for verb in ("update", "delete")
    ),
)

MIGRATIONS: Final = (TABLES, (*WRITTEN_ONCE, *STANDING), READ_BY_DRILL, WITH_NAMES)
"""Step n leads from version n to version n + 1. A step that was once released never changes.

Version 2 refuses changes of what is written, and tells which results stand and which are valid:
of the results of a drill that were not taken back the one that was entered last.

Version 3 has a number for a drill, not for a printing: a drill is known by its number before a
page is printed, and an item is a drill on a printed day, whose turn comes after those of lower
turns. Numbers of version 2 that name the same
drill stay valid beside each other; the lowest is its own. A drill's link is written once, when
its first page is. Of the results of a drill on a day, whichever of its numbers they were entered
for, the one entered last is valid. A result of version 2 goes on replacing whatever was entered
for its number before, also of another day: `replaces` says so.

Version 4 lets a player have another name, and keeps the former one: rows change their player only
as a renaming says.
"""
