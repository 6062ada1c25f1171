"""What a person wrote that is no line: months' words, questions and goals, captions of photos, later words."""

from datetime import date

from keeper.store.file.opening import Store
from keeper.store.folding import bare
from keeper.store.moments import day, words

_TOLD = """
    SELECT 'words', words, month || '-01' AS night, '' FROM month_page WHERE words <> ''
    UNION ALL SELECT 'question', question, month || '-01', '' FROM month_page WHERE question <> ''
    UNION ALL SELECT 'goal', trim(text || ' ' || word), month || '-01', '' FROM goal
    UNION ALL SELECT 'caption', photo.caption, on_night.night, '' FROM photo JOIN (
        SELECT photo_id, max(night) AS night FROM (
            SELECT photo_id, night FROM night_photo UNION ALL SELECT photo_id, date FROM night WHERE photo_id IS NOT NULL
        ) GROUP BY photo_id) AS on_night ON on_night.photo_id = photo.id WHERE photo.caption <> ''
    UNION ALL SELECT 'later', later_word.text, line.night, line.kind FROM later_word JOIN line ON line.id = line_id WHERE later_word.text <> ''
    ORDER BY night DESC
"""


def having(store: Store, typed: str) -> tuple[tuple[str, str, date, str], ...]:
    """Which sort it is, what is written, its night (of a month its first day) and the kind of line it is under, "" for none.

    Told is where every word begins one; the newest first.
    """
    rows = (row for row in store.rows(_TOLD) if has_every(str(row[1]), typed))
    return store.made(lambda row: (words(row[0]), words(row[1]), day(row[2]), words(row[3])), list(rows))


def has_every(text: str, typed: str) -> bool:
    """Whether each word typed is the beginning of a word of the text, capitals and accents aside."""
    wanted, there = _parted(typed), _parted(text)
    return bool(wanted) and all(any(word.startswith(one) for word in there) for one in wanted)


def _parted(text: str) -> list[str]:
    plain = bare(text.encode("utf-8", "replace").decode())
    return "".join(letter if letter.isalnum() else " " for letter in plain).split()
