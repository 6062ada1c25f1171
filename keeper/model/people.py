"""What is kept of a person besides the name."""

from dataclasses import dataclass

BIRTHDAY = "birthday"
"""How the program calls the day on which somebody was born; all other days are called by the person."""


@dataclass(frozen=True, slots=True)
class DayToRemember:
    """A day of each year that belongs to somebody, in the Gregorian calendar.

    ``what`` is ``BIRTHDAY`` or the person's own name for it; ``year`` the first
    one, None where it is not known. ``after``: 29 February falls on 1 March in
    other years, and not on the 28th. ``typed`` is how the date was said in
    another calendar, "" in none. One that is ``told`` is told on Tonight.
    """

    id: str
    person_id: str
    what: str
    month: int
    day: int
    year: int | None = None
    after: bool = False
    typed: str = ""
    told: bool = False

    @property
    def is_birthday(self) -> bool:
        """Whether it is the day on which they were born."""
        return self.what.casefold() == BIRTHDAY

    @property
    def is_leap_day(self) -> bool:
        """Whether it is 29 February."""
        return (self.month, self.day) == (2, 29)
