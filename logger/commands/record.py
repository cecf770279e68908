"""Record without a window: from one or more sources into one file.

Each line typed (or piped in) tags the moment at which it began: KIND, KIND label, or any other text as a
note. ":second-copy FOLDER" keeps a second copy there from now on. Ctrl-C, SIGTERM or the end of --for ends
the run and saves it.
"""

from __future__ import annotations

import argparse
import json
import signal
import sys
import threading
import time
from concurrent.futures import Future, wait
from pathlib import Path

from logger.commands.moment_lines import MomentLines
from logger.errors import LoggerError
from logger.run import Run

POLL_S = 0.1
PATIENCE_S = 2.0
TELL_EVERY_S = 1.0
SECOND_COPY = ":second-copy "
"""A typed line that begins so names a folder."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument(
        "--source",
        action="append",
        required=True,
        metavar="ADDRESS",
        help="where readings come from: scpi:/dev/ttyUSB0, text:COM5, cell:demo?speed=120; may be repeated",
    )
    parser.add_argument(
        "--bench", type=Path, metavar="B.toml", help="the bench file: supply, cell, meter, steps"
    )
    parser.add_argument(
        "--out", type=Path, metavar="FILE.h5", help="the recording to make (else a dated name)"
    )
    parser.add_argument(
        "--second-copy",
        type=Path,
        metavar="FOLDER",
        help="keep a second copy there from the start (another disk)",
    )
    parser.add_argument(
        "--live", type=Path, metavar="L.h5", help="a disposable HDF5 file (SWMR) for other programs to follow"
    )
    parser.add_argument("--for", dest="duration", metavar="DURATION", help="end by itself: 90, 90s, 15m, 2h")
    parser.add_argument("--until-settled", action="store_true", help="end once the voltage has settled")
    parser.add_argument(
        "--replace", action="store_true", help="replace an existing FILE.h5, once the new one is whole"
    )
    parser.add_argument(
        "--acks",
        action="store_true",
        help="print ACK samples=N moments=M once they would survive a power cut",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document about the finished run")


def run(arguments: argparse.Namespace) -> int:
    """Record until told to stop, then save."""
    from drivers.registry import make_source
    from logger.bench import Bench, read_bench
    from logger.calibrated_source import corrected_sources
    from logger.duration import parse_duration_s
    from logger.folder import resolve_output

    if arguments.acks and arguments.json:
        print("galvanote: --acks and --json cannot go together: both print on stdout", file=sys.stderr)
        return 2
    limit_s = parse_duration_s(arguments.duration) if arguments.duration is not None else None
    bench: Bench | None = read_bench(arguments.bench) if arguments.bench else None
    made = [make_source(address) for address in arguments.source]
    if device := _named_twice([source.address.port for source in made]):
        raise LoggerError(
            f"two sources name {device}, and only one can open it. One source fills several channels: write "
            "the columns or inputs of a board as a list, for example column=2,3"
        )
    sources = corrected_sources(made, bench or Bench())
    session = Run(
        sources,
        resolve_output(arguments.out),
        title=(bench.title or "") if bench else "",
        bench_toml=bench.source_text if bench else "",
        replace=arguments.replace,
        second_folder=arguments.second_copy,
        live=arguments.live,
        on_durable=_print_ack if arguments.acks else None,
    )
    settled = _SettledWatch(session, bench) if arguments.until_settled else None
    stopping = threading.Event()
    _stop_on_signals(stopping)
    if not _start(session, stopping, limit_s):
        _say("galvanote: stopped before the instrument answered; nothing was recorded")
        return 1
    _say(f"Recording to {session.out}. Type a line to tag a moment; Ctrl-C ends the run and saves it.")
    lines = MomentLines(session.clock.now_s, lambda at_s, line: _take_line(session, at_s, line))
    lines.start()
    teller = _Teller(session)
    try:
        _wait(session, stopping, limit_s, settled, teller)
    finally:
        lines.stop()
        _say("Saving.")
        saved = _save(session, teller)
    _report(session, saved, as_json=arguments.json)
    return 1 if session.unsaved_samples else 0


def _named_twice(ports: list[str]) -> str:
    """Return a device that two sources name, "" if none; several may share a network port or a simulation."""
    devices = [port for port in ports if Path(port).exists() and not Path(port).is_file()]
    return next((port for port in devices if devices.count(port) > 1), "")


def _start(session: Run, stopping: threading.Event, limit_s: float | None) -> bool:
    """Open and begin, on a thread of its own so that a silent instrument can be given up.

    Returns False when the user, or --for, wanted to end before the instrument had answered. Raises what
    `Run.start` raises.
    """
    begun: Future[None] = Future()

    def work() -> None:
        try:
            session.start()
        except BaseException as error:  # noqa: BLE001 - raised again below
            begun.set_exception(error)
        else:
            begun.set_result(None)

    threading.Thread(target=work, name="opening", daemon=True).start()
    began_s = time.monotonic()
    told = False
    while not begun.done():
        waited_s = time.monotonic() - began_s
        if stopping.is_set() or (limit_s is not None and waited_s >= max(limit_s, PATIENCE_S)):
            return False
        if waited_s > PATIENCE_S and not told:
            told = True
            _say("Waiting for the instrument to answer …")
        wait([begun], timeout=POLL_S)
    begun.result()
    return True


def _stop_on_signals(stopping: threading.Event) -> None:
    for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), lambda *_: stopping.set())


def _wait(
    session: Run,
    stopping: threading.Event,
    limit_s: float | None,
    settled: _SettledWatch | None,
    teller: _Teller,
) -> None:
    began_s = time.monotonic()
    last_told_s = 0.0
    on_terminal = sys.stderr is not None and sys.stderr.isatty()
    while not stopping.is_set():
        if limit_s is not None and time.monotonic() - began_s >= limit_s:
            return
        if session.wait_ended(0.0):
            _say("The source has ended.")
            return
        if settled is not None and settled.is_settled():
            _say("The voltage has settled.")
            return
        teller.tell()
        if on_terminal and time.monotonic() - last_told_s >= TELL_EVERY_S:
            last_told_s = time.monotonic()
            _progress(session)
        stopping.wait(POLL_S)


def _save(session: Run, teller: _Teller) -> Path:
    """End the run; tell meanwhile what there is to tell, as long as a full disk is waited for."""
    saved: Future[Path] = Future()

    def work() -> None:
        try:
            saved.set_result(session.stop())
        except BaseException as error:  # noqa: BLE001 - raised again below
            saved.set_exception(error)

    threading.Thread(target=work, name="saving", daemon=True).start()
    while not wait([saved], timeout=POLL_S).done:
        teller.tell()
    teller.tell()
    return saved.result()


class _Teller:
    """Says each notice of a run once."""

    def __init__(self, session: Run) -> None:
        self._session = session
        self._told = 0

    def tell(self) -> None:
        """Say what is new."""
        notices = self._session.notices_after(self._told)
        self._told += len(notices)
        for notice in notices:
            _say(f"[{notice.time_s:.1f} s] {notice.text}")
            if notice.code in ("disk_error", "disk_full"):
                _say(f"To keep a second copy on another disk, type: {SECOND_COPY}FOLDER")


class _SettledWatch:
    """Asks the live assessment, at most twice a second, whether the voltage has settled."""

    def __init__(self, session: Run, bench: object) -> None:
        from logger.assessment import Assessment

        self._session = session
        self._assessment = Assessment(bench, speed=session.clock.speed)  # type: ignore[arg-type]
        self._asked_s = 0.0
        session.add_listener(self._assessment)

    def is_settled(self) -> bool:
        """Return True once the verdict on the present voltage is settled."""
        if time.monotonic() - self._asked_s < 0.5:
            return False
        self._asked_s = time.monotonic()
        self._assessment.set_moments(self._session.moments)
        return self._assessment.view(self._session.clock.now_s()).verdict == "settled"


def _take_line(session: Run, at_s: float, line: str) -> None:
    if line.startswith(SECOND_COPY):
        folder = Path(line.removeprefix(SECOND_COPY).strip())
        try:
            session.keep_second_copy(folder)
        except LoggerError as error:
            _say(str(error))
        else:
            _say(f"From now on a second copy is kept in {folder.absolute()}.")
    else:
        _tag(session, at_s, line)


def _tag(session: Run, at_s: float, line: str) -> None:
    from logger.moments import LABEL_LIMIT, MomentError, is_too_long, parse_line

    kind, label = parse_line(line)
    try:
        moment = session.add_moment(kind, label, at_s)
    except MomentError as error:
        _say(str(error))
        return
    _say(f"[{moment.time_s:.1f} s] {kind}{' ' + moment.label if moment.label else ''}")
    if is_too_long(label):
        _say(f"That label was too long: what stood behind its first {LABEL_LIMIT} characters is left out.")


def _print_ack(samples: int, moments: int) -> None:
    print(f"ACK samples={samples} moments={moments}", flush=True)


def _progress(session: Run) -> None:
    status = session.status()
    text = f"{status.now_s:8.1f} s  {status.sample_count} readings, {len(session.moments)} moments"
    sys.stderr.write(f"\r{text:<70}\r")
    sys.stderr.flush()


def _report(session: Run, saved: Path, *, as_json: bool) -> None:
    from logger.reader import read_recording

    status = session.status()
    if not as_json:
        counted = (
            (status.saved_samples, "reading"), (len(session.moments), "moment"), (len(session.gaps), "gap"),
        )  # fmt: skip
        words = ", ".join(f"{number} {word}{'' if number == 1 else 's'}" for number, word in counted)
        print(f"Saved {saved}: {words}.")
        return
    recording = read_recording(saved)
    document = {
        "file": str(saved),
        "title": recording.title,
        "start_time": recording.start_time,
        "duration_s": recording.duration_s,
        "samples": sum(channel.times_s.size for channel in recording.channels),
        "moments": len(recording.moments),
        "gaps": [
            {"begin_s": g.begin_s, "end_s": g.end_s, "channel": g.channel, "reason": g.reason}
            for g in recording.gaps
        ],
        "notices": [
            {"at_s": n.time_s, "level": n.level, "code": n.code, "text": n.text} for n in status.notices
        ],
    }
    print(json.dumps(document, ensure_ascii=False, indent=2))


def _say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)
