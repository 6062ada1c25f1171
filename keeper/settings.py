"""The settings, declared once; the settings page draws itself from this list."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from keeper.errors import BadSetting

INKS = {
    "blue-black": "#1f2a44",
    "sepia": "#4a3221",
    "bottle green": "#1d3b2f",
    "plum": "#44203f",
    "graphite": "#2b2b2b",
}
"""Inks to choose from, as they look on paper by day."""

PAPERS = {"day": "#fbf8f1", "night": "#1c1915"}
"""Papers to choose from; ink and tints are brought to a contrast with each."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing a person can set.

    ``choices`` are the values it may have, or empty; otherwise it is a whole
    number from ``low`` to ``high``, or (with neither) a free text. Settings
    without a ``label`` are remembered, not shown; those ``of_window`` are how
    the window was left, which is nothing that a person did.
    """

    name: str
    default: str
    label: str = ""
    description: str = ""
    choices: tuple[str, ...] = ()
    low: int | None = None
    high: int | None = None
    step: int = 1
    unit: str = ""
    of_window: bool = False


AS_THE_SYSTEM = "same as the system"

SETTINGS = (
    Setting("palette", AS_THE_SYSTEM, "Colours", "Paper by day, dark and warm by night.",
            (AS_THE_SYSTEM, *PAPERS)),
    Setting("ink", "blue-black", "Ink", "The one colour everything is written in.", tuple(INKS)),
    Setting("text_size", "100", "Text size", "Relative to the system\u2019s text size.", low=80, high=200, step=10, unit=" %"),
    Setting("rollover", "4", "A night ends at", "Until then it is still the night before.",
            low=0, high=12, unit=":00"),
    Setting("week_begins", AS_THE_SYSTEM, "The week begins on", "In calendars.",
            (AS_THE_SYSTEM, "Monday", "Saturday", "Sunday")),
    Setting("unseen", "no", "A night not seen for long", "Once a week, Looking back brings up a line from the night not seen for the longest.",
            ("no", "once a week")),
    # The ways of looking back that the person left out, with commas between; when the line of the week came last.
    Setting("ways_left_out", ""),
    Setting("unseen_last", "", of_window=True),
    Setting("open_nights", "left open", choices=("left open", "joined up")),
    Setting("year_readings", "month", choices=("month", "week"), of_window=True),
    Setting("ribbon", "", of_window=True),
    Setting("window", "", of_window=True),
    Setting("page", "", of_window=True),
    Setting("night", "", of_window=True),
    Setting("left_on", "", of_window=True),
    Setting("turn", "", of_window=True),
    # Folders for backups besides the keeper's own, when each last held what the keeper holds, and when that was last spoken of.
    Setting("second_folder", ""),
    Setting("third_folder", ""),
    # A folder whose texts and photos are offered.
    Setting("in_tray", ""),
    Setting("second_caught_up", "", of_window=True),
    Setting("third_caught_up", "", of_window=True),
    Setting("backups_spoken", "", of_window=True),
    # The columns of the sheet in the order of the person's notebook, and whether its pages stand beside.
    Setting("sheet_columns", "", of_window=True),
    Setting("sheet_pages", "beside", choices=("beside", "put away"), of_window=True),
    Setting("readings", "open", choices=("open", "folded"), of_window=True),
    Setting("readings_room", "", of_window=True),
    Setting("readings_offered", "", of_window=True),
    Setting("readings_many", "", of_window=True),
    Setting("readings_caution", "", of_window=True),
)  # fmt: skip

BY_NAME = {setting.name: setting for setting in SETTINGS}

OF_WINDOW = frozenset(setting.name for setting in SETTINGS if setting.of_window)

_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")


def checked(name: str, value: str) -> str:
    """The value, if the setting can have it.

    An ink may also be a colour of the person's own, as ``#rrggbb``. Raises
    BadSetting with what it can be.
    """
    setting = BY_NAME.get(name)
    if setting is None:
        raise BadSetting(f"There is no setting \u201c{name}\u201d. There are: {', '.join(_shown())}.")
    if name == "ink" and _COLOUR.fullmatch(value):
        return value
    if setting.choices and value not in setting.choices:
        raise BadSetting(f"{setting.label} can be {', '.join(setting.choices)}; not \u201c{value}\u201d.")
    if setting.low is not None and not _within(setting, value):
        raise BadSetting(f"{setting.label} is a whole number from {setting.low} to {setting.high}.")
    return value


def read(kept: Mapping[str, str], name: str) -> str:
    """A setting's value: the kept one, or the default where that is unusable."""
    try:
        return checked(name, kept[name])
    except (KeyError, BadSetting):
        return BY_NAME[name].default


def number(kept: Mapping[str, str], name: str) -> int:
    """A whole-number setting's value."""
    return int(read(kept, name))


def told(name: str, value: str) -> str:
    """A setting in a few words, such as "Text size 120 %"."""
    setting = BY_NAME[name]
    return f"{setting.label or 'Open nights'} {value}{setting.unit}"


def _within(setting: Setting, value: str) -> bool:
    return value.isdecimal() and setting.low <= int(value) <= setting.high


def _shown() -> list[str]:
    return [setting.name for setting in SETTINGS if setting.label]
