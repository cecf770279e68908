"""Settings of every test: one that tries many examples may take as long for one as a busy machine needs."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("on any machine", deadline=None)
settings.load_profile("on any machine")
