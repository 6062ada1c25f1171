"""Cards and calendars out and in again: the same; and files that are hostile."""

import time
from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.errors import UnreadableFile
from keeper.exchange.people import birthdays, day_values, files, vcards
from keeper.exchange.people.card import Card, CardDay

NOW, TONIGHT = datetime(2026, 11, 14, 20, tzinfo=UTC), date(2026, 11, 14)

WORDS = st.text(st.characters(blacklist_categories=("Cs", "Cc", "Zl", "Zp", "Co", "Cn")), max_size=60)
NAMES = WORDS.map(lambda text: " ".join(text.replace(",", " ").split())).filter(lambda text: any(map(str.isalnum, text)))


@st.composite
def days(draw) -> CardDay:
    there = draw(st.dates(date(1804, 1, 1), date(2026, 12, 31)))
    year = draw(st.sampled_from((there.year, None)))
    after = (there.month, there.day) == (2, 29) and draw(st.booleans())
    what = draw(st.sampled_from(("birthday", "Anniversary")) | NAMES.map(lambda name: name.replace('"', "\u201d")))
    return CardDay(what, there.month, there.day, year, after)


CARDS = st.builds(
    lambda names, days, about: Card(tuple(dict.fromkeys(names)), tuple(days), about.strip()),
    st.lists(NAMES, min_size=1, max_size=4), st.lists(days(), max_size=4), WORDS | st.just("a\nb"),
)  # fmt: skip


@given(st.lists(CARDS, max_size=4))
def test_cards_come_back_as_they_went(cards):
    found = list(vcards.read(vcards.written(cards).decode().splitlines(keepends=True)))
    assert [(one.names, one.days, one.about, one.troubles) for one in found] == [(one.names, one.days, one.about, ()) for one in cards]


@given(CARDS)
def test_days_come_back_from_a_calendar(card):
    found = list(birthdays.read(birthdays.written([card], NOW, "1").decode().splitlines(keepends=True), TONIGHT))
    assert [(one.names[0], one.days[0]) for one in found] == [(card.names[0], day) for day in card.days]


@given(st.text(max_size=400) | st.binary(max_size=400).map(lambda data: data.decode("latin-1")))
def test_nothing_breaks_the_reading_of_cards(text):
    for wrapped in (text, f"BEGIN:VCARD\n{text}\nEND:VCARD\n", f"BEGIN:VCARD\nFN:{text}\nBDAY:{text}\nNICKNAME:{text}\nN:{text}\n"):
        list(vcards.read(wrapped.splitlines(keepends=True)))
    event = f"BEGIN:VEVENT\nSUMMARY:birthday {text}\nDTSTART:{text}\nRRULE:{text}\nEND:VEVENT\n"
    list(birthdays.read(event.splitlines(keepends=True), TONIGHT))


@pytest.mark.parametrize(("summary", "name"), [
    ("Anna Berg's birthday", "Anna Berg"), ("Birthday of Anna (1958)", "Anna"), ("Geburtstag von Anna", "Anna"),
    ("Anna \u2013 f\u00f6delsedag", "Anna"), ("\u8a95\u751f\u65e5 \u738b\u82b3", "\u738b\u82b3"), ("Anna\u2019s Birthday \U0001f382", "Anna"),
])  # fmt: skip
def test_whose_birthday_an_event_of_others_is(summary, name):
    assert birthdays._name_in(summary) == name


def test_the_year_of_an_event_of_others_is_taken_with_care():
    def year(first: str, summary: str = "Birthday of Anna") -> int | None:
        (card,) = birthdays.read(f"BEGIN:VEVENT\nSUMMARY:{summary}\nDTSTART;VALUE=DATE:{first}\nEND:VEVENT".splitlines(), TONIGHT)
        return card.days[0].year

    assert year("19580312") == 1958 and year("20250312") is None and year("20250312", "Birthday of Anna (1958)") == 1958


def test_an_appointment_is_nobodys_birthday():
    (card,) = birthdays.read(["BEGIN:VEVENT", "SUMMARY:Dentist", "DTSTART:20261114T100000Z", "END:VEVENT"], TONIGHT)
    assert card.names == () and card.days == ()


@pytest.mark.parametrize(("content", "told"), [
    (b"", "is empty"), (b"\0\0", "is empty"), (b"hello", "neither a file of cards"), (b"\x89PNG\r\n\x1a\n", "neither a file of cards"),
    (b"From: me\nBEGIN:VCARD\n", "neither a file of cards"),
])  # fmt: skip
def test_files_that_are_none_are_told_in_a_sentence(tmp_path, content, told):
    file = tmp_path / "some.vcf"
    file.write_bytes(content)
    with pytest.raises(UnreadableFile, match=told):
        list(files.cards_in(file, TONIGHT))
    with pytest.raises(UnreadableFile, match="is not there"):
        list(files.cards_in(tmp_path / "nowhere.vcf", TONIGHT))


def test_cards_in_other_encodings_cut_off_and_very_large(tmp_path):
    file = tmp_path / "some.vcf"
    for encoding in ("utf-8", "utf-8-sig", "utf-16", "cp1252"):
        file.write_bytes("BEGIN:VCARD\r\nVERSION:3.0\r\nFN:\u00c5sa Kr\u00f6ger\r\nBDAY:1971-12-31\r\nPHOTO;ENCODING=b:AAAA\r\n BBBB\r\nEND:VCARD\r\n".encode(encoding))
        (card,) = files.cards_in(file, TONIGHT)
        assert card.names == ("\u00c5sa Kr\u00f6ger",) and card.days[0].day == 31
    file.write_text("BEGIN:VCARD\nFN:Anna\nBDAY:--0203\nBEGIN:VCARD\nFN:" + "x" * 500_000 + "\n" + "BDAY:--0203\n" * 5000, encoding="utf-8")
    cut, long = files.cards_in(file, TONIGHT)
    assert cut.names == ("Anna",) and len(long.days) < 300


def test_a_version_of_several_rows_is_told_in_one(tmp_path):
    file = tmp_path / "some.vcf"
    file.write_text("BEGIN:VCARD\nVERSION:2\\n.1\nFN:Anna\nEND:VCARD\n", encoding="utf-8")
    (card,) = files.cards_in(file, TONIGHT)
    assert card.troubles == ("its version 2 .1 is not one of those that are read, 3.0 and 4.0",)


def test_a_day_that_is_none_is_told_in_one_row():
    for value, told in (("19600\r\n229", "19600 229"), ("unk\u0085nown", "unk nown"), ("1960\u202e0229", "1960\ufffd0229")):
        with pytest.raises(day_values.NotADay) as error:
            day_values.day_from(value)
        assert str(error.value) == f"is \u201c{told}\u201d, which is no date"


def test_signs_without_end_in_a_name_are_soon_done_with():
    begun = time.process_time()
    assert birthdays._name_in("Anna" + " ,(" * 20_000 + " Berg\u2019s birthday").startswith("Anna")
    # As each looks at all that come after it, the same took minutes.
    assert time.process_time() - begun < 1
