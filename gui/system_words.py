"""What the operating system says of a failure, in words of ours: it speaks English, and to programmers."""

from __future__ import annotations

import errno
import functools
import logging
import os
from collections.abc import Mapping

from PySide6.QtCore import QT_TRANSLATE_NOOP

__all__ = ["system_words"]

log = logging.getLogger(__name__)

_WORDS = {
    name: str(words)
    for name, words in (
        ("ENOSPC", QT_TRANSLATE_NOOP("Messages", "the disk is full")),
        ("EDQUOT", QT_TRANSLATE_NOOP("Messages", "your share of the disk is used up")),
        ("EACCES", QT_TRANSLATE_NOOP("Messages", "you have no permission for it")),
        ("EPERM", QT_TRANSLATE_NOOP("Messages", "the system does not allow it")),
        ("EROFS", QT_TRANSLATE_NOOP("Messages", "that disk can only be read")),
        ("ENOENT", QT_TRANSLATE_NOOP("Messages", "it is not there")),
        ("ENOTDIR", QT_TRANSLATE_NOOP("Messages", "a part of its path is no folder")),
        ("EISDIR", QT_TRANSLATE_NOOP("Messages", "it is a folder")),
        ("EEXIST", QT_TRANSLATE_NOOP("Messages", "the name is taken already")),
        ("ENAMETOOLONG", QT_TRANSLATE_NOOP("Messages", "the name is too long")),
        ("EBUSY", QT_TRANSLATE_NOOP("Messages", "something else is using it")),
        ("EIO", QT_TRANSLATE_NOOP("Messages", "the disk or the device reports an error")),
        ("ENODEV", QT_TRANSLATE_NOOP("Messages", "there is no such device")),
        ("ENXIO", QT_TRANSLATE_NOOP("Messages", "no device is behind it")),
        ("ETIMEDOUT", QT_TRANSLATE_NOOP("Messages", "no answer came in time")),
        ("ECONNREFUSED", QT_TRANSLATE_NOOP("Messages", "nobody is listening there")),
        ("ECONNRESET", QT_TRANSLATE_NOOP("Messages", "the other end broke the connection off")),
    )
}
"""By the name of the error: not every system has each."""


@functools.lru_cache(maxsize=len(_WORDS))
def system_words(text: str) -> str | None:
    """Return our words, still to be translated, where `text` is all that the system says of a known failure.

    None for any other text. The words of the system are put into the log.
    """
    words = _by_text().get(text)
    if words is not None:
        log.info("shown as %r: %s", words, text)
    return words


@functools.cache
def _by_text() -> Mapping[str, str]:
    codes = ((getattr(errno, name, None), words) for name, words in _WORDS.items())
    return {os.strerror(code): words for code, words in codes if code is not None}
