"""List or change the moments of a finished recording. What a change replaces stays in its history."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from logger.attachments import Attachment
from logger.commands.output_name import output_name
from logger.moments import KINDS, Moment


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument("file", type=Path, metavar="FILE.h5")
    actions = parser.add_subparsers(
        dest="action", required=True, metavar="list|add|move|rename|remove|attach|detach|reattach|extract"
    )
    one = actions.add_parser("list", help="show the moments with their ids", allow_abbrev=False)
    one.add_argument("--json", action="store_true", help="print one JSON document")
    one = actions.add_parser("add", help="add a moment", allow_abbrev=False)
    one.add_argument(
        "--at", required=True, metavar="T", help="run time in seconds, as 12:30 (minutes:seconds) or 1:12:30"
    )
    one.add_argument("kind", metavar="KIND", help=", ".join(KINDS))
    one.add_argument("label", nargs="?", default="")
    one = actions.add_parser("move", help="give a moment another time", allow_abbrev=False)
    one.add_argument("id", help="the moment's id, or its beginning")
    one.add_argument("--to", required=True, metavar="T", help="run time in seconds, as 12:30 or 1:12:30")
    one = actions.add_parser("rename", help="give a moment another kind or label", allow_abbrev=False)
    one.add_argument("id", help="the moment's id, or its beginning")
    one.add_argument("--kind", metavar="K")
    one.add_argument("--label", metavar="L")
    one = actions.add_parser("remove", help="remove a moment", allow_abbrev=False)
    one.add_argument("id", help="the moment's id, or its beginning")
    one = actions.add_parser("attach", help="keep a picture with a moment", allow_abbrev=False)
    one.add_argument("id", help="the moment's id, or its beginning")
    one.add_argument("picture", type=Path, metavar="PICTURE", help="a PNG, JPEG or WebP file, up to 16 MB")
    one = actions.add_parser("detach", help="remove a picture for good", allow_abbrev=False)
    one.add_argument("id", help="the picture's id, or its beginning")
    one = actions.add_parser("reattach", help="give a picture to another moment", allow_abbrev=False)
    one.add_argument("id", help="the picture's id, or its beginning")
    one.add_argument("--to", required=True, metavar="ID", help="the moment's id, or its beginning")
    one = actions.add_parser("extract", help="write a picture to a file, byte for byte", allow_abbrev=False)
    one.add_argument("id", help="the picture's id, or its beginning")
    one.add_argument("--to", type=output_name, metavar="OUT", help="the file, or a folder to write it in")
    one.add_argument("--replace", action="store_true", help="replace what has that name already")


def run(arguments: argparse.Namespace) -> int:
    """Do what was asked with the moments of one file."""
    from logger.moment_edits import add, edit
    from logger.moment_pictures import orphans
    from logger.reader import read_recording

    path = arguments.file
    if arguments.action == "list":
        recording = read_recording(path)
        _list(recording.moments, recording.attachments, as_json=arguments.json)
        _list_orphans(path, orphans(recording), as_json=arguments.json)
    elif arguments.action in ("attach", "detach", "reattach", "extract"):
        _change_pictures(arguments)
    elif arguments.action == "add":
        moment = add(path, _run_time_s(arguments.at), arguments.kind, arguments.label)
        print(f"Added {moment.id[:8]} at {moment.time_s:g} s")
    elif arguments.action == "move":
        moment = edit(path, arguments.id, time_s=_run_time_s(arguments.to))
        print(f"Moved {moment.id[:8]} to {moment.time_s:g} s")
    elif arguments.action == "rename":
        if arguments.kind is None and arguments.label is None:
            print("galvanote: rename needs --kind or --label", file=sys.stderr)
            return 2
        moment = edit(path, arguments.id, kind=arguments.kind, label=arguments.label)
        print(f"Changed {moment.id[:8]}: {moment.kind} {moment.label}".rstrip())
    else:
        moment = edit(path, arguments.id, removed=True)
        print(f"Removed {moment.id[:8]} ({moment.kind} at {moment.time_s:g} s)")
    return 0


def _change_pictures(arguments: argparse.Namespace) -> None:
    from logger.picture_edits import attach_file, detach_found, extract, reattach
    from logger.reader import read_recording

    if arguments.action == "attach":
        one = attach_file(arguments.file, arguments.id, arguments.picture)
        print(f"Attached {one.id[:8]}: {one.file_name} ({one.size_bytes} bytes)")
    elif arguments.action == "reattach":
        one = reattach(arguments.file, arguments.id, arguments.to)
        print(f"Attached {one.id[:8]} to {one.moment_id[:8]}: {one.file_name} ({one.size_bytes} bytes)")
    elif arguments.action == "extract":
        recording = read_recording(arguments.file)
        one, out = extract(recording, arguments.id, arguments.to, replace=arguments.replace)
        print(f"Wrote {out} ({one.size_bytes} bytes)")
    else:
        one = detach_found(arguments.file, arguments.id)
        print(f"Removed {one.id[:8]} ({one.file_name})")


def _list(moments: tuple[Moment, ...], pictures: tuple[Attachment, ...], *, as_json: bool) -> None:
    if as_json:
        keys = ("id", "time_s", "kind", "label", "noted_at")
        of_picture = ("id", "file_name", "media_type", "size_bytes")
        found = [
            {
                **{k: getattr(m, k) for k in keys},
                "pictures": [{k: getattr(p, k) for k in of_picture} for p in pictures if p.moment_id == m.id],
            }
            for m in moments
        ]
        print(json.dumps(found, ensure_ascii=False, indent=2))
        return
    for m in moments:
        print(f"{m.id[:8]}  {m.time_s:10.2f} s  {m.kind:<17} {m.label}".rstrip())
        for p in pictures:
            if p.moment_id == m.id:
                print(f"{'':10}{p.id[:8]}  picture {p.file_name} ({p.size_bytes} bytes)")
    if not moments:
        print("No moments.")


def _list_orphans(path: Path, pictures: tuple[Attachment, ...], *, as_json: bool) -> None:
    """Tell of pictures that no list of moments shows."""
    if not pictures:
        return
    if not as_json:
        print("Pictures whose moment was removed:")
        for p in pictures:
            print(f"{'':10}{p.id[:8]}  picture {p.file_name} ({p.size_bytes} bytes)")
    count = len(pictures)
    words = "1 picture stays in the file though its moment was" if count == 1 else (
        f"{count} pictures stay in the file though their moments were"
    )  # fmt: skip
    print(
        f"galvanote: {words} removed; galvanote moment '{path}' detach ID removes one for good, "
        "reattach ID --to MOMENT gives it to another moment",
        file=sys.stderr,
    )


def _run_time_s(text: str) -> float:
    from logger.moments import MomentError

    parts = text.split(":")
    try:
        if len(parts) > 3 or any("-" in part for part in parts[1:]):
            raise ValueError
        time_s = 0.0
        for part in parts:
            time_s = 60.0 * time_s + float(part)
        return time_s
    except ValueError:
        raise MomentError(
            f"{text!r} is not a run time; write seconds (750), minutes:seconds (12:30) or "
            "hours:minutes:seconds (1:12:30)"
        ) from None
