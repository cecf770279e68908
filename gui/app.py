"""The window command: ``galvanote-window``."""

from __future__ import annotations

import argparse
import os
import signal
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gui.quick_start import collect_from_now_on, leave_to_the_end, load_qt, without_collecting
from logger.errors import LoggerError
from logger.own_threads import calculate_on_one

if TYPE_CHECKING:
    from gui.session import Plan

__all__ = ["main"]

SWITCH_INTERVAL_S = 0.0005
"""Threads hand over after half a millisecond: else a busy reader delays every frame."""

GET_READY_AFTER_MS = 2000
"""What is first needed later is loaded so long after the start."""

CACHE_BYTES = 16 * 2**20
"""Readings of long recordings that are kept in memory: a window may have several open."""


def main(argv: Sequence[str] | None = None) -> int:
    """Show the window. Returns 0 done, 1 refused or failed, 2 wrong use."""
    try:
        arguments = _parser().parse_args(argv)
    except SystemExit as ended:
        return int(ended.code or 0)
    calculate_on_one()
    with without_collecting():
        return _start(arguments)


def _start(arguments: argparse.Namespace) -> int:
    try:
        load_qt()
    except ImportError as error:
        return _refuse_qt(error)
    trouble: Exception | None = None
    try:
        plan = _plan(arguments)
    except (LoggerError, OSError) as error:
        if not _is_bare(arguments):
            return _refuse(str(error))
        plan, trouble = None, error  # the window can help: another folder can be chosen there
    if _has_no_screen():
        instead = "analyse" if arguments.files else "record"
        return _refuse(f"there is no display to show a window on; without one use: galvanote {instead}")
    try:
        import PySide6.QtWidgets  # noqa: F401 - whether its system libraries are there
    except ImportError as error:
        return _refuse_qt(error)
    sys.setswitchinterval(SWITCH_INTERVAL_S)
    return _show(arguments.files, plan, trouble)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="galvanote-window",
        description="Records the voltage of a water-splitting cell and shows what a run found. Without "
        "arguments a simulated lesson runs.",
        allow_abbrev=False,
    )
    parser.add_argument("files", nargs="*", type=Path, metavar="FILE.h5", help="recordings to show")
    parser.add_argument(
        "--source", action="append", metavar="ADDRESS", help="record from there at once; may be repeated"
    )
    parser.add_argument("--bench", type=Path, metavar="B.toml", help="the bench file: supply, cell, meter")
    parser.add_argument("--out", type=Path, metavar="FILE.h5", help="the recording to make")
    parser.add_argument(
        "--live", type=Path, metavar="L.h5", help="a disposable HDF5 file (SWMR) for other programs to follow"
    )
    parser.add_argument(
        "--second-copy", type=Path, metavar="FOLDER", help="keep a second copy there (another disk)"
    )
    parser.add_argument(
        "--for",
        dest="duration",
        metavar="DURATION",
        help="end by itself, save, and close the window: 90, 90s, 15m, 2h",
    )
    return parser


def _is_bare(arguments: argparse.Namespace) -> bool:
    """Tell whether the program was started without a word, as by a click on its drawing."""
    return not any(vars(arguments).values())


def _plan(arguments: argparse.Namespace) -> Plan | None:
    """What to record, or None when only recordings are to be shown."""
    from drivers.errors import AddressError
    from drivers.registry import make_source
    from gui.demo import demo_bench, demo_plan
    from gui.recordings_folder import new_recording, user_settings
    from gui.session import Plan
    from logger.bench import Bench, read_bench
    from logger.duration import parse_duration_s
    from logger.folder import resolve_output

    duration_s = parse_duration_s(arguments.duration) if arguments.duration else None
    bench = read_bench(arguments.bench) if arguments.bench else None
    if arguments.source:
        try:
            sources = [make_source(address) for address in arguments.source]
        except AddressError as error:
            raise LoggerError(str(error)) from error
        simulated = all(source.address.kind == "cell" for source in sources)
        bench = bench or (demo_bench() if simulated else Bench())
        out = new_recording(user_settings()) if arguments.out is None else resolve_output(arguments.out)
        _checked_output(out)
        plan = Plan(tuple(arguments.source), out, bench, bench.title or "", duration_s)
        return _with_places(plan, arguments)
    if arguments.files:
        _check_files(arguments.files)
        _refuse_options_of_a_run(arguments)
        return None
    out = arguments.out if arguments.out is not None else new_recording(user_settings())
    plan = demo_plan(out, bench=bench, duration_s=duration_s)
    _checked_output(plan.out)
    return _with_places(plan, arguments)


def _with_places(plan: Plan, arguments: argparse.Namespace) -> Plan:
    return replace(plan, live=arguments.live, second_folder=arguments.second_copy)


def _checked_output(out: Path) -> Path:
    if out.exists():
        raise LoggerError(f"{out} exists; choose another name with --out")
    return out


def _refuse_options_of_a_run(arguments: argparse.Namespace) -> None:
    options = {
        "--for": arguments.duration,
        "--out": arguments.out,
        "--bench": arguments.bench,
        "--live": arguments.live,
        "--second-copy": arguments.second_copy,
    }
    given = [name for name, value in options.items() if value is not None]
    if given:
        raise LoggerError(
            f"{', '.join(given)} belongs to a run, and only recordings are to be shown: "
            "leave the recordings away, or add --source"
        )


def _check_files(files: Sequence[Path]) -> None:
    """Names that lead nowhere are refused here; what is in the files is told in the window."""
    for path in files:
        if not path.exists() and not path.with_name(path.name + ".journal").exists():
            raise LoggerError(f"{path} is not there; check the name and the folder")


def _has_no_screen() -> bool:
    if sys.platform in ("win32", "darwin") or os.environ.get("QT_QPA_PLATFORM"):
        return False
    return not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _show(files: Sequence[Path], plan: Plan | None, trouble: Exception | None) -> int:
    from logger.vetting import get_ready

    if files:
        get_ready()  # what looks at them loads its library while the window loads its own
    from PySide6.QtCore import QStandardPaths, QTimer
    from PySide6.QtWidgets import QApplication

    from gui.demo import in_window_language
    from gui.findings.unkept import tell_unkept_changes
    from gui.fonts import font, load_fonts
    from gui.language import SETTING, load_language
    from gui.log_book import LogBook
    from gui.lost_display import saved_when_display_is_lost
    from gui.missing_folder import tell_missing_folder
    from gui.recordings_folder import user_settings
    from gui.screen_check import screen_faults_told
    from gui.shelf.cut_off import look_for_cut_off_runs
    from gui.theme import Theme
    from gui.window import Window
    from logger.block_cache import shared_cache

    with screen_faults_told():
        application = QApplication([sys.argv[0]])
    shared_cache().limit_bytes = CACHE_BYTES
    application.setOrganizationName("Galvanote")
    application.setApplicationName("Galvanote")
    application.setStyle("Fusion")
    load_fonts()
    application.setFont(font(14))
    log_book = LogBook(
        Path(QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppLocalDataLocation))
    )
    log_book.open()
    settings = user_settings()
    load_language(application, str(settings.value(SETTING, "system")))
    theme = Theme(application, str(settings.value("colours", "system")))
    window = Window(theme, settings)
    window.faults.log_book = log_book
    status = [0]

    def leave(code: int) -> None:
        status[0] = code
        application.quit()

    window.done.connect(leave)
    window.failed.connect(_refuse)
    application.setQuitOnLastWindowClosed(False)
    application.commitDataRequest.connect(lambda _manager: window.save_now())
    _stop_on_signals(window)
    leave_to_the_end()
    for path in files:
        window.open_file(path)
    if plan is not None:
        window.begin(in_window_language(plan))
    if trouble is not None:
        tell_missing_folder(window, str(trouble))
    window.show_at_start()
    QTimer.singleShot(0, collect_from_now_on)
    QTimer.singleShot(GET_READY_AFTER_MS, window.recordings.get_ready)
    tell_unkept_changes(window)
    look_for_cut_off_runs(window, _folders(settings, files, plan))
    with saved_when_display_is_lost(window.save_now):
        application.exec()
    log_book.close()
    return status[0]


def _folders(settings: Any, files: Sequence[Path], plan: Plan | None) -> list[Path]:
    """Where runs of this user may lie: the usual folder, the shelf's, and those of the names given."""
    from gui.recordings_folder import recordings_folder
    from gui.shelf.cut_off import FOLDER_KEY
    from logger.folder import default_folder

    named = [path.absolute().parent for path in (*files, *(() if plan is None else (plan.out,)))]
    kept = str(settings.value(FOLDER_KEY, "") or "")
    return [default_folder(), recordings_folder(settings), *([Path(kept)] if kept else []), *named]


def _stop_on_signals(window: Any) -> None:
    """End and save when asked to from outside. Python gets its turn with the next frame."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), lambda *_: window.stop_and_quit())


def _refuse_qt(error: ImportError) -> int:
    return _refuse(f"Qt cannot start ({error}); python3 run.py names what the system lacks")


def _refuse(text: str) -> int:
    sys.stderr.write(f"galvanote-window: {text}\n")
    return 1
