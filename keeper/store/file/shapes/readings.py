"""Trackers and readings: that a reading stays what it was when its tracker changes."""

AS_NOTED = (
    "ALTER TABLE tracker ADD COLUMN step REAL NOT NULL DEFAULT 1 CHECK (step > 0)",
    "ALTER TABLE tracker ADD COLUMN key TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE tracker ADD COLUMN body INTEGER NOT NULL DEFAULT 0 CHECK (body IN (0, 1))",
    # The number of the scale and unit in force; what was noted says on which one it was.
    "ALTER TABLE tracker ADD COLUMN scale INTEGER NOT NULL DEFAULT 0",
    """CREATE TABLE tracker_scale (
        tracker_id TEXT NOT NULL REFERENCES tracker (id) ON DELETE CASCADE,
        number INTEGER NOT NULL,
        low REAL,
        high REAL,
        unit TEXT NOT NULL,
        PRIMARY KEY (tracker_id, number)
    ) STRICT, WITHOUT ROWID""",
    # Local times, where hours were noted as two times.
    "ALTER TABLE reading ADD COLUMN first TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE reading ADD COLUMN until TEXT NOT NULL DEFAULT ''",
    # "" where it is that of its scale.
    "ALTER TABLE reading ADD COLUMN unit TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE reading ADD COLUMN scale INTEGER NOT NULL DEFAULT 0",
    # Mood, stress and sleep were scales and hours: of these the caution is told.
    "UPDATE tracker SET body = 1 WHERE form IN ('scale', 'hours')",
)
