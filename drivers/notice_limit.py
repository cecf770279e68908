"""Keeps a fault that repeats from filling the screen with one and the same notice."""

from __future__ import annotations

from drivers.samples import Notice

__all__ = ["NoticeLimit"]


class NoticeLimit:
    """Lets a notice of each code through once, then again only after a pause.

    Parameters
    ----------
    pause_s : run seconds for which a code stays quiet after it was let through.
    """

    def __init__(self, pause_s: float = 60.0) -> None:
        self._pause_s = pause_s
        self._last_s: dict[str, float] = {}
        self._held_back: dict[str, int] = {}

    def pass_on(self, code: str, text: str, now_s: float, *, is_refusal: bool = False) -> tuple[Notice, ...]:
        """Return the notice, with the number of its like that were held back, or nothing."""
        last_s = self._last_s.get(code)
        if last_s is not None and now_s - last_s < self._pause_s:
            self._held_back[code] = self._held_back.get(code, 0) + 1
            return ()
        self._last_s[code] = now_s
        repeats = self._held_back.pop(code, 0)
        told = f"{text} ({repeats} more like this before)" if repeats else text
        return (Notice(code, told, is_refusal),)
