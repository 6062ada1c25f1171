"""Shapes of files that were read in, and what the person said their columns are."""

FILES_READ = (
    # shape is a sum (SHA-256) of the kind of file and the names of its columns: what stood in it is not kept.
    """CREATE TABLE file_shape (
        shape TEXT PRIMARY KEY CHECK (length(shape) = 64),
        meant TEXT NOT NULL CHECK (json_valid(meant)),
        used_at TEXT NOT NULL
    ) STRICT, WITHOUT ROWID""",
)
