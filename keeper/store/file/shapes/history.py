"""The history: acts, what each changed, and what of the keeper is the window's own."""

from sqlite_utils import Database

HISTORY = (
    # What undoes each change: of a row put in its key (i), of one changed its key
    # and what was there before (u), of one taken out the whole row as it was (d).
    # A row that got another key is noted under the old one too (k), to be found.
    """CREATE TABLE change (
        seq INTEGER PRIMARY KEY,
        what TEXT NOT NULL,
        kind TEXT NOT NULL CHECK (kind IN ('i', 'u', 'd', 'k')),
        key TEXT NOT NULL,
        old TEXT
    ) STRICT""",
    # first and last: its changes, in the order of the acts; all of them where it
    # was done at one go and never turned, as nearly all are. turns: how often it
    # was taken back or done again; so an odd one is undone. latest: the first
    # change of what it did last, where that is not "first".
    """CREATE TABLE act (
        number INTEGER PRIMARY KEY,
        at TEXT NOT NULL,
        told TEXT NOT NULL,
        page TEXT NOT NULL,
        night TEXT,
        thing TEXT NOT NULL,
        done_from TEXT NOT NULL,
        first INTEGER NOT NULL,
        last INTEGER NOT NULL,
        latest INTEGER,
        turns INTEGER NOT NULL DEFAULT 0,
        set_aside INTEGER NOT NULL DEFAULT 0 CHECK (set_aside IN (0, 1))
    ) STRICT""",
    "CREATE INDEX act_latest ON act (latest) WHERE latest IS NOT NULL",
    "CREATE INDEX act_undone ON act (latest) WHERE turns % 2 = 1 AND set_aside = 0",
    # What it did in further transactions, and at each turn. The changes of earlier
    # turns are gone; that they were is still known, to tell what came after what.
    """CREATE TABLE act_more (
        act INTEGER NOT NULL REFERENCES act (number) ON DELETE CASCADE,
        turn INTEGER NOT NULL,
        first INTEGER NOT NULL,
        last INTEGER NOT NULL,
        PRIMARY KEY (act, turn, first)
    ) STRICT, WITHOUT ROWID""",
    "CREATE VIEW act_part AS SELECT number AS act, 0 AS turn, first AS begins, last AS ends FROM act "
    "UNION ALL SELECT act, turn, first, last FROM act_more",
    # Has a row only while something is undone, within one transaction.
    "CREATE TABLE undoing (yes INTEGER PRIMARY KEY) STRICT",
    # The columns in the order in which change.old has them, and the key's.
    "CREATE TABLE watched (name TEXT PRIMARY KEY, columns TEXT NOT NULL, key TEXT NOT NULL) STRICT, WITHOUT ROWID",
    # Until when acts can no longer be undone, and why.
    "CREATE TABLE let_go (one INTEGER PRIMARY KEY CHECK (one = 1), until TEXT NOT NULL, why TEXT NOT NULL) STRICT",
    # Where the window was left is nothing that a person did.
    "CREATE TABLE window_state (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID",
    "INSERT INTO window_state (name, value) SELECT name, value FROM setting "
    "WHERE name IN ('window', 'page', 'night', 'left_on', 'turn')",
    "DELETE FROM setting WHERE name IN ('window', 'page', 'night', 'left_on', 'turn')",
)

_NOT_UNDOING = "NOT EXISTS (SELECT 1 FROM undoing)"


def add_history(db: Database) -> None:
    """Make the tables; and let what an undone line was be found among the acts, not a second time as an earlier wording."""
    for statement in HISTORY:
        db.execute(statement)
    rows = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND name IN ('line_changed', 'line_gone')")
    for name, sql in rows.fetchall():
        head, begin, body = sql.partition(" BEGIN")
        db.execute(f"DROP TRIGGER {name}")
        db.execute(f"{head} {'AND' if ' WHEN ' in head else 'WHEN'} {_NOT_UNDOING}{begin}{body}")
