"""What comes from paper: pages of a notebook as pictures, and which lines were typed up."""

FROM_PAPER = (
    # A line, or an earlier wording of it, is known by its id and when it was written.
    """CREATE TABLE from_paper (
        line_id TEXT NOT NULL,
        written_at TEXT NOT NULL,
        PRIMARY KEY (line_id, written_at)
    ) STRICT, WITHOUT ROWID""",
    # A PDF is one file with many pages.
    """CREATE TABLE scan (
        id TEXT PRIMARY KEY,
        sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
        ending TEXT NOT NULL,
        bytes INTEGER NOT NULL,
        page INTEGER NOT NULL DEFAULT 0 CHECK (page >= 0),
        name TEXT NOT NULL DEFAULT '',
        first TEXT NOT NULL,
        last TEXT NOT NULL,
        turns INTEGER NOT NULL DEFAULT 0 CHECK (turns BETWEEN 0 AND 3),
        angle REAL NOT NULL DEFAULT 0 CHECK (angle BETWEEN -45 AND 45),
        cut_left REAL NOT NULL DEFAULT 0,
        cut_top REAL NOT NULL DEFAULT 0,
        cut_right REAL NOT NULL DEFAULT 1,
        cut_bottom REAL NOT NULL DEFAULT 1,
        came_at TEXT NOT NULL,
        CHECK (first <= last),
        CHECK (0 <= cut_left AND cut_left < cut_right AND cut_right <= 1),
        CHECK (0 <= cut_top AND cut_top < cut_bottom AND cut_bottom <= 1),
        UNIQUE (sha256, page)
    ) STRICT""",
    "CREATE INDEX scan_nights ON scan (first, last)",
)
