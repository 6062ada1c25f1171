"""Identifiers against RFC 9562 (UUIDs, May 2024)."""

import time
import uuid

from hypothesis import given
from hypothesis import strategies as st

from keeper.store.ids import new_id, shaped

CHANCE = st.binary(min_size=10, max_size=10)
MILLISECONDS = st.integers(0, (1 << 48) - 1)


# Source: RFC 9562, section 5.7: unix_ts_ms 48 bits, ver 4 bits = 7, rand_a 12
# bits, var 2 bits = 0b10, rand_b 62 bits. Parsed by Python's uuid, after RFC 4122.
@given(MILLISECONDS, CHANCE)
def test_the_layout_of_version_7(milliseconds, chance):
    text = shaped(milliseconds, chance)
    parsed = uuid.UUID(text)
    assert str(parsed) == text
    assert (parsed.version, parsed.variant) == (7, uuid.RFC_4122)
    assert parsed.int >> 80 == milliseconds
    random_bits = int.from_bytes(chance, "big")
    assert parsed.int >> 64 & 0xFFF == random_bits >> 64 & 0xFFF
    assert parsed.int & (1 << 62) - 1 == random_bits & (1 << 62) - 1


# Source: RFC 9562, appendix A.6, "Example of a UUIDv7 Value": Tuesday, February
# 22, 2022 2:22:22.00 PM GMT-05:00, 0x017F22E279B0; rand_a 0xCC3; rand_b
# 0x18C4DC0C0C07398F. From memory.
def test_the_example_of_the_appendix():
    chance = (0xCC3 << 64 | 0x18C4DC0C0C07398F).to_bytes(10, "big")
    assert shaped(0x017F22E279B0, chance) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"
    assert shaped(1645557742000, chance)[:13] == "017f22e2-79b0"


# Source: RFC 9562, section 4: 8-4-4-4-12 hexadecimal digits, written in lower case.
def test_a_new_id_is_one_and_of_now():
    before = time.time_ns() // 1_000_000
    text = new_id()
    after = time.time_ns() // 1_000_000
    assert [len(part) for part in text.split("-")] == [8, 4, 4, 4, 12]
    assert text == text.lower()
    assert before <= uuid.UUID(text).int >> 80 <= after


# Source: RFC 9562, section 6.11: version 7 sorts by time as bytes and as text.
@given(MILLISECONDS, MILLISECONDS, CHANCE, CHANCE)
def test_ids_of_different_times_sort_by_time(first, second, one, other):
    if first != second:
        assert (shaped(first, one) < shaped(second, other)) == (first < second)


# Source: RFC 9562, section 6.9: unguessable and free of collisions.
def test_ids_of_one_moment_differ_in_their_random_bits():
    tails = {new_id()[14:] for _ in range(5_000)}
    assert len(tails) == 5_000
