"""Changes of finished runs that could not be kept when the window went: told when the next one comes."""

from __future__ import annotations

import json
import logging
import uuid
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from PySide6.QtCore import QSettings

from gui.kind_words import whole_words
from gui.message_words import message_sentence
from gui.numbers import clock_text
from gui.pages.page import PageHost
from gui.words import translate
from logger.moment_edits import Changes

__all__ = ["UnkeptChanges", "changes_in_words", "tell_unkept_changes"]

log = logging.getLogger(__name__)

GROUP = "changes_not_kept"


class UnkeptChanges:
    """Puts into the settings what was changed in which recording, and why it is not in the file.

    Each has a name of its own: several windows may go at one time.
    """

    def __init__(self, settings: QSettings) -> None:
        self._settings = settings

    def note(self, path: Path, words: str, why: str) -> None:
        """Note that the changes that `words` tells of are not in the file at `path`; durable at once.

        What else was noted of that file stays beside it.
        """
        if (path, words, why) in (noted for _key, noted in self._entries()):
            return
        entry = json.dumps([str(path), words, why])
        self._settings.setValue(f"{GROUP}/{uuid.uuid4().hex}", entry)
        self._settings.sync()

    def forget(self, path: Path) -> None:
        """Forget what was noted of one file: it is kept by now, or was told."""
        for key, (noted, _words, _why) in tuple(self._entries()):
            if noted == path:
                self._settings.remove(key)

    def take(self) -> tuple[tuple[Path, str, str], ...]:
        """Return file, changes and reason of each, and forget them all."""
        found = tuple(self._entries())
        self._settings.remove(GROUP)
        return tuple(entry for _key, entry in found)

    def _entries(self) -> Iterator[tuple[str, tuple[Path, str, str]]]:
        for key in self._settings.allKeys():
            if key.startswith(f"{GROUP}/"):
                try:
                    path, words, why = map(str, json.loads(str(self._settings.value(key))))
                except (TypeError, ValueError) as error:
                    log.warning("%s in the settings cannot be read: %s", key, error)
                    continue
                yield key, (Path(path), words, why)


def changes_in_words(changes: Changes) -> str:
    """Return what was changed last of each moment, with its words, and of how many pictures."""
    latest = {moment.id: moment for moment in changes.revisions}
    told = []
    for moment in sorted(latest.values(), key=lambda one: one.time_s):
        words = f"{clock_text(moment.time_s)} {whole_words(moment)}"
        removed = translate("Unkept changes", "{moment} (removed)")
        told.append(removed.format(moment=words) if moment.removed else words)
    if len(changes.pictures) == 1:
        told.append(translate("Unkept changes", "a picture"))
    elif changes.pictures:
        told.append(translate("Unkept changes", "{count} pictures").format(count=len(changes.pictures)))
    return "; ".join(told)


def tell_unkept_changes(host: PageHost) -> None:
    """Say once, at the start, which changes of which run are missing, why, and what to do."""
    for number, (path, words, why) in enumerate(UnkeptChanges(host.settings).take()):
        text = translate(
            "Unkept changes",
            "When the program last ended, changes of {name} could not be saved: {changes}. {why} "
            "Look at its moments, and make again what is missing.",
        ).format(name=path.name, changes=words, why=_ended(message_sentence(why)))
        action = (translate("Unkept changes", "Show its findings"), partial(host.open_file, path))
        host.tell(f"unkept {number}", "warning", text, (action,))


def _ended(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!", "…")) else f"{sentence}."
