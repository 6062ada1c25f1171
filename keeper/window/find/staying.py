"""Where one is in a list of lines that is asked for anew: the row at its top, and the row picked."""

from keeper.window.parts.found_list import FoundList


class Staying:
    """``note`` it before other rows are shown, and ``come_back`` when they are."""

    def __init__(self, answers: FoundList) -> None:
        self._answers = answers
        self._top: tuple[str, int] | None = None
        self._picked = ""
        # Rows are laid out a dozen at a time: the one at the top may be there only after a while.
        answers.verticalScrollBar().rangeChanged.connect(lambda *_: self._scroll())
        answers.verticalScrollBar().actionTriggered.connect(lambda _: self.forget())

    def note(self) -> None:
        """Remember where one is; where one was on the way back to another row, that one."""
        view, rows = self._answers, self._answers.model()
        at, picked = view.indexAt(view.viewport().rect().topLeft()), view.currentIndex()
        on_the_way = self._top is not None and self._row(self._top[0]) is not None
        if at.isValid() and view.verticalScrollBar().value() and not on_the_way:
            self._top = rows.at(at.row()).line.id, view.visualRect(at).top()
        if picked.isValid():
            self._picked = rows.at(picked.row()).line.id

    def come_back(self) -> None:
        """Pick the row again that was picked, and scroll to where it was, as soon as that is there."""
        at = self._row(self._picked)
        if at is not None and not self._answers.currentIndex().isValid():
            self._answers.setAutoScroll(False)
            self._answers.setCurrentIndex(self._answers.model().index(at, 0))
            self._answers.setAutoScroll(True)
        self._scroll()

    def forget(self) -> None:
        """Stay nowhere: other lines are looked for, or one has scrolled."""
        self._top, self._picked = None, ""

    def _scroll(self) -> None:
        top = self._top
        at = self._row(top[0]) if top else None
        if at is None:
            return
        rect, bar = self._answers.visualRect(self._answers.model().index(at, 0)), self._answers.verticalScrollBar()
        if self._top is not top:
            # To say where a row is, rows are laid out, by which one may have come back already.
            return
        wanted = bar.value() + rect.top() - top[1]
        if rect.isValid() and wanted <= bar.maximum():
            self._top = None
            bar.setValue(wanted)

    def _row(self, line_id: str) -> int | None:
        rows = self._answers.model()
        return next((row for row in range(rows.rowCount()) if rows.at(row).line.id == line_id), None)
