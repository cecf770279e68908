"""Changes of a finished run that could not be written: told with their words, tried once more, or copied."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QApplication

from gui.findings.unkept import changes_in_words, ended
from gui.notice_board import INFO_PASSES_S
from gui.pages.page import PageHost
from gui.words import translate
from logger.moment_edits import Changes, changes_beyond
from logger.recording import Recording

__all__ = ["RefusedChanges"]

KEY = "changed"
"""Of its bar, with the path of the recording: of each one there may be refused changes."""


class RefusedChanges:
    """Holds them until they are tried once more; the page shows meanwhile what is in the file.

    Parameters
    ----------
    try_again : is given all of them when the user wants that.
    """

    def __init__(self, host: PageHost, try_again: Callable[[Changes], None]) -> None:
        self._host, self._try_again = host, try_again
        self._changes, self._why = Changes(), ""
        self._key = KEY

    def tell(self, changes: Changes, why: str, recording: Recording) -> None:
        """Say which changes are not in the file, and why; `why` is a sentence in the window's language.

        What was refused before of the same moments is given up: a person typed it anew. What comes to no more
        than what is in the recording as it was read last, as a change that was undone, is left out.
        """
        self._key = f"{KEY} {recording.path}"
        present = changes_beyond(recording, changes)
        anew = {moment.id for moment in present.revisions}
        others = tuple(moment for moment in self._changes.revisions if moment.id not in anew)
        self._changes, self._why = Changes(others, self._changes.pictures) + present, why
        self._say()

    @property
    def waiting(self) -> tuple[Changes, str]:
        """What is not in the file, and why, as it was told."""
        return self._changes, self._why

    def leave_out(self, is_changed: Callable[[str], bool]) -> None:
        """Give up what was refused of moments that a person has changed since: that is in the file.

        Parameters
        ----------
        is_changed : tells of a moment's id whether that is so.
        """
        since = {moment.id for moment in self._changes.revisions if is_changed(moment.id)}
        if since:
            left = tuple(moment for moment in self._changes.revisions if moment.id not in since)
            self._changes = Changes(left, self._changes.pictures)
            self._say()

    def _say(self) -> None:
        if not self._changes:
            self._host.untell(self._key)
            return
        text = translate("Refused changes", "{why} Not in the file: {changes}.").format(
            why=ended(self._why), changes=changes_in_words(self._changes)
        )
        actions = (
            (translate("Refused changes", "Try again"), self._once_more),
            (translate("Refused changes", "Copy the words"), self._copy),
        )
        self._host.tell(self._key, "warning", text, actions)

    def _once_more(self) -> None:
        changes, self._changes = self._changes, Changes()
        self._host.untell(self._key)
        self._try_again(changes)

    def _copy(self) -> None:
        QApplication.clipboard().setText(changes_in_words(self._changes))
        text = translate("Refused changes", "The words are in the clipboard; paste them where you like.")
        self._host.tell("copied", "info", text, passes_after_s=INFO_PASSES_S)
