"""The pictures of a run in progress."""

from __future__ import annotations

import threading
from collections.abc import Callable

from logger.attachments import Attachment, AttachmentError, entry_of, new_attachment, removal_of
from logger.intake import Intake
from logger.journal import FrameType

__all__ = ["RunPictures"]

TOGETHER_LIMIT_BYTES = 128 * 2**20
"""They stay in memory until the run is saved: reading them back from a long journal would take long."""


class RunPictures:
    """Attaches pictures to the moments of a run, and has their bytes. Any thread may call.

    Parameters
    ----------
    intake : takes what is to be recorded; a picture is durable soon after `attach` has returned.
    has_moment : tells whether there is a moment of that id.
    """

    def __init__(self, intake: Intake, has_moment: Callable[[str], bool]) -> None:
        self._intake, self._has_moment = intake, has_moment
        self._held: dict[str, tuple[Attachment, bytes]] = {}
        self._lock = threading.Lock()

    @property
    def attachments(self) -> tuple[Attachment, ...]:
        """The pictures, in the order in which they came."""
        with self._lock:
            return tuple(attachment for attachment, _ in self._held.values())

    def attach(self, moment_id: str, file_name: str, data: bytes, known_id: str = "") -> Attachment:
        """Attach a picture to a moment, under the id that it had before if it was there before.

        Raises
        ------
        AttachmentError : it is no picture, too large, too much with the others, or there is no such moment.
        LoggerError : the run has ended.
        """
        if not self._has_moment(moment_id):
            raise AttachmentError("the moment is not there any more")
        attachment = new_attachment(moment_id, file_name, data, known_id)
        with self._lock:
            held_bytes = sum(len(one) for _, one in self._held.values())
            if held_bytes + len(data) > TOGETHER_LIMIT_BYTES:
                raise AttachmentError(
                    f"the pictures of a run may have {TOGETHER_LIMIT_BYTES // 2**20} MB together while it "
                    "goes on; attach this one once the run is saved"
                )
            self._intake.put(FrameType.ATTACHMENT, entry_of(attachment, data))
            self._held[attachment.id] = (attachment, data)
        return attachment

    def detach(self, attachment_id: str) -> None:
        """Remove a picture: the finished recording will not hold it. Raises as `picture`."""
        with self._lock:
            attachment, _ = self._of(attachment_id)
            self._intake.put(FrameType.ATTACHMENT, removal_of(attachment))
            del self._held[attachment_id]

    def picture(self, attachment_id: str) -> bytes:
        """Return the bytes of a picture.

        Raises
        ------
        AttachmentError : it is not there any more.
        """
        with self._lock:
            return self._of(attachment_id)[1]

    def _of(self, attachment_id: str) -> tuple[Attachment, bytes]:
        found = self._held.get(attachment_id)
        if found is None:
            raise AttachmentError("the picture is not there any more")
        return found
