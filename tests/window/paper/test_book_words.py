"""The words on the dialogs that make a book or a page: the same for the same thing."""

from datetime import date

from PySide6.QtWidgets import QPushButton

from keeper.window.paper.book import BookDialog
from keeper.window.paper.month_sheet import MonthPrintDialog


def words(dialog) -> set[str]:
    return {button.text() for button in dialog.findChildren(QPushButton)}


def test_both_dialogs_close_stop_and_tell_their_progress_in_the_same_words(frame):
    book, page = BookDialog(frame.desk, 2026, frame), MonthPrintDialog(frame.desk, date(2026, 11, 1), frame)
    assert {"Close", "Stop", "Open the folder", "Save\u2026"} <= words(book) & words(page)
    assert book.bar.accessibleName() == page.bar.accessibleName() == "Progress"
    assert {"Change the contents", "\u2039 Back", "Next \u203a", "Make the book"} <= words(book)
    assert not {"Leave", "Onward", "Other parts"} & (words(book) | words(page))
