"""What one has asked a lane for: asked anew, the old question is stopped and its answer not heard."""

from collections.abc import Callable

from keeper.window.desk.lanes import Lane, Task, Work


class Errand:
    """One thing a page or a part of it asks of a lane, in one question or several."""

    def __init__(self, lane: Lane) -> None:
        self._lane = lane
        self._tasks: dict[object, Task] = {}

    @property
    def under_way(self) -> bool:
        """Whether an answer is still to come."""
        return bool(self._tasks)

    def anew(
        self, work: Work, done: Callable | None = None, failed: Callable | None = None, heard: Callable | None = None
    ) -> None:
        """Ask ``work(store, task)``, as ``Lane.run`` does, in place of what was asked before."""
        self.stop()
        self.also(work, done, failed, heard)

    def also(
        self, work: Work, done: Callable | None = None, failed: Callable | None = None, heard: Callable | None = None
    ) -> None:
        """Ask this besides."""

        # No name of the task's own: it would hold itself, and what answers it, alive.
        key = object()

        def ended(then: Callable | None) -> Callable:
            def hear(outcome: object) -> None:
                del self._tasks[key]
                if then:
                    then(outcome)

            return hear

        self._tasks[key] = self._lane.run(work, ended(done), ended(failed), heard)

    def stop(self) -> None:
        """Break off whatever is under way; no answer of it comes any more."""
        for task in self._tasks.values():
            task.stop()
        self._tasks.clear()
