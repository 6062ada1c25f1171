"""The parts of a book, to be chosen."""

from PySide6.QtWidgets import QCheckBox, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from keeper.actions.paper.making import BookParts
from keeper.window.desk.look import Look
from keeper.window.parts.choice import Choice
from keeper.window.parts.small import label

_PARTS = (
    ("photos", "Photos", "One of each month, at the size it prints well."),
    ("month_pages", "The months\u2019 own pages", "Question, words, goals, and the places with their nights."),
    ("answers", "Answers to the month\u2019s question", "Those that are not among the lines."),
    ("themes", "Themes", "What each month was about."),
    ("readings", "Readings", "As strips, on one scale through the year."),
    ("map", "Map", "Where the year was spent."),
    ("notebook", "Pages of the notebook", "The scans kept with a month, each after its nights."),
    ("index", "Index", "Places, and names of people you marked."),
    ("later_words", "Later words", "What you said of lines on later nights, under each."),
    ("resting", "What rests", "Include the lines, photos and places that rest."),
)
_LINES = {"all": "All lines", "chosen": "The lines chosen for each month"}
SIZE_NAMES = {"a5": "A5, 148 \u00d7 210 mm", "a4": "A4, 210 \u00d7 297 mm", "half-letter": "Half letter, 5\u00bd \u00d7 8\u00bd in"}


class BookPartsForm(QWidget):
    """What is in the book, how large a page is, and what the title says."""

    def __init__(self, look: Look, year: int) -> None:
        super().__init__()
        usual = BookParts()
        self.title, self.name = self._field("The title", str(year)), self._field("Whose book it is", "")
        self.name.setPlaceholderText("No name")
        self.lines = self._choice(look, "Lines", _LINES)
        self.size = self._choice(look, "Size of the page", SIZE_NAMES)
        self.boxes = {part: self._box(words, told, getattr(usual, part)) for part, words, told in _PARTS}
        grid = QGridLayout()
        grid.setHorizontalSpacing(look.px(1.2))
        grid.setVerticalSpacing(look.px(0.5))
        grid.setColumnStretch(1, 1)
        rows = (("Title", self.title), ("Name", self.name), ("Lines", self.lines), ("Page", self.size))
        for number, (words, field) in enumerate(rows):
            named = label(words, "quiet", wrap=False)
            named.setBuddy(field)
            grid.addWidget(named, number, 0)
            grid.addWidget(field, number, 1)
        for number, (part, _, told) in enumerate(_PARTS, len(rows)):
            grid.addWidget(self.boxes[part], number, 0)
            grid.addWidget(label(told, "quiet"), number, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(grid)
        layout.addStretch(1)
        self.lines.currentIndexChanged.connect(lambda _: self._follow_lines())
        self._follow_lines()

    def parts(self) -> BookParts:
        """What was chosen."""
        chosen = {part: box.isChecked() for part, box in self.boxes.items()}
        return BookParts(
            **chosen, lines=self.lines.currentData(), size=self.size.currentData(),
            title=self.title.text(), name=self.name.text(),
        )  # fmt: skip

    def _follow_lines(self) -> None:
        # Among all lines the answers are there already.
        self.boxes["answers"].setEnabled(self.lines.currentData() == "chosen")

    def _field(self, name: str, text: str) -> QLineEdit:
        made = QLineEdit(text)
        made.setAccessibleName(name)
        made.setMaxLength(120)
        return made

    def _choice(self, look: Look, name: str, choices: dict[str, str]) -> Choice:
        made = Choice(look, name)
        for value, words in choices.items():
            made.addItem(words, value)
        return made

    def _box(self, words: str, told: str, checked: bool) -> QCheckBox:
        made = QCheckBox(words)
        made.setChecked(checked)
        made.setAccessibleDescription(told)
        return made
