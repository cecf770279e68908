"""What the board tests share: the firmware and its emulator, built once, and a maker of running boards."""

from __future__ import annotations

import contextlib
import itertools
import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.board.emulated import Board, Profile, build_firmware, build_harness, missing_packages

StartBoard = Callable[..., Board]


@pytest.fixture(scope="session")
def tools() -> None:
    """Skip, or fail where GALVANOTE_REQUIRE_BOARD=1, unless the compilers and simavr are installed."""
    missing = missing_packages()
    if not missing:
        return
    message = f"the emulated board needs: sudo apt install {' '.join(missing)}"
    if os.environ.get("GALVANOTE_REQUIRE_BOARD") == "1":
        pytest.fail(message)
    pytest.skip(message)


@pytest.fixture(scope="session")
def firmware(tools: None, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The firmware as everybody builds it."""
    return build_firmware(tmp_path_factory.mktemp("firmware"))


@pytest.fixture(scope="session")
def harness(tools: None, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The emulator program."""
    return build_harness(tmp_path_factory.mktemp("harness"))


def _boards(harness: Path, firmware: Path, folder: Path) -> Iterator[StartBoard]:
    """Start boards, by profile or without and with options of the emulator; end them afterwards."""
    numbers = itertools.count()
    with contextlib.ExitStack() as running:

        def start(profile: Profile | None = None, *options: str) -> Board:
            if profile is not None:
                path = folder / f"profile-{next(numbers)}.txt"
                profile.write(path)
                options = ("--profile", str(path), *options)
            board = Board(harness, firmware, *options)
            running.callback(board.unplug)
            return board

        yield start


@pytest.fixture
def start_board(harness: Path, firmware: Path, tmp_path: Path) -> Iterator[StartBoard]:
    """Start boards for one test."""
    yield from _boards(harness, firmware, tmp_path)


@pytest.fixture(scope="module")
def start_module_board(
    harness: Path, firmware: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[StartBoard]:
    """Start boards for all tests of a module."""
    yield from _boards(harness, firmware, tmp_path_factory.mktemp("boards"))
