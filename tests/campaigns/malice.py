"""Recordings spoilt by somebody who knows the format: bombs, depth, names, and odd but lawful files."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Mapping
from pathlib import Path

import h5py
import numpy as np

__all__ = ["MALICE", "odd_filter"]

Edit = Callable[[h5py.File, random.Random, Path], None]
DEEP = 3000
LZF = 32000
UNKNOWN = 32999


def _datasets(file: h5py.File) -> list[str]:
    found: list[str] = []
    file.visititems(lambda name, item: found.append(name) if isinstance(item, h5py.Dataset) else None)
    return found


def _deep(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """Groups in groups, far deeper than a program should follow."""
    group = file[rng.choice(("run", "run/instrument/cell_voltage", "run/moments"))]
    for _ in range(rng.choice((100, 1500))):
        group = group.create_group("g")


def _names(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """A channel whose name is a trap for whoever prints it or makes a file of it."""
    odd = ("..", "...", "a\nb", "\u202egnp", "x" * 400, "-rf", "a b", "=1+1", "..\\..\\x", "con", b"\xff\xfe")
    name = rng.choice(odd)
    file.copy("run/cell_voltage", file["run"], name=name)
    if rng.random() < 0.5:
        del file["run/cell_voltage"]


def _unwritten(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """Sizes within reason, of which nothing is in the file."""
    name = rng.choice(_datasets(file))
    del file[name]
    size = rng.choice((100_000, 10_000_000))
    kind = rng.choice(("f8", h5py.string_dtype(), "S900"))
    chunks = rng.choice((None, (1000,)))
    file.create_dataset(name, (size,), kind, chunks=chunks)


def _bomb(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """Few bytes that become many: lawful for a steady voltage, and to be survived in any case."""
    name = rng.choice(("cell_voltage/value", "cell_voltage/quality", "moments/time", "gaps/begin"))
    del file[f"run/{name}"]
    zeros = np.zeros(2_000_000)
    file.create_dataset(f"run/{name}", data=zeros, chunks=(500_000,), compression="gzip", compression_opts=1)


def _one_text_often(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """Very many texts, or very long ones."""
    name = rng.choice(("label", "kind", "id", "noted_at"))
    del file[f"run/moments/{name}"]
    texts = ["x" * 100_000] * 20 if rng.random() < 0.5 else ["y"] * 5000
    file.create_dataset(f"run/moments/{name}", data=texts, dtype=h5py.string_dtype())


def _odd_moments(file: h5py.File, rng: random.Random, outside: Path) -> None:
    group = file["run/moments"]
    times = group["time"][()]
    odd = (np.nan, np.inf, -1.0, 1e300, 5e9)
    if times.size and rng.random() < 0.6:
        times[rng.randrange(times.size)] = rng.choice(odd)
        group["time"][...] = times
    else:
        kinds = [rng.choice(("nonsense", "", "salt_added", "resistor_changed", "=1")) for _ in times]
        group["kind"][...] = kinds
        group["label"][...] = [rng.choice(("", "1e400 ohm", "-5", "\x1b[2J", "９")) for _ in times]


def _odd_gaps(file: h5py.File, rng: random.Random, outside: Path) -> None:
    group = file["run/gaps"]
    group[rng.choice(("begin", "end"))][...] = rng.choice((np.nan, -np.inf, np.inf, 1e300, -5.0))


def _odd_duration(file: h5py.File, rng: random.Random, outside: Path) -> None:
    odd = rng.choice((np.nan, np.inf, -1.0, 1e300, "long", 0.0))
    file["run/duration"].attrs["exact"] = odd


def _deep_text(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """Texts that are parsed later, nested beyond what a parser follows."""
    if rng.random() < 0.5:
        file["run/bench"].attrs["toml"] = rng.choice(("a = " + "[" * DEEP, "a." * DEEP + "b = 1", "{" * DEEP))
    else:
        text = rng.choice(("[" * 100 * DEEP, "{}", "null", json.dumps({"file": 1}), "9" * DEEP * 2))
        group = file.require_group("run/findings")
        group.create_dataset("json", data=text, dtype=h5py.string_dtype())


def _other_numbers(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """The same readings in another lawful form."""
    column = rng.choice(("time", "value"))
    data = file[f"run/cell_voltage/{column}"][()]
    attributes = dict(file[f"run/cell_voltage/{column}"].attrs)
    del file[f"run/cell_voltage/{column}"]
    kind = rng.choice((">f8", "<f4", "f2", "i4", ">i8"))
    made = file.create_dataset(f"run/cell_voltage/{column}", data=data.astype(kind))
    for name in set(attributes) & {"units", "start", "long_name"}:
        made.attrs[name] = attributes[name]


def _dangling(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """References to what is no longer there."""
    group = file["run/cell_voltage"]
    made = group.create_dataset("gone", data=[1.0])
    group.attrs[rng.choice(("role", "signal", "ref"))] = made.ref
    group["value"].attrs[rng.choice(("units", "ref"))] = made.regionref[:]
    del group["gone"]


def _type_at_a_name(file: h5py.File, rng: random.Random, outside: Path) -> None:
    """A committed type where a group or dataset is expected."""
    names: list[str] = []
    file.visit(names.append)
    name = rng.choice(names)
    del file[name]
    file[name] = np.dtype("f8")


def _bytes_attribute(file: h5py.File, rng: random.Random, outside: Path) -> None:
    where, name = rng.choice((("cell_voltage", "role"), ("bench", "toml"), ("cell_voltage/value", "units")))
    item = file[f"run/{where}"]
    odd = (
        np.bytes_(b"\xff\xfe\x80"),
        np.array([b"a", b"b"]),
        np.zeros((2, 2)),
        True,
        np.zeros(1, [("a", "i4")]),
    )
    item.attrs[name] = rng.choice(odd)


MALICE: Mapping[str, Edit] = {
    "deep groups": _deep,
    "odd names": _names,
    "nothing written": _unwritten,
    "bomb": _bomb,
    "many or long texts": _one_text_often,
    "odd moments": _odd_moments,
    "odd gaps": _odd_gaps,
    "odd duration": _odd_duration,
    "deep texts": _deep_text,
    "other numbers": _other_numbers,
    "dangling references": _dangling,
    "type at a name": _type_at_a_name,
    "odd bytes as attribute": _bytes_attribute,
}


def odd_filter(path: Path, rng: random.Random) -> None:
    """Let a column need a filter that nobody has: its number is put over that of one that is known."""
    with h5py.File(path, "r+") as file:
        name = f"run/cell_voltage/{rng.choice(('time', 'value', 'quality'))}"
        count = file[name].shape[0]
        del file[name]
        file.create_dataset(name, data=np.zeros(count), chunks=(count,), compression="lzf")
    data = path.read_bytes().replace(
        LZF.to_bytes(2, "little") + b"\x08\x00", UNKNOWN.to_bytes(2, "little") + b"\x08\x00"
    )
    path.write_bytes(data)
