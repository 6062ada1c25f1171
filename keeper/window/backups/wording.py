"""How backups are spoken of in the window."""

from keeper.actions.backups import Backup
from keeper.window.desk import wording

HOW = (
    "A whole copy of the keeper, made by itself while nobody types, once a day when something changed. "
    "In each lie your words as plain text too, a file a year, which anybody can read without this program."
)

KINDS = {"daily": "", "aside": "kept aside when another was brought back", "upgrade": "before an upgrade"}


def held(backup: Backup) -> str:
    """Such as: 7 nights, 8 lines, 2 photos, the last line on Sat 14 Nov 2026; 120 kB; before an upgrade."""
    if not backup.sound:
        return "It cannot be read."
    parts = ((backup.nights, "night"), (backup.lines, "line"), (backup.photos, "photo"))
    told = ", ".join(wording.counted(many, what) for many, what in parts)
    last = f", the last line on {wording.short_date(backup.last_line)}" if backup.last_line else ""
    return "; ".join(part for part in (f"{told}{last}", wording.size(backup.bytes), KINDS[backup.kind]) if part)


def when(backup: Backup) -> str:
    """Such as 14 November 2026, or 14 November 2026, 22:31 for one that was not made by itself."""
    hour = backup.name[11:16].replace(".", ":") if backup.kind != "upgrade" and len(backup.name) > 10 else ""
    return ", ".join(part for part in (wording.full_date(backup.day), hour) if part)


NAMES = {"own": "in this keeper\u2019s folder", "second": "in the second folder", "third": "in the third folder"}
