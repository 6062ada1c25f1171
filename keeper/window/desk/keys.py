"""The keys: what they press, where, and how they are told of; the one list of them."""

from typing import NamedTuple

from keeper.window.desk.pages import KEY_OF, NUMBERED


class Key(NamedTuple):
    """Keys that belong together.

    ``told`` names them, ``does`` says what they do. ``shortcuts`` are what is
    pressed and the name of the act it is for; where there are none, the part
    in which they work takes them itself.
    """

    told: str
    does: str
    shortcuts: tuple[tuple[str, str], ...] = ()


EVERYWHERE = (
    Key("F1", "these keys", (("F1", "keys"),)),
    Key(f"Ctrl+1 to Ctrl+{len(NUMBERED)}", "the pages in their order",
        tuple((KEY_OF[page], f"page:{page}") for page in NUMBERED)),
    Key("Ctrl+T", "tonight", (("Ctrl+T", "tonight"),)),
    Key("Ctrl+PageUp, Ctrl+PageDown", "the night before, the night after",
        (("Ctrl+PgUp", "night before"), ("Ctrl+PgDown", "night after"))),
    Key("Ctrl+G", "go to a date", (("Ctrl+G", "date"),)),
    Key("Ctrl+F", "find", (("Ctrl+F", "page:find"),)),
    Key("Ctrl+L", "say where you are; Ctrl+Enter there: for other nights too", (("Ctrl+L", "place"),)),
    Key("Ctrl+Z, Ctrl+Y", "take back what is typed, then what was done last; do it again",
        (("Ctrl+Z", "undo"), ("Ctrl+Y", "redo"), ("Ctrl+Shift+Z", "redo"))),
    Key("F6", "the readings of the night, and back to its words", (("F6", "readings"),)),
    Key("Ctrl+H", "what was done lately; U there takes back the one that is marked", (("Ctrl+H", "page:lately"),)),
    Key("Ctrl+I", "take in what waits in the in-tray", (("Ctrl+I", "in-tray"),)),
    Key("Ctrl+,", "settings", ((KEY_OF["settings"], "page:settings"),)),
    Key("Ctrl+Q", "close; everything is kept", (("Ctrl+Q", "close"),)),
)  # fmt: skip

ON_A_MONTH = (
    Key("Alt+PageUp, Alt+PageDown", "on the page of a month, and on paper: the month before, the month after",
        (("Alt+PgUp", "month before"), ("Alt+PgDown", "month after"))),
)  # fmt: skip

IN_PARTS = (
    Key("Enter, Down", "the next line of the night; Shift+Enter begins a new row"),
    Key("Letters, digits, arrows, Space, Delete", "on a reading: go to its own, set it, a step, a mark, not noted"),
    Key("Ctrl+M", "in a line of a night: move it to another night or kind"),
    Key("Shift+Left, Shift+Right", "on the ribbon: several nights; Enter says where you were"),
    Key("T", "on the ribbon: tint it by place or by a reading"),
    Key("Ctrl+M", "on a line found: more like it, from other years"),
    Key("Ctrl+J", "on an old line, found, of a night, a month, a theme or a place: a later word under it"),
    Key("Enter, P, R, F2, Delete", "on a photo: open it, make it the night\u2019s, let it rest, caption it, remove it"),
    Key("+, -, 0, 1, S", "in a photo\u2019s full view: closer, farther, all of it, its own size, save a copy"),
    Key("Enter, Tab, F2, Ctrl+D", "on the sheet of paper: down, across, on in what is there, fill down; Shift and arrows pick out cells"),
    Key("Alt+Left, Alt+Right, Alt+B", "beside the sheet: the page before, the page after, it begins with this night"),
    Key("Alt with +, -, 0, \u2191, \u2193, T, S, C", "beside the sheet: closer, farther, all of it, move, turn, straighten, crop"),
    Key("Alt+\u2191, Alt+\u2193", "in the settings, in the name of a kind of line: before the others, or after"),
    Key("C, E, N, Delete", "on a pattern: its chart, keep an eye on it, note it on the month, put it away"),
    Key("Alt+N, Alt+H", "on a closer look at readings: its numbers as a table, how it was asked"),
    Key("+, -, arrows, Home", "on the map of places: closer, farther, move it, all of it"),
)

KEYS = (*EVERYWHERE, *ON_A_MONTH, *IN_PARTS)
