"""The one helper for work off the window's thread."""

import threading
from collections.abc import Callable
from pathlib import Path
from queue import SimpleQueue
from typing import Any

from PySide6.QtCore import QObject, Signal

from keeper.actions import trouble
from keeper.actions.opening import open_again
from keeper.errors import KeeperError, Stopped

Work = Callable[[Any, "Task"], Any]


class Task:
    """One piece of work under way; the work may ask it whether to stop."""

    def __init__(self, work: Work) -> None:
        self.work = work
        self._stop = threading.Event()
        self._store = None
        self._tell: Callable = lambda *_: None

    def stop(self) -> None:
        """Ask the work to break off; its outcome is then thrown away."""
        self._stop.set()
        store = self._store
        if store is not None:
            store.stop()

    def stopped(self) -> bool:
        """Whether it was asked to break off."""
        return self._stop.is_set()

    def progress(self, share: float, words: str = "") -> None:
        """Tell the window how far the work is, 0 to 1. Raises Stopped."""
        if self.stopped():
            raise Stopped
        self._tell(self, share, words)


def stopping(task: Task) -> Callable[..., None]:
    """What stops a task, to be connected to a signal.

    Not the method itself: a connection to one ends with the object that has
    it, which may be on the lane's thread; Qt's lock and Python's are then
    taken the other way round than where the window connects, and both wait
    for ever.
    """
    return lambda *_: task.stop()


class Lane(QObject):
    """A thread that does its tasks one after another, with its own connection.

    ``done``, ``failed`` and ``heard`` of a task are called on the window's
    thread. ``failed`` gets the KeeperError.
    """

    damaged = Signal(str)
    """What of the keeper could be read in part only, once."""

    _ended = Signal(object, object, object)
    _heard = Signal(object, float, str)

    def __init__(self, folder: Path, name: str) -> None:
        super().__init__()
        self._folder = folder
        self._tasks: SimpleQueue = SimpleQueue()
        self._thread: threading.Thread | None = None
        self._name = name
        self._silent = False
        # What hears of a task stays on the window's thread, so that no part of the window ends on the lane's.
        self._hearing: dict[Task, tuple[Callable | None, Callable | None, Callable | None]] = {}
        # Emitted on the lane's thread, heard on the window's.
        self._ended.connect(self._on_ended)
        self._heard.connect(self._on_heard)

    def run(
        self, work: Work, done: Callable | None = None, failed: Callable | None = None, heard: Callable | None = None
    ) -> Task:
        """Queue ``work(store, task)``; once the lane has ended, nothing is done any more."""
        task = Task(work)
        if self._silent:
            # A timer of a window that is closed: another may have the keeper, or a mended one, open by now.
            return task
        self._hearing[task] = done, failed, heard
        task._tell = self._heard.emit
        self._tasks.put(task)
        if self._thread is None:
            self._thread = threading.Thread(target=self._go, name=self._name, daemon=True)
            self._thread.start()
        return task

    def finish(self, seconds: float = 10.0) -> bool:
        """Wait until everything queued so far is done; True when it is."""
        if self._thread is None:
            return True
        ready = threading.Event()
        self._tasks.put(ready)
        return ready.wait(seconds)

    def end(self) -> None:
        """Finish and let go of the connection; what comes of it is told no more."""
        self._silent = True
        if self._thread is not None:
            self._tasks.put(None)
            self._thread.join(10.0)
            self._thread = None
        self._hearing.clear()

    def _go(self) -> None:
        store = None
        while (task := self._tasks.get()) is not None:
            if isinstance(task, threading.Event):
                task.set()
                continue
            try:
                store = store or self._open()
                result, error = self._do(store, task)
            except KeeperError as problem:
                result, error = None, problem
            self._ended.emit(task, result, error)
            if store is not None and store.damage and (news := store.news_of_damage()):
                self.damaged.emit(" ".join(news))
        if store is not None:
            store.close()

    def _open(self) -> Any:
        return open_again(self._folder)

    def _do(self, store: Any, task: Task) -> tuple[Any, KeeperError | None]:
        if task.stopped():
            return None, Stopped()
        task._store = store
        try:
            return task.work(store, task), None
        except KeeperError as problem:
            return None, problem
        except Exception as problem:
            return None, KeeperError(trouble.note(self._folder, problem))
        finally:
            task._store = None

    def _on_ended(self, task: Task, result: object, error: KeeperError | None) -> None:
        done, failed, _ = self._hearing.pop(task, (None, None, None))
        if self._silent or task.stopped() or isinstance(error, Stopped):
            return
        if error is None and done:
            done(result)
        elif error is not None and failed:
            failed(error)

    def _on_heard(self, task: Task, share: float, words: str) -> None:
        heard = self._hearing.get(task, (None, None, None))[2]
        if heard and not (self._silent or task.stopped()):
            heard(share, words)



class LaneWithoutKeeper(Lane):
    """Does its tasks without an open keeper; they get None."""

    def _open(self) -> None:
        return None
