"""What a person does with a pattern: put away, kept an eye on, noted on the month; each an act that can be undone."""

from dataclasses import replace
from datetime import date

from keeper.actions import told_as
from keeper.errors import UnknownThing
from keeper.model import Act
from keeper.store import Store, month_pages
from keeper.store.patterns import decided as kept_decided
from keeper.store.patterns.decided import Decision, Question

MORE_NIGHTS = 50
"""So many nights more are waited for, where nothing else is said."""

LONGEST_WAIT = 5000


def put_away(store: Store, question: Question, told: str) -> None:
    """Show a pattern no more among the others, whatever the lag; ``told`` is its sentence."""
    _decide(store, question, replace(_of(store, question), put_away=True), _act("Put away", told))


def bring_back(store: Store, question: Question, told: str) -> None:
    """Show it among the others again."""
    act = _act("Shown again", told)
    for one, decision in kept_decided.decisions(store).items():
        if decision.put_away and {*one[:2]} == {*question[:2]}:
            _decide(store, one, replace(decision, put_away=False), act)


def watch(store: Store, question: Question, told: str, tonight: date, nights: int = MORE_NIGHTS) -> None:
    """Keep an eye on a pattern: it is told when so many nights more are kept. Raises UnknownThing for no such number."""
    if not 1 <= nights <= LONGEST_WAIT:
        raise UnknownThing(f"An eye can be kept on a pattern for 1 to {LONGEST_WAIT} nights more.")
    decision = replace(_of(store, question), watched_nights=nights, watched_from=tonight, watched_told=told)
    _decide(store, question, decision, _act("An eye on", told))


def watch_no_more(store: Store, question: Question) -> None:
    """Keep no eye on it any longer."""
    now = _of(store, question)
    _decide(store, question, replace(now, watched_nights=0, watched_from=None, watched_told=""), _act("No eye on", now.watched_told))


def note_on_month(store: Store, month: date, told: str) -> None:
    """Put a pattern's sentence below the words of a month; where it stands there already, nothing is done."""
    page = month_pages.one(store, month)
    if told in page.words:
        return
    with store.writing(told_as.of_month("A pattern noted", month)):
        month_pages.keep(store, replace(page, words="\n".join(filter(None, (page.words, told)))))


def anything_due(store: Store) -> bool:
    """Whether as many nights more are kept of any pattern as the person wanted to wait for."""
    return bool(kept_decided.due(store))


def _of(store: Store, question: Question) -> Decision:
    return kept_decided.decisions(store).get(question, Decision())


def _decide(store: Store, question: Question, decision: Decision, act: Act) -> None:
    kept_decided.decide(store, question, decision, act)


def _act(what: str, told: str) -> Act:
    return Act(f"{what}: {told_as.quoted(told)}", "patterns")
