"""The bell: a sound, and a message of the desktop where there is one."""

from __future__ import annotations

import sys
from typing import Protocol

from PySide6.QtGui import QGuiApplication, QIcon
from PySide6.QtWidgets import QApplication, QStyle, QSystemTrayIcon

from greenroom.desk.harden.session_bus import BusError, Method, Packed, SessionBus

NOTIFICATIONS = "org.freedesktop.Notifications"
NOTIFY = Method(NOTIFICATIONS, "/org/freedesktop/Notifications", NOTIFICATIONS, "Notify")
CLOSE = Method(NOTIFICATIONS, "/org/freedesktop/Notifications", NOTIFICATIONS, "CloseNotification")
URGENT = 2
STAYS = 0
SOUND = "alarm-clock-elapsed"
"""A name of the Sound Naming Specification 0.9, for desktops that play one."""


class Bell(Protocol):
    """Something that rings; a test hands in its own."""

    def ring(self, title: str, text: str) -> None:
        """Ring, and show what for; a message that still shows is replaced."""

    def hush(self) -> None:
        """Take the message away."""


class Poster(Protocol):
    """Something that shows a message on the desktop."""

    def post(self, title: str, text: str) -> bool:
        """Show a message in place of the one before; whether it could be shown."""

    def withdraw(self) -> None:
        """Take the message away."""


class SessionPoster:
    """Messages of a Linux desktop, by the Desktop Notifications Specification 1.2."""

    def __init__(self, bus: SessionBus) -> None:
        self._bus = bus
        self._shown = 0

    def post(self, title: str, text: str) -> bool:
        hints: dict[str, str | int] = {"urgency": URGENT, "sound-name": SOUND, "desktop-entry": "greenroom"}
        arguments = Packed().text("greenroom").unsigned(self._shown).text("").text(title).text(_plain(text))
        arguments.texts([]).hints(hints).signed(STAYS)
        try:
            self._shown = self._bus.call(NOTIFY, arguments) or 0
        except BusError:
            self._shown = 0
            return False
        return True

    def withdraw(self) -> None:
        if not self._shown:
            return
        try:
            self._bus.call(CLOSE, Packed().unsigned(self._shown))
        except BusError:
            self._bus.close()  # the desktop took its messages with it
        self._shown = 0


class TrayPoster:
    """Messages beside the clock, where the system has such a place."""

    def __init__(self) -> None:
        self._tray: QSystemTrayIcon | None = None

    def post(self, title: str, text: str) -> bool:
        if not (QSystemTrayIcon.isSystemTrayAvailable() and QSystemTrayIcon.supportsMessages()):
            return False
        if self._tray is None:
            self._tray = QSystemTrayIcon(_icon())
        self._tray.show()
        self._tray.showMessage(title, text, QSystemTrayIcon.MessageIcon.Warning)
        return True

    def withdraw(self) -> None:
        if self._tray is not None:
            self._tray.hide()


class DesktopBell:
    """Beeps, and posts a message at the first place that takes it."""

    def __init__(self, posters: tuple[Poster, ...]) -> None:
        self._posters = posters

    def ring(self, title: str, text: str) -> None:
        QApplication.beep()
        for poster in self._posters:
            if poster.post(title, text):
                return

    def hush(self) -> None:
        for poster in self._posters:
            poster.withdraw()


class SilentBell:
    """For a window that nobody sees: pages drawn to files do not ring."""

    def ring(self, title: str, text: str) -> None:
        """Stay silent."""

    def hush(self) -> None:
        """Stay silent."""


def desktop_bell() -> Bell:
    """Return the bell of this desktop."""
    if QGuiApplication.platformName() in ("offscreen", "minimal"):
        return SilentBell()
    session: tuple[Poster, ...] = (SessionPoster(SessionBus()),) if sys.platform.startswith("linux") else ()
    return DesktopBell((*session, TrayPoster()))


def _icon() -> QIcon:
    own = QApplication.windowIcon()
    return (
        QApplication.style().standardIcon(QStyle.StandardPixmap.SP_MessageBoxWarning) if own.isNull() else own
    )


def _plain(text: str) -> str:
    """Return text for a message whose body may be read as markup, as the specification allows."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
