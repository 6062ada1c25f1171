"""Finding on the command line: what is looked for, and how what was found is told."""

import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.printing.files import progress, target_for
from keeper.cli.taking import heeding_interrupts
from keeper.cli.telling import DONE, WRONG
from keeper.cli.typed import DATE, KIND, WORDS
from keeper.dates import written
from keeper.errors import UnknownThing, UnreadableDate
from keeper.model import Found

if TYPE_CHECKING:
    from keeper.actions.finding import Sought


@click.command(short_help="Find lines by their words, kind, place, dates and more.")
@click.argument("words", nargs=-1, type=WORDS)
@click.option("--kind", multiple=True, type=KIND, help="Only lines of this kind, or of one of several.")
@click.option("--place", multiple=True, metavar="NAME", type=WORDS, help="Only nights at this place, or at one of several.")
@click.option("--theme", multiple=True, metavar="NAME", type=WORDS, help="Only lines of this theme; how its name begins will do.")
@click.option("--only", multiple=True, metavar="PHRASE", type=WORDS,
              help='Only what a phrase says: "on Sundays", "in winter", a person\'s name, "with a photo", "mood 1 to 3", "that rest".')  # fmt: skip
@click.option("--from", "first", metavar="DATE", type=DATE, help="Only from this night on.")
@click.option("--to", "last", metavar="DATE", type=DATE, help="Only up to this night, or this month's end.")
@click.option("--best", is_flag=True, help="Best match first, not newest first.")
@click.option("--months", is_flag=True, help="Tell how many lines each month has, not the lines.")
@click.option("--earlier", is_flag=True, help="Find earlier wordings and what was taken out, not lines.")
@click.option("--kept", metavar="NAME", type=WORDS, help="What the search kept under this name looks for, narrowed further by the rest.")
@click.option("--keep", "keep_as", metavar="NAME", type=WORDS, help="Keep this search under a name.")
@click.option("--into", type=click.Path(path_type=Path), metavar="FILE", help="Put all that is found into a file: .csv, .xlsx, .txt, .pdf or .html.")
@click.option("--replace", "over", is_flag=True, help="Replace the file that is there.")
@click.option("--limit", type=click.IntRange(1, 1_000_000), default=50, show_default=True, help="How many at most.")
@click.pass_obj
def find(named: NamedKeeper, words: tuple[str, ...], limit: int, months: bool, earlier: bool, keep_as: str | None,
         into: Path | None, over: bool, **narrowed: tuple | str | bool | None) -> int:  # fmt: skip
    """Find lines that hold all of WORDS, or words that begin so.

    Where few do, what the words say otherwise is told beneath ("a sunday in
    Turku"), then the nearest: with some of the words, others of their stems,
    or a letter or two that are other.

    Words in one pair of quotes are sought exactly as they stand together. In a
    terminal lines are laid out; in a pipe each is one row: night, kind, place
    and text, with tabs between, and "nearest" behind that where it is no more,
    or how the words were read. Returns 1 when no line has every word.
    """
    sought = _sought(named, words, **narrowed)
    for typed, night in named.read_as.items():
        click.echo(f"{typed} is read as {shown.long_date(night)}.", err=True)
    if keep_as:
        from keeper.actions.finding import kept

        telling.aside(f"Kept as \u201c{kept.keep(named.store, keep_as, sought).name}\u201d.")
    if into:
        return _put(named, sought, target_for(into, "", over))
    if earlier:
        return _tell_earlier(named, " ".join(words), limit)
    return _tell_months(named, sought) if months else _tell_lines(named, sought, limit)


def _put(named: NamedKeeper, sought: "Sought", target: Path) -> int:
    from keeper.actions.sending.found import put_found

    with heeding_interrupts() as stopped:
        made = put_found(named.store, sought, target, progress(), stopped)
    for sentence in made.left_out:
        telling.aside(shown.wrapped(sentence))
    telling.done(shown.wrapped(f"What was found is in {made.path}."))
    return DONE


def _tell_earlier(named: NamedKeeper, typed: str, limit: int) -> int:
    """Earlier wordings, each with its night and until when it stood; then what was taken out, with its number."""
    from keeper.actions.history.lately import earlier_or_gone

    wordings, gone = earlier_or_gone(named.store, typed, limit)
    for one in wordings:
        click.echo("\t".join((one.night.isoformat(), shown.one_row(one.kind_title), f"until {one.replaced_at:%Y-%m-%d}", shown.one_row(one.text))))
    for one in gone:
        click.echo("\t".join((f"{one.at:%Y-%m-%d}", f"undo {one.number}", shown.one_row(one.act.told))))
    if not wordings and not gone:
        telling.aside("Nothing found.")
        return WRONG
    return DONE


def _tell_lines(named: NamedKeeper, sought: "Sought", limit: int) -> int:
    from keeper.actions import finding
    from keeper.cli.own_spelling import own_spelling

    found, count = finding.find(named.store, sought, limit), finding.count_found(named.store, sought)
    exact = [one for one in found if not one.near]
    as_read = finding.otherwise_read(named.store, sought, named.tonight, own_spelling(), limit) if len(exact) < finding.FEW else None
    if not found and not as_read:
        telling.aside("Nothing found.")
        return WRONG
    read_ids = {one.line.id for one in as_read.found} if as_read else set()
    near = [one for one in found if one.near and one.line.id not in read_ids]
    _lay_out(exact, bool(as_read or near))
    # Not compared with what was found: a damaged line is left out of it.
    if count > limit:
        telling.aside(f"{written.number(len(found))} of {written.number(count)}; --limit shows more.")
    if as_read:
        telling.aside(f"Read as: {as_read.told}. {written.counted(as_read.lines, 'line')}.")
        _lay_out(as_read.found, bool(near))
    if near and not count:
        telling.aside("No line has every word; these are the nearest.")
    _lay_out(near)
    return DONE if count or as_read else WRONG


def _lay_out(found: Sequence[Found], more: bool = False) -> None:
    if not found:
        return
    if sys.stdout.isatty():
        click.echo(shown.found_text(found) + "\n" * more)
    else:
        click.echo(shown.found_rows(found))


def _tell_months(named: NamedKeeper, sought: "Sought") -> int:
    from keeper.actions import finding

    counted = finding.months_found(named.store, sought)
    for month, lines in counted:
        if sys.stdout.isatty():
            click.echo(f"{written.month_and_year(month)}  {written.counted(lines, 'line')}")
        else:
            click.echo(f"{month:%Y-%m}\t{lines}")
    if not counted:
        telling.aside("Nothing found.")
    return DONE if counted else WRONG


def _sought(named: NamedKeeper, words: tuple[str, ...], *, kind: tuple[str, ...], place: tuple[str, ...], theme: tuple[str, ...],
            only: tuple[str, ...], first: str | None, last: str | None, best: bool, kept: str | None) -> "Sought":  # fmt: skip
    """What is looked for.

    Raises UnknownThing for a place, theme or phrase that is not known, UnreadableDate for an end before the beginning.
    """
    from keeper.actions import finding

    begin = named.understood(first).first if first else None
    end = named.understood(last).last if last else None
    if begin and end and end < begin:
        raise UnreadableDate(f"The last night, {end.isoformat()}, comes before the first, {begin.isoformat()}.")
    sought = finding.Sought(
        typed=" ".join(_exactly(word) for word in words), kinds=kind, places=tuple(_place(named, name) for name in place),
        themes=tuple(_theme(named, name) for name in theme), first=begin, last=end, best_first=best,
    )  # fmt: skip
    if kept:
        sought = _kept(named, kept, sought)
    return _only(named, sought, only) if only else sought


def _kept(named: NamedKeeper, name: str, further: "Sought") -> "Sought":
    """A kept search, narrowed by whatever else was said; words and dates that were said stand in place of its own."""
    from keeper.actions.finding import kept

    there = kept.named(named.store, name).sought
    more = {sort: (*getattr(there, sort), *getattr(further, sort)) for sort in ("kinds", "places", "themes")}
    more |= {sort: getattr(further, sort) or getattr(there, sort) for sort in ("typed", "first", "last", "best_first")}
    return replace(there, **more)


def _only(named: NamedKeeper, sought: "Sought", only: tuple[str, ...]) -> "Sought":
    from keeper.actions.finding import known, offers, phrases
    from keeper.cli.own_spelling import own_spelling

    there = known.known(named.store)
    for typed in only:
        for phrase in offers.meant(there, typed, named.tonight, own_spelling()):
            sought = phrases.with_phrase(sought, phrase)
    return sought


def _theme(named: NamedKeeper, name: str) -> int:
    from keeper.actions.themes.asking import named as theme_named

    return theme_named(named.store, name)


def _place(named: NamedKeeper, name: str) -> str:
    from keeper.actions import reading

    place = reading.place_named(named.store, name)
    if place is None:
        raise UnknownThing(f"No night was spent at a place called \u201c{name}\u201d.")
    return place.id


def _exactly(word: str) -> str:
    # The shell took away the quotes that the person typed round several words.
    return f'"{word}"' if " " in word.strip() and '"' not in word else word
