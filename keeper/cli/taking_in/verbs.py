"""The commands read-in and in-tray."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import WORDS
from keeper.dates.written import counted
from keeper.errors import UnknownThing, shown_name

if TYPE_CHECKING:
    from keeper.actions.taking_in.looking import FileLooked
    from keeper.actions.taking_in.weighing import Weighed
    from keeper.exchange.tables.shape import How

_SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t", "stroke": "|"}
_SHOWN = 20
_WIDEST = 28


@click.command("read-in", short_help="Read in what you wrote elsewhere: tables, texts, calendars.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--keep", is_flag=True, help="Keep it. Without this the file is only looked at, and nothing is written.")
@click.option("--column", "said", metavar="NAME=WHAT", type=WORDS, multiple=True,
              help="What a column is: date, place, a kind of line, a reading, or nothing; may be repeated.")
@click.option("--dates", type=click.Choice(("dmy", "mdy", "ymd")), help="The order of dates in numbers.")
@click.option("--decimals", type=click.Choice(("point", "comma")), help="The sign before decimals.")
@click.option("--encoding", metavar="NAME", help="The encoding of the file, such as cp1252.")
@click.option("--parted-by", type=click.Choice(tuple(_SEPARATORS)), help="What stands between the cells of a table.")
@click.option("--no-names", is_flag=True, help="The first row does not name the columns.")
@click.option("--other-words", type=click.Choice(("join", "aside", "replace")),
              help="Where a night has other words: both in one line, the file\u2019s as an earlier wording, or yours as one.")
@click.option("--list", "into", metavar="FILE", type=click.Path(path_type=Path), help="Write what was not understood into a new file.")
@click.pass_obj
def read_in(
    named: NamedKeeper, file: Path, keep: bool, said: tuple[str, ...], dates: str | None, decimals: str | None, encoding: str | None,
    parted_by: str | None, no_names: bool, other_words: str | None, into: Path | None,
) -> int:  # fmt: skip
    """Read in lines, places and readings from FILE: a table (CSV, TSV, .xlsx, .ods), a text or Markdown with dates, a
    calendar (.ics), a list in JSON, or a folder of texts. The file stays as it is.

    At first it is only looked at: how it is taken to be written, what its columns
    are, its first rows, and what it would bring. With --keep that is kept, as one
    act; what is there already is not added again. Returns 1 when something of it
    was not understood.
    """
    from keeper.actions.taking_in import told, weighing

    named.must_be_begun(now=True)
    changed = {"order": dates, "decimal": {"point": ".", "comma": ","}.get(decimals or ""), "encoding": encoding,
               "separator": _SEPARATORS.get(parted_by or ""), "headed": False if no_names else None}  # fmt: skip
    looked = _looked(named, file.absolute(), {name: value for name, value in changed.items() if value is not None})
    looked = _meant(named, looked, said, other_words)
    with heeding_interrupts() as stopped:
        if not keep:
            telling.done(_shown(named, looked))
        weighed = weighing.weigh(named.store, looked, named.clock, stopped=stopped)
        whole = True
        if keep:
            whole = _keep(named, looked, weighed, stopped)
        else:
            telling.done(shown.wrapped(f"{told.would_bring(weighed)} {_what_next(weighed)}"))
    _tell_troubles(looked, weighed, into)
    return 1 if weighed.trouble_count or not whole else 0


def _what_next(weighed: Weighed) -> str:
    if weighed.brings_something:
        return "Nothing was written yet; the same with --keep keeps it."
    return "Nothing was written." if weighed.first or weighed.trouble_count >= weighed.rows else "Nothing was written; --column says what a column is."


def _looked(named: NamedKeeper, file: Path, changed: dict) -> FileLooked:
    from keeper.actions.taking_in import looking
    from keeper.cli.own_spelling import own_spelling

    looked = looking.look(named.store, file, named.clock, own_spelling())
    if not changed:
        return looked
    _check_encoding(changed.get("encoding"))
    how: How = replace(looked.how, **changed)
    return looking.look(named.store, file, named.clock, own_spelling(), how)


def _check_encoding(name: str | None) -> None:
    try:
        # Some of Python's are of bytes to bytes, and some name no encoding at all.
        b"a".decode(name or "utf-8", "replace")
    except (LookupError, ValueError) as error:
        raise click.UsageError("There is no such encoding. Among those there are: utf-8, cp1252, utf-16.") from error


def _meant(named: NamedKeeper, looked: FileLooked, said: Iterable[str], other_words: str | None) -> FileLooked:
    columns = list(looked.meant.columns)
    for one in said:
        name, parted, what = one.rpartition("=")
        if not parted or name.strip() not in looked.names:
            raise click.UsageError(f"There is no column \u201c{name or one}\u201d. There are: {', '.join(looked.names)}.")
        columns[looked.names.index(name.strip())] = _what(named, what.strip())
    return replace(looked, meant=replace(looked.meant, columns=tuple(columns), other_words=other_words or looked.meant.other_words))


def _what(named: NamedKeeper, what: str) -> str:
    from keeper.actions.readings import trackers
    from keeper.actions.taking_in.meant import DATE, NOTHING, PLACE

    if what.lower() in ("", "nothing", "-"):
        return NOTHING
    if what.lower() in (DATE, PLACE):
        return what.lower()
    try:
        return f"kind:{named.kind(what).key}"
    except UnknownThing:
        return f"reading:{trackers.named(trackers.every(named.store), what).id}"


def _shown(named: NamedKeeper, looked: FileLooked) -> str:
    from keeper.actions.taking_in import told

    called = dict(told.choices(named.store))
    told_of = [at for at, what in enumerate(looked.meant.columns) if what or at < _SHOWN][: 2 * _SHOWN]
    heads = [f"{shown.one_row(looked.names[at])}: {called.get(looked.meant.columns[at], 'not read')}" for at in told_of]
    if more := len(looked.names) - len(told_of):
        heads.append(f"and {counted(more, 'column')} more. {told.beyond(looked)}".rstrip())
    rows = _beside([[_cell(row.cells[at]) if at < len(row.cells) else "" for at in told_of] for row in looked.rows[:_SHOWN]])
    known = " As the last time with such a file." if looked.known else ""
    unsure = "" if looked.order_sure else " Dates could be read in another order; --dates says which."
    return "\n".join((shown.wrapped(f"{shown_name(looked.path)} is {told.how_written(looked.how)}.{known}{unsure}"), "", *heads, "", *rows, ""))


def _cell(text: str) -> str:
    one = shown.one_row(" ".join(text.split()))
    return one if len(one) <= _WIDEST else one[: _WIDEST - 1] + "\u2026"


def _beside(rows: list[list[str]]) -> list[str]:
    """Rows whose cells stand one below another."""
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return ["  ".join(cell.ljust(many) for cell, many in zip(row, wide, strict=True)).rstrip() for row in rows]


def _keep(named: NamedKeeper, looked: FileLooked, weighed: Weighed, stopped) -> bool:
    """Read a file in; whether it could be read to its end."""
    from keeper.actions.taking_in import keeping, told
    from keeper.cli.care.backing_up import progress

    kept = keeping.keep(named.store, looked, weighed, named.clock, progress(), stopped)
    telling.done(shown.wrapped(told.brought(kept, looked.meant.other_words)))
    return not kept.broken_off


def _tell_troubles(looked: FileLooked, weighed: Weighed, into: Path | None) -> None:
    from keeper.actions.taking_in import told

    if into and weighed.troubles:
        if into.exists():
            raise click.UsageError(f"{shown_name(into)} is there already; name a new file.")
        told.save_list(into, looked, weighed.troubles)
    for one in weighed.troubles[: 0 if into else _SHOWN]:
        telling.aside(told.trouble(one, looked.how.unit))
    if (more := weighed.trouble_count - _SHOWN) and more > 0 and not into:
        telling.aside(f"{more} more were not understood; --list writes all of them into a file.")


@click.command("in-tray", short_help="Take in what waits in the in-tray.")
@click.option("--folder", metavar="FOLDER", type=click.Path(path_type=Path), help="Choose the in-tray.")
@click.option("--none", "no_folder", is_flag=True, help="Have no in-tray any more. The folder stays as it is.")
@click.option("--look", is_flag=True, help="Only tell what waits.")
@click.pass_obj
def in_tray(named: NamedKeeper, folder: Path | None, no_folder: bool, look: bool) -> int:
    """Take in the texts and photos that wait in the in-tray, and move them into its folder \u201ctaken in\u201d.

    A text belongs to the date in its name or at its beginning, else to the
    night on which it was last changed. Returns 1 when something was left.
    """
    from keeper.actions.taking_in import tray
    from keeper.cli.own_spelling import own_spelling

    named.must_be_begun(now=True)
    if folder or no_folder:
        tray.choose(named.store, None if no_folder else folder)
        telling.done("There is no in-tray any more." if no_folder else shown.wrapped(f"The in-tray is {folder.absolute()}."))
        return 0
    there = tray.waiting(named.store)
    if there is None:
        raise UnknownThing("There is no in-tray, or it cannot be reached. --folder chooses one.")
    if look:
        telling.done(f"{there.told or 'Nothing'} {'waits' if not there.told or (there.told.startswith('1 ') and ' and ' not in there.told) else 'wait'}.")
        return 0
    with heeding_interrupts() as stopped:
        taken = tray.take_in(named.store, named.clock, own_spelling(), stopped=stopped)
    telling.done(shown.wrapped(taken.sentence))
    return 1 if taken.left else 0
