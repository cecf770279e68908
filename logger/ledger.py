"""Everything of a run but its samples, gathered from the frames of its journal."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from logger.attachments import Attachment, attachment_of, living
from logger.clock_watch import TOLERANCE_S
from logger.entries import checked
from logger.errors import RecordingError
from logger.journal import Frame, FrameType
from logger.moments import Moment, apply_revision
from logger.recording import Anchor, Gap

__all__ = ["RESERVED", "ChannelEntry", "Ledger"]

RESERVED = frozenset(
    (
        "attachments",
        "bench",
        "clock",
        "duration",
        "end_time",
        "entry_identifier_uuid",
        "findings",
        "gaps",
        "instrument",
        "moments",
        "moments_history",
        "program_name",
        "start_time",
        "title",
    )
)
"""Names that stand beside the channels in a recording."""


@dataclass(slots=True)
class ChannelEntry:
    """A channel as the journal declares it."""

    name: str
    role: str
    unit: str
    instrument: dict[str, Any]


@dataclass(slots=True)
class Ledger:
    """The head of a run and its channels, moments, gaps, clock anchors, and which pictures there are.

    Feed it frames in order with `take`; frames of samples are left alone. Names of channels that the
    recording needs for itself (`RESERVED`) get ``_channel`` behind them.
    """

    head: dict[str, Any] = field(default_factory=dict)
    channels: dict[int, ChannelEntry] = field(default_factory=dict)
    revisions: list[Moment] = field(default_factory=list)
    open_gaps: dict[str, dict[str, Any]] = field(default_factory=dict)
    anchors: list[Anchor] = field(default_factory=list)
    pictures: list[Attachment] = field(default_factory=list)
    end: dict[str, Any] | None = None

    def take(self, frame: Frame) -> None:
        """Add what one frame tells.

        Raises
        ------
        RecordingError : it is not as the recorder writes it.
        """
        if frame.type == FrameType.SAMPLES:
            return
        entry = checked(frame)
        if frame.type == FrameType.HEAD:
            self.head = entry
        elif frame.type == FrameType.CHANNEL:
            self._take_channel(entry.pop("index"), ChannelEntry(**entry))
        elif frame.type == FrameType.MOMENT:
            self.revisions.append(Moment(**entry))
        elif frame.type == FrameType.GAP:
            self.open_gaps[entry["id"]] = entry
        elif frame.type == FrameType.ANCHOR:
            self.anchors.append(Anchor(**entry))
        elif frame.type == FrameType.ATTACHMENT:
            self.pictures.append(attachment_of(entry))
        elif frame.type == FrameType.END:
            self.end = entry

    def _take_channel(self, index: int, entry: ChannelEntry) -> None:
        if entry.name in RESERVED:
            entry.name += "_channel"
        known = self.channels.get(index)
        names = {other.name for number, other in self.channels.items() if number != index}
        if entry.name in names or (known is not None and known.name != entry.name):
            raise RecordingError(f"the channel {entry.name} is declared twice")
        self.channels[index] = entry

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The living moments in order of time."""
        latest: dict[str, Moment] = {}
        for moment in self.revisions:
            apply_revision(latest, moment)
        return tuple(sorted((m for m in latest.values() if not m.removed), key=lambda m: m.time_s))

    @property
    def moments_history(self) -> tuple[tuple[Moment, str], ...]:
        """What later revisions replaced, each with the ISO time of the change."""
        latest: dict[str, Moment] = {}
        history = []
        for moment in self.revisions:
            known = latest.get(moment.id)
            if known is not None and moment.revision > known.revision:
                history.append((known, moment.noted_at))
            apply_revision(latest, moment)
        return tuple(history)

    @property
    def attachments(self) -> tuple[Attachment, ...]:
        """The pictures that were not removed."""
        return living(self.pictures)

    def gaps(self, duration_s: float) -> tuple[Gap, ...]:
        """The gaps in order of time; one that was never closed ends with the run."""
        found = (
            Gap(
                begin_s=entry["begin_s"],
                end_s=entry["end_s"] if entry["end_s"] is not None else max(duration_s, entry["begin_s"]),
                channel=entry["channel"],
                reason=entry["reason"],
            )
            for entry in self.open_gaps.values()
        )
        return tuple(sorted(found, key=lambda gap: (gap.begin_s, gap.channel)))

    def duration_s(self, last_sample_s: float) -> float:
        """Return the length of the run: to its end where it was ended, else to the last thing it knows."""
        if self.end is not None:
            # A moment may have been tagged while the run was ending: it belongs to it.
            return max([float(self.end["time_s"]), *(m.time_s for m in self.moments)])
        known = [last_sample_s, *(m.time_s for m in self.moments), *(a.time_s for a in self.anchors)]
        return max(known, default=0.0)

    @property
    def end_time(self) -> str | None:
        """ISO time of the end, known only where the run was ended on purpose.

        Where somebody set the computer's clock meanwhile it is told by the clock as it was at the beginning:
        from start to end is then as long as the run. The anchors keep what the clock showed.
        """
        if self.end is None:
            return None
        shown, set_by_s = str(self.end["end_time"]), self._clock_set_by_s()
        if abs(set_by_s) <= TOLERANCE_S:
            return shown
        try:
            meant = datetime.fromisoformat(shown) - timedelta(seconds=set_by_s)
        except OverflowError:
            return shown
        return meant.isoformat(timespec="milliseconds")

    def _clock_set_by_s(self) -> float:
        """By how much the computer's clock was set from the first anchor to the last one."""
        if len(self.anchors) < 2:
            return 0.0
        first, last = self.anchors[0], self.anchors[-1]
        try:
            apart_s = (datetime.fromisoformat(last.utc) - datetime.fromisoformat(first.utc)).total_seconds()
        except (TypeError, ValueError):  # a journal may claim anything
            return 0.0
        return apart_s - (last.time_s - first.time_s) / float(self.head.get("speed", 1.0))
