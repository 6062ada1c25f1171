"""What takes part in patterns, what was decided of them, and what was found, which can be found again."""

PATTERNS = (
    # A key is "reading:" and an id, "theme:" and a number and so on: no reference, since what it names may come back.
    """CREATE TABLE pattern_pick (
        key TEXT PRIMARY KEY,
        position INTEGER NOT NULL
    ) STRICT, WITHOUT ROWID""",
    # watched_from is the night on which the person began to keep an eye on it, watched_told what was told then;
    # it is due when so many nights more are kept. 0: no eye is kept on it.
    """CREATE TABLE pattern_decision (
        first TEXT NOT NULL,
        second TEXT NOT NULL,
        lag INTEGER NOT NULL CHECK (lag >= 0),
        put_away INTEGER NOT NULL DEFAULT 0 CHECK (put_away IN (0, 1)),
        watched_nights INTEGER NOT NULL DEFAULT 0 CHECK (watched_nights >= 0),
        watched_from TEXT NOT NULL DEFAULT '',
        watched_told TEXT NOT NULL DEFAULT '',
        PRIMARY KEY (first, second, lag)
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE pattern_found (
        first TEXT NOT NULL,
        second TEXT NOT NULL,
        lag INTEGER NOT NULL,
        answer TEXT NOT NULL,
        PRIMARY KEY (first, second, lag)
    ) STRICT, WITHOUT ROWID""",
    # By its fingerprint it is known whether a column is as it was when it was asked.
    "CREATE TABLE pattern_found_column (key TEXT PRIMARY KEY, fingerprint TEXT NOT NULL) STRICT, WITHOUT ROWID",
    "CREATE TABLE pattern_found_told (one INTEGER PRIMARY KEY CHECK (one = 1), told TEXT NOT NULL) STRICT",
)
