"""Backups on the command line: listed, made, looked into, and brought back from."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import DATE, WORDS
from keeper.dates import written
from keeper.errors import NotAKeeper

if TYPE_CHECKING:
    from keeper.actions.backups import Backup

_FROM = click.option("--from", "place", metavar="FOLDER", type=click.Path(path_type=Path), help="Backups that lie elsewhere, such as on a stick.")
_KINDS = {"daily": "", "aside": "kept aside", "upgrade": "before an upgrade"}


@click.command(short_help="List the backups, or look inside one.")
@click.argument("which", metavar="[BACKUP]", required=False, type=WORDS)
@click.option("--night", metavar="DATE", type=DATE, help="Show what that backup holds of this night.")
@click.option("--now", is_flag=True, help="Make a backup now.")
@_FROM
@click.pass_obj
def backups(named: NamedKeeper, which: str | None, night: str | None, now: bool, place: Path | None) -> int | None:
    """List the backups: what each holds, its last line and its size.

    BACKUP is one of them by its name or day, or "latest": then it is told in
    which of its nights it holds something that the keeper does not. In a pipe
    each backup is one row: name, nights, lines, photos, night of the last line, bytes
    and kind, with tabs between. Returns 1 when there are none.
    """
    if night and not which:
        raise click.UsageError("--night is for a look inside a backup; name one.")
    if now:
        _make(named, place)
        return None
    if which:
        click.echo(_inside(named, _one(named, which, place), night))
        return None
    return _list(_listed(named, place))


@click.command("bring-back", short_help="Bring the keeper, or some nights of it, back from a backup.")
@click.argument("which", metavar="BACKUP", type=WORDS)
@click.option("--night", "nights", metavar="DATE", type=DATE, multiple=True, help="Only this night; may be repeated.")
@_FROM
@click.pass_obj
def bring_back(named: NamedKeeper, which: str, nights: tuple[str, ...], place: Path | None) -> None:
    """Let the keeper hold what a backup holds. What it holds now is kept aside.

    BACKUP is a name or day as "keeper backups" lists it, or "latest". With
    --night only those nights come back: other words that are there now become
    earlier wordings. It works too where the keeper is broken or gone.
    """
    backup = _one(named, which, place)
    with heeding_interrupts() as stopped:
        if nights:
            from keeper.actions.backups.inside import bring_nights

            wanted = [named.night(typed) for typed in nights]
            telling.done(shown.wrapped(bring_nights(named.store, backup, wanted, progress(), stopped)))
            return
        _bring_whole(named, backup, stopped)


def _bring_whole(named: NamedKeeper, backup: Backup, stopped: Callable[[], bool]) -> None:
    from keeper.actions.backups import bringing_back

    try:
        came = bringing_back.bring_back(named.store, backup, named.clock, progress(), stopped)
    except NotAKeeper:
        # Gone, or so broken that no copy of it can be made: its file is kept aside as it is.
        named.let_go()
        came = bringing_back.bring_back_into(named.folder, backup, named.clock_without_keeper(), progress(), stopped)
    aside = f" What was there is kept in {came.aside}." if came.aside else ""
    lost = f" {written.counted(came.lacking, 'photo')} could not be brought back; nowhere is there a whole copy." if came.lacking else ""
    telling.done(shown.wrapped(f"Brought back: the keeper as of {written.long_date(backup.day)}.{aside}{lost}"))


def _listed(named: NamedKeeper, place: Path | None) -> tuple[Backup, ...]:
    from keeper.actions.backups import listed
    from keeper.actions.backups.listing import listed_in, place_of

    return listed_in(place_of(place.absolute())) if place else listed(named.folder)


def _one(named: NamedKeeper, which: str, place: Path | None) -> Backup:
    from keeper.actions.backups.listing import named as named_so

    return named_so(_listed(named, place), which)


def _make(named: NamedKeeper, place: Path | None) -> None:
    from keeper.actions.backups import making

    with heeding_interrupts() as stopped:
        made = making.back_up_now(named.store, place.absolute() if place else making.own_place(named.store), named.clock, progress(), stopped)
    telling.done(shown.wrapped(f"Backed up: {made.path.parent}."))
    if told := making.BackedUp(made.path.parent.parent, made).told:
        telling.aside(shown.wrapped(told))


def _list(those: Iterable[Backup]) -> int:
    rows = [_row(one) if sys.stdout.isatty() else _fields(one) for one in those]
    if not rows:
        telling.aside("There are no backups yet.")
        return 1
    click.echo("\n".join(rows))
    return 0


def _row(backup: Backup) -> str:
    if not backup.sound:
        return f"{backup.name:30} cannot be read"
    kind = f", {_KINDS[backup.kind]}" if _KINDS[backup.kind] else ""
    last = f", to {written.short_date(backup.last_line)}" if backup.last_line else ""
    return f"{backup.name:30} {_held(backup)}{last}, {written.size(backup.bytes)}{kind}"


def _held(backup: Backup) -> str:
    parts = ((backup.nights, "night"), (backup.lines, "line"), (backup.photos, "photo"))
    return ", ".join(written.counted(many, what) for many, what in parts)


def _fields(one: Backup) -> str:
    last = one.last_line.isoformat() if one.last_line else ""
    return "\t".join(map(str, (one.name, one.nights, one.lines, one.photos, last, one.bytes, one.kind if one.sound else "cannot be read")))


def _inside(named: NamedKeeper, backup: Backup, typed: str | None) -> str:
    from keeper.actions.backups import inside
    from keeper.review.night import NightPage

    if typed:
        (night,) = inside.nights_inside(backup, [named.night(typed)])
        return shown.night_text(NightPage(night, "", (), None, ()))
    told = f"The backup of {written.long_date(backup.day)} holds {_held(backup)}."
    try:
        seen = inside.look_inside(named.store, backup)
    except NotAKeeper:
        return shown.wrapped(told)
    return shown.wrapped(f"{told} {_lacking(sorted(seen.lacking))}")


def _lacking(those: list[date]) -> str:
    if not those:
        return "The keeper holds all of it."
    shown_first = ", ".join(night.isoformat() for night in those[-20:])
    more = f", and {written.number(len(those) - 20)} before" if len(those) > 20 else ""
    return f"The keeper holds less, or other words, of {written.counted(len(those), 'night')}: {shown_first}{more}."


def progress() -> Callable[[float, str], None]:
    """Tells on a terminal how far it is; elsewhere nothing."""
    if not sys.stderr.isatty():
        return lambda *_: None
    return lambda share, words: click.echo(f"\r{'' if share == 1 else words:40}\r", nl=False, err=True)
