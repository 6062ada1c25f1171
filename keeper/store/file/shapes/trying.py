"""Finding out by trying: the plan as the lot fell."""

TRYING = (
    # withs: a 1 or a 0 for each block, in the order drawn. Kept beside the seed: another version of a library may draw
    # otherwise from it. stopped: the first night that is no longer of it.
    """CREATE TABLE trying (
        id TEXT PRIMARY KEY,
        mark_id TEXT NOT NULL REFERENCES tracker (id) ON DELETE CASCADE,
        reading_id TEXT NOT NULL REFERENCES tracker (id) ON DELETE CASCADE,
        first TEXT NOT NULL,
        length INTEGER NOT NULL CHECK (length BETWEEN 1 AND 14),
        withs TEXT NOT NULL CHECK (withs <> '' AND withs NOT GLOB '*[^01]*'),
        seed INTEGER NOT NULL,
        later INTEGER NOT NULL CHECK (later IN (0, 1)),
        stopped TEXT CHECK (stopped > first)
    ) STRICT""",
    "CREATE INDEX trying_mark ON trying (mark_id)",
    "CREATE INDEX trying_reading ON trying (reading_id)",
)
