"""Changes of finished runs that could not be kept when the window went: told when the next one comes."""

from __future__ import annotations

import json
import logging
import uuid
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QSettings

from gui.job import Job
from gui.kind_words import whole_words
from gui.message_words import message_sentence
from gui.numbers import clock_text
from gui.pages.page import PageHost
from gui.words import translate
from logger.late_changes import LateChange, Refused, make_late
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

    def note(
        self,
        path: Path,
        words: str,
        why: str,
        uuid: str = "",
        changes: Sequence[LateChange] = (),
        *,
        lacks_some: bool = False,
    ) -> None:
        """Note that the changes that `words` tells of are not in the file at `path`; durable at once.

        With the recording's uuid and `changes` the next start offers to make them; that `changes` lacks some
        of them is told then. It takes the place of what this object noted before.
        """
        late = [change.as_dict() for change in changes]
        self._settings.setValue(self._key, json.dumps([str(path), words, why, uuid, late, lacks_some]))
        self._settings.sync()

    def forget(self) -> None:
        """Forget what this object noted: that is in the file by now. Durable at once, as else it is told."""
        if self.is_noted:
            self._settings.remove(self._key)
            self._settings.sync()


@dataclass(frozen=True, slots=True)
class _Note:
    """What was changed in which file, in words, and why it is not in it; with what can be made of it."""

    path: Path
    words: str
    why: str
    uuid: str
    changes: tuple[LateChange, ...]
    lacks_some: bool
    """Some of them were damaged in the settings: they stand in the words alone, if there."""


def _take_notes(settings: QSettings) -> tuple[_Note, ...]:
    """Return all notes, and forget them."""
    found = tuple(_notes(settings))
    settings.remove(GROUP)
    return found


def _notes(settings: QSettings) -> Iterator[_Note]:
    for key in settings.allKeys():
        if key.startswith(f"{GROUP}/"):
            try:
                note = _note_of(json.loads(str(settings.value(key))))
            except (ValueError, RecursionError) as error:
                log.warning("%s in the settings cannot be read: %s", key, error)
                continue
            if note is not None:
                yield note


def _note_of(entry: object) -> _Note | None:
    """Return a note as it was stored, with those of its changes that are whole; None where it tells nothing.

    Raises
    ------
    ValueError : it is none.
    """
    match entry:
        case [str(path), str(words), str(why), *more] if path and "\0" not in path:
            pass
        case _:
            raise ValueError("it does not name a file, what was changed, and why that is not in it")
    of_earlier_versions: tuple[Any, ...] = ("", [], False)  # they end after the reason, or after the changes
    uuid, late, lacks_some = (*more, *of_earlier_versions[len(more) :])[:3]
    listed = late if isinstance(late, list) else [late]
    changes = tuple(_whole(listed)) if isinstance(uuid, str) else ()
    if not words.strip():
        words = changes_in_words(Changes(tuple(one.as_moment() for one in changes)))
    if not words:
        return None
    return _Note(Path(path), words, why, str(uuid), changes, bool(lacks_some) or len(changes) < len(listed))


def _whole(listed: Sequence[Any]) -> Iterator[LateChange]:
    for one in listed:
        try:
            yield LateChange.of(one)
        except (TypeError, ValueError, KeyError, OverflowError) as error:
            log.warning("a change in the settings cannot be read: %s", error)


def changes_in_words(changes: Changes) -> str:
    """Return what was changed last of each moment, with its words, and of how many pictures."""
    latest = {moment.id: moment for moment in changes.revisions}
    told = []
    removed = translate("Unkept changes", "{moment} (removed)")
    for moment in sorted(latest.values(), key=lambda one: one.time_s):
        words = f"{clock_text(moment.time_s)} {whole_words(moment)}"
        told.append(removed.format(moment=words) if moment.removed else words)
    are_removed = list({entry["id"]: bool(entry["removed"]) for entry in changes.pictures}.values())
    if count := are_removed.count(False):
        told.append(_pictures_in_words(count))
    if count := are_removed.count(True):
        told.append(removed.format(moment=_pictures_in_words(count)))
    return "; ".join(told)


def _pictures_in_words(count: int) -> str:
    if count == 1:
        return translate("Unkept changes", "a picture")
    return translate("Unkept changes", "{count} pictures").format(count=count)


def tell_unkept_changes(host: PageHost) -> None:
    """Say once, at the start, which changes of which run are missing, why, and what to do."""
    for number, note in enumerate(_take_notes(host.settings)):
        lost = translate(
            "Unkept changes",
            "When the program last ended, changes of {name} could not be saved: {changes}. {why}",
        )
        is_left = note.lacks_some or not note.changes
        text = (f"{lost} {_by_hand()}" if is_left else lost).format(
            name=note.path.name, changes=note.words, why=ended(message_sentence(note.why))
        )
        key = f"unkept {number}"
        make = (translate("Unkept changes", "Make them now"), _Making(host, key, note).begin)
        show = _show(host, note)
        host.tell(key, "warning", text, (make, show) if note.changes else (show,))


def _by_hand() -> str:
    return translate("Unkept changes", "Look at its moments, and make again what is missing.")


def _show(host: PageHost, note: _Note) -> tuple[str, Callable[[], None]]:
    return translate("Unkept changes", "Show its findings"), partial(host.open_file, note.path)


class _Making:
    """Makes the changes of a note, off the window's thread; its bar stays where they cannot be made.

    They are noted again until that has been told: the window may go first, or a disk may not be there yet.
    """

    def __init__(self, host: PageHost, key: str, note: _Note) -> None:
        self._host, self._key, self._of = host, key, note
        self._unkept = UnkeptChanges(host.settings)
        self._is_busy = False

    def begin(self) -> None:
        """Make them; a second press changes nothing."""
        if not self._is_busy:
            self._is_busy = True
            note = self._of
            self._note(note.why)
            self._host.do(
                Job(lambda: make_late(note.path, note.uuid, note.changes), self._tell, "make changes late")
            )

    def _note(self, why: str) -> None:
        note = self._of
        self._unkept.note(note.path, note.words, why, note.uuid, note.changes, lacks_some=note.lacks_some)

    def _tell(self, refused: tuple[Refused, ...] | None, error: Exception | None) -> None:
        self._is_busy = False
        note = self._of
        if refused is None:
            self._note(str(error))
            actions = ((translate("Unkept changes", "Try again"), self.begin), _show(self._host, note))
            self._host.tell(self._key, "warning", _not_in_file(_reasons([str(error)]), note.words), actions)
            return
        self._unkept.forget()
        if refused or note.lacks_some:
            self._tell_rest(refused)
        else:
            self._host.untell(self._key)
        if len(refused) < len(note.changes):
            self._host.open_file(note.path)

    def _tell_rest(self, refused: Sequence[Refused]) -> None:
        """Tell what will be refused again, and that some were damaged in the settings: no one knows which."""
        note, why = self._of, _reasons([one.why for one in refused])
        if note.lacks_some:
            text = translate("Unkept changes", "Not all of these changes of {name} could be made: {changes}.")
            said = f"{why} {text.format(name=note.path.name, changes=note.words)} {_by_hand()}".strip()
        else:
            said = _not_in_file(
                why, changes_in_words(Changes(tuple(one.change.as_moment() for one in refused)))
            )
        self._host.tell(self._key, "warning", said, (_show(self._host, note),))


def _reasons(said: Sequence[str]) -> str:
    """Return reasons as sentences, each once."""
    return " ".join(ended(message_sentence(why)) for why in dict.fromkeys(said))


def _not_in_file(why: str, words: str) -> str:
    return translate("Unkept changes", "{why} Not in the file: {changes}.").format(why=why, changes=words)


def ended(sentence: str) -> str:
    """Return a sentence with its full stop, so that another can follow it."""
    return sentence if sentence.endswith((".", "?", "!", "…")) else f"{sentence}."
