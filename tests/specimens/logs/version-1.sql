-- A practice log as version 1 of the schema wrote it: two drills, one result and its correction.
CREATE TABLE day (
    player TEXT NOT NULL CHECK (length(player) > 0),
    date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    printed TEXT NOT NULL CHECK (length(printed) = 32),
    instrument TEXT NOT NULL CHECK (length(instrument) > 0),
    size TEXT NOT NULL CHECK (length(size) > 0),
    seed INTEGER NOT NULL,
    plan TEXT NOT NULL CHECK (length(plan) > 0),
    PRIMARY KEY (player, date, printed)
) STRICT;
CREATE TABLE drill (
    player TEXT NOT NULL,
    number INTEGER NOT NULL CHECK (number >= 1),
    date TEXT NOT NULL,
    printed TEXT NOT NULL,
    key TEXT NOT NULL CHECK (length(key) > 0),
    kind TEXT NOT NULL CHECK (length(kind) > 0),
    PRIMARY KEY (player, number),
    FOREIGN KEY (player, date, printed) REFERENCES day (player, date, printed)
) STRICT;
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
) STRICT;
INSERT INTO day VALUES
    ('Ines', '2026-12-01', '2026-11-30T17:00:00.000000+00:00', 'violin', '4/4', 7, '{"a": "plan"}');
INSERT INTO drill VALUES
    ('Ines', 1, '2026-12-01', '2026-11-30T17:00:00.000000+00:00',
     'violin-12-whole-place2-strings4321-stage1-low-same', 'opening'),
    ('Ines', 2, '2026-12-01', '2026-11-30T17:00:00.000000+00:00',
     'violin-12-whole-place2-strings4321-stage2-low-same', 'new');
INSERT INTO entry VALUES
    ('Ines', 1, '2026-12-01T18:00:00.000000+00:00', 'secure', '2026-12-01', NULL),
    ('Ines', 1, '2026-12-02T18:00:00.000000+00:00', 'not yet', '2026-12-01', NULL);
PRAGMA application_id = 1114599275;
PRAGMA user_version = 1;
