"""From the last byte on the wire to the painted curve: python -m tests.benchmarks.latency [--seconds N]

A process of its own sends 50 lines a second over TCP, each a millivolt above the one before, and notes when
each had left. The real window records them on Qt's offscreen platform; latency is from the send to the end of
the paint of the chart that first holds this reading. (The large numeral follows a few times a second only, so
that it can be read.) Beside it stands how long a reading takes to the model that the chart draws from; the
rest is the window's. Target: median below 10 ms, 99th percentile below 30 ms.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from drivers.samples import Samples

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

RATE_PER_S = 50
WARM_UP_S = 4.0  # the first second or so is held back to learn what the board's counter counts
READINGS = 900  # then the values repeat
MEDIAN_MS, P99_MS = 10.0, 30.0
PATIENCE_S = 30.0

SENDER = """
import socket, sys, time
server = socket.create_server(("127.0.0.1", 0))
print(server.getsockname()[1], flush=True)
connection, _ = server.accept()
connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
begin_s, sent = time.monotonic(), []
try:
    for k in range(int(sys.argv[1])):
        time.sleep(max(begin_s + k / float(sys.argv[2]) - time.monotonic(), 0.0))
        connection.sendall(b"%.4f\\r\\n" % (2.0 + 0.001 * (k % 900)))
        sent.append(time.monotonic())
except OSError:
    pass
print(*map(repr, sent), flush=True)
"""


def measure(seconds: float, folder: Path) -> tuple[np.ndarray, np.ndarray, int]:
    """Return latencies in seconds to the model and to the paint, and how many were never painted last."""
    lines = int((seconds + WARM_UP_S) * RATE_PER_S)
    sender = subprocess.Popen(
        [sys.executable, "-c", SENDER, str(lines), str(RATE_PER_S)], stdout=subprocess.PIPE, text=True
    )
    assert sender.stdout is not None
    try:
        added, painted = _record(int(sender.stdout.readline()), seconds + WARM_UP_S, folder)
        sent = np.array([float(word) for word in sender.communicate(timeout=PATIENCE_S)[0].split()])
    finally:
        sender.kill()
        sender.wait()
    return _latencies(sent, added)[0], *_latencies(sent, painted)


Seen = list[tuple[float, str]]
"""When a reading was there, and what it is, with three decimals."""


def _record(port: int, seconds: float, folder: Path) -> tuple[Seen, Seen]:
    """Record in the window for so long; return when readings reached the model, and the paint."""
    from unittest import mock

    from PySide6.QtCore import QSettings
    from PySide6.QtWidgets import QApplication

    from gui.chart.chart import Chart
    from gui.fonts import font, load_fonts
    from gui.session import Plan
    from gui.theme import Theme
    from gui.window import Window
    from logger.bench import Bench
    from logger.overview import Overview

    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    application.setStyle("Fusion")
    load_fonts()
    application.setFont(font(14))
    window = Window(Theme(application, "light"), QSettings(str(folder / "s.ini"), QSettings.Format.IniFormat))
    added: Seen = []
    painted: Seen = []
    drawn: list[str] = []
    add, refresh, paint = Overview.add, Chart.refresh, Chart.paintEvent

    def add_and_note(overview: Overview, samples: Samples) -> None:
        add(overview, samples)
        added.extend((time.monotonic(), f"{value:.3f}") for value in samples.values)

    def refresh_and_note(chart: Chart, now_s: float) -> bool:
        newest = chart._overview.last  # before: what comes meanwhile may not be drawn
        is_drawn = refresh(chart, now_s)
        if is_drawn and newest is not None:
            drawn.append(f"{newest[1]:.3f}")
        return is_drawn

    def paint_and_note(chart: Chart, event: object) -> None:
        paint(chart, event)
        if drawn:
            painted.append((time.monotonic(), drawn[-1]))
            drawn.clear()

    with (
        mock.patch.object(Overview, "add", add_and_note),
        mock.patch.object(Chart, "refresh", refresh_and_note),
        mock.patch.object(Chart, "paintEvent", paint_and_note),
    ):
        window.resize(1280, 720)
        window.show()
        window.begin(Plan((f"text:socket://127.0.0.1:{port}",), folder / "run.h5", Bench()))
        until_s = time.monotonic() + seconds + 1.0  # the sender began a little later
        while time.monotonic() < until_s:
            application.processEvents()
            time.sleep(0.0002)  # the loop of Qt itself would wait for its timer, or a ring
        window.stop_and_quit()
        if window.session is not None:
            window.session.close()
        application.processEvents()
        window.hide()
    return added, painted


def _latencies(sent: np.ndarray, painted: Sequence[tuple[float, str]]) -> tuple[np.ndarray, int]:
    """Match what was painted with what was sent, after the warm-up."""
    found: dict[int, float] = {}
    newest = -1
    for at_s, text in painted:
        try:
            step = round((float(text) - 2.0) * 1000) % READINGS
        except ValueError:
            continue
        k = newest + (step - newest) % READINGS if newest >= 0 else step
        if k < sent.size and k > newest and at_s >= sent[k]:
            newest = k
            found[k] = at_s
    first = int(WARM_UP_S * RATE_PER_S)
    shown = sorted(k for k in found if k >= first)
    if not shown:
        raise SystemExit("nothing that was sent was painted")
    latencies = [found[min(j for j in shown if j >= k)] - sent[k] for k in range(shown[0], shown[-1] + 1)]
    return np.array(latencies), len(latencies) - len(shown)


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seconds", type=float, default=30.0)
    with tempfile.TemporaryDirectory() as folder:
        model_s, latencies_s, skipped = measure(parser.parse_args().seconds, Path(folder))
    to_model = [1000 * float(np.quantile(model_s, q)) for q in (0.5, 0.99)]
    print(f"to the model: median {to_model[0]:.1f} ms, 99 % within {to_model[1]:.1f} ms")
    median, p99 = (1000 * float(np.quantile(latencies_s, q)) for q in (0.5, 0.99))
    print(
        f"{latencies_s.size} readings at {RATE_PER_S}/s: median {median:.1f} ms, 99 % within {p99:.1f} ms, "
        f"largest {1000 * latencies_s.max():.1f} ms; {skipped} were painted together with the next one"
    )
    is_met = median < MEDIAN_MS and p99 < P99_MS
    said = "met" if is_met else "MISSED"
    print(f"target of {MEDIAN_MS:g} ms and {P99_MS:g} ms {said}; load {os.getloadavg()[0]:.1f}")
    return 0 if is_met else 1


if __name__ == "__main__":
    raise SystemExit(main())
