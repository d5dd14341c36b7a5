-- What was decided about the lists of a client, backplate-takeoff-answers/1; the last one stands.
CREATE TABLE list_answers (
    client TEXT NOT NULL PRIMARY KEY CHECK (client <> ''),
    answers TEXT NOT NULL CHECK (answers <> ''),
    saved_at TEXT NOT NULL CHECK (saved_at <> ''),
    person TEXT NOT NULL
) WITHOUT ROWID, STRICT;
