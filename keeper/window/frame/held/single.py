"""One window a keeper: a second start brings the first one forward."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtNetwork import QLocalServer, QLocalSocket

from keeper.window.frame.held.lock import address

PATIENCE = 2000
"""Milliseconds to wait for the first window to answer."""


def call_forward(folder: Path, night: date | None) -> bool:
    """Ask the window that is open to come forward; False when none answers."""
    socket = QLocalSocket()
    socket.connectToServer(address(folder))
    if not socket.waitForConnected(PATIENCE):
        return False
    socket.write(f"come forward {night.isoformat() if night else ''}\n".encode())
    heard = socket.waitForBytesWritten(PATIENCE) and socket.waitForReadyRead(PATIENCE)
    socket.disconnectFromServer()
    return heard


class Listener(QObject):
    """Hears a second start and hands on what it wants."""

    def __init__(self, folder: Path, come_forward: Callable[[date | None], None]) -> None:
        super().__init__()
        self._come_forward = come_forward
        self._server = QLocalServer(self)
        self._server.setSocketOptions(QLocalServer.SocketOption.UserAccessOption)
        # A window that was killed leaves its name behind; the lock tells it is gone.
        QLocalServer.removeServer(address(folder))
        self._server.newConnection.connect(self._on_call)
        self._server.listen(address(folder))

    def _on_call(self) -> None:
        socket = self._server.nextPendingConnection()
        socket.readyRead.connect(lambda: self._on_words(socket))
        socket.disconnected.connect(socket.deleteLater)

    def _on_words(self, socket: QLocalSocket) -> None:
        words = bytes(socket.readLine().data()).decode(errors="replace").split()
        socket.write(b"yes\n")
        socket.flush()
        try:
            night = date.fromisoformat(words[-1])
        except (ValueError, IndexError):
            night = None
        self._come_forward(night)

