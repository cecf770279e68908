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

__all__ = ["UnkeptChanges", "changes_in_words", "ended", "tell_unkept_changes"]

log = logging.getLogger(__name__)

GROUP = "changes_not_kept"


class UnkeptChanges:
    """One note in the settings: what was changed in a recording, and why it is not in the file.

    Each object has a note of its own: several windows may go at one time, and each may hold the recording.
    """

    def __init__(self, settings: QSettings) -> None:
        self._settings = settings
        self._key = f"{GROUP}/{uuid.uuid4().hex}"

    @property
    def is_noted(self) -> bool:
        """Tell whether there is a note."""
        return self._settings.contains(self._key)

    def note(self, path: Path, words: str, why: str) -> None:
        """Note that the changes that `words` tells of are not in the file at `path`; durable at once.

        It takes the place of what this object noted before.
        """
        self._settings.setValue(self._key, json.dumps([str(path), words, why]))
        self._settings.sync()

    def forget(self) -> None:
        """Forget what this object noted: that is in the file by now. Durable at once, as else it is told."""
        if self.is_noted:
            self._settings.remove(self._key)
            self._settings.sync()


def take_unkept_changes(settings: QSettings) -> tuple[tuple[Path, str, str], ...]:
    """Return file, changes and reason of each note, and forget them all."""
    found = tuple(_notes(settings))
    settings.remove(GROUP)
    return found


def _notes(settings: QSettings) -> Iterator[tuple[Path, str, str]]:
    for key in settings.allKeys():
        if key.startswith(f"{GROUP}/"):
            try:
                path, words, why = map(str, json.loads(str(settings.value(key))))
            except (TypeError, ValueError, RecursionError) as error:
                log.warning("%s in the settings cannot be read: %s", key, error)
                continue
            yield Path(path), words, why


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
    for number, (path, words, why) in enumerate(take_unkept_changes(host.settings)):
        text = translate(
            "Unkept changes",
            "When the program last ended, changes of {name} could not be saved: {changes}. {why} "
            "Look at its moments, and make again what is missing.",
        ).format(name=path.name, changes=words, why=ended(message_sentence(why)))
        action = (translate("Unkept changes", "Show its findings"), partial(host.open_file, path))
        host.tell(f"unkept {number}", "warning", text, (action,))


def ended(sentence: str) -> str:
    """Return a sentence with its full stop, so that another can follow it."""
    return sentence if sentence.endswith((".", "?", "!", "…")) else f"{sentence}."
