"""Lines, drafts and earlier wordings in the file."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from soundness import emptied, whole

from keeper.errors import UnknownThing
from keeper.model import KINDS, Draft, Moment
from keeper.store import lines, resting

NIGHT = date(2026, 11, 14)
TEXTS = st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=60).map(str.strip)
MOMENTS = st.builds(
    Moment,
    st.datetimes(datetime(1900, 1, 1), datetime(2900, 1, 1), timezones=st.just(UTC)),
    st.integers(-720, 840),
    st.sampled_from(["", "Europe/Riga", "Pacific/Kiritimati"]),
)


def moment(minute: int = 0) -> Moment:
    """A moment of an evening."""
    return Moment(datetime(2026, 11, 14, 20, tzinfo=UTC) + timedelta(minutes=minute), 120, "Europe/Riga")


def texts(store) -> list[str]:
    """Present and earlier texts of the night's memory, newest first."""
    present = lines.one(store, NIGHT, "memory")
    return ([present.text] if present else []) + [w.text for w in lines.wordings(store, NIGHT, "memory")]


@given(st.dates(date(1800, 1, 1), date(2999, 12, 31)), st.sampled_from(KINDS), TEXTS.filter(bool), MOMENTS)
def test_a_line_comes_out_as_it_went_in(store, night, kind, text, written):
    emptied(store)
    lines.keep(store, night, kind, text, written)
    (line,) = lines.of_night(store, night)
    assert (line.night, line.kind, line.text, line.written, line.resting) == (night, kind, text, written, False)
    assert lines.by_id(store, line.id) == lines.one(store, night, kind) == line
    assert lines.span(store) == (night, night)
    assert lines.between(store, night, night) == (line,)


@given(st.lists(TEXTS, max_size=12))
def test_no_wording_is_ever_lost(store, wordings):
    emptied(store)
    for minute, text in enumerate(wordings):
        lines.keep(store, NIGHT, "memory", text, moment(minute))
    changes = [text for text, before in zip(wordings, ["", *wordings], strict=False) if text and text != before]
    assert texts(store) == changes[::-1]


@given(st.lists(st.tuples(st.integers(0, 3), st.sampled_from(KINDS), TEXTS), max_size=15))
def test_the_index_of_words_follows_every_change(store, changes):
    emptied(store)
    for day, kind, text in changes:
        lines.keep(store, NIGHT + timedelta(days=day), kind, text, moment())
    assert whole(store)
    last = {(day, kind): text for day, kind, text in changes}
    assert lines.count(store) == sum(bool(text) for text in last.values())


def test_the_same_text_again_changes_nothing(store):
    lines.keep(store, NIGHT, "memory", "Bread from the mill.", moment())
    before = lines.one(store, NIGHT, "memory")
    lines.keep(store, NIGHT, "memory", "Bread from the mill.", moment(90))
    assert lines.one(store, NIGHT, "memory") == before
    assert lines.wordings(store, NIGHT, "memory") == ()


def test_an_earlier_wording_keeps_when_and_where_it_was_written(store):
    lines.keep(store, NIGHT, "memory", "First.", moment())
    lines.keep(store, NIGHT, "memory", "Second.", moment(5))
    (earlier,) = lines.wordings(store, NIGHT, "memory")
    assert (earlier.text, earlier.written) == ("First.", moment())
    assert datetime.now(UTC) - earlier.replaced_at < timedelta(minutes=1)


def test_a_line_taken_out_and_written_anew_is_the_same_line(store):
    lines.keep(store, NIGHT, "memory", "The day we do not speak of.", moment())
    line = lines.one(store, NIGHT, "memory")
    resting.rest(store, "line", line.id)
    lines.keep(store, NIGHT, "memory", "", moment(1))
    lines.keep(store, NIGHT, "memory", "The day we do not speak of.", moment(2))
    assert lines.one(store, NIGHT, "memory").id == line.id
    assert lines.one(store, NIGHT, "memory").resting


def test_kinds_stand_in_their_order_and_nights_too(store):
    for night in (NIGHT, NIGHT - timedelta(days=1)):
        for kind in reversed(KINDS):
            lines.keep(store, night, kind, f"A {kind}.", moment())
    found = lines.of_nights(store, [NIGHT, NIGHT - timedelta(days=1)])
    assert [(line.night, line.kind) for line in found] == sorted(
        ((line.night, line.kind) for line in found), key=lambda one: (one[0], KINDS.index(one[1]))
    )
    assert lines.of_nights(store, []) == ()


def test_a_kind_that_is_none_is_no_line(store):
    with pytest.raises(UnknownThing, match="no such kind"):
        lines.keep(store, NIGHT, "complaint", "No.", moment())
    with pytest.raises(UnknownThing, match="no such kind"):
        lines.keep_draft(store, Draft(NIGHT, "complaint", "No", moment().utc), moment())
    assert lines.one(store, NIGHT, "complaint") is None
    assert lines.count(store) == 0
    assert lines.span(store) is None


@given(TEXTS, TEXTS)
def test_the_last_draft_is_the_one_that_waits(store, first, second):
    emptied(store)
    for minute, text in enumerate((first, second)):
        lines.keep_draft(store, Draft(NIGHT, "memory", text, moment(minute).utc), moment(minute))
    assert lines.drafts(store, NIGHT) == (Draft(NIGHT, "memory", second, moment(1).utc),)
    assert lines.drafts(store, NIGHT + timedelta(days=1)) == ()


def test_a_draft_ends_when_its_line_is_kept_and_no_other_does(store):
    for kind in KINDS:
        lines.keep_draft(store, Draft(NIGHT, kind, f"A {kind} on its w", moment().utc), moment())
    lines.keep(store, NIGHT, "memory", "A memory on its way.", moment())
    assert [draft.kind for draft in lines.drafts(store)] == ["gratitude", "reflection"]
    lines.drop_draft(store, NIGHT, "gratitude")
    assert [draft.kind for draft in lines.drafts(store)] == ["reflection"]


def test_a_line_that_is_gone_is_said_to_be(store):
    with pytest.raises(UnknownThing, match="no longer in the keeper"):
        lines.still_kept(store, "nothing")
