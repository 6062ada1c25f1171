"""Which readings are drawn on one axis."""

SHARED_AXES = (
    # Those with the same one stand together; "" stands alone.
    "ALTER TABLE tracker ADD COLUMN axis TEXT NOT NULL DEFAULT ''",
)
