"""Bytes over real ports of every kind, and what is said when a port fails."""

import contextlib
import errno
import os
import select
import socket
import sys
import threading
from collections.abc import Iterator

import pytest
import serial
import serial.rfc2217

from drivers.errors import CannotOpen, SourceLost
from drivers.link import Link
from drivers.link_failure import cannot_open, source_lost
from drivers.run_clock import HostClock
from drivers.testing import FakeClock, FakeWire, ScriptedDevice

on_posix = pytest.mark.skipif(os.name != "posix", reason="pseudo-terminals are POSIX only")


def fake_link(device: ScriptedDevice, *, chunk: int = 4096) -> tuple[Link, FakeWire, FakeClock]:
    clock = FakeClock()
    wire = FakeWire(device, clock, chunk=chunk)
    link = Link("/dev/ttyFAKE0", 9600, opener=wire.open_port)
    link.open(clock)
    return link, wire, clock


def open_descriptors() -> int:
    return len(os.listdir("/proc/self/fd" if sys.platform == "linux" else "/dev/fd"))


class TestOnAFakePort:
    def test_reading_returns_what_is_there_and_when(self):
        link, _, _ = fake_link(ScriptedDevice([(0.5, b"abc"), (0.5, b"def")]))
        data, time_s = link.read(1.0)
        assert data == b"abcdef"
        assert time_s == pytest.approx(0.5, abs=1e-6)

    def test_silence_is_empty_after_the_timeout(self):
        link, _, clock = fake_link(ScriptedDevice())
        assert link.read(0.3).data == b""
        assert 0.3 <= clock.now_s() <= 0.3 + 0.06

    def test_no_timeout_never_waits(self):
        link, _, clock = fake_link(ScriptedDevice([(1.0, b"later")]))
        assert link.read(0.0).data == b""
        assert clock.now_s() < 1e-6

    def test_a_small_buffer_loses_nothing(self):
        link, _, _ = fake_link(ScriptedDevice([(0.1, bytes(range(256)))]), chunk=7)
        got = b"".join(link.read(0.2).data for _ in range(30))
        assert got == bytes(range(256))

    def test_drain_takes_what_waits_and_no_more(self):
        link, _, clock = fake_link(ScriptedDevice([(0.1, b"old"), (5.0, b"new")]), chunk=2)
        clock.advance_s(1.0)
        assert link.drain() == b"old"
        assert clock.now_s() < 1.001

    def test_bytes_before_an_unplug_are_delivered_before_the_loss(self):
        link, wire, clock = fake_link(ScriptedDevice([(0.1, b"last")]), chunk=2)
        clock.advance_s(0.2)
        assert link.read(0.1).data == b"last"
        wire.is_plugged = False
        with pytest.raises(SourceLost, match="disconnected"):
            link.read(0.1)
        with pytest.raises(SourceLost):
            link.write(b"READ?\n")
        link.close()
        assert all(port.is_closed for port in wire.ports)

    def test_a_second_link_is_told_that_the_port_is_in_use(self):
        _, wire, clock = fake_link(ScriptedDevice())
        with pytest.raises(CannotOpen, match="in use by another program"):
            Link("/dev/ttyFAKE0", 9600, opener=wire.open_port).open(clock)

    def test_a_closed_link_says_so(self):
        link, _, _ = fake_link(ScriptedDevice())
        link.close()
        link.close()
        assert not link.is_open
        with pytest.raises(SourceLost, match="not open"):
            link.read(0.1)

    def test_byte_time_is_ten_bits_on_a_line_and_nothing_over_a_network(self):
        assert Link("/dev/ttyFAKE0", 9600).byte_time_s == pytest.approx(10 / 9600)
        assert Link("socket://127.0.0.1:1", 9600).byte_time_s == 0.0


@contextlib.contextmanager
def server() -> Iterator[tuple[str, socket.socket]]:
    with socket.create_server(("127.0.0.1", 0)) as listener:
        yield f"socket://127.0.0.1:{listener.getsockname()[1]}", listener


class TestOverTcp:
    def test_a_block_comes_whole_and_an_end_is_a_loss(self):
        before = open_descriptors()
        with server() as (url, listener):
            link = Link(url, 9600)
            link.open(HostClock())
            far, _ = listener.accept()
            with far:
                far.sendall(b"x" * 3000)
                got = b""
                while len(got) < 3000:
                    arrival = link.read(2.0)
                    assert arrival.data
                    got += arrival.data
                assert got == b"x" * 3000
                link.write(b"READ?\n")
                assert far.recv(100) == b"READ?\n"
                assert link.read(0.0).data == b""
                far.sendall(b"end")
            assert link.read(2.0).data == b"end"
            with pytest.raises(SourceLost, match="ended at"):
                link.read(2.0)
            link.close()
        assert open_descriptors() == before

    def test_what_a_board_says_as_a_greeting_is_not_thrown_away(self, monkeypatch: pytest.MonkeyPatch):
        """The greeting is there before the port is told to be open."""
        accepted: list[socket.socket] = []
        connect = socket.create_connection
        with server() as (url, listener), contextlib.ExitStack() as far_ends:

            def connected(*place: object, **options: object) -> socket.socket:
                ours = connect(*place, **options)  # type: ignore[arg-type]
                accepted.append(far_ends.enter_context(listener.accept()[0]))
                accepted[0].sendall(b"t_ms,cell_mV\n")
                select.select([ours], [], [], 5.0)
                return ours

            monkeypatch.setattr(socket, "create_connection", connected)
            link = Link(url, 9600)
            link.open(HostClock())
            try:
                assert link.read(5.0).data == b"t_ms,cell_mV\n"
            finally:
                link.close()

    def test_nobody_listening(self):
        with server() as (url, _):
            pass
        with pytest.raises(CannotOpen, match="Nobody is listening"):
            Link(url, 9600).open(HostClock())

    def test_an_address_without_number(self):
        with pytest.raises(CannotOpen, match="HOST:PORT"):
            Link("socket://127.0.0.1", 9600).open(HostClock())

    def test_an_unknown_url(self):
        with pytest.raises(CannotOpen, match="not known"):
            Link("teletype://127.0.0.1:1", 9600).open(HostClock())

    @pytest.mark.filterwarnings("ignore:set.* is deprecated:DeprecationWarning")  # pyserial 3.5, harmless
    def test_rfc2217_carries_every_byte(self):
        """The far side is pyserial's own protocol engine over its loop port."""
        threads = threading.active_count()
        with socket.create_server(("127.0.0.1", 0)) as listener:
            far = threading.Thread(target=serve_rfc2217, args=(listener,))
            far.start()
            link = Link(f"rfc2217://127.0.0.1:{listener.getsockname()[1]}", 19200)
            link.open(HostClock())
            link.write(bytes(range(256)))
            got = b""
            while len(got) < 256:
                data = link.read(2.0).data
                assert data
                got += data
            link.close()
            far.join(10)
        assert got == bytes(range(256))
        assert threading.active_count() == threads


def serve_rfc2217(listener: socket.socket) -> None:
    connection, _ = listener.accept()
    with connection, serial.serial_for_url("loop://", timeout=0) as port:
        manager = serial.rfc2217.PortManager(port, Sender(connection))
        while data := connection.recv(1024):
            port.write(b"".join(manager.filter(data)))
            if waiting := port.in_waiting:
                connection.sendall(b"".join(manager.escape(port.read(waiting))))


class Sender:
    def __init__(self, connection: socket.socket) -> None:
        self.write = connection.sendall


class TestOnALoopPort:
    def test_what_is_written_comes_back(self):
        link = Link("loop://", 9600)
        link.open(HostClock())
        link.write(b"hello\n")
        assert link.read(1.0).data == b"hello\n"
        link.close()


@on_posix
class TestOnAPseudoTerminal:
    def test_bytes_pass_unaltered_and_a_hang_up_is_a_loss(self):
        master, slave = os.openpty()
        name = os.ttyname(slave)
        link = Link(name, 9600)
        link.open(HostClock())
        os.write(master, bytes(range(256)))
        got = b""
        while len(got) < 256:
            data = link.read(2.0).data
            assert data
            got += data
        assert got == bytes(range(256))  # CR, LF, XON, XOFF and ^C among them
        link.write(b"READ?\r\n")
        assert os.read(master, 100) == b"READ?\r\n"
        os.close(slave)
        os.close(master)
        with pytest.raises(SourceLost, match=name):
            link.read(2.0)
        link.close()

    def test_two_links_on_one_port(self):
        master, slave = os.openpty()
        first, second = Link(os.ttyname(slave), 9600), Link(os.ttyname(slave), 9600)
        first.open(HostClock())
        before = open_descriptors()
        with pytest.raises(CannotOpen, match="in use by another program"):
            second.open(HostClock())
        assert open_descriptors() == before
        first.close()
        second.open(HostClock())
        second.close()
        os.close(slave)
        os.close(master)

    def test_a_missing_port(self):
        with pytest.raises(CannotOpen, match="is not there"):
            Link("/dev/no-such-port", 9600).open(HostClock())

    @pytest.mark.parametrize("name", ["/dev/null", "/", __file__])
    def test_what_is_no_port(self, name: str):
        before = open_descriptors()
        with pytest.raises(CannotOpen, match="is not a serial port"):
            Link(name, 9600).open(HostClock())
        assert open_descriptors() == before


@pytest.mark.parametrize(
    ("number", "text", "remedy"),
    [
        (errno.EACCES, "could not open port: [Errno 13] Permission denied", "dialout"),
        (errno.ENOENT, "could not open port: [Errno 2] No such file", "Plug in the cable"),
        (None, "could not open port 'COM5': FileNotFoundError(2, 'cannot find')", "Plug in the cable"),
        (errno.EBUSY, "could not open port: [Errno 16] Device or resource busy", "in use"),
        (None, "Could not configure port: (25, 'Inappropriate ioctl for device')", "not a serial port"),
        (None, "Could not configure port: (5, 'Input/output error')", "no device is behind it"),
        (None, "Failed to set custom baud rate (9600): [Errno 22]", "does not take 9600 baud"),
        (None, "something never seen", "something never seen"),
    ],
)
def test_every_refusal_of_a_port_has_its_remedy(number: int | None, text: str, remedy: str):
    """Texts of pyserial 3.5 (serialposix.py, serialwin32.py)."""
    error = serial.SerialException(text) if number is None else serial.SerialException(number, text)
    assert remedy in str(cannot_open("/dev/ttyUSB0", 9600, error))


def test_a_busy_port_on_windows(monkeypatch: pytest.MonkeyPatch):
    """Text of pyserial's threads 684 and 736."""
    monkeypatch.setattr(os, "name", "nt")
    error = serial.SerialException(
        "could not open port 'COM5': PermissionError(13, 'Access is denied.', None, 5)"
    )
    assert "in use by another program" in str(cannot_open("COM5", 9600, error))


@pytest.mark.parametrize(
    "error",
    [
        serial.SerialException("ClearCommError failed (PermissionError(13, 'Access is denied.', None, 5))"),
        serial.SerialException(
            "GetOverlappedResult failed (PermissionError(13, 'Access is denied.', None, 5))"
        ),
        OSError(6, "Device not configured"),
        serial.SerialException("device reports readiness to read but returned no data (device disconnected)"),
    ],
)
def test_every_way_to_vanish_says_disconnected(error: Exception):
    """Texts of pyserial's threads 446, 474, 575, 635: Windows, macOS, Linux."""
    assert "was disconnected at" in str(source_lost("/dev/ttyGONE", error))


@pytest.mark.parametrize(
    "error", [OSError(5, "Input/output error"), serial.SerialException("[Errno 5] Input/output error")]
)
def test_a_port_that_is_lost_is_told_without_the_number_of_the_error(error: Exception):
    """The wall shows it to a class; the words are enough to ask somebody with."""
    said = str(source_lost("/dev/ttyGONE", error))
    assert "(Input/output error)" in said
    assert "Errno" not in said


def test_a_port_that_is_gone_is_told_without_the_words_of_the_library():
    error = serial.SerialException("device reports readiness to read but returned no data (multiple access?)")
    assert "readiness" not in str(source_lost("/dev/ttyGONE", error))


def test_two_readers_on_a_port_that_is_still_there(tmp_path):
    port = tmp_path / "ttyUSB0"
    port.touch()
    error = serial.SerialException(
        "device reports readiness to read but returned no data (multiple access on port?)"
    )
    assert "another program" in str(source_lost(str(port), error))


def test_an_instrument_that_takes_no_bytes():
    assert "takes no bytes" in str(source_lost("COM5", serial.SerialTimeoutException("Write timeout")))
