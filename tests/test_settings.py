"""The declared list of settings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper import settings
from keeper.errors import BadSetting

SHOWN = [setting for setting in settings.SETTINGS if setting.label]


@pytest.mark.parametrize("setting", settings.SETTINGS, ids=lambda s: s.name)
def test_every_default_can_be_set(setting):
    assert settings.checked(setting.name, setting.default) == setting.default
    assert settings.read({}, setting.name) == setting.default


@pytest.mark.parametrize("setting", SHOWN, ids=lambda s: s.name)
def test_what_is_shown_is_described(setting):
    assert setting.description.endswith(".")
    assert setting.choices or setting.low is not None


def test_names_are_unique():
    assert len(settings.BY_NAME) == len(settings.SETTINGS)


@pytest.mark.parametrize(
    ("name", "value"),
    [("palette", "purple"), ("rollover", "13"), ("rollover", "-1"), ("rollover", "4.5"), ("rollover", ""),
     ("rollover", "\u00b2"), ("text_size", "201"), ("ink", "#12345"), ("ink", "red"), ("ink", "#12345g"),
     ("colour", "red")],
)  # fmt: skip
def test_what_cannot_be_set_is_refused_with_what_can(name, value):
    with pytest.raises(BadSetting, match=r"\.$"):
        settings.checked(name, value)
    if name in settings.BY_NAME:
        assert settings.read({name: value}, name) == settings.BY_NAME[name].default


def test_an_ink_may_be_a_colour_of_ones_own():
    assert settings.checked("ink", "#A1b2C3") == "#A1b2C3"


@given(st.sampled_from([s.name for s in settings.SETTINGS]), st.text(max_size=12))
def test_a_setting_read_is_always_one_it_can_have(name, kept):
    value = settings.read({name: kept}, name)
    assert settings.checked(name, value) == value


@given(st.sampled_from(["rollover", "text_size"]), st.text(max_size=6) | st.integers().map(str))
def test_a_number_read_is_within_its_bounds(name, kept):
    setting = settings.BY_NAME[name]
    assert setting.low <= settings.number({name: kept}, name) <= setting.high
