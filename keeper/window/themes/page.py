"""Themes: what keeps coming back, and each theme's own page."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtGui import QShowEvent

from keeper.window.desk.desk import Desk
from keeper.window.parts.page_stack import PageStack
from keeper.window.themes.overview import ThemesOverview
from keeper.window.themes.work import ThemeWork

if TYPE_CHECKING:
    from keeper.window.parts.word_picture.page import WordPicturePage
    from keeper.window.themes.begun.asking import AnsweringPage
    from keeper.window.themes.begun.begin import BeginPage
    from keeper.window.themes.theme import ThemePage


class ThemesPage(PageStack):
    """The threads, and each theme's own page, whose nights stand out in the ribbon."""

    def __init__(self, desk: Desk) -> None:
        work = ThemeWork.of(desk)
        super().__init__(desk, overview := ThemesOverview(desk, work))
        self.work, self.overview = work, overview
        self._came = False
        self.theme: ThemePage | None = None
        self.words: WordPicturePage | None = None
        self.overview.list.opened.connect(self.show_theme)
        self.overview.people.opened.connect(lambda person_id: desk.go("people", None, person_id))
        self.overview.loose_wanted.connect(lambda: self.show_theme(None))
        self.overview.begin_wanted.connect(self.show_begin)
        self.beginning: BeginPage | None = None
        self.asking: AnsweringPage | None = None

    def show_night(self, night: date) -> None:
        """Show the threads; or the theme one had open, or its words, for who comes back from a night of it."""
        came, self._came = self._came, False
        if came and self.currentWidget() is self.theme:
            self.theme.ask()
        elif not came or self.currentWidget() is not self.words:
            self._back()

    def show_thing(self, thing: int) -> None:
        """Show the theme of this number."""
        self.show_theme(thing)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._came = self._came or not event.spontaneous()

    def show_theme(self, number: int | None) -> None:
        """Show a theme's own page; None shows the loose lines."""
        if self.theme is None:
            # Not before it is wanted: it brings photos along.
            from keeper.window.themes.theme import ThemePage

            self.theme = self.join(ThemePage(self.desk, self.work), self._back)
            self.theme.narrowed.connect(self._narrow)
            self.theme.words_wanted.connect(self.show_words)
            self.theme.asking_wanted.connect(self.show_asking)
        self.theme.show_theme(number)
        self.turn_to(self.theme)

    def show_begin(self) -> None:
        """Let a theme be begun."""
        if self.beginning is None:
            from keeper.window.themes.begun.begin import BeginPage

            self.beginning = self.join(BeginPage(self.desk, self.work), self._back)
            self.beginning.begun.connect(self.show_asking)
        self.beginning.start()
        self.turn_to(self.beginning)

    def show_asking(self, number: int) -> None:
        """Ask about the lines of a theme that the person began."""
        if self.asking is None:
            from keeper.window.themes.begun.asking import AnsweringPage

            self.asking = self.join(AnsweringPage(self.desk, self.work), self._back)
            self.asking.lines_wanted.connect(self.show_theme)
        self.asking.show_theme(number)
        self.turn_to(self.asking)

    def show_words(self) -> None:
        """Show the picture of words of the theme shown."""
        if self.words is None:
            from keeper.window.parts.word_picture.page import WordPicturePage

            self.words = self.join(WordPicturePage(self.desk, "the theme"), self._back_from_words)
        self.words.of_theme(self.theme.number, self.theme.view.thread.name)
        self.turn_to(self.words)

    def _back_from_words(self) -> None:
        self.theme.ask()
        self.turn_to(self.theme)
        self.theme.picture.setFocus()

    def _back(self) -> None:
        self._narrow(None)
        self.see(self.overview)
        self.overview.open()
        self.overview.setFocus()

    def _narrow(self, only: frozenset | None) -> None:
        if only is not None and self.currentWidget() is not self.theme:
            return
        self.only = only
        self.desk.narrowed.emit()
