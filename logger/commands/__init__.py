"""The command line: results on stdout, talk on stderr, never a traceback for what a person can mend."""

from __future__ import annotations

import argparse
import contextlib
import errno
import importlib
import os
import re
import signal
import sys
import threading
from collections.abc import Iterator, Sequence
from typing import NoReturn

from logger.own_threads import calculate_on_one
from logger.version import VERSION

__all__ = ["main"]

_COMMANDS = {
    "sources": "find out what is plugged in, by listening only",
    "record": "record without a window",
    "recover": "finish runs that were cut off",
    "import": "make a recording from readings of other origin (CSV)",
    "moment": "list or change the moments of a finished recording",
    "check": "read everything in a recording and say what is whole",
    "analyse": "say what a recording shows: before, after, saved, current, gas",
    "compare": "the same for several runs, with replicate statistics",
    "export": "hand a recording over as table or picture",
    "plan": "size the supply: stack, resistor, current, ratings, hydrogen",
    "calibrate": "hold a meter against known voltages; later recordings are corrected",
    "emulate": "an emulated instrument over an emulated cell",
}
_MODULES = {name: f"logger.commands.{name}" for name in _COMMANDS} | {
    "import": "logger.commands.import_readings"
}

_LASTING = frozenset({"record", "emulate"})

_EXAMPLES = """examples:
  galvanote record --source "cell:demo?speed=120" --out lesson.h5
  galvanote analyse lesson.h5
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command. Returns 0 done, 1 refused or failed, 2 wrong use, 130 interrupted."""
    _open_closed_streams()
    calculate_on_one()
    try:
        parser = _parser()
        arguments = parser.parse_args(argv)
        if arguments.command is None:
            parser.print_help()
            return 0
        with _ended_in_order(arguments.command):
            return _run(arguments)
    except KeyboardInterrupt:
        return 130
    except SystemExit as end:  # argparse has said what was wrong
        return end.code if isinstance(end.code, int) else 1


class _Parser(argparse.ArgumentParser):
    """Tells how a text is given that begins like an option: argparse takes it for one."""

    def error(self, message: str) -> NoReturn:
        """Say what was wrong and end with status 2."""
        if re.search(r"unrecognized arguments: -[^-]|expected one argument", message):
            message += "; a text that begins with - goes behind -- (note -- -2+3), or is written --label=-2+3"
        super().error(message)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="galvanote",
        description="Records and judges the cell voltage of a water-splitting cell while a catalyst grows.",
        epilog=_EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"galvanote {VERSION}")
    subparsers = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    for name, summary in _COMMANDS.items():
        module = importlib.import_module(_MODULES[name])
        sub = subparsers.add_parser(name, help=summary, description=module.__doc__, allow_abbrev=False)
        module.add_arguments(sub)
        sub.set_defaults(run=module.run)
    return parser


def _open_closed_streams() -> None:
    """Give closed standard streams somewhere to go: print would else take stdout for a closed stderr."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, mode))  # noqa: SIM115 - open until the process ends


@contextlib.contextmanager
def _ended_in_order(command: str) -> Iterator[None]:
    """Let SIGTERM end a command as Ctrl-C does, so that it leaves nothing half done behind.

    Not those that keep running until they are ended: they see to it themselves.
    """
    is_main = threading.current_thread() is threading.main_thread()
    if command in _LASTING or not is_main or signal.getsignal(signal.SIGTERM) != signal.SIG_DFL:
        yield
        return
    signal.signal(signal.SIGTERM, _interrupt)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, signal.SIG_DFL)


def _interrupt(_number: int, _frame: object) -> NoReturn:
    raise KeyboardInterrupt


def _run(arguments: argparse.Namespace) -> int:
    from drivers.errors import AddressError, SourceError
    from logger.duration import DurationError
    from logger.errors import LoggerError

    try:
        status: int = arguments.run(arguments)
        sys.stdout.flush()  # now, while a refusal can still be told
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        # The reader of a pipe has gone (… | head): end quietly, also when Python flushes at exit.
        _give_up_stdout()
        return 0
    except (AddressError, DurationError) as error:
        return _refuse(error, 2)
    except (LoggerError, SourceError) as error:
        return _refuse(error, 1)
    except OSError as error:
        if error.filename is None:
            _give_up_stdout()
        return _refuse(_with_remedy(error), 1)
    except Exception as error:  # the last resort: a fault of ours, said in one line
        if os.environ.get("GALVANOTE_TRACE"):
            raise
        return _refuse(f"internal fault: {error!r}. Set GALVANOTE_TRACE=1 to see where, and report it", 1)
    return status


def _give_up_stdout() -> None:
    """Let Python's own flush at exit go nowhere."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _with_remedy(error: OSError) -> str:
    """Say what the system refused, and what to do about it."""
    what = error.strerror or str(error)
    if error.filename is None:
        return f"the output could not be written ({what}); check where it goes, and free space there"
    remedy = {
        errno.ENAMETOOLONG: "choose a shorter name",
        errno.ENOSPC: "free some space there",
        errno.EACCES: "choose another place, or ask for permission",
        errno.EROFS: "choose another place",
    }.get(error.errno or 0, "check the name and the folder")
    return f"{error.filename}: {what}; {remedy}"


def _refuse(error: object, status: int) -> int:
    from logger.clean_text import clean_text

    text = clean_text(" ".join(str(error).split())) or type(error).__name__
    print(f"galvanote: {text}", file=sys.stderr)
    return status
