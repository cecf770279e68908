"""The bench of last time: what was typed, and which sources, kept from one start to the next."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QSettings

from logger.bench_form import BenchDraft, BenchForm
from logger.errors import BenchError

__all__ = ["KeptBench"]

GROUP = "bench_of_last_time"
PATH, BASE, TEXT, SOURCES = (f"{GROUP}/{name}" for name in ("file", "base", "text", "sources"))


class KeptBench:
    """Puts a form and its sources into the settings, and takes them out again."""

    def __init__(self, settings: QSettings) -> None:
        self._settings = settings

    def keep(self, form: BenchForm, addresses: Sequence[str]) -> None:
        """Put them away, unless the values contradict one another: then the last that did not stay."""
        try:
            form.bench()
        except BenchError:
            return
        draft = form.draft
        for key, text in ((PATH, str(draft.path or "")), (BASE, draft.base), (TEXT, draft.text)):
            self._settings.setValue(key, text)
        self._settings.setValue(SOURCES, list(addresses))

    @property
    def form(self) -> BenchForm | None:
        """The form; None where none was kept, or none that this version can read."""
        text = str(self._settings.value(TEXT, "") or "")
        path = str(self._settings.value(PATH, "") or "")
        if not text and not path:
            return None
        base = str(self._settings.value(BASE, "") or "")
        try:
            return BenchForm.of_draft(BenchDraft(Path(path) if path else None, base, text))
        except BenchError:
            return None

    @property
    def addresses(self) -> tuple[str, ...]:
        """The addresses of its sources; they need not be good ones."""
        found = self._settings.value(SOURCES)  # one alone comes back as a text, none as None
        addresses = found if isinstance(found, list) else [] if found is None else [found]
        return tuple(str(one) for one in addresses if one)
