"""Settings of every window test: no screen, the shipped fonts, nothing left running."""

from __future__ import annotations

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
