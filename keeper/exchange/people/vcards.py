"""Cards (vCard 4.0, RFC 6350) in and out; those of version 3.0 are read too. Rows are told apart and made by icalendar."""

from collections.abc import Iterable, Iterator, Sequence

from keeper.exchange.people.card import Card, CardDay, one_name, plain
from keeper.exchange.people.day_values import NotADay, day_from, spelt
from keeper.exchange.texts.calendar import unfolded

OWN_DAY, FALLS, SAID, CALLED = "X-DAY-TO-REMEMBER", "X-IN-OTHER-YEARS", "X-SAID-AS", "X-CALLED"
"""What no standard property holds: a day of another name, 1 March for a 29 February, a date as said in another calendar."""

_DAYS = {"BDAY": "birthday", "ANNIVERSARY": "Anniversary", OWN_DAY: ""}
_TEXTS = ("FN", "NICKNAME", "NOTE", "N", "UID", "VERSION")

_MOST = 200
"""So many rows of one card are looked at: no person has more names and days."""


def read(lines: Iterable[str]) -> Iterator[Card]:
    """The cards of a file, one at a time; one that does not end is one too."""
    under_way: _Under | None = None
    for number, line in unfolded(lines):
        name, value = line.partition(":")[0].strip().upper(), line.partition(":")[2].strip().upper()
        if (name, value) == ("BEGIN", "VCARD"):
            if under_way:
                yield under_way.card()
            under_way = _Under(number)
        elif (name, value) == ("END", "VCARD") and under_way:
            yield under_way.card()
            under_way = None
        elif under_way and line.strip():
            under_way.take(line)
    if under_way:
        yield under_way.card()


class _Under:
    """A card that is being read."""

    def __init__(self, number: int) -> None:
        self._number, self._taken = number, 0
        self._texts: dict[str, list[str]] = {name: [] for name in _TEXTS}
        self._days: list[CardDay] = []
        self._troubles: list[str] = []

    def take(self, line: str) -> None:
        from icalendar.parser import Contentline
        from icalendar.prop import vText

        # Only what is wanted is told apart: a photo may be a row of a million letters.
        name = _name_of(line)
        if (name not in _TEXTS and name not in _DAYS) or self._taken >= _MOST:
            return
        self._taken += 1
        try:
            _, parameters, raw = Contentline.from_ical(line).parts()
            parameters = {key.upper(): str(value) for key, value in parameters.items()}
        except Exception:
            # Whatever a library makes of a row that is none.
            self._troubles.append(f"its row \u201c{line.strip()[:40]}\u201d is not as cards have it")
            return
        if name in _DAYS:
            self._take_day(name, parameters, raw)
        elif name == "FN" and parameters.get("PREF") == "1":
            self._texts[name].insert(0, str(vText.from_ical(raw)))
        else:
            self._texts[name].append(raw if name in ("N", "NICKNAME") else str(vText.from_ical(raw)))

    def _take_day(self, name: str, parameters: dict[str, str], value: str) -> None:
        what = plain(parameters.get(CALLED, "")) or _DAYS[name] or "Day"
        try:
            if parameters.get("VALUE", "").lower() == "text":
                raise NotADay(f"is told in words, \u201c{value[:40]}\u201d")
            left_out = next((one for key, one in parameters.items() if key.startswith("X-") and key.endswith("OMIT-YEAR")), "")
            month, day, year = day_from(value, left_out)
        except NotADay as error:
            self._troubles.append(f"its {what[:60].lower()} {error}")
            return
        after = (month, day) == (2, 29) and parameters.get(FALLS) == "--0301"
        self._days.append(CardDay(what, month, day, year, after, plain(parameters.get(SAID, ""))))

    def card(self) -> Card:
        texts, parts = self._texts, [_parts(one, ";") for one in self._texts["N"][:1]]
        family, given = (one_name((parts[0] + ["", ""])[at]) for at in (0, 1)) if parts else ("", "")
        called = [one_name(one) for one in texts["FN"]] or [" ".join(filter(None, (given, family)))]
        nick = [one_name(one) for row in texts["NICKNAME"] for one in _parts(row, ",")]
        names = tuple(dict.fromkeys(one for one in (*called[:1], *nick) if any(map(str.isalnum, one))))
        troubles = [*self._troubles, *([] if names else ["it has no name"])]
        if texts["VERSION"] and texts["VERSION"][0].strip() not in ("3.0", "4.0"):
            troubles.append(f"its version {' '.join(plain(texts['VERSION'][0]).split())[:10]} is not one of those that are read, 3.0 and 4.0")
        return Card(names, tuple(self._days), plain("\n".join(texts["NOTE"])).strip(), given, "".join(texts["UID"][:1]).strip(),
                    self._number, tuple(troubles))  # fmt: skip


def _name_of(line: str) -> str:
    """The name of a row's property, without the group before it."""
    end = min((at for at in (line.find(":"), line.find(";")) if at >= 0), default=0)
    return line[:end].rpartition(".")[2].strip().upper()


def _parts(raw: str, sign: str) -> list[str]:
    """The parts of a value between signs that are not escaped."""
    from icalendar.prop import vText

    parts, held = [""], False
    for letter in raw:
        if letter == sign and not held:
            parts.append("")
        else:
            parts[-1] += letter
        held = letter == "\\" and not held
    return [str(vText.from_ical(one)) for one in parts]


def written(cards: Sequence[Card]) -> bytes:
    """The cards as one file of version 4.0."""
    return b"".join(row for card in cards for row in _rows(card))


def _rows(card: Card) -> Iterator[bytes]:
    from icalendar.parser import Contentline, Parameters
    from icalendar.prop import vInline, vText

    def row(name: str, value: str, **parameters: str) -> bytes:
        told = Parameters({key.replace("_", "-"): value for key, value in parameters.items()})
        return Contentline.from_parts(name, told, vInline(value)).to_ical() + b"\r\n"

    def text(value: str) -> str:
        return vText(plain(value)).to_ical().decode()

    yield row("BEGIN", "VCARD") + row("VERSION", "4.0") + row("KIND", "individual")
    if card.uid:
        yield row("UID", card.uid)
    yield row("FN", text(card.names[0]))
    yield row("N", f";{text(card.names[0])};;;")
    if card.names[1:]:
        yield row("NICKNAME", ",".join(map(text, card.names[1:])))
    for day in card.days:
        extra = {FALLS: "--0301"} if day.after else {}
        extra |= {SAID: _parameter(day.said)} if day.said else {}
        name = "BDAY" if day.what == "birthday" else "ANNIVERSARY" if day.what == "Anniversary" else OWN_DAY
        extra |= {CALLED: _parameter(day.what)} if name == OWN_DAY else {}
        yield row(name, spelt(day.month, day.day, day.year), **extra)
    if card.about:
        yield row("NOTE", text(card.about))
    yield row("END", "VCARD")


def _parameter(value: str) -> str:
    """A value of a parameter, in which no mark of quotation can stand (3.3)."""
    return " ".join(plain(value).replace('"', "\u201d").split())
