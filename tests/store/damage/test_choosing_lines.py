"""Which of all that was carved, and of a backup, is a night's line."""

from keeper.store.damage.carving import HIDDEN, IN_PLACE, LEFT_OVER, LOOSE, NONE, RIGHT, WRONG, Carved, Haul
from keeper.store.damage.choosing import choose
from keeper.store.moments import NUMBERS_A_NIGHT

NIGHT = "2026-11-14"
OWN_KIND = "019a6ff4-1ec8-7bf0-9f7b-f0fa2c2eddf9"


def line(text, *, id="a", night=NIGHT, kind="memory", proof=RIGHT, place=IN_PLACE, at=1, number=None, replaced="") -> Carved:
    return Carved(number, id, night, kind, text, f"2026-11-14T20:00:0{at}.000000Z", 0, "", 1, proof, place, replaced)


def haul(*lines, wordings=(), told=()) -> Haul:
    return Haul(tuple(lines), tuple(wordings), frozenset(told), 0)


def texts(lines) -> list[str]:
    return [one.text for one in lines]


def test_one_in_place_before_one_that_is_loose_and_the_latest_of_two():
    chosen = choose(haul(line("Stale.", place=LOOSE, at=9), line("In force.", at=1)))
    assert texts(chosen.right) == ["In force."]
    assert texts(choose(haul(line("Old.", at=1), line("New.", at=2))).right) == ["New."]


def test_a_loose_one_is_taken_unless_it_is_known_as_an_earlier_wording():
    gone = line("Taken out.", id="b", kind="gratitude", place=LOOSE)
    found = haul(line("Here.", place=LOOSE), gone, wordings=[line("Taken out.", id="b", kind="gratitude", replaced="x")])
    assert texts(choose(found).right) == ["Here."]


def test_what_was_left_over_is_asked_about():
    chosen = choose(haul(line("Kept."), line("Taken out.", id="b", kind="gratitude", place=LEFT_OVER)))
    assert texts(chosen.right) == ["Kept."] and texts(chosen.left_over) == ["Taken out."]


def test_one_that_the_log_hides_is_taken_only_where_an_index_knows_of_it():
    hidden = [line("Known.", id="b", kind="gratitude", place=HIDDEN), line("Long gone.", id="c", night="2026-11-12", place=HIDDEN)]
    chosen = choose(haul(line("Here."), *hidden, told={(NIGHT, "memory"), (NIGHT, "gratitude")}))
    assert sorted(texts(chosen.right)) == ["Here.", "Known."] and chosen.missing == ()


def test_a_wrong_sum_is_doubtful_and_never_right():
    chosen = choose(haul(line("Kept."), line("Chanxed.", id="b", kind="gratitude", proof=WRONG)))
    assert texts(chosen.lines) == ["Kept."] and texts(chosen.doubtful) == ["Chanxed."]


def test_where_lines_have_sums_one_without_is_doubtful_and_else_it_is_not():
    without = line("Without.", id="b", kind="gratitude", proof=NONE)
    assert texts(choose(haul(line("With."), without)).doubtful) == ["Without."]
    assert texts(choose(haul(without)).unproved) == ["Without."]


def test_the_backup_gives_what_is_not_in_the_file_but_not_what_was_taken_out_or_moved():
    of_backup = [line("Lost.", id="x", kind="gratitude"), line("Taken out.", id="y", night="2026-11-13"),
                 line("Moved.", id="z", night="2026-11-12")]  # fmt: skip
    found = haul(line("Moved.", id="z"), wordings=[line("Taken out.", id="y", night="2026-11-13", replaced="x")])
    chosen = choose(found, of_backup)
    assert texts(chosen.right) == ["Moved."] and texts(chosen.from_backup) == ["Lost."]


def test_a_doubtful_one_that_says_what_the_backup_says_is_not_asked_about():
    wrong = line("The same.", proof=WRONG)
    chosen = choose(haul(line("Other.", id="o", kind="gratitude"), wrong), [line("The same.")])
    assert texts(chosen.from_backup) == ["The same."] and chosen.doubtful == ()


def test_a_doubtful_one_has_its_night_and_kind_from_its_number():
    day = 739934 * NUMBERS_A_NIGHT
    good = line("Good.", id="g", kind=OWN_KIND, number=day + 3)
    wrong = line("Where?", id="w", night="20x6-11-15", kind="mem\ufffdry", proof=WRONG, number=day + NUMBERS_A_NIGHT + 3)
    (doubtful,) = choose(haul(good, wrong)).doubtful
    assert doubtful.key == ("2026-11-15", OWN_KIND)


def test_what_an_index_knows_of_and_is_nowhere_is_missing():
    told = {(NIGHT, "memory"), (NIGHT, "gratitude"), (NIGHT, "gvatitude")}
    assert choose(haul(line("Here."), told=told)).missing == ((NIGHT, "gratitude"),)
