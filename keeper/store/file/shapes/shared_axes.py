"""Which readings are drawn on one axis, and how far each ever went."""

SHARED_AXES = (
    # Those with the same one stand together; "" stands alone.
    "ALTER TABLE tracker ADD COLUMN axis TEXT NOT NULL DEFAULT ''",
    # The highest value ever noted is asked for by each page that draws readings.
    "CREATE INDEX reading_highest ON reading (tracker_id, scale, unit, value)",
)
