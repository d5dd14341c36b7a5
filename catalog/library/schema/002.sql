-- Saved jobs. A job is numbered once and stays; its work is kept in revisions. Times are UTC,
-- 2026-11-24T09:30:00Z; days are 2026-11-24.
CREATE TABLE jobs (
    number INTEGER PRIMARY KEY CHECK (number > 0),
    title TEXT NOT NULL,
    origin TEXT NOT NULL, -- of an imported job: where it came from; else empty
    copied_job INTEGER CHECK (copied_job > 0), -- the template, and its revision
    copied_revision INTEGER CHECK (copied_revision > 0),
    CHECK ((copied_job IS NULL) = (copied_revision IS NULL))
) STRICT;

-- request: the text as it was given. estimate: what was made of it, backplate-estimate/1. Issues
-- are those of the library that priced it. sent_at: empty until the revision was sent.
CREATE TABLE job_revisions (
    job INTEGER NOT NULL REFERENCES jobs (number),
    revision INTEGER NOT NULL CHECK (revision > 0),
    request TEXT NOT NULL,
    estimate TEXT NOT NULL,
    prices_issue INTEGER NOT NULL CHECK (prices_issue > 0),
    rules_issue INTEGER NOT NULL CHECK (rules_issue > 0),
    price TEXT NOT NULL, -- empty where nothing builds it
    currency TEXT NOT NULL,
    due TEXT NOT NULL, -- empty: none
    demo_data INTEGER NOT NULL CHECK (demo_data IN (0, 1)),
    saved_at TEXT NOT NULL CHECK (saved_at <> ''),
    person TEXT NOT NULL,
    sent_at TEXT NOT NULL,
    PRIMARY KEY (job, revision)
) WITHOUT ROWID, STRICT;

-- The parts (table 'parts') and rule rows that the estimate rests on, cells as in parts and
-- rule_rows.
CREATE TABLE job_rows (
    job INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    table_name TEXT NOT NULL CHECK (table_name <> ''),
    key TEXT NOT NULL CHECK (key <> ''),
    cells TEXT NOT NULL,
    PRIMARY KEY (job, revision, table_name, key),
    FOREIGN KEY (job, revision) REFERENCES job_revisions (job, revision)
) WITHOUT ROWID, STRICT;

-- Documents as they were sent.
CREATE TABLE job_documents (
    job INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    name TEXT NOT NULL CHECK (name <> ''),
    bytes BLOB NOT NULL,
    PRIMARY KEY (job, revision, name),
    FOREIGN KEY (job, revision) REFERENCES job_revisions (job, revision)
) STRICT;

-- What a job went through, in the order of id; the last one is its state.
CREATE TABLE job_states (
    id INTEGER PRIMARY KEY,
    job INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    state TEXT NOT NULL
        CHECK (state IN ('enquiry', 'estimating', 'sent', 'won', 'lost', 'withdrawn')),
    day TEXT NOT NULL,
    reason TEXT NOT NULL,
    made_at TEXT NOT NULL,
    person TEXT NOT NULL,
    FOREIGN KEY (job, revision) REFERENCES job_revisions (job, revision)
) STRICT;
CREATE INDEX job_states_job ON job_states (job, id);

-- Values that came from the template and that nobody confirmed for this job. value: JSON text;
-- empty where the question is asked again whatever the template said.
CREATE TABLE job_unconfirmed (
    job INTEGER NOT NULL REFERENCES jobs (number),
    field TEXT NOT NULL CHECK (field <> ''),
    value TEXT NOT NULL,
    PRIMARY KEY (job, field)
) WITHOUT ROWID, STRICT;

-- What was sent never changes.
CREATE TRIGGER sent_revision_stays BEFORE UPDATE ON job_revisions WHEN OLD.sent_at <> ''
BEGIN SELECT RAISE(ABORT, 'a sent revision never changes'); END;
CREATE TRIGGER sent_revision_is_kept BEFORE DELETE ON job_revisions WHEN OLD.sent_at <> ''
BEGIN SELECT RAISE(ABORT, 'a sent revision is never removed'); END;
CREATE TRIGGER sent_rows_stay BEFORE UPDATE ON job_rows
BEGIN SELECT RAISE(ABORT, 'rows of a revision are replaced as a whole'); END;
CREATE TRIGGER sent_rows_are_kept BEFORE DELETE ON job_rows
WHEN (SELECT sent_at FROM job_revisions WHERE job = OLD.job AND revision = OLD.revision) <> ''
BEGIN SELECT RAISE(ABORT, 'rows of a sent revision are never removed'); END;
CREATE TRIGGER no_further_sent_rows BEFORE INSERT ON job_rows
WHEN (SELECT sent_at FROM job_revisions WHERE job = NEW.job AND revision = NEW.revision) <> ''
BEGIN SELECT RAISE(ABORT, 'a sent revision takes no further rows'); END;
CREATE TRIGGER documents_stay BEFORE UPDATE ON job_documents
BEGIN SELECT RAISE(ABORT, 'a sent document never changes'); END;
CREATE TRIGGER documents_are_kept BEFORE DELETE ON job_documents
BEGIN SELECT RAISE(ABORT, 'a sent document is never removed'); END;
CREATE TRIGGER no_further_documents BEFORE INSERT ON job_documents
WHEN (SELECT sent_at FROM job_revisions WHERE job = NEW.job AND revision = NEW.revision) <> ''
BEGIN SELECT RAISE(ABORT, 'a sent revision takes no further documents'); END;
