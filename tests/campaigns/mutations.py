"""Recordings and journals spoilt in every way that chance or malice brings: by bytes, and by structure."""

from __future__ import annotations

import json
import random
import struct
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import h5py
import numpy as np

from logger.journal import FrameType, read_frames

__all__ = ["BYTES", "JOURNAL_STRUCTURE", "RECORDING_STRUCTURE", "spoilt_entry"]

ODD_VALUES: tuple[Any, ...] = (
    None,
    True,
    -1,
    0,
    2**31,
    2**63,
    10**400,
    1e308,
    -1e18,
    "",
    "\x00",
    "../../outside.h5",
    "=1+1",
    "<script>",
    "\u202e",
    "x" * 10_000,
    [],
    {},
    {"a": {"b": {"c": {"d": {"e": {"f": 1}}}}}},
    [1, 2, 3],
)

# ---------------------------------------------------------------- bytes


def _flip(data: bytearray, rng: random.Random) -> None:
    for _ in range(rng.choice((1, 1, 2, 8))):
        data[rng.randrange(len(data))] ^= 1 << rng.randrange(8)


def _flip_early(data: bytearray, rng: random.Random) -> None:
    """In the part that says what the rest is."""
    for _ in range(rng.choice((1, 2, 4))):
        data[rng.randrange(min(len(data), 4096))] = rng.randrange(256)


def _cut(data: bytearray, rng: random.Random) -> None:
    del data[rng.randrange(len(data)) :]


def _zero(data: bytearray, rng: random.Random) -> None:
    begin = rng.randrange(len(data))
    end = min(len(data), begin + rng.choice((1, 16, 512, 4096)))
    data[begin:end] = bytes(end - begin)


def _garbage(data: bytearray, rng: random.Random) -> None:
    begin = rng.randrange(len(data))
    end = min(len(data), begin + rng.choice((4, 64, 512)))
    data[begin:end] = rng.randbytes(end - begin)


def _insert(data: bytearray, rng: random.Random) -> None:
    at = rng.randrange(len(data))
    data[at:at] = rng.randbytes(rng.choice((1, 7, 512)))


def _remove(data: bytearray, rng: random.Random) -> None:
    at = rng.randrange(len(data))
    del data[at : at + rng.choice((1, 7, 512))]


def _double(data: bytearray, rng: random.Random) -> None:
    at, length = rng.randrange(len(data)), rng.choice((16, 512, 4096))
    data[at:at] = data[at : at + length]


def _swap(data: bytearray, rng: random.Random) -> None:
    length = 512
    a, b = (rng.randrange(max(1, len(data) - length)) for _ in range(2))
    data[a : a + length], data[b : b + length] = data[b : b + length], data[a : a + length]


def _huge_number(data: bytearray, rng: random.Random) -> None:
    at = rng.randrange(max(1, len(data) - 8))
    data[at : at + 8] = struct.pack("<Q", rng.choice((2**63, 2**64 - 1, 2**40, 2**32 - 1)))


BYTES: Mapping[str, Callable[[bytearray, random.Random], None]] = {
    "bits flipped": _flip,
    "bytes changed early": _flip_early,
    "cut": _cut,
    "zeros": _zero,
    "garbage": _garbage,
    "bytes inserted": _insert,
    "bytes removed": _remove,
    "part twice": _double,
    "parts swapped": _swap,
    "huge number": _huge_number,
}

# ---------------------------------------------------------------- a recording's structure

Edit = Callable[[h5py.File, random.Random, Path], None]


def _objects(file: h5py.File) -> list[str]:
    found: list[str] = []
    file.visit(found.append)
    return found


def _datasets(file: h5py.File) -> list[str]:
    return [name for name in _objects(file) if isinstance(file[name], h5py.Dataset)]


def _replaced(file: h5py.File, name: str, **what: Any) -> None:
    del file[name]
    file.create_dataset(name, **what)


def _object_gone(file: h5py.File, rng: random.Random, outside: Path) -> None:
    del file[rng.choice(_objects(file))]


def _odd_dataset(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """Another type or another shape where something else is expected."""
    made: list[dict[str, Any]] = [
        {"data": np.arange(7, dtype="i1")},
        {"data": np.zeros((3, 3))},
        {"data": 1.5},
        {"data": b"bytes \xff"},
        {"data": ["a", "b"], "dtype": h5py.string_dtype()},
        {"data": np.zeros(0)},
        {"data": np.zeros(2, [("a", "f8"), ("b", "i4")])},
        {"data": np.full(300, np.nan)},
        {"data": np.full(300, np.inf)},
        {"data": np.array([1 + 2j] * 4)},
        {"data": h5py.Empty("f8")},
        {"shape": (10,), "dtype": h5py.ref_dtype},
        {"shape": (4,), "dtype": h5py.vlen_dtype(np.int32)},
    ]
    _replaced(file, rng.choice(_datasets(file)), **rng.choice(made))


def _huge_claim(file: h5py.File, rng: random.Random, outside: Path) -> None:
    size = rng.choice((10**9, 10**12, 10**15))
    _replaced(file, rng.choice(_datasets(file)), shape=(size,), dtype="f8", chunks=(1024,))


def _odd_attribute(file: h5py.File, rng: random.Random, outside: Path) -> None:
    item = file[rng.choice(_objects(file))]
    name = rng.choice([*item.attrs, "NX_class", "role", "units", "signal", "axes"])
    value = rng.choice(("", "x" * 60_000, 7, 1e308, np.zeros(5), h5py.Empty("f8"), "\u202e=1+1"))
    if rng.random() < 0.3 and name in item.attrs:
        del item.attrs[name]
    else:
        item.attrs[name] = value


def _external_link(file: h5py.File, rng: random.Random, outside: Path) -> None:
    name = rng.choice(_objects(file))
    del file[name]
    file[name] = h5py.ExternalLink(str(outside), "/run/title")


def _soft_link(file: h5py.File, rng: random.Random, outside: Path) -> None:
    name = rng.choice(_objects(file))
    del file[name]
    file[name] = h5py.SoftLink(rng.choice(("/run", "/nowhere", "/")))


def _cycle(file: h5py.File, rng: random.Random, outside: Path) -> None:
    groups = [name for name in _objects(file) if isinstance(file[name], h5py.Group)]
    file[f"{rng.choice(groups)}/again"] = file["run"]


def _data_outside(file: h5py.File, rng: random.Random, outside: Path) -> None:
    _replaced(file, rng.choice(_datasets(file)), shape=(100,), dtype="f8", external=[(str(outside), 0, 800)])


def _virtual(file: h5py.File, rng: random.Random, outside: Path) -> None:
    name = rng.choice(_datasets(file))
    del file[name]
    layout = h5py.VirtualLayout((100,), "f8")
    layout[:] = h5py.VirtualSource(str(outside), "x", (100,))
    file.create_virtual_dataset(name, layout)


def _plug_in(file: h5py.File, rng: random.Random, outside: Path) -> None:
    name = rng.choice(_datasets(file))
    _replaced(file, name, data=np.zeros(100), chunks=(100,), compression="lzf")


def _odd_samples(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """Times that go backwards or are no numbers, values beyond all bounds, columns of other lengths."""
    group = file["run/cell_voltage"]
    column = rng.choice(("time", "value", "quality"))
    data = group[column][()]
    at = rng.randrange(data.size)
    kind = rng.randrange(4)
    if kind == 0:
        data = data[:at]
    elif kind == 1:
        data = data[::-1].copy()
    elif column == "quality":
        data[at] = 255
    else:
        data[at:] = rng.choice((np.nan, np.inf, -np.inf, -1e300, 1e300))
    attributes = dict(group[column].attrs)
    del group[column]
    made = group.create_dataset(column, data=data)
    for name in set(attributes) & {"units", "start", "long_name"}:
        made.attrs[name] = attributes[name]


def _odd_text(file: h5py.File, rng: random.Random, outside: Path) -> None:
    texts = ("title", "start_time", "end_time", "entry_identifier_uuid", "clock/time_zone")
    value = rng.choice(
        ("", "yesterday", "=HYPERLINK(1)", "<b>x</b>", "\u202e\u0007", "9" * 5000, b"\xff\xfe")
    )
    _replaced(file, f"run/{rng.choice(texts)}", data=value)


def _many_objects(file: h5py.File, rng: random.Random, outside: Path) -> None:
    for number in range(11_000):
        file.create_group(f"run/g{number}")


def _bench(file: h5py.File, rng: random.Random, outside: Path) -> None:
    file["run/bench"].attrs["toml"] = rng.choice(
        (
            "[supply]\nstack_V = -1",
            "= = =",
            "[supply]\nstack_V = inf",
            "[[[[",
            "[supply]\nresistance_ohm = 0",
            "a = " + "[" * 5000,
            "[supply]\nstack_V = 1e308\nresistance_ohm = 1e-308",
        )
    )


RECORDING_STRUCTURE: Mapping[str, Edit] = {
    "object gone": _object_gone,
    "odd dataset": _odd_dataset,
    "huge claim": _huge_claim,
    "odd attribute": _odd_attribute,
    "external link": _external_link,
    "soft link": _soft_link,
    "cycle": _cycle,
    "data outside": _data_outside,
    "virtual data": _virtual,
    "plug-in filter": _plug_in,
    "odd samples": _odd_samples,
    "odd text": _odd_text,
    "odd bench": _bench,
    "many objects": _many_objects,
}
RARE = {"many objects": 0.02}
"""How often one that takes long is taken when it is drawn."""

# ---------------------------------------------------------------- a journal's structure

_HEADER = struct.Struct("<2sBBIII")
Frames = list[tuple[int, bytes]]


def spoilt_entry(path: Path, rng: random.Random) -> None:
    """Write the journal anew, every frame with a right checksum, but one or two that no recorder writes."""
    frames: Frames = [(int(frame.type), frame.payload) for frame in read_frames(path)]
    for _ in range(rng.choice((1, 1, 2))):
        rng.choice(_FRAME_EDITS)(frames, rng)
    salt = rng.getrandbits(32)
    out = bytearray()
    for number, (kind, payload) in enumerate(frames):
        header = _HEADER.pack(b"GJ", kind, 1, len(payload), number, salt)
        out += header + struct.pack("<I", zlib.crc32(payload, zlib.crc32(header))) + payload
    path.write_bytes(bytes(out))


def _odd_field(frames: Frames, rng: random.Random) -> None:
    places = [i for i, (kind, _) in enumerate(frames) if kind != FrameType.SAMPLES]
    i = rng.choice(places)
    try:
        entry = json.loads(frames[i][1])
    except (ValueError, RecursionError):
        return  # spoilt already
    if not isinstance(entry, dict) or not entry:
        return
    name = rng.choice([*entry, "more"])
    if rng.random() < 0.2:
        entry.pop(name, None)
    else:
        entry[name] = rng.choice(ODD_VALUES)
    frames[i] = (frames[i][0], json.dumps(entry).encode())


def _odd_json(frames: Frames, rng: random.Random) -> None:
    i = rng.randrange(len(frames))
    odd = (b"", b"[]", b"null", b"{", b"\xff", b'{"a":NaN}', b"[" * 100_000, b'{"uuid":1}', b"1e999")
    frames[i] = (frames[i][0], rng.choice(odd))


def _odd_block(frames: Frames, rng: random.Random) -> None:
    """A block of an unknown channel, of another length, or with times and values of any bits."""
    places = [i for i, (kind, _) in enumerate(frames) if kind == FrameType.SAMPLES]
    if not places:
        return
    i = rng.choice(places)
    payload = bytearray(frames[i][1])
    kind = rng.randrange(5)
    if kind == 0:
        payload[0:2] = struct.pack("<H", rng.choice((1, 7, 65535)))
    elif kind == 1:
        del payload[rng.randrange(len(payload)) :]
    elif kind == 2:
        payload[4:8] = struct.pack("<I", rng.choice((0, 1, 2**31, 2**32 - 1)))
    elif kind == 3:
        at = 8 + 8 * rng.randrange(max(1, (len(payload) - 8) // 17))
        odd = rng.choice((float("nan"), float("inf"), -1e300, 1e300, -5.0))
        payload[at : at + 8] = struct.pack("<d", odd)
    else:
        payload[8:] = rng.randbytes(len(payload) - 8)
    frames[i] = (frames[i][0], bytes(payload))


def _order(frames: Frames, rng: random.Random) -> None:
    i, j = rng.randrange(len(frames)), rng.randrange(len(frames))
    frames[i], frames[j] = frames[j], frames[i]


def _another_kind(frames: Frames, rng: random.Random) -> None:
    i = rng.randrange(len(frames))
    frames[i] = (rng.choice([*map(int, FrameType), 0, 200]), frames[i][1])


def _without(frames: Frames, rng: random.Random) -> None:
    del frames[rng.randrange(len(frames))]
    if not frames:
        frames.append((1, b"{}"))


def _twice(frames: Frames, rng: random.Random) -> None:
    i = rng.randrange(len(frames))
    frames.insert(i, frames[i])


_FRAME_EDITS = (_odd_field, _odd_field, _odd_field, _odd_json, _odd_block, _odd_block, _order)
_FRAME_EDITS += (_another_kind, _without, _twice)
JOURNAL_STRUCTURE = "entries of right checksum"
