"""One earlier night as it is brought up: when, where, and its lines."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from keeper.dates.distance import apart
from keeper.model import Line, Night, Photo
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.later.shown import LaterWords
from keeper.window.parts.photos.thumbnail import Thumbnail
from keeper.window.parts.small import label, name_within, quiet_button, row
from keeper.window.parts.words_shown import line_words

PHOTO_HEIGHT = 7.5
"""Times the text's height."""

IN_NIGHTS = 60
"""What is nearer than so many nights is told in nights."""


class RememberedNight(QWidget):
    """An earlier night; its heading opens it, each line can be let rest or be given a later word, its photo be seen whole."""

    def __init__(self, desk: Desk, night: Night, tonight: date, rest, speak, photo: Photo | None = None) -> None:
        super().__init__()
        self._desk, self.night, self._speak = desk, night, speak
        self.later: dict[str, LaterWords] = {}
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(0.9), 0, desk.look.px(0.5))
        layout.setSpacing(desk.look.px(0.3))
        self.heading = quiet_button(
            wording.long_date(night.date), lambda: desk.go("night", night.date),
            f"Open the night of {wording.long_date(night.date)}",
        )  # fmt: skip
        told = _ago(night.date, tonight) + (f" \u00b7 {night.place.name}" if night.place else "")
        layout.addLayout(row(self.heading, label(told, "quiet", wrap=False), None))
        lines = self._lines(night, rest)
        layout.addLayout(lines)
        if photo:
            lines.setRowMinimumHeight(lines.rowCount(), desk.look.px(0.2))
            lines.addWidget(self._photo(night, photo), lines.rowCount(), 1, Qt.AlignmentFlag.AlignLeft)

    def _photo(self, night: Night, photo: Photo) -> QWidget:
        made = Thumbnail(self._desk, photo, PHOTO_HEIGHT)
        made.clicked.connect(lambda: self._desk.photos_wanted.emit([photo], 0, night.date))
        return made

    def _lines(self, night: Night, rest) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(self._desk.look.px(1))
        grid.setColumnStretch(1, 1)
        top = Qt.AlignmentFlag.AlignTop
        for place, line in enumerate(night.lines):
            grid.addWidget(self._kind(line), place * 2, 0, top)
            grid.addWidget(line_words(line.text), place * 2, 1)
            self.later[line.id] = LaterWords(self._desk, line)
            grid.addWidget(self.later[line.id], place * 2 + 1, 1)
            said = f"A later word under {line.kind_in_sentence} of {wording.full_date(night.date)}"
            grid.addWidget(quiet_button("Later word", lambda line=line: self._speak(line), said), place * 2, 2, top)
            button = quiet_button("Let rest", lambda line=line: rest(line), f"Let {line.kind_in_sentence} rest")
            grid.addWidget(button, place * 2, 3, top)
        return grid

    def show_later(self, night: Night, in_field: str, tonight: date) -> None:
        """Take up what was said of its lines since; what is said tonight of the line ``in_field`` stands there."""
        for line in night.lines:
            self.later[line.id].show_line(line, tonight if line.id == in_field else None)

    def _kind(self, line: Line) -> QWidget:
        made = label("", "quiet")
        name_within(made, line.kind_title, self._desk.look.px(8), self._desk.look.px(5.2))
        made.setContentsMargins(0, self._desk.look.px(0.35), 0, 0)
        return made


def _ago(night: date, tonight: date) -> str:
    if (tonight - night).days < IN_NIGHTS:
        return wording.capitalised(wording.how_long_ago(night, tonight))
    return wording.capitalised(f"{apart(night, tonight)} ago")
