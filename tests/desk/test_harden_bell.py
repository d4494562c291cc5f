"""The bell reaches the desktop by the published protocols, and is not missed where there is none.

The message is checked against two programs that know the protocol on their own: the reference bus
(dbus-daemon) and Qt's D-Bus module, which stands in for the desktop. Signature and arguments: Desktop
Notifications Specification 1.2, org.freedesktop.Notifications.Notify.
"""

import os
import shutil
import socket
import struct
import subprocess
import sys
import threading
import time

import pytest

from greenroom.desk.harden.bell import DesktopBell, SessionPoster, TrayPoster
from greenroom.desk.harden.session_bus import (
    BusError,
    Method,
    Packed,
    SessionBus,
    session_address,
)

DESKTOP = """
import sys
from PySide6.QtCore import QCoreApplication
from PySide6.QtDBus import QDBusConnection, QDBusVirtualObject

class Desktop(QDBusVirtualObject):
    def introspect(self, path):
        return ""
    def handleMessage(self, message, connection):
        told = [one for one in message.arguments() if isinstance(one, (int, str, list))]
        print(message.member(), message.signature(), told, flush=True)
        connection.send(message.createReply(7))
        return True

application = QCoreApplication([])
bus = QDBusConnection.connectToBus(sys.argv[1], "desktop")
desktop = Desktop()
assert bus.registerVirtualObject("/org/freedesktop/Notifications", desktop)
assert bus.registerService("org.freedesktop.Notifications")
print("ready", flush=True)
application.exec()
"""
needs_bus = pytest.mark.skipif(
    shutil.which("dbus-daemon") is None or not sys.platform.startswith("linux"),
    reason="the reference bus is not installed",
)


@pytest.fixture
def bus(tmp_path):
    """The address of a session bus of its own."""
    address = f"unix:path={tmp_path / 'bus'}"
    with subprocess.Popen(
        ["dbus-daemon", "--session", "--nofork", "--print-address", f"--address={address}"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as daemon:
        told = daemon.stdout.readline().strip()
        yield told
        daemon.terminate()


@pytest.fixture
def desktop(bus):
    """A desktop that prints what it is asked, on the bus."""
    with subprocess.Popen(
        [sys.executable, "-c", DESKTOP, bus],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
    ) as program:
        assert program.stdout.readline() == "ready\n"
        yield program
        program.terminate()


@needs_bus
def test_a_message_comes_to_the_desktop_as_the_specification_asks(bus, desktop):
    poster = SessionPoster(SessionBus(bus))
    assert poster.post("Bring Rack 1 in", "Rack <1> & Tray A have had their minutes.")
    assert desktop.stdout.readline() == (
        "Notify susssasa{sv}i ['greenroom', 0, '', 'Bring Rack 1 in', "
        "'Rack &lt;1&gt; &amp; Tray A have had their minutes.', [], 0]\n"
    )
    assert poster.post("Bring Rack 1 in", "again")
    assert "['greenroom', 7, ''" in desktop.stdout.readline()
    poster.withdraw()
    assert desktop.stdout.readline() == "CloseNotification u [7]\n"
    poster._bus.close()


@needs_bus
def test_letters_beyond_ascii_arrive_whole(bus, desktop):
    poster = SessionPoster(SessionBus(bus))
    assert poster.post("Ohišje 1 ☀", "30 min ✓")
    assert "'Ohišje 1 ☀', '30 min ✓'" in desktop.stdout.readline()
    poster._bus.close()


@needs_bus
def test_a_bus_without_a_desktop_is_told_apart_from_a_message_that_was_shown(bus):
    poster = SessionPoster(SessionBus(bus))
    assert not poster.post("Bring Rack 1 in", "text")
    poster.withdraw()
    poster._bus.close()


@pytest.mark.parametrize("address", ["unix:path=/nowhere/bus", "tcp:host=localhost", "", "unix:"])
def test_where_there_is_no_bus_the_message_goes_elsewhere(address):
    poster = SessionPoster(SessionBus(address))
    assert not poster.post("Bring Rack 1 in", "text")


def test_a_session_without_a_bus_says_so(monkeypatch, tmp_path):
    monkeypatch.delenv("DBUS_SESSION_BUS_ADDRESS", raising=False)
    monkeypatch.setenv("XDG_RUNTIME_DIR", str(tmp_path))
    with pytest.raises(BusError, match="no bus"):
        session_address()
    (tmp_path / "bus").touch()
    assert session_address() == f"unix:path={tmp_path}/bus"
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/a;unix:path=/b")
    assert session_address() == "unix:path=/a;unix:path=/b"


@pytest.mark.parametrize(
    "answer",
    [
        b"REJECTED EXTERNAL\r\n",
        b"",
        b"OK 1234\r\nl\x02\x00\x01" + struct.pack("<III", 4, 1, 1 << 30),
        b"OK 1234\r\n" + bytes(16),
    ],
    ids=["not let in", "silence", "too long", "nonsense"],
)
def test_a_bus_that_answers_wrongly_does_not_stop_the_program(tmp_path, answer):
    """Half a second is all the window waits, and only once: the line is given up."""
    place = tmp_path / "bus"
    with socket.socket(socket.AF_UNIX) as server:
        server.bind(str(place))
        server.listen(1)

        def serve():
            line, _ = server.accept()
            with line:
                line.sendall(answer)
                time.sleep(0.8)

        thread = threading.Thread(target=serve)
        thread.start()
        before = time.monotonic()
        poster = SessionPoster(SessionBus(f"unix:path={place}"))
        assert not poster.post("Bring Rack 1 in", "text")
        assert time.monotonic() - before < 2
        thread.join()


def test_values_are_laid_out_as_the_wire_format_asks():
    """D-Bus Specification, "Marshaling (Wire Format)": strings carry a 32-bit length and a zero byte, each
    value is aligned to its own size, an array's length leaves out the padding before its first element."""
    packed = Packed().text("foo").unsigned(3).signed(-1)
    assert packed.data == b"\x03\x00\x00\x00foo\x00\x03\x00\x00\x00\xff\xff\xff\xff"
    assert packed.signature == "sui"
    assert Packed().texts([]).data == b"\x00\x00\x00\x00"
    assert Packed().texts(["+"]).data == b"\x06\x00\x00\x00\x01\x00\x00\x00+\x00"
    hints = Packed().hints({"a": 2})
    assert hints.data == b"\x0a\x00\x00\x00" + bytes(4) + b"\x01\x00\x00\x00a\x00\x01y\x00\x02"
    assert hints.signature == "a{sv}"


class Poster:
    """Takes messages, or does not."""

    def __init__(self, takes):
        self.takes = takes
        self.posted = []
        self.withdrawn = 0

    def post(self, title, text):
        self.posted.append((title, text))
        return self.takes

    def withdraw(self):
        self.withdrawn += 1


@pytest.mark.usefixtures("qapp")
def test_the_first_place_that_takes_a_message_has_it_and_all_give_it_back():
    refuses, takes, spare = Poster(False), Poster(True), Poster(True)
    bell = DesktopBell((refuses, takes, spare))
    bell.ring("Bring Rack 1 in", "text")
    assert [len(one.posted) for one in (refuses, takes, spare)] == [1, 1, 0]
    bell.hush()
    assert [one.withdrawn for one in (refuses, takes, spare)] == [1, 1, 1]


@pytest.mark.usefixtures("qapp")
def test_without_a_tray_no_message_is_posted_there():
    tray = TrayPoster()
    assert not tray.post("Bring Rack 1 in", "text")
    tray.withdraw()


@pytest.mark.usefixtures("qapp")
def test_a_call_to_what_is_not_there_is_an_error_of_the_bus():
    with pytest.raises(BusError):
        SessionBus("unix:path=/nowhere/bus").call(Method("a.b", "/a", "a.b", "C"), Packed())
