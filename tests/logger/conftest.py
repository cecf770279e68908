"""Fixtures for tests of whole runs."""

from __future__ import annotations

import os
import threading

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest


@pytest.fixture(scope="session", autouse=True)
def one_application(request):
    """Make the application that the tests of the window need, too, where Qt is there.

    Pictures are drawn with a smaller one where there is none, and a process cannot change it afterwards.
    """
    if request.config.pluginmanager.hasplugin("pytest-qt"):
        request.getfixturevalue("qapp")


@pytest.fixture
def no_thread_stays():
    before = set(threading.enumerate())
    yield
    for thread in set(threading.enumerate()) - before:
        thread.join(5)
        assert not thread.is_alive(), f"{thread.name} stayed"


@pytest.fixture
def quick_retry(monkeypatch):
    monkeypatch.setattr("logger.feed.RETRY_AFTER_S", (0.01,))
    monkeypatch.setattr("logger.recorder.RETRY_EVERY_S", 0.01)
