"""What is kept of a person besides the name: a line about them, days to remember, the photos they are on."""

PEOPLE = (
    # Tables of their own, not columns of person: what was done to a table that gets another shape can no longer be undone.
    """CREATE TABLE person_about (
        person_id TEXT PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
        about TEXT NOT NULL CHECK (about <> '')
    ) STRICT, WITHOUT ROWID""",
    # what: 'birthday', or the person's own name for the day. No year: not known. Always Gregorian; typed: how it was
    # said in another calendar. after: of 29 February, whether it is told on 1 March in other years, not on the 28th.
    """CREATE TABLE person_day (
        id TEXT PRIMARY KEY,
        person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
        what TEXT NOT NULL CHECK (what <> ''),
        year INTEGER CHECK (year BETWEEN 1 AND 9999),
        month INTEGER NOT NULL CHECK (month BETWEEN 1 AND 12),
        day INTEGER NOT NULL CHECK (day BETWEEN 1 AND 31),
        after INTEGER NOT NULL DEFAULT 0 CHECK (after IN (0, 1)),
        typed TEXT NOT NULL DEFAULT '',
        told INTEGER NOT NULL DEFAULT 0 CHECK (told IN (0, 1)),
        CHECK (date(printf('2000-%02d-%02d', month, day)) IS printf('2000-%02d-%02d', month, day))
    ) STRICT""",
    "CREATE INDEX person_day_person ON person_day (person_id)",
    """CREATE TABLE photo_person (
        photo_id TEXT NOT NULL REFERENCES photo (id) ON DELETE CASCADE,
        person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
        PRIMARY KEY (photo_id, person_id)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX photo_person_person ON photo_person (person_id)",
)
