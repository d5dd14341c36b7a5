-- Every change is a change set; its number is the issue that it makes. A version of a part or a
-- rule row stands from the issue that opened it up to, but without, the issue that closed it.
CREATE TABLE change_sets (
    number INTEGER PRIMARY KEY CHECK (number > 0),
    made_at TEXT NOT NULL, -- UTC, 2026-11-24T09:30:00Z
    person TEXT NOT NULL,
    reason TEXT NOT NULL
) STRICT;

-- cells: the fields that say something, a JSON object of field key and text with sorted keys, so
-- that equal parts are equal texts.
CREATE TABLE parts (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL CHECK (key <> ''),
    issue_from INTEGER NOT NULL,
    issue_to INTEGER REFERENCES change_sets (number) CHECK (issue_to > issue_from),
    change_set INTEGER NOT NULL REFERENCES change_sets (number) CHECK (change_set = issue_from),
    cells TEXT NOT NULL,
    UNIQUE (key, issue_from)
) STRICT;
CREATE UNIQUE INDEX parts_open ON parts (key) WHERE issue_to IS NULL;

-- ordinal: the place within the table; fractions let a row be put between two others that stay.
-- cells: as above, of the columns of the table and source, confidence, note, active.
CREATE TABLE rule_rows (
    id INTEGER PRIMARY KEY,
    table_name TEXT NOT NULL CHECK (table_name <> ''),
    key TEXT NOT NULL CHECK (key <> ''),
    ordinal REAL NOT NULL,
    issue_from INTEGER NOT NULL,
    issue_to INTEGER REFERENCES change_sets (number) CHECK (issue_to > issue_from),
    change_set INTEGER NOT NULL REFERENCES change_sets (number) CHECK (change_set = issue_from),
    cells TEXT NOT NULL,
    UNIQUE (table_name, key, issue_from)
) STRICT;
CREATE UNIQUE INDEX rule_rows_open ON rule_rows (table_name, key) WHERE issue_to IS NULL;
CREATE UNIQUE INDEX rule_rows_order ON rule_rows (table_name, ordinal) WHERE issue_to IS NULL;
