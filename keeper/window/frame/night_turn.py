"""The end of a night while the window is open: what was typed is kept, and the page goes on to the new one."""

from datetime import date
from typing import TYPE_CHECKING

from keeper.window.desk import wording
from keeper.window.frame.quiet import Quiet

if TYPE_CHECKING:
    from keeper.window.frame.window import Frame

TURN_AFTER = 60_000
"""Milliseconds without a key or a click after which a page that shows last night goes on to tonight."""

JUST_NOW = 1000


class NightTurn:
    """Sees each second whether the night has turned.

    A page of nights that shows the night left behind goes on at the next
    quiet look, not under hands that type; whoever opens another night or
    page meanwhile is left where they went.
    """

    def __init__(self, frame: "Frame", quiet: Quiet) -> None:
        self._frame, self._quiet = frame, quiet
        self._tonight = frame.desk.tonight()
        self._left_behind: date | None = None
        self._overslept = False
        self._held = False

    def look(self) -> None:
        """See whether the night has turned, and go on where nobody types."""
        self._note_the_turn()
        if self._left_behind:
            self._overslept = self._overslept or self._quiet.idle(TURN_AFTER)
            # Whoever closes a dialog that was open all night is not to write on there.
            if self._overslept and not self._quiet.asked():
                self._keep_words()
        if self._held and not self._quiet.idle(JUST_NOW):
            # Somebody is there to read it.
            self._held = False
            self._frame.say(self._frame.said.text())

    def drop(self) -> None:
        """Leave the person where they went."""
        self._left_behind, self._overslept = None, False

    def _note_the_turn(self) -> None:
        frame, tonight = self._frame, self._frame.desk.tonight()
        if tonight == self._tonight:
            return
        was, self._tonight = self._tonight, tonight
        if frame.night == was and frame.shows_a_night():
            self._left_behind = was
        elif frame.night == was:
            # The next page of nights is to open on tonight.
            frame.night = tonight
        frame.rest.offer_year()
        frame.desk.changed.emit()

    def _keep_words(self) -> None:
        # The line is kept first. What cannot be kept stays where it is seen.
        was, page = self._left_behind, self._frame.night_page
        self.drop()
        words = any(field.toPlainText().strip() for field in page.fields.values())
        page.keep()
        self._frame.desk.write(lambda store: None, lambda _: self._go_on(was, words))

    def _go_on(self, was: date, words: bool) -> None:
        frame, page, tonight = self._frame, self._frame.night_page, self._frame.desk.tonight()
        if frame.night != was or not frame.shows_a_night() or page.failing:
            return
        if page.unkept():
            # Something was typed meanwhile: at the next quiet look, then.
            self._left_behind = was
            return
        at = frame.focusWidget()
        frame.go(frame.page_shown(), tonight)
        if at and at.isVisible() and at.isEnabled():
            at.setFocus()
        frame.say(_told(was, tonight, words), until_read=True)
        self._held = True


def _told(was: date, tonight: date, words: bool) -> str:
    if tonight < was:
        return f"Here it is {wording.long_date(tonight)} again."
    return "It is a new night; last night\u2019s words are kept." if words else "It is a new night."
