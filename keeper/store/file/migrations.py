"""The schema, as migrations in order. A shipped one is never edited."""

from sqlite_utils import Database, Migrations

from keeper.store.file.shapes import (
    brought_up,
    files_read,
    kept_searches,
    later_words,
    lighter_lines,
    paper,
    patterns,
    people,
    phases,
    place_pages,
    readings,
    second_themes,
    second_wordings,
    shared_axes,
    themes_within,
)
from keeper.store.file.shapes.history import add_history
from keeper.store.file.shapes.kinds import KINDS_AS_ROWS
from keeper.store.file.shapes.sums import add_sums
from keeper.store.file.shapes.trying import TRYING

migrations = Migrations("keeper")


@migrations()
def m001_first(db: Database) -> None:
    """Nights, lines and all the nouns."""
    for statement in _FIRST:
        db.execute(statement)


@migrations()
def m002_place_merges(db: Database) -> None:
    """Which place became part of which, so that it can be taken apart again."""
    for statement in _PLACE_MERGES:
        db.execute(statement)


@migrations()
def m003_drafts_of(db: Database) -> None:
    """Words being typed that are no line: a question, a place, a goal and so on."""
    for statement in _DRAFTS_OF:
        db.execute(statement)


@migrations()
def m004_goals_and_closing_questions(db: Database) -> None:
    """From which goal a goal was carried on, and a year's own closing questions.

    What earlier versions carried on stays without: by its words alone it cannot
    be told from a goal that the person set, and such a one must not go.
    """
    for statement in _GOALS_AND_QUESTIONS:
        db.execute(statement)


@migrations()
def m005_photos(db: Database) -> None:
    """How a photo is turned, what its date is known from, and the lots in which photos came."""
    for statement in _PHOTOS:
        db.execute(statement)


@migrations()
def m006_places_keep_their_mark(db: Database) -> None:
    """A place's colour and shape, once given; and places that are on the way."""
    for statement in _MARKS:
        db.execute(statement)


@migrations()
def m007_kinds_as_rows(db: Database) -> None:
    """Kinds of lines that the person may name, order, leave out and add; more numbers for each night's lines."""
    for statement in KINDS_AS_ROWS:
        db.execute(statement)


@migrations()
def m008_sums(db: Database) -> None:
    """A sum with each line and each earlier wording, by which damage is known."""
    add_sums(db)


@migrations()
def m009_history(db: Database) -> None:
    """What a person did, and what undoes it; the window's own state apart from the person's settings."""
    add_history(db)


@migrations()
def m010_readings_as_noted(db: Database) -> None:
    """A tracker's step, key and former scales; a reading's two times, unit and scale."""
    for statement in readings.AS_NOTED:
        db.execute(statement)


@migrations()
def m011_shared_axes(db: Database) -> None:
    """Which readings are drawn on one axis."""
    for statement in shared_axes.SHARED_AXES:
        db.execute(statement)


@migrations()
def m012_patterns(db: Database) -> None:
    """What takes part in patterns, what was decided of them, and what was found."""
    for statement in patterns.PATTERNS:
        db.execute(statement)


@migrations()
def m013_trying(db: Database) -> None:
    """What is tried in blocks drawn by lot."""
    for statement in TRYING:
        db.execute(statement)


@migrations()
def m014_from_paper(db: Database) -> None:
    """Which lines came from paper, and pages of a notebook as pictures."""
    for statement in paper.FROM_PAPER:
        db.execute(statement)


@migrations()
def m015_files_read(db: Database) -> None:
    """How the person last had the columns of a file read."""
    for statement in files_read.FILES_READ:
        db.execute(statement)


@migrations()
def m016_phases(db: Database) -> None:
    """Where the second phase of a cycle begins."""
    for statement in phases.PHASES:
        db.execute(statement)


@migrations()
def m017_second_wordings(db: Database) -> None:
    """Words from another keeper that differ from those here."""
    for statement in second_wordings.SECOND_WORDINGS:
        db.execute(statement)


@migrations()
def m019_lighter_lines(db: Database) -> None:
    """No index of the days of the year."""
    for statement in lighter_lines.LIGHTER_LINES:
        db.execute(statement)


@migrations()
def m022_kept_searches(db: Database) -> None:
    """Searches that are kept under a name."""
    for statement in kept_searches.KEPT_SEARCHES:
        db.execute(statement)


@migrations()
def m023_people(db: Database) -> None:
    """A line about a person, days to remember, and who is on a photo."""
    for statement in people.PEOPLE:
        db.execute(statement)


@migrations()
def m024_later_words(db: Database) -> None:
    """Later words under old lines; when nights were last brought up."""
    for statement in (*later_words.LATER_WORDS, *brought_up.BROUGHT_UP):
        db.execute(statement)


@migrations()
def m025_place_pages(db: Database) -> None:
    """What the person says of a place."""
    for statement in place_pages.PLACE_PAGES:
        db.execute(statement)


@migrations()
def m026_second_themes(db: Database) -> None:
    """Which theme a line stands in besides its own."""
    for statement in second_themes.SECOND_THEMES:
        db.execute(statement)


@migrations()
def m027_themes_within(db: Database) -> None:
    """Themes that the person begins, and what lies within wide ones."""
    for statement in themes_within.THEMES_WITHIN:
        db.execute(statement)


_NIGHT_SHAPE = "CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND date(date) IS date)"

_FIRST = (
    # What is true of the whole keeper: its own id, when it was begun.
    "CREATE TABLE about (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID",
    "CREATE TABLE setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID",
    """CREATE TABLE place (
        id TEXT PRIMARY KEY,
        name TEXT NOT NULL CHECK (name <> ''),
        region TEXT NOT NULL DEFAULT '',
        country TEXT NOT NULL DEFAULT '',
        latitude REAL CHECK (latitude BETWEEN -90 AND 90),
        longitude REAL CHECK (longitude BETWEEN -180 AND 180),
        zone TEXT NOT NULL DEFAULT '',
        geoname_id INTEGER,
        begun_at TEXT NOT NULL,
        CHECK ((latitude IS NULL) = (longitude IS NULL))
    ) STRICT""",
    """CREATE TABLE photo (
        id TEXT PRIMARY KEY,
        sha256 TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64),
        ending TEXT NOT NULL,
        bytes INTEGER NOT NULL,
        width INTEGER,
        height INTEGER,
        orientation INTEGER NOT NULL DEFAULT 1 CHECK (orientation BETWEEN 1 AND 8),
        taken_local TEXT,
        taken_offset_minutes INTEGER,
        latitude REAL,
        longitude REAL,
        name TEXT NOT NULL DEFAULT '',
        caption TEXT NOT NULL DEFAULT '',
        came_at TEXT NOT NULL
    ) STRICT""",
    f"""CREATE TABLE night (
        date TEXT PRIMARY KEY {_NIGHT_SHAPE},
        place_id TEXT REFERENCES place (id),
        place_source TEXT NOT NULL DEFAULT '' CHECK (place_source IN ('', 'said', 'carried', 'photo')),
        photo_id TEXT REFERENCES photo (id),
        begun_at TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX night_place ON night (place_id, date)",
    # number follows the nights (store.moments.line_number), so that reading
    # the index of words backwards gives the newest first.
    """CREATE TABLE line (
        number INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        night TEXT NOT NULL REFERENCES night (date),
        kind TEXT NOT NULL CHECK (kind IN ('gratitude', 'memory', 'reflection')),
        text TEXT NOT NULL CHECK (text <> ''),
        folded TEXT,
        written_at TEXT NOT NULL,
        offset_minutes INTEGER NOT NULL,
        zone TEXT NOT NULL,
        UNIQUE (night, kind)
    ) STRICT""",
    "CREATE INDEX line_day ON line (substr(night, 6), night)",
    """CREATE TABLE draft (
        night TEXT NOT NULL,
        kind TEXT NOT NULL CHECK (kind IN ('gratitude', 'memory', 'reflection')),
        text TEXT NOT NULL,
        typed_at TEXT NOT NULL,
        PRIMARY KEY (night, kind)
    ) STRICT, WITHOUT ROWID""",
    # Earlier wordings outlive their line, so they do not refer to it.
    """CREATE TABLE wording (
        id TEXT PRIMARY KEY DEFAULT (lower(hex(randomblob(16)))),
        line_id TEXT NOT NULL,
        night TEXT NOT NULL,
        kind TEXT NOT NULL,
        text TEXT NOT NULL,
        written_at TEXT NOT NULL,
        offset_minutes INTEGER NOT NULL,
        zone TEXT NOT NULL,
        replaced_at TEXT NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now'))
    ) STRICT""",
    "CREATE INDEX wording_night ON wording (night, kind, replaced_at)",
    """CREATE TRIGGER line_changed BEFORE UPDATE OF text ON line WHEN old.text <> new.text BEGIN
        INSERT INTO wording (line_id, night, kind, text, written_at, offset_minutes, zone)
        VALUES (old.id, old.night, old.kind, old.text, old.written_at, old.offset_minutes, old.zone);
    END""",
    """CREATE TRIGGER line_gone BEFORE DELETE ON line BEGIN
        INSERT INTO wording (line_id, night, kind, text, written_at, offset_minutes, zone)
        VALUES (old.id, old.night, old.kind, old.text, old.written_at, old.offset_minutes, old.zone);
    END""",
    "CREATE VIEW line_seen AS SELECT number, coalesce(folded, text) AS words FROM line",
    """CREATE VIRTUAL TABLE line_words USING fts5 (
        words, content='line_seen', content_rowid='number',
        tokenize='unicode61 remove_diacritics 2', prefix='2 3'
    )""",
    """CREATE TRIGGER line_words_in AFTER INSERT ON line BEGIN
        INSERT INTO line_words (rowid, words) VALUES (new.number, coalesce(new.folded, new.text));
    END""",
    """CREATE TRIGGER line_words_out AFTER DELETE ON line BEGIN
        INSERT INTO line_words (line_words, rowid, words)
        VALUES ('delete', old.number, coalesce(old.folded, old.text));
    END""",
    """CREATE TRIGGER line_words_anew AFTER UPDATE OF text, folded ON line BEGIN
        INSERT INTO line_words (line_words, rowid, words)
        VALUES ('delete', old.number, coalesce(old.folded, old.text));
        INSERT INTO line_words (rowid, words) VALUES (new.number, coalesce(new.folded, new.text));
    END""",
    """CREATE TABLE night_photo (
        night TEXT NOT NULL REFERENCES night (date),
        photo_id TEXT NOT NULL REFERENCES photo (id),
        position INTEGER NOT NULL,
        PRIMARY KEY (night, photo_id)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX night_photo_photo ON night_photo (photo_id)",
    """CREATE TABLE tracker (
        id TEXT PRIMARY KEY,
        name TEXT NOT NULL CHECK (name <> ''),
        form TEXT NOT NULL CHECK (form IN ('scale', 'hours', 'count', 'amount', 'mark')),
        low REAL,
        high REAL,
        unit TEXT NOT NULL DEFAULT '',
        better TEXT NOT NULL CHECK (better IN ('higher', 'lower', 'neither')),
        began TEXT NOT NULL,
        ended TEXT,
        position INTEGER NOT NULL
    ) STRICT""",
    """CREATE TABLE reading (
        night TEXT NOT NULL REFERENCES night (date),
        tracker_id TEXT NOT NULL REFERENCES tracker (id),
        value REAL NOT NULL,
        noted_at TEXT NOT NULL,
        PRIMARY KEY (tracker_id, night)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX reading_night ON reading (night)",
    """CREATE TABLE month_page (
        month TEXT PRIMARY KEY CHECK (month GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]'),
        question TEXT NOT NULL DEFAULT '',
        words TEXT NOT NULL DEFAULT '',
        photo_id TEXT REFERENCES photo (id)
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE goal (
        id TEXT PRIMARY KEY,
        month TEXT NOT NULL REFERENCES month_page (month),
        text TEXT NOT NULL CHECK (text <> ''),
        outcome TEXT NOT NULL DEFAULT 'set' CHECK (outcome IN ('set', 'done', 'carried on', 'let go')),
        word TEXT NOT NULL DEFAULT '',
        position INTEGER NOT NULL
    ) STRICT""",
    "CREATE TABLE person (id TEXT PRIMARY KEY, name TEXT NOT NULL CHECK (name <> '')) STRICT",
    # A theme's row is never deleted, so that its number is never given twice.
    """CREATE TABLE theme (
        number INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        name TEXT NOT NULL DEFAULT '',
        named INTEGER NOT NULL DEFAULT 0 CHECK (named IN (0, 1)),
        pinned INTEGER NOT NULL DEFAULT 0 CHECK (pinned IN (0, 1)),
        sure REAL NOT NULL DEFAULT 0,
        terms TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(terms)),
        base_terms TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(base_terms)),
        begun_at TEXT NOT NULL,
        retired_at TEXT
    ) STRICT""",
    # Two layers, both made anew by a rebuild: what is shown, with the person's
    # decisions in it, and what was found before them. Without a theme: loose.
    """CREATE TABLE theme_line (
        line_id TEXT PRIMARY KEY REFERENCES line (id) ON DELETE CASCADE,
        theme INTEGER REFERENCES theme (number),
        closeness REAL NOT NULL
    ) STRICT, WITHOUT ROWID""",
    # Not tied to the lines: one that was taken out and comes back comes home.
    "CREATE TABLE theme_base (line_id TEXT PRIMARY KEY, theme INTEGER REFERENCES theme (number)) STRICT, WITHOUT ROWID",
    # Other words may belong elsewhere, so the line has to find its theme again.
    """CREATE TRIGGER line_reworded AFTER UPDATE OF text ON line WHEN old.text <> new.text BEGIN
        DELETE FROM theme_line WHERE line_id = old.id;
        DELETE FROM theme_base WHERE line_id = old.id;
    END""",
    "CREATE INDEX theme_line_theme ON theme_line (theme)",
    """CREATE TABLE theme_decision (
        id TEXT PRIMARY KEY,
        position INTEGER NOT NULL UNIQUE,
        what TEXT NOT NULL,
        detail TEXT NOT NULL CHECK (json_valid(detail)),
        decided_at TEXT NOT NULL,
        undone_at TEXT
    ) STRICT""",
    """CREATE TABLE theme_model (
        name TEXT PRIMARY KEY,
        built_at TEXT NOT NULL,
        told TEXT NOT NULL CHECK (json_valid(told)),
        arrays BLOB NOT NULL
    ) STRICT""",
    """CREATE TABLE year_page (
        year INTEGER PRIMARY KEY CHECK (year BETWEEN 1 AND 9999),
        state TEXT NOT NULL CHECK (state IN ('begun', 'closed')),
        at INTEGER NOT NULL CHECK (at BETWEEN 1 AND 13),
        begun_at TEXT NOT NULL,
        closed_at TEXT
    ) STRICT""",
    """CREATE TABLE year_month (
        year INTEGER NOT NULL REFERENCES year_page (year),
        month INTEGER NOT NULL CHECK (month BETWEEN 1 AND 12),
        PRIMARY KEY (year, month)
    ) STRICT, WITHOUT ROWID""",
    # Month 0 is the year as a whole. A choice outlives what was chosen, as a
    # line that is taken out and written anew is the same line; hence no
    # reference to it.
    """CREATE TABLE year_choice (
        year INTEGER NOT NULL REFERENCES year_page (year),
        month INTEGER NOT NULL CHECK (month BETWEEN 0 AND 12),
        what TEXT NOT NULL CHECK (what IN ('photo', 'line')),
        ref TEXT NOT NULL,
        position INTEGER NOT NULL,
        decision TEXT NOT NULL CHECK (decision IN ('kept', 'changed', 'dropped')),
        decided_at TEXT NOT NULL,
        PRIMARY KEY (year, month, what, ref)
    ) STRICT, WITHOUT ROWID""",
    # With the question as it was asked, since ours may change.
    """CREATE TABLE year_answer (
        year INTEGER NOT NULL REFERENCES year_page (year),
        question TEXT NOT NULL CHECK (question <> ''),
        answer TEXT NOT NULL,
        position INTEGER NOT NULL,
        answered_at TEXT NOT NULL,
        PRIMARY KEY (year, question)
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE resting (
        id TEXT PRIMARY KEY,
        what TEXT NOT NULL CHECK (what IN ('line', 'photo', 'place', 'person', 'span')),
        ref TEXT,
        first TEXT,
        last TEXT,
        since TEXT NOT NULL,
        CHECK ((what = 'span') = (ref IS NULL)),
        CHECK (what <> 'span' OR first <= last)
    ) STRICT""",
    "CREATE UNIQUE INDEX resting_ref ON resting (what, ref) WHERE ref IS NOT NULL",
)

_PLACE_MERGES = (
    # gone is the other place's row as it was, gave what the remaining place was
    # without until the other gave it. No reference to the remaining place: it
    # may go into a third, and come back.
    """CREATE TABLE place_merge (
        id TEXT PRIMARY KEY,
        position INTEGER NOT NULL UNIQUE,
        into_id TEXT NOT NULL,
        gone TEXT NOT NULL CHECK (json_valid(gone)),
        gave TEXT NOT NULL CHECK (json_valid(gave)),
        merged_on TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX place_merge_into ON place_merge (into_id, position)",
    # The other place's nights. One that is said to be elsewhere leaves.
    """CREATE TABLE place_merge_night (
        merge_id TEXT NOT NULL REFERENCES place_merge (id) ON DELETE CASCADE,
        night TEXT NOT NULL REFERENCES night (date) ON DELETE CASCADE,
        PRIMARY KEY (merge_id, night)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX place_merge_of_night ON place_merge_night (night)",
)

_DRAFTS_OF = (
    # ref says of which one: a month, a night, an id.
    """CREATE TABLE draft_of (
        what TEXT NOT NULL,
        ref TEXT NOT NULL,
        text TEXT NOT NULL,
        typed_at TEXT NOT NULL,
        PRIMARY KEY (what, ref)
    ) STRICT, WITHOUT ROWID""",
)

_GOALS_AND_QUESTIONS = (
    # No reference: the goal it came from may be taken out.
    "ALTER TABLE goal ADD COLUMN carried_from TEXT NOT NULL DEFAULT ''",
    # A list of questions in their order. NULL: those that the program asks.
    "ALTER TABLE year_page ADD COLUMN questions TEXT CHECK (questions IS NULL OR json_valid(questions))",
)

# So many marks can be told apart: eight tints in six shapes. A number, not a
# name of this program's code: what was given stays given.
_KINDS_OF_MARK = 48

# Counted with those of merged places, since those may come back.
_LEAST_USED = f"""
    WITH RECURSIVE kind (mark) AS (SELECT 0 UNION ALL SELECT mark + 1 FROM kind WHERE mark + 1 < {_KINDS_OF_MARK}),
    used (mark) AS (SELECT mark FROM place UNION ALL SELECT json_extract(gone, '$.mark') FROM place_merge)
    SELECT kind.mark FROM kind ORDER BY (SELECT count(*) FROM used WHERE used.mark = kind.mark), kind.mark LIMIT 1"""


def _gives_a_mark(name: str, when: str) -> str:
    return f"""CREATE TRIGGER {name} AFTER {when} ON night
        WHEN new.place_id IS NOT NULL AND EXISTS (SELECT 1 FROM place WHERE id = new.place_id AND mark IS NULL) BEGIN
        UPDATE place SET mark = ({_LEAST_USED}) WHERE id = new.place_id;
    END"""


_MARKS = (
    "ALTER TABLE place ADD COLUMN mark INTEGER CHECK (mark >= 0)",
    "ALTER TABLE place ADD COLUMN on_the_way INTEGER NOT NULL DEFAULT 0 CHECK (on_the_way IN (0, 1))",
    # What was shown until now: places in the order of their first nights.
    f"""UPDATE place SET mark = earlier % {_KINDS_OF_MARK} FROM (
        SELECT place_id, row_number() OVER (ORDER BY min(date)) - 1 AS earlier
        FROM night WHERE place_id IS NOT NULL GROUP BY place_id
    ) WHERE id = place_id""",
    _gives_a_mark("night_marks_place", "INSERT"),
    _gives_a_mark("night_marks_another_place", "UPDATE OF place_id"),
)

_PHOTOS = (
    # width and height stay those of the file turned by its own orientation.
    "ALTER TABLE photo ADD COLUMN turns INTEGER NOT NULL DEFAULT 0 CHECK (turns BETWEEN 0 AND 3)",
    "ALTER TABLE photo ADD COLUMN dated_by TEXT NOT NULL DEFAULT '' "
    "CHECK (dated_by IN ('', 'digitized', 'notes', 'name'))",
    "ALTER TABLE photo ADD COLUMN day_only INTEGER NOT NULL DEFAULT 0 CHECK (day_only IN (0, 1))",
    "ALTER TABLE photo ADD COLUMN cut_off INTEGER NOT NULL DEFAULT 0 CHECK (cut_off IN (0, 1))",
    # Many photos that came at once, so that all can be taken back.
    """CREATE TABLE lot (
        number INTEGER PRIMARY KEY AUTOINCREMENT,
        came_at TEXT NOT NULL,
        taken_back_at TEXT
    ) STRICT""",
    # path is where the file came from, as bytes in hexadecimal: a name need not be text.
    """CREATE TABLE lot_photo (
        lot INTEGER NOT NULL REFERENCES lot (number) ON DELETE CASCADE,
        photo_id TEXT NOT NULL REFERENCES photo (id) ON DELETE CASCADE,
        night TEXT NOT NULL,
        path TEXT NOT NULL,
        PRIMARY KEY (lot, photo_id)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX lot_photo_photo ON lot_photo (photo_id)",
    # Nights whose place was said with the lot, and what it was before.
    """CREATE TABLE lot_place (
        lot INTEGER NOT NULL REFERENCES lot (number) ON DELETE CASCADE,
        night TEXT NOT NULL REFERENCES night (date) ON DELETE CASCADE,
        place_id TEXT NOT NULL,
        was_id TEXT,
        was_source TEXT NOT NULL,
        PRIMARY KEY (lot, night)
    ) STRICT, WITHOUT ROWID""",
)
