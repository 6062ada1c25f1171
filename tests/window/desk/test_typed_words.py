"""What becomes of typed words, over any order of typing, saving, failing, late answers, other writers and ends."""

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from keeper.window.desk.words import Words

KEYS = ("night one", "night two")
KEY = st.sampled_from(KEYS)


class Disk:
    """One line, one draft and any number of earlier wordings for each key, as the store keeps them."""

    def __init__(self) -> None:
        self.line, self.draft, self.wordings = dict.fromkeys(KEYS, ""), dict.fromkeys(KEYS), {key: [] for key in KEYS}

    def put_aside(self, key, known, now):
        """A draft that the writer does not know of becomes an earlier wording."""
        draft = self.draft[key]
        if draft is not None and draft not in (known, now) and draft.strip() not in ("", now):
            self.wordings[key].append(draft)

    def keep(self, key, text, known):
        self.put_aside(key, known, text)
        self.draft[key] = None
        if self.line[key] != text:
            self.wordings[key].append(self.line[key])
        self.line[key] = text

    def keep_draft(self, key, text, known):
        self.put_aside(key, known, text)
        self.draft[key] = text

    def words(self, key):
        return {word for text in (self.line[key], self.draft[key] or "", *self.wordings[key]) for word in text.split()}


class Typing(RuleBasedStateMachine):
    """A person types words that are each new, in a window that writes by a queue and hears of it late."""

    def __init__(self) -> None:
        super().__init__()
        self.disk, self.number = Disk(), 0
        self.seen, self.given_up = {key: set() for key in KEYS}, {key: set() for key in KEYS}
        self.start()

    def start(self) -> None:
        self.words, self.field, self.queue, self.answers = Words(), {}, [], []

    def new_word(self) -> str:
        self.number += 1
        return f"w{self.number}"

    def look(self, key, anew):
        touched = key in self.field and (key in self.words.unkept() or self.words.state(key) == "found")
        given = self.words.shown(key, self.disk.line[key], self.disk.draft[key], anew)
        if touched:
            assert given is None or (anew and given == self.field[key]), "what is typed was replaced"
        if given is not None:
            self.field[key] = given
        assert key in self.field

    # the person

    @initialize(line=st.booleans(), draft=st.booleans())
    def left_before(self, line, draft):
        for key in KEYS:
            self.disk.line[key] = self.new_word() if line else ""
            self.disk.draft[key] = f"{self.disk.line[key]} {self.new_word()}".strip() if draft else None
        for key in KEYS:
            self.look(key, anew=True)
            if draft:
                assert self.field[key] == self.disk.draft[key]
                assert self.words.state(key) == "found"

    @rule(key=KEY)
    def type_on(self, key):
        self.field[key] = f"{self.field[key]} {self.new_word()}"
        self.words.typed(key, self.field[key])
        assert self.words.unkept()[key].endswith(f"w{self.number}")

    @rule(key=KEY)
    def take_out_and_type(self, key):
        self.give_up(key)
        self.field[key] = self.new_word()
        self.words.typed(key, self.field[key])

    @rule(key=KEY)
    def go_back_to_what_is_kept(self, key):
        self.give_up(key)
        self.field[key] = self.disk.line[key]
        self.words.typed(key, self.field[key])

    def give_up(self, key):
        held = {word for text in (self.disk.line[key], *self.disk.wordings[key]) for word in text.split()}
        self.given_up[key] |= set(self.field[key].split()) - held

    @rule(key=KEY)
    def leave_the_field(self, key):
        known = self.words.draft(key)
        text = self.words.to_send(key)
        if text is not None:
            self.queue.append(("line", key, text, known))
        elif self.words.draft_to_drop(key):
            self.queue.append(("drop", key, "", known))
        assert self.words.to_send(key) is None, "sent twice"

    @rule(key=KEY)
    def pause(self, key):
        known = self.words.draft(key)
        text = self.words.to_draft(key)
        if text is not None:
            self.queue.append(("draft", key, text, known))
        elif self.words.draft_to_drop(key):
            self.queue.append(("drop", key, "", known))

    @rule(key=KEY, anew=st.booleans())
    def see_it_again(self, key, anew):
        self.look(key, anew)

    # the disk

    @precondition(lambda self: self.queue)
    @rule(works=st.booleans())
    def write_the_next(self, works):
        what, key, text, known = self.queue.pop(0)
        if works and what == "line":
            self.disk.keep(key, text, known)
        elif works and what == "draft":
            self.disk.keep_draft(key, text, known)
        elif works:
            self.disk.draft[key] = self.disk.draft[key] if self.disk.draft[key] != known else None
        self.answers.append((what, key, text, works))

    @precondition(lambda self: self.answers)
    @rule()
    def hear_of_it(self):
        what, key, text, works = self.answers.pop(0)
        if what == "line":
            (self.words.was_kept if works else self.words.has_failed)(key, text)
        elif what == "draft":
            (self.words.was_put_by if works else self.words.not_put_by)(key, text)

    # bad luck

    @rule(key=KEY)
    def another_program_writes(self, key):
        self.disk.keep(key, self.new_word(), None)

    @rule(key=KEY)
    def another_window_leaves_a_draft(self, key):
        self.disk.keep_draft(key, f"{self.disk.draft[key] or ''} {self.new_word()}", None)

    @rule()
    def it_is_killed_and_opened_again(self):
        self.start()
        for key in KEYS:
            self.look(key, anew=True)

    @invariant()
    def nothing_that_was_on_disk_is_gone(self):
        for key in KEYS:
            self.seen[key] = (self.seen[key] | self.disk.words(key)) - self.given_up[key]
            assert self.seen[key] <= self.disk.words(key)

    @invariant()
    def what_is_under_way_is_unkept(self):
        last = {key: text for what, key, text, *_ in (*self.answers, *self.queue) if what == "line"}
        assert {key for key, text in last.items() if text} <= self.words.unkept().keys()

    @invariant()
    def when_nothing_is_unkept_all_is_on_disk(self):
        if self.queue or self.answers or not self.field:
            return
        for key in set(KEYS) - self.words.unkept().keys():
            assert set(self.field[key].split()) <= self.disk.words(key)

    def teardown(self):
        """In the end all can be kept."""
        for key in self.field:
            self.leave_the_field(key)
        while self.queue:
            self.write_the_next(works=True)
        while self.answers:
            self.hear_of_it()
        for key, text in self.field.items():
            self.leave_the_field(key)
            while self.queue:
                self.write_the_next(works=True)
                self.hear_of_it()
            assert set(text.split()) <= self.disk.words(key)
        assert self.words.unkept() == {}


TestTyping = Typing.TestCase
TestTyping.settings = settings(max_examples=4 * settings().max_examples, stateful_step_count=40, deadline=None)


def test_a_draft_beside_a_kept_line_is_shown_and_is_not_kept_yet():
    words = Words()
    assert words.shown("k", "alpha", "alpha beta gamma", True) == "alpha beta gamma"
    assert words.state("k") == "found"
    assert words.to_send("k") is None and words.unkept() == {}, "it waits until it is touched"
    words.typed("k", "alpha beta gamma delta")
    assert words.state("k") == "found" and words.to_draft("k") == "alpha beta gamma delta"
    assert words.to_send("k") == "alpha beta gamma delta"
    words.was_kept("k", "alpha beta gamma delta")
    assert words.state("k") == "kept" and words.unkept() == {}


def test_a_draft_beside_a_kept_line_is_sent_untouched_only_when_it_is_meant():
    words = Words()
    words.shown("k", "alpha", "beta", True)
    assert words.to_send("k") is None
    words.meant("k")
    assert words.to_send("k") == "beta"


def test_a_draft_without_a_kept_line_is_sent_as_it_is():
    words = Words()
    words.shown("k", "", "beta", True)
    assert words.state("k") == "found" and words.to_send("k") == "beta"


def test_a_late_answer_clears_no_newer_words():
    words = Words()
    words.shown("k", "", None, True)
    words.typed("k", "one")
    assert words.to_send("k") == "one"
    words.typed("k", "one two")
    assert words.to_draft("k") == "one two"
    words.was_kept("k", "one")
    assert words.state("k") == "typing" and words.unkept() == {"k": "one two"}
    assert not words.draft_to_drop("k")
    assert words.to_draft("k") is None


def test_what_failed_is_tried_again_and_put_by():
    words = Words()
    words.shown("k", "", None, True)
    words.typed("k", "one")
    assert (words.to_draft("k"), words.to_send("k")) == ("one", "one")
    words.has_failed("k", "one")
    assert words.state("k") == "failing" and words.unkept() == {"k": "one"}
    assert (words.to_draft("k"), words.to_send("k")) == ("one", "one")
    words.was_kept("k", "one")
    assert words.state("k") == "kept"


def test_words_typed_back_to_what_is_kept_let_their_draft_go_once():
    words = Words()
    words.shown("k", "one", None, True)
    words.typed("k", "one two")
    assert words.to_draft("k") == "one two" and not words.draft_to_drop("k")
    words.typed("k", "one")
    assert words.draft_to_drop("k") and not words.draft_to_drop("k")
    assert words.state("k") == "kept"


def test_a_draft_somebody_took_away_is_put_by_again():
    words = Words()
    words.shown("k", "", None, True)
    words.typed("k", "mine")
    assert words.to_draft("k") == "mine"
    words.shown("k", "theirs", None, False)
    assert words.to_draft("k") is None, "it may only not have come to the disk yet"
    words.was_put_by("k", "mine")
    assert words.shown("k", "theirs", None, False) is None
    assert words.to_draft("k") == "mine"


def test_what_could_not_be_put_by_is_at_risk_and_put_by_anew():
    words = Words()
    words.shown("k", "", None, True)
    words.typed("k", "one")
    assert words.to_draft("k") == "one" and words.at_risk() == {"k": "one"}, "nobody has said that it is on disk"
    words.not_put_by("k", "one")
    assert words.at_risk() == {"k": "one"}
    assert words.to_draft("k") == "one"
    words.was_put_by("k", "one")
    assert words.at_risk() == {} and words.unkept() == {"k": "one"}
    words.shown("k", "", None, False)
    assert words.to_draft("k") == "one", "somebody took it away since"


def test_a_draft_given_up_here_is_not_offered_again_while_it_waits_to_be_dropped():
    words = Words()
    words.shown("k", "one", None, True)
    words.typed("k", "one two")
    assert words.to_draft("k") == "one two"
    words.typed("k", "one")
    assert words.draft_to_drop("k")
    assert words.shown("k", "one", "one two", True) == "one"


def test_a_draft_offered_once_and_typed_over_is_not_offered_again_while_the_disk_still_has_it():
    words = Words()
    assert words.shown("k", "one", "one two", True) == "one two"
    words.typed("k", "other")
    assert words.to_draft("k") == "other"
    words.typed("k", "one")
    assert words.shown("k", "one", "one two", True) == "one"


def test_a_draft_that_comes_from_elsewhere_is_offered_the_next_time_and_not_under_ones_eyes():
    words = Words()
    words.shown("k", "one", None, True)
    assert words.shown("k", "one", "one two", False) is None
    assert words.state("k") == "kept"
    assert words.shown("k", "one", "one two", True) == "one two"
    assert words.state("k") == "found"


def test_a_field_that_only_says_what_it_was_given_was_not_touched():
    words = Words()
    words.shown("k", "one", "one two", True)
    words.typed("k", "one two")
    assert words.to_send("k") is None and words.unkept() == {}


def test_what_is_kept_goes_along_when_a_thing_is_called_otherwise():
    words = Words()
    words.shown("new", "", None, True)
    words.typed("new", "one")
    assert words.to_send("new") == "one"
    words.was_kept("new", "one")
    words.called("new", "its number")
    assert words.state("its number") == "kept" and words.to_send("its number") is None
    assert words.state("new") == ""


def test_a_draft_that_failed_late_takes_no_newer_one_along():
    words = Words()
    words.shown("k", "", None, True)
    for text in ("one", "one two"):
        words.typed("k", text)
        assert words.to_draft("k") == text
    words.not_put_by("k", "one")
    assert words.to_draft("k") is None and words.draft("k") == "one two"
