"""Calendars (RFC 5545): events and journal entries, one at a time; the parts of a line are told by icalendar."""

from collections.abc import Iterable, Iterator

from keeper.exchange.tables.shape import LONGEST_CELL, Row, as_row

COLUMNS = ("Date", "Summary", "Description", "Place")

_READ = {"DTSTART": 0, "SUMMARY": 1, "DESCRIPTION": 2, "LOCATION": 3}
_WANTED = ("VEVENT", "VJOURNAL")
_LONGEST_LINE = 4 * LONGEST_CELL


def rows(lines: Iterable[str]) -> Iterator[Row]:
    """An entry a row: date (ISO 8601, with the hour as it was lived there, or Z), summary, description, place.

    Other components, and what is nested within an entry (alarms), are passed
    over. A repeated event counts on its first day.
    """
    within: list[str] = []
    began, cells, trouble = 0, [""] * len(COLUMNS), ""
    for number, line in unfolded(lines):
        name, _, value = line.partition(":")
        name = name.upper()
        if name == "BEGIN":
            within.append(value.strip().upper())
            if within[-1] in _WANTED:
                began, cells, trouble = number, [""] * len(COLUMNS), ""
        elif name == "END":
            ended = within.pop() if within else ""
            if ended in _WANTED:
                yield Row(began, (), trouble) if trouble else as_row(began, cells)
        elif within and within[-1] in _WANTED and (name.partition(";")[0] in _READ):
            trouble = _take(line, cells) or trouble


def unfolded(lines: Iterable[str]) -> Iterator[tuple[int, str]]:
    """The lines of content, those that were folded (section 3.1) made one again, with the number of their first."""
    began, parts, long = 0, [], 0
    for number, line in enumerate(lines, 1):
        line = line.rstrip("\r\n")
        if line[:1] in (" ", "\t") and parts:
            if long < _LONGEST_LINE:
                parts.append(line[1:])
                long += len(line)
            continue
        if parts:
            yield began, "".join(parts)
        began, parts, long = number, [line[:_LONGEST_LINE]], len(line)
    if parts:
        yield began, "".join(parts)


def _take(line: str, cells: list[str]) -> str:
    """Put what a line tells into its cell; why that cannot be, or ""."""
    from icalendar.parser import Contentline
    from icalendar.prop import vText

    try:
        name, _, value = Contentline.from_ical(line).parts()
        place = _READ[name.upper()]
        told = _moment(value) if place == 0 else str(vText.from_ical(value)).strip()
    except Exception:
        # Whatever a library makes of a line that is none.
        return f"has a line that is not as calendars have it: \u201c{line[:60]}\u201d"
    # A journal entry may have several descriptions.
    cells[place] = "\n\n".join(filter(None, (cells[place], told))) if place == 2 else cells[place] or told
    return ""


def _moment(value: str) -> str:
    """A date or a date with its hour (3.3.4, 3.3.5) as ISO 8601."""
    day, _, hour = value.strip().partition("T")
    told = f"{day[:4]}-{day[4:6]}-{day[6:]}"
    return f"{told} {hour[:2]}:{hour[2:4]}:{hour[4:6]}{'Z' if hour.endswith(('Z', 'z')) else ''}" if hour else told
