"""A sample of what means ill, through all readers: no crash, nothing written outside, nothing half taken in.

Millions more are made by tests/bench/odd/hostile.py.
"""

import os

import pytest
from meaning_ill import bags, tried

LONGEST = 20
"""Seconds, on a machine however slow; the long run holds to one."""


@pytest.mark.filterwarnings("ignore::UserWarning")
@pytest.mark.parametrize(("kind", "many"), [("pictures", 100), ("papers", 120), ("cards", 50), ("bags", 10)])
def test_what_means_ill_is_read_or_refused_with_a_sentence(kind, many):
    told = list(tried(kind, 0, many, LONGEST))
    assert [wrong for _, _, wrong in told if wrong] == []
    # A sample in which all is refused would tell nothing.
    assert 0 < sum(read for read, _, _ in told) < many


def test_no_link_in_what_means_ill_leads_to_what_is_not_made_for_it(tmp_path):
    led = set()
    for number in range(60):
        given = tmp_path / f"{number}" / "given"
        given.mkdir(parents=True)
        links = [one for one in bags.case(number, given).rglob("*") if one.is_symlink()]
        led |= {os.path.normpath(one.parent / os.readlink(one)).removeprefix(f"{given.parent}/") for one in links}
    # What is made of an archive next would be written where they lead.
    assert led and all(place == "/dev/zero" or not place.startswith("/") for place in led), led
