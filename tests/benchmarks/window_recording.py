"""A packet board at 100,000 samples a second in the window: python -m tests.benchmarks.window_recording

A process of its own sends packets of 32 codes over TCP, the number of each sample in its code (modulo
20,000), a hundred times a second: pictures that come more often than readings would show nothing new. The
real window records them on Qt's offscreen platform and follows. From the first sample that the run holds to
the last one sent every one has to be in the recording; what comes before the run begins is not part of it.
Stated beside: pictures a second, and the processor time of the whole process.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path
from unittest import mock

import numpy as np

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

RATE_PER_S = 100_000
A_PACKET = 32
PATIENCE_S = 30.0
WARM_UP_S = 3.0
CODES = 20_000

SENDER = """
import socket, sys, time
import numpy as np
from drivers.formats.packet import BoardInfo, encode_data, encode_info
seconds, rate, size, codes = float(sys.argv[1]), *map(int, sys.argv[2:])
server = socket.create_server(("127.0.0.1", 0))
print(server.getsockname()[1], flush=True)
connection, _ = server.accept()
info = encode_info(BoardInfo(ticks_per_s=1_000_000, sample_ticks=1_000_000 // rate))
begin_s, sent, number = time.monotonic(), 0, 0
portion = rate // 100 // size * size
while time.monotonic() - begin_s < seconds:
    time.sleep(max(begin_s + sent / rate - time.monotonic(), 0.0))
    parts = [info] if number % 3000 < portion // size else []
    for _ in range(portion // size):
        values = ((sent + np.arange(size)) % codes).astype(np.int16)
        ticks = sent * (1_000_000 // rate) % 2**32
        parts.append(encode_data(number % 65536, ticks, values, mask=1, range_code=2))
        sent += size
        number += 1
    connection.sendall(b"".join(parts))
print(sent, flush=True)
"""


def record(seconds: float, folder: Path) -> tuple[int, Path, float, float, list[float]]:
    """Return samples sent, the recording, seconds, processor seconds and the times of the pictures."""
    sizes = [str(size) for size in (RATE_PER_S, A_PACKET, CODES)]
    sender = subprocess.Popen(
        [sys.executable, "-c", SENDER, str(seconds), *sizes], stdout=subprocess.PIPE, text=True
    )
    assert sender.stdout is not None
    try:
        port = int(sender.stdout.readline())
        path = folder / "run.h5"
        took_s, cpu_s, painted_s = _in_window(port, seconds, path, sender)
        return int(sender.communicate(timeout=PATIENCE_S)[0]), path, took_s, cpu_s, painted_s
    finally:
        sender.kill()
        sender.wait()


def _in_window(
    port: int, seconds: float, path: Path, sender: subprocess.Popen[str]
) -> tuple[float, float, list[float]]:
    from PySide6.QtCore import QEventLoop, QSettings, QTimer
    from PySide6.QtWidgets import QApplication

    from gui.chart.chart import Chart
    from gui.fonts import font, load_fonts
    from gui.session import Plan
    from gui.theme import Theme
    from gui.window import Window
    from logger.bench import Bench

    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    application.setStyle("Fusion")
    load_fonts()
    application.setFont(font(14))
    settings = QSettings(str(path.parent / "s.ini"), QSettings.Format.IniFormat)
    window = Window(Theme(application, "light"), settings)
    painted_s: list[float] = []
    paint = Chart.paintEvent

    def paint_and_note(chart: Chart, event: object) -> None:
        paint(chart, event)
        painted_s.append(time.monotonic())

    with mock.patch.object(Chart, "paintEvent", paint_and_note):
        window.resize(1280, 720)
        window.show()
        window.begin(Plan((f"packet:socket://127.0.0.1:{port}",), path, Bench()))
        loop = QEventLoop()
        QTimer.singleShot(int(1000 * WARM_UP_S), loop.quit)
        loop.exec()
        begin_s, begin_cpu_s = time.monotonic(), time.process_time()
        QTimer.singleShot(int(1000 * (seconds - WARM_UP_S)), loop.quit)
        loop.exec()
        took_s, cpu_s = time.monotonic() - begin_s, time.process_time() - begin_cpu_s
        until_s = time.monotonic() + PATIENCE_S
        while sender.poll() is None and time.monotonic() < until_s:  # it began later than the window
            application.processEvents()
            threading.Event().wait(0.01)
        threading.Event().wait(0.5)  # the last packets are on their way
        window.stop_and_quit()
        assert window.session is not None
        window.session.close()
        if window.session.error:
            raise SystemExit(window.session.error)
        window.hide()
    return took_s, cpu_s, [at_s for at_s in painted_s if begin_s <= at_s <= begin_s + took_s]


def main() -> int:
    """Measure; return 1 when something was lost."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seconds", type=float, default=30.0)
    chosen = parser.parse_args()
    from logger.reader import read_recording

    with tempfile.TemporaryDirectory() as folder:
        sent, path, took_s, cpu_s, painted_s = record(chosen.seconds, Path(folder))
        recording = read_recording(path, is_own=True)
    (channel,) = recording.channels
    step_V = np.median(np.abs(np.diff(channel.values[:1000])))
    codes = np.rint(channel.values / step_V).astype(np.int64)
    is_in_order = codes.size > 0 and bool(((np.diff(codes) - 1) % CODES == 0).all())
    before = sent - codes.size
    is_whole = is_in_order and (int(codes[0]) - before) % CODES == 0
    inside = [gap for gap in recording.gaps if gap.begin_s < channel.times_s[-1]]
    print(f"{sent} samples sent, {codes.size} recorded, {before} came before the run began")
    print("none missing, all in order" if is_whole and not inside else f"NOT WHOLE: {inside}")
    between_ms = 1000 * np.diff(painted_s)
    print(
        f"{len(painted_s) / took_s:.1f} pictures a second, {np.median(between_ms):.0f} ms apart in the "
        f"median, at 99 % {np.quantile(between_ms, 0.99):.0f} ms\n"
        f"{100 * cpu_s / took_s:.0f} % of a core for everything; load {os.getloadavg()[0]:.1f}"
    )
    return 0 if is_whole and not inside else 1


if __name__ == "__main__":
    raise SystemExit(main())
