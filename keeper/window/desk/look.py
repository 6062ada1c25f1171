"""Dressing the application: typefaces, palette and one style sheet."""

from functools import cache
from typing import TYPE_CHECKING

from PySide6.QtGui import QColor, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication

from keeper import settings
from keeper.settings import INKS, PAPERS
from keeper.shipped import resource
from keeper.window.desk.palette import Palette, contrast, palette

if TYPE_CHECKING:
    from PySide6.QtCore import Qt
    from PySide6.QtGui import QFont
    from PySide6.QtWidgets import QWidget

SERIF = "Source Serif 4"
SANS = "Source Sans 3"

FIRST_FACES = ("SourceSerif4_400Regular.ttf", "SourceSans3_400Regular.ttf")
"""The typefaces one types in."""

LATER_FACES = (
    "SourceSerif4_400Regular_Italic.ttf",
    "SourceSans3_600SemiBold.ttf",
    "SourceSerif4_600SemiBold.ttf",
)


@cache
def load_faces(faces: tuple[str, ...] = FIRST_FACES) -> None:
    """Take in typefaces that travel with the program."""
    for face in faces:
        QFontDatabase.addApplicationFont(str(resource(f"fonts/{face}")))


class Look:
    """The palette and sizes in force; ``dress`` puts them on."""

    def __init__(self, app: QApplication) -> None:
        self.app = app
        points = app.font().pointSizeF()
        self._system_points = points if points > 0 else 10.0
        self._dressed = False
        self._dots = app.primaryScreen().logicalDotsPerInchY()
        self._was_dark = contrast(app.palette().color(QPalette.ColorRole.Window).name(), "#ffffff") > 4
        self.points = self._system_points
        self.palette: Palette = palette(INKS["blue-black"], PAPERS["day"])
        # Where pages stand, once there is a window: what is made there is styled once, what comes there later once more.
        self.stage: QWidget | None = None

    def dress(self, kept: dict[str, str]) -> None:
        """Follow the person's settings."""
        ink = settings.read(kept, "ink")
        wanted = settings.read(kept, "palette")
        if wanted == settings.AS_THE_SYSTEM:
            wanted = "night" if self._system_is_dark() else "day"
        self.palette = palette(INKS.get(ink, ink), PAPERS[wanted])
        self.points = self._system_points * 1.1 * settings.number(kept, "text_size") / 100
        self.app.setPalette(self._qt_palette())
        self._dressed = True
        self.app.setStyleSheet(_SHEET.format_map(self._names()))

    def sans(self, scale: float = 1.0, bold: bool = False) -> "QFont":
        """The program's own voice, for what is painted."""
        return self._font(SANS, scale, bold)

    def serif(self, scale: float = 1.0, bold: bool = False) -> "QFont":
        """The person's words, for what is painted."""
        return self._font(SERIF, scale, bold)

    def px(self, ems: float) -> int:
        """A length that grows with the text: so many times the text's height."""
        return round(ems * self.points * self._dots / 72)

    def _font(self, family: str, scale: float, bold: bool) -> "QFont":
        from PySide6.QtGui import QFont

        font = QFont(family)
        font.setPointSizeF(self.points * scale)
        font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
        return font

    def _system_is_dark(self) -> bool:
        if not self._dressed:
            # The system's own paper, seen before ours is laid over it.
            return self._was_dark
        from PySide6.QtCore import Qt

        scheme = self.app.styleHints().colorScheme()
        return self._was_dark if scheme == Qt.ColorScheme.Unknown else scheme == Qt.ColorScheme.Dark

    def _qt_palette(self) -> QPalette:
        of = self.palette
        qt = QPalette()
        for role, colour in (
            (QPalette.ColorRole.Window, of.paper), (QPalette.ColorRole.Base, of.paper),
            (QPalette.ColorRole.AlternateBase, of.wash), (QPalette.ColorRole.Button, of.paper),
            (QPalette.ColorRole.Text, of.ink), (QPalette.ColorRole.WindowText, of.ink),
            (QPalette.ColorRole.ButtonText, of.ink), (QPalette.ColorRole.PlaceholderText, of.quiet),
            (QPalette.ColorRole.Highlight, of.ink), (QPalette.ColorRole.HighlightedText, of.paper),
            (QPalette.ColorRole.ToolTipBase, of.paper), (QPalette.ColorRole.ToolTipText, of.ink),
            (QPalette.ColorRole.Link, of.ink), (QPalette.ColorRole.Mid, of.line),
        ):  # fmt: skip
            qt.setColor(role, QColor(colour))
        return qt

    def _names(self) -> dict[str, str]:
        of = self.palette
        return {
            "paper": of.paper, "ink": of.ink, "quiet": of.quiet, "line": of.line, "faint": of.faint,
            "wash": of.wash, "sans": SANS, "serif": SERIF, "small": f"{self.points * 0.9:.2f}pt",
            "body": f"{self.points * 1.3:.2f}pt", "head": f"{self.points * 1.9:.2f}pt",
            "gap": str(self.px(0.35)), "wide": str(self.px(0.7)), "tick": str(self.px(0.75)),
            "sought": f"{self.points * 1.6:.2f}pt", "plain": f"{self.points:.2f}pt",
            "typed": f"{self.points * 1.45:.2f}pt", "place": f"{self.points * 1.15:.2f}pt",
        }  # fmt: skip


def weekday_that_begins(kept: dict[str, str]) -> "Qt.DayOfWeek":
    """The week's first day: the person's, or the locale's."""
    from PySide6.QtCore import QLocale, Qt

    named = settings.read(kept, "week_begins")
    if named == settings.AS_THE_SYSTEM:
        return QLocale().firstDayOfWeek()
    return Qt.DayOfWeek[named]


_SHEET = """
QWidget {{ background: {paper}; color: {ink}; font-family: "{sans}"; font-size: {plain}; }}
QScrollArea, QFrame {{ border: none; }}
QFrame#rule {{ background: {faint}; }}
QToolTip {{ background: {paper}; color: {ink}; border: 1px solid {line}; padding: {gap}px; }}
QPlainTextEdit, QListView, QTextBrowser {{ border: none; selection-background-color: {ink}; selection-color: {paper}; }}
QLineEdit, QPlainTextEdit {{ placeholder-text-color: {quiet}; }}
QLineEdit, QComboBox {{
    border: none; border-bottom: 1px solid {line}; padding: 2px 1px; background: {paper};
    selection-background-color: {ink}; selection-color: {paper};
}}
/* What is typed stands two dots further in; so do choices. */
QComboBox {{ padding-left: 3px; }}
QLineEdit:focus, QComboBox:focus {{ border-bottom: 2px solid {ink}; padding-bottom: 1px; }}
QComboBox::drop-down {{ border: none; width: 0; }}
QComboBox QAbstractItemView {{ border: 1px solid {line}; outline: none; padding: {gap}px;
    selection-background-color: {ink}; selection-color: {paper}; }}
QPushButton {{ border: none; padding: {gap}px {wide}px; text-align: left; }}
QPushButton:hover {{ text-decoration: underline; }}
QPushButton:focus {{ outline: none; border-bottom: 2px solid {ink}; }}
QPushButton:disabled {{ color: {quiet}; }}
QPushButton[quiet="true"] {{ color: {quiet}; font-size: {small}; padding: {gap}px 0; }}
QPushButton[page="true"] {{ color: {quiet}; border-bottom: 2px solid transparent; }}
QPushButton[page="true"]:checked {{ color: {ink}; border-bottom: 2px solid {ink}; }}
QPushButton[page="true"]:focus {{ background: {wash}; }}
QPushButton[turn="true"] {{ color: {quiet}; font-size: {small}; padding: {gap}px; border-bottom: 2px solid transparent; }}
QPushButton[turn="true"]:checked {{ color: {ink}; border-bottom: 2px solid {ink}; }}
QPushButton[turn="true"]:focus {{ background: {wash}; }}
QPushButton[plain="true"] {{ border: 1px solid {line}; border-radius: 2px; text-align: center; }}
QPushButton[plain="true"]:focus {{ border: 2px solid {ink}; }}
QCheckBox {{ spacing: {gap}px; border-bottom: 2px solid transparent; }}
QCheckBox::indicator {{ width: {tick}px; height: {tick}px; border: 1px solid {quiet}; background: {paper}; }}
QCheckBox::indicator:checked {{ background: {ink}; border-color: {ink}; }}
QCheckBox::indicator:disabled {{ border-color: {line}; }}
QCheckBox::indicator:checked:disabled {{ background: {line}; }}
QCheckBox:focus {{ border-bottom: 2px solid {ink}; }}
QCheckBox:disabled {{ color: {quiet}; }}
Field {{ font-family: "{serif}"; font-size: {typed}; }}
PlaceField {{ font-family: "{serif}"; font-size: {place}; }}
QLineEdit[sought="true"] {{ font-family: "{serif}"; font-size: {sought}; padding: {gap}px 1px; }}
QListWidget[words="true"] {{ font-family: "{serif}"; font-size: {typed}; }}
QListWidget[words="true"]::item {{ padding: {gap}px 0; }}
QListWidget[words="true"]::item:selected {{ background: {wash}; color: {ink}; }}
QLineEdit[question="true"] {{ font-family: "{serif}"; font-size: {body}; font-style: italic; }}
QLineEdit[caption="true"] {{ font-family: "{serif}"; font-size: {plain}; border-bottom: 1px solid transparent; }}
QLineEdit[caption="true"][large="true"] {{ font-size: {body}; }}
QLineEdit[caption="true"]:hover {{ border-bottom: 1px solid {line}; }}
QLineEdit[caption="true"]:focus {{ border-bottom: 2px solid {ink}; }}
QListView::indicator {{ width: {tick}px; height: {tick}px; border: 1px solid {quiet}; background: {paper}; }}
QListView::indicator:checked {{ background: {ink}; border-color: {ink}; }}
QListView[told="true"]::item {{ padding: 2px 0; }}
QListView[told="true"]::item:selected {{ background: {wash}; color: {ink}; }}
QListView[told="true"] {{ border-top: 1px solid {faint}; }}
QHeaderView, QHeaderView::section {{ background: {paper}; border: none; }}
QHeaderView::section:horizontal {{ border-bottom: 1px solid {line}; }}
QHeaderView::section:checked {{ font-weight: normal; border-bottom: 2px solid {ink}; }}
QTableView {{ border: none; }}
QTableWidget {{ outline: none; }}
QTableWidget::item:selected {{ background: {wash}; color: {ink}; }}
QTableCornerButton::section {{ background: {paper}; border: none; }}
QTableView QLineEdit, QTableView QLineEdit:focus {{ border: 2px solid {ink}; padding: 0; }}
QTableView LineEdit {{ border: 2px solid {ink}; font-family: "{serif}"; font-size: {plain}; padding: 0; }}
QTableView PlaceEdit {{ font-family: "{sans}"; font-size: {plain}; }}
QMenu {{ border: 1px solid {line}; padding: {gap}px 0; }}
QMenu::item {{ padding: {gap}px {wide}px; }}
QMenu::item:selected {{ background: {wash}; color: {ink}; }}
QLabel[quiet="true"] {{ color: {quiet}; font-size: {small}; }}
QLabel[acts="true"] {{ padding: {gap}px 0; }}
QLabel[head="true"] {{ font-family: "{serif}"; font-size: {head}; }}
QLabel[words="true"] {{ font-family: "{serif}"; font-size: {body}; }}
QLabel[question="true"] {{ font-family: "{serif}"; font-size: {body}; font-style: italic; }}
MonthWordsBox Field, PlaceSaid Field {{ font-size: {body}; }}
QLabel[section="true"] {{ color: {quiet}; font-size: {plain}; }}
QLabel[pattern="true"] {{ font-family: "{serif}"; font-size: {body}; border-left: 2px solid transparent; padding-left: {gap}px; }}
QLabel[pattern="true"]:focus {{ border-left-color: {ink}; }}
QLabel[spoken="true"] {{ font-family: "{serif}"; font-size: {place}; }}
QLabel[asked="true"] {{ font-family: "{serif}"; font-size: {place}; font-style: italic; }}
QLineEdit[words="true"] {{ font-family: "{serif}"; font-size: {place}; border-bottom: 1px solid transparent; }}
QLineEdit[words="true"]:hover {{ border-bottom: 1px solid {line}; }}
QLineEdit[words="true"]:focus {{ border-bottom: 2px solid {ink}; }}
QPushButton[quiet="true"][named="true"] {{ color: {ink}; font-family: "{serif}"; font-size: {place}; }}
QListWidget[shelf="true"] {{ font-family: "{serif}"; font-size: {place}; }}
QListWidget[shelf="true"]::item {{ padding: {gap}px 0; }}
QListWidget[shelf="true"]::item:selected {{ background: {wash}; color: {ink}; }}
QListWidget[photos="true"]::item:selected {{ background: {wash}; color: {ink}; }}
QScrollBar:vertical {{ width: 7px; background: transparent; margin: 0; }}
QScrollBar::handle:vertical {{ background: {line}; border-radius: 3px; min-height: 24px; }}
QScrollBar::add-line, QScrollBar::sub-line, QScrollBar::add-page, QScrollBar::sub-page {{ height: 0; background: none; }}
QScrollBar:horizontal {{ height: 8px; background: transparent; margin: 0; }}
QScrollBar::handle:horizontal {{ background: {line}; border-radius: 3px; min-width: 24px; }}
QProgressBar {{ border: 1px solid {line}; height: 6px; text-align: center; }}
QProgressBar::chunk {{ background: {ink}; }}
QCalendarWidget QToolButton {{ background: {paper}; color: {ink}; }}
QCalendarWidget QAbstractItemView {{ selection-background-color: {ink}; selection-color: {paper}; }}
"""
