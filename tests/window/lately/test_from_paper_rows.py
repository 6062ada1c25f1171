"""An earlier wording that came from paper says so."""

from datetime import UTC, date, datetime

import pytest

from keeper.model import Moment, Wording
from keeper.window.night.earlier_wordings import written
from keeper.window.parts.history.rows import of_wording

TYPED, REPLACED = datetime(2026, 11, 14, 20, 30, tzinfo=UTC), datetime(2026, 11, 20, 20, 30, tzinfo=UTC)


@pytest.mark.parametrize(("paper", "head", "told"), [
    (True, "Memory, Thu 3 Sep 2026 \u00b7 from paper, typed Sat 14 Nov 2026 \u00b7 until Fri 20 Nov 2026, 20:30",
     "From paper, typed Sat 14 Nov 2026, 22:30"),
    (False, "Memory, Thu 3 Sep 2026 \u00b7 until Fri 20 Nov 2026, 20:30", "Written Sat 14 Nov 2026, 22:30"),
])  # fmt: skip
def test_the_night_it_belongs_to_and_the_day_it_was_typed_are_told(paper, head, told):
    # Typed in Riga, two hours ahead of Greenwich.
    earlier = Wording("1", date(2026, 9, 3), "memory", "Words.", Moment(TYPED, 120, "Europe/Riga"), REPLACED, from_paper=paper)
    assert of_wording(earlier, UTC).head == head and written(earlier) == told
