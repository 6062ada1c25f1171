"""The verbs of the command ``keeper``: where each is, brought in when it is asked for."""

from importlib import import_module

import click

from keeper.actions import trouble
from keeper.cli.named_keeper import NamedKeeper
from keeper.errors import KeeperError

LISTED = {
    "after": "patterns.closer_looks:after",
    "around": "patterns.closer_looks:around",
    "ask": "nights.asking:ask",
    "at": "nights.whereabouts:at",
    "backups": "care.backing_up:backups",
    "book": "making_books:book",
    "bring-back": "care.backing_up:bring_back",
    "changes": "patterns.closer_looks:changes",
    "clinician": "closer.clinician:clinician",
    "find": "nights.finding:find",
    "give": "giving.verbs:give",
    "in-tray": "taking_in.verbs:in_tray",
    "keepers": "care.other_keepers:keepers",
    "kinds": "telling_kinds:kinds",
    "lately": "care.history:lately",
    "later": "nights.later_word:later",
    "mend": "care.mending:mend",
    "move": "nights.writing:move",
    "move-keeper": "care.other_keepers:move",
    "note": "nights.readings:note",
    "patterns": "patterns.telling:patterns",
    "people": "nights.people:people",
    "photo": "taking:photo",
    "print": "printing.pages:print_",
    "read-in": "taking_in.verbs:read_in",
    "readings": "nights.readings:readings",
    "receive": "giving.verbs:receive",
    "redo": "care.history:redo",
    "rest": "nights.resting:rest",
    "send": "printing.sending:send",
    "show": "nights.showing:show",
    "themes": "telling_themes:themes",
    "try": "closer.trying:try_",
    "undo": "care.history:undo",
    "wake": "nights.resting:wake",
    "words": "nights.words:words",
    "write": "nights.writing:write",
}
"""Each verb, the module of this room it is in, and its name there."""


class Verbs(click.Group):
    """Brings in the verb that is asked for, and notes what nobody expected to go wrong, in the keeper it happened to."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted({*LISTED, *self.commands})

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name in LISTED and name not in self.commands:
            module, its = LISTED[name].split(":")
            self.add_command(getattr(import_module(f"keeper.cli.{module}"), its), name)
        return super().get_command(ctx, name)

    def invoke(self, ctx: click.Context) -> object:
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort, KeeperError, OSError):
            raise
        except Exception as problem:
            if not isinstance(ctx.obj, NamedKeeper):
                raise
            raise KeeperError(trouble.note(ctx.obj.folder, problem)) from problem
