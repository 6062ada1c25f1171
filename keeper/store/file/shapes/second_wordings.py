"""Words from another keeper that differ from those here, where only one can stand: kept beside them."""

SECOND_WORDINGS = (
    # ref is the row's key as a JSON list, name the column. No reference: what is there may go, and the words stay.
    """CREATE TABLE second_wording (
        what TEXT NOT NULL,
        ref TEXT NOT NULL CHECK (json_valid(ref)),
        name TEXT NOT NULL,
        text TEXT NOT NULL,
        came_at TEXT NOT NULL,
        PRIMARY KEY (what, ref, name, text)
    ) STRICT, WITHOUT ROWID""",
)
