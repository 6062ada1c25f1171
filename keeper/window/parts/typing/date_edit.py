"""A field for a date, in whatever way a person writes it, and what was understood."""

from PySide6.QtWidgets import QLineEdit

from keeper.dates.typed import Understood, understood
from keeper.errors import UnreadableDate
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling

SUCH_AS = "3 June 2019, June 2019 or yesterday"


class DateEdit(QLineEdit):
    """Takes a date, a month or a year."""

    def __init__(self, desk: Desk, name: str) -> None:
        super().__init__()
        self._desk = desk
        self.setAccessibleName(name)
        self.setAccessibleDescription(f"A date, such as {SUCH_AS}.")
        self.setMaxLength(60)

    def meant(self) -> Understood | None:
        """The nights that are meant; None when nothing is typed. Raises UnreadableDate."""
        typed = self.text().strip()
        return understood(typed, self._desk.tonight(), own_spelling()) if typed else None

    def meant_or_none(self) -> Understood | None:
        """The same, and None for what is no date."""
        try:
            return self.meant()
        except UnreadableDate:
            return None


def span_told(first: DateEdit, last: DateEdit, begins: str, ends: str) -> str:
    """What was understood of both ends of a span, in words; of an end that is no date, why not."""
    known, wrong = [], []
    for edit, word in ((first, begins), (last, ends)):
        try:
            meant = edit.meant()
        except UnreadableDate as error:
            wrong += [str(error)] if str(error) not in wrong else []
            continue
        known += [(word, in_words(meant))] if meant else []
    understood_so = _both_ends(known)
    return " ".join([f"{understood_so}.", *wrong] if known and wrong else [*wrong] or [understood_so])


def _both_ends(known: list[tuple[str, str]]) -> str:
    told = {said for _, said in known}
    if len(known) == 2 and len(told) == 1:
        # Both ends within one month, year or night: that is the span.
        return wording.capitalised(told.pop())
    return wording.capitalised(" ".join(f"{word} {said}" for word, said in known))


def in_words(meant: Understood) -> str:
    """Such as "Monday 3 June 2019", "June 2019" or "2019"."""
    if meant.first == meant.last:
        return wording.long_date(meant.first)
    if meant.first.month == meant.last.month:
        return wording.month_and_year(meant.first)
    return str(meant.first.year)
