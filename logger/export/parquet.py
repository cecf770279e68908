"""Readings as Parquet, for those who analyse many runs; needs the extra ``parquet``."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from logger.errors import LoggerError
from logger.export.atomic import refuse_what_exists, written_together
from logger.export.channel_files import channel_files, plain_name
from logger.moment_pictures import moment_pictures
from logger.progress import Progress
from logger.recording import ChannelData, Recording
from logger.version import PROGRAM, VERSION

__all__ = ["export_parquet"]

ROWS_AT_ONCE = 2**20


def export_parquet(
    recording: Recording, out: Path, *, replace: bool = False, progress: Progress | None = None
) -> list[Path]:
    """Write the cell voltage to `out` and further channels beside it, as time_s, value and quality.

    What belongs to the run (moments, gaps, bench, instrument, and which parts of the recording are damaged)
    stands as JSON in the metadata of each file, under ``galvanote``. The files appear all together or not at
    all.

    Raises
    ------
    OutputExists : one of the files exists and may not be replaced; nothing was written.
    Cancelled : `progress` was told to stop.
    LoggerError : pyarrow is missing, or the folder cannot be written.
    """
    try:
        import pyarrow
        from pyarrow import parquet
    except ImportError as error:
        raise LoggerError(
            "a .parquet file needs pyarrow; install it with: python3 -m pip install pyarrow"
        ) from error
    steps = progress or Progress()
    if not recording.channels:
        raise LoggerError(f"{recording.path} holds no channel; there is nothing to write")
    places = channel_files(recording, out)
    refuse_what_exists(places, replace=replace)
    total = max(1, sum(channel.times_s.size for channel in recording.channels))
    done = 0
    with written_together(replace=replace) as begin:
        for channel, path in zip(recording.channels, places, strict=True):
            schema = pyarrow.schema(
                [
                    pyarrow.field("time_s", pyarrow.float64(), nullable=False),
                    pyarrow.field(
                        f"{plain_name(channel.name)}_{plain_name(channel.unit)}",
                        pyarrow.float64(),
                        nullable=False,
                    ),
                    pyarrow.field("quality", pyarrow.uint8(), nullable=False),
                ],
                metadata={"galvanote": _about(recording, channel)},
            )
            part = begin(path)
            with parquet.ParquetWriter(part, schema, compression="zstd") as writer:
                for first in range(0, channel.times_s.size, ROWS_AT_ONCE):
                    steps.reach((done + first) / total)
                    rows = slice(first, first + ROWS_AT_ONCE)
                    columns = [channel.times_s[rows], channel.values[rows], channel.quality[rows]]
                    writer.write_table(pyarrow.table([pyarrow.array(one) for one in columns], schema=schema))
            done += channel.times_s.size
        steps.reach(1.0)
    return list(places)


def _about(recording: Recording, channel: ChannelData) -> str:
    return json.dumps(
        {
            "program": f"{PROGRAM} {VERSION}",
            "uuid": recording.uuid,
            "title": recording.title,
            "start_time": recording.start_time if recording.has_known_start else None,
            "time_zone": recording.time_zone,
            "duration_s": recording.duration_s,
            "channel": {"name": channel.name, "role": channel.role, "unit": channel.unit},
            "instrument": dict(channel.instrument),
            "moments": [moment.as_dict() for moment in recording.moments],
            "gaps": [
                {"begin_s": g.begin_s, "end_s": g.end_s, "channel": g.channel, "reason": g.reason}
                for g in recording.gaps
            ],
            "bench_toml": recording.bench_toml,
            "damaged": list(recording.damaged),
            "pictures": [asdict(one.attachment) for one in moment_pictures(recording)],
        },
        ensure_ascii=False,
    )
