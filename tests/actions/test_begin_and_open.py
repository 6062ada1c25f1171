"""Which keeper is opened, and with what clock and settings."""

from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from keeper import settings
from keeper.actions import opening, writing
from keeper.errors import BadSetting, CannotWrite, NotAKeeper
from keeper.store import create_store

NIGHT = date(2026, 11, 14)


def test_the_variable_names_the_folder(monkeypatch, tmp_path):
    monkeypatch.setenv(opening.WHERE, str(tmp_path / "mine"))
    assert opening.own_folder() == tmp_path / "mine"
    monkeypatch.delenv(opening.WHERE)
    assert opening.own_folder().is_absolute()
    assert "keeper" in opening.own_folder().parts


def test_a_keeper_is_begun_once_and_then_opened(folder, clock):
    assert not opening.has_keeper(folder)
    with opening.open_or_begin(folder) as store:
        writing.write_line(store, NIGHT, "memory", "First.", clock)
    assert opening.has_keeper(folder)
    with opening.open_or_begin(folder) as again, opening.open_kept(folder) as kept:
        assert again.version() and kept.version()


def test_looking_begins_nothing(folder):
    with pytest.raises(NotAKeeper):
        opening.open_kept(folder)
    assert not folder.exists()


def test_the_demo_is_laid_out_anew_each_time(tmp_path, monkeypatch, clock):
    with create_store(tmp_path / "shipped") as store:
        writing.write_line(store, NIGHT, "memory", "As shipped.", clock)
    monkeypatch.setattr(opening, "demo_keeper", lambda: tmp_path / "shipped")
    for _ in range(2):
        with opening.open_kept(opening.lay_out_demo(tmp_path / "copy")) as demo:
            assert demo.rows("SELECT text FROM line") == [("As shipped.",)]
            writing.write_line(demo, NIGHT, "memory", "Played with.", clock)


def test_a_demo_that_cannot_be_laid_out_is_told_of(tmp_path, monkeypatch):
    monkeypatch.setattr(opening, "demo_keeper", lambda: Path(tmp_path / "nowhere"))
    with pytest.raises(CannotWrite, match="demo cannot be laid out"):
        opening.lay_out_demo(tmp_path / "copy")


def test_the_demos_clock_stands_on_the_evening_after_its_last_night(store, clock):
    writing.write_line(store, NIGHT, "memory", "Last.", clock)
    shown = opening.demo_clock(store)
    assert shown.tonight(4) == NIGHT + timedelta(days=1)
    assert shown.now().replace(tzinfo=None) == datetime(2026, 11, 15, 21, 40)
    assert (shown.moment().offset_minutes, shown.moment().zone) == (60, "Europe/Berlin")


def test_settings_are_kept_when_they_can_be(store):
    opening.change_settings(store, {"rollover": "5", "ink": "#102030"})
    with pytest.raises(BadSetting):
        opening.change_settings(store, {"palette": "night", "rollover": "99"})
    kept = opening.read_settings(store)
    assert kept == {"rollover": "5", "ink": "#102030"}
    assert settings.number(kept, "rollover") == 5
