"""The rules of the NeXus base classes that a recording keeps to, checked without the NeXus tools.

Source: NeXus definitions v2026.01 (NXroot, NXentry, NXdata, NXcollection, NXinstrument, NXsensor,
NXprocess, NXnote) as shipped in the registry package nexusformat 2.1.0, whose own checker is run by
`tests/campaigns/nexus_check.py`.
"""

from __future__ import annotations

from datetime import datetime

import h5py

CLASSES = {"NXroot", "NXentry", "NXdata", "NXcollection", "NXinstrument", "NXsensor", "NXprocess", "NXnote"}


def broken_rules(file: h5py.File) -> list[str]:
    """Return every rule that the open file breaks, in words."""
    found: list[str] = []

    def check(true: bool, rule: str) -> None:
        if not true:
            found.append(rule)

    check(file.attrs.get("NX_class") == "NXroot", "the root is an NXroot")
    entry = file.get(file.attrs.get("default", ""))
    check(
        entry is not None and entry.attrs.get("NX_class") == "NXentry",
        "@default of the root names an NXentry",
    )
    if entry is None:
        return found
    for name in ("start_time", "end_time"):
        moment = datetime.fromisoformat(entry[name][()].decode())
        check(moment.tzinfo is not None, f"{name} is ISO 8601 with offset")
    check(
        entry["duration"].dtype.kind == "i" and entry["duration"].attrs["units"] == "s",
        "duration: integer, in s",
    )
    plotted = entry.get(entry.attrs.get("default", ""))
    check(
        plotted is not None and plotted.attrs.get("NX_class") == "NXdata",
        "@default of the entry names an NXdata",
    )

    def visit(name: str, item: h5py.Group | h5py.Dataset) -> None:
        if isinstance(item, h5py.Group):
            kind = item.attrs.get("NX_class")
            check(kind in CLASSES, f"{name}: NX_class {kind} is a base class")
            if kind == "NXdata":
                _check_data(name, item, check)

    file.visititems(visit)
    return found


def _check_data(name, group, check) -> None:
    signal = group.get(group.attrs.get("signal", ""))
    check(signal is not None, f"{name}: @signal names a field")
    axes = list(group.attrs["axes"])
    check(len(axes) == signal.ndim, f"{name}: one axis for each dimension of the signal")
    for axis in axes:
        check(
            axis in group and group[axis].shape == signal.shape, f"{name}: axis {axis} is there and as long"
        )
        check(group[axis].attrs.get("units") == "s", f"{name}: the axis has a unit")
        check(group.attrs[f"{axis}_indices"] == 0, f"{name}: @{axis}_indices")
        check(
            datetime.fromisoformat(group[axis].attrs["start"]).tzinfo is not None,
            f"{name}: @start with offset",
        )
    check(bool(signal.attrs.get("units")), f"{name}: the signal has a unit")
    check(signal.dims[0][0] == group[axes[0]], f"{name}: the axis is a dimension scale of the signal")
