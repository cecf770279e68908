"""The folder for recordings is not there, or closed: said in one bar, which goes as soon as it is open."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping

from gui.job import Job
from gui.message_words import message_sentence
from gui.pages.page import PageHost
from gui.recordings_folder import FolderClosed, FolderMissing, check_folder, recordings_folder
from gui.words import translate

__all__ = ["MissingFolder", "tell_missing_folder"]

KEY = "no folder"
LOOK_EVERY_S = 2.0


def tell_missing_folder(host: PageHost, reason: str, *, leads_to_bench: bool = True) -> None:
    """Say why nothing can be recorded; `leads_to_bench` offers the page where another folder is chosen."""
    action = (translate("Window", "Choose a folder"), lambda: host.show_page("bench"))
    host.tell(KEY, "warning", message_sentence(reason), (action,) if leads_to_bench else ())


class MissingFolder:
    """Takes the bar away once the folder can be used: the stick is plugged in, or another one was chosen.

    A folder that is there, but may not be read and written, is another reason, and the bar says so.

    Parameters
    ----------
    texts : returns the bars that are shown at present, by key.
    clock_s : a clock in seconds.
    """

    def __init__(
        self,
        host: PageHost,
        texts: Callable[[], Mapping[str, str]],
        clock_s: Callable[[], float] = time.monotonic,
    ) -> None:
        self._host, self._texts, self._clock_s = host, texts, clock_s
        self._looked_s = -LOOK_EVERY_S
        self._is_looking = False

    def follow(self) -> None:
        """Look for the folder while it is missed, off the window's thread: a network disk may take long."""
        if self._is_looking or KEY not in self._texts() or self._clock_s() - self._looked_s < LOOK_EVERY_S:
            return
        self._looked_s, self._is_looking = self._clock_s(), True
        folder = recordings_folder(self._host.settings)

        def tell(_usable: None, error: Exception | None) -> None:
            self._is_looking = False
            if error is None:
                self._host.untell(KEY)
            elif isinstance(error, FolderMissing) and self._says_other(error):
                tell_missing_folder(self._host, str(error))

        self._host.do(Job(lambda: check_folder(folder), tell, "look for the folder"))

    def _says_other(self, error: FolderMissing) -> bool:
        """Tell whether the bar gives the other reason of the two; any third one says more than they."""
        reasons = {message_sentence(str(kind(error.folder))) for kind in (FolderMissing, FolderClosed)}
        return self._texts().get(KEY) in reasons - {message_sentence(str(error))}
