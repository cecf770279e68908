"""What can go wrong with an instrument, split by what a person can do about it.

Every message says what was attempted, on what, what was seen and what to do.
"""

__all__ = [
    "AddressError",
    "CannotOpen",
    "NotReadable",
    "SourceEnded",
    "SourceError",
    "SourceLost",
    "SourceRefused",
]


class SourceError(Exception):
    """Base of everything a source raises on purpose."""


class AddressError(SourceError, ValueError):
    """The source address is not of the right form: unknown kind, key or value. Nothing was touched."""


class CannotOpen(SourceError, OSError):
    """The instrument could not be opened: port missing, busy, not permitted, nobody listening.

    Trying again later may help; the message says what to check first.
    """


class NotReadable(CannotOpen):
    """The port is there, but not the instrument: another one, switched off, another speed or cable.

    Plugging it in once more does not help.
    """


class SourceLost(SourceError):
    """The instrument was working and is gone: cable pulled, program at the other end closed.

    What was delivered before stays valid. The owner may close the source and open it again.
    """


class SourceRefused(SourceError):
    """The instrument answers, but with something that must not be recorded as cell voltage.

    Example: the dial is on AC volts. The message says what to change at the instrument.
    """


class SourceEnded(SourceError):
    """Nothing more will come, and that is right: a replay is over, a simulated lesson is done."""
