"""What the system says of a failure stands in the window in words of ours, and in the log as it was."""

from __future__ import annotations

import errno
import logging
import os

import pytest
from PySide6.QtWidgets import QApplication

from gui.message_words import message_sentence, message_words
from gui.system_words import system_words
from tests.gui.languages import speaking


def refused(code: int) -> str:
    """What the logger says where no recording can be begun."""
    error = OSError(code, os.strerror(code), "/media/stick")
    return f"no recording can be begun in /media/stick ({error.strerror}); choose another folder"


@pytest.mark.parametrize(
    ("code", "english", "german"),
    [
        (errno.ENOSPC, "the disk is full", "der Datenträger ist voll"),
        (errno.EACCES, "you have no permission for it", "dazu fehlt die Berechtigung"),
        (errno.EROFS, "that disk can only be read", "dieser Datenträger lässt sich nur lesen"),
        (
            errno.EIO,
            "the disk or the device reports an error",
            "der Datenträger oder das Gerät meldet einen Fehler",
        ),
    ],
)
def test_a_known_failure_is_said_in_the_language_of_the_window(
    qapp: QApplication, code: int, english: str, german: str
) -> None:
    """In the German window the reason stood in English, in brackets."""
    assert f"({english})" in message_words(refused(code))
    with speaking(qapp, "de"):
        assert f"({german})" in message_words(refused(code))
        assert os.strerror(code) not in message_words(refused(code))
        alone = message_sentence(os.strerror(code))
        assert alone[0].isupper()
        assert alone[1:] == german[1:]


def test_a_failure_as_python_writes_it_is_said_in_words_too(qapp: QApplication) -> None:
    """Where a folder may not be entered, "[Errno 13] Permission denied: '...'" stood in the bar."""
    alone, of_file = (
        str(OSError(errno.EACCES, os.strerror(errno.EACCES), *of))
        for of in ((), ("/media/it's, a/run 1.h5",))
    )
    said = (
        f"/x/a.h5 could not be changed ({OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))}); it is as it was"
    )
    assert message_sentence(alone) == "You have no permission for it"
    assert message_sentence(of_file) == "/media/it's, a/run 1.h5: you have no permission for it"
    with speaking(qapp, "de"):
        assert message_sentence(alone) == "Dazu fehlt die Berechtigung"
        assert message_sentence(of_file) == "/media/it's, a/run 1.h5: dazu fehlt die Berechtigung"
        assert "(der Datenträger ist voll)" in message_sentence(said)
    for unknown in (
        "[Errno 33] Numerical argument out of domain: '/x'",
        "[Errno 13] Permission denied: '/x' -> '/y'",
    ):
        assert message_sentence(unknown) == unknown


def test_what_the_system_said_is_in_the_log(caplog: pytest.LogCaptureFixture) -> None:
    system_words.cache_clear()
    with caplog.at_level(logging.INFO, logger="gui.system_words"):
        assert system_words(os.strerror(errno.ENODEV)) == "there is no such device"
    assert os.strerror(errno.ENODEV) in caplog.text


def test_what_is_not_known_stays_as_the_system_said_it() -> None:
    other = os.strerror(errno.EDOM)
    assert system_words(other) is None
    assert f"({other})" in message_words(refused(errno.EDOM))
