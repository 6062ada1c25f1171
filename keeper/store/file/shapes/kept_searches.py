"""Searches that are kept under a name."""

KEPT_SEARCHES = (
    # sought: what is looked for, an object of JSON. It names places, people and the like by id and by name, since they
    # may be taken out, or come into a keeper where they have another id.
    """CREATE TABLE kept_search (
        id TEXT PRIMARY KEY,
        name TEXT NOT NULL CHECK (name <> ''),
        sought TEXT NOT NULL CHECK (json_valid(sought)),
        kept_at TEXT NOT NULL
    ) STRICT""",
)
