"""What findings say of a recording whose file is not as it was written."""

from __future__ import annotations

from logger.analysis.caution import Caution
from logger.recording import Recording

__all__ = ["CODE", "cautions_of_damage", "damaged_evidence"]

CODE = "damaged_file"

_NO_EVIDENCE = frozenset({"/", "run", "findings", "moments_history", "attachments"})
"""Parts on which no figure rests: attributes of the file, title and dates, earlier findings and moments,
pictures."""


def cautions_of_damage(recording: Recording) -> tuple[Caution, ...]:
    """Return a caution that names the damaged parts of a recording's file, if there are any."""
    if not recording.damaged:
        return ()
    names = ", ".join(recording.damaged)
    message = (
        f"Parts of the file are not as they were written (SHA-256 differs): {names}. What rests on them may "
        "be wrong. Use another copy of the recording if there is one; galvanote check looks at every part."
    )
    return (Caution(CODE, message),)


def damaged_evidence(recording: Recording) -> tuple[str, ...]:
    """Return the damaged parts of a recording's file that its figures rest on."""
    return tuple(name for name in recording.damaged if name not in _NO_EVIDENCE)
