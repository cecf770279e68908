"""Checksums kept in a recording.

Each column of samples has the SHA-256 of its raw little-endian bytes as attribute ``sha256``. Everything else
(names, texts, attributes, moments, gaps) is covered part by part: ``/run@sha256_parts`` is a JSON object that
holds a SHA-256 for each group below /run, one under ``run`` for what lies in /run itself, and one under ``/``
for the attributes of the file. The bytes of a picture and each level of the overview have their own, as a
column has.

Not covered is what holds no content: links between axes, unused room, and what HDF5 needs to find its parts.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "ATTRIBUTE",
    "SLICE",
    "ComparedParts",
    "compared_parts",
    "digest_of",
    "is_part_whole",
    "level_digest_of",
    "part_digests",
    "seal",
    "update",
    "update_level",
]

ATTRIBUTE = "sha256"
PARTS_ATTRIBUTE = "sha256_parts"
SLICE = 2**20
"""Samples read at once while checking: 8 MB."""
TOP, FILE = "run", "/"
NOT_COVERED = frozenset({ATTRIBUTE, PARTS_ATTRIBUTE, "DIMENSION_LIST", "REFERENCE_LIST", "CLASS", "NAME"})
"""Attributes left out: the checksums themselves, and what HDF5 keeps to link axes."""
DERIVED = frozenset({"overview"})
"""Made from the readings; covered by digests of its own, its attributes with the part that it lies in."""


def update(digest: hashlib._Hash, block: NDArray[Any]) -> None:
    """Add a block of samples to a running digest, in the byte order of the file."""
    digest.update(np.ascontiguousarray(block, block.dtype.newbyteorder("<")).data)


def digest_of(dataset: Any) -> str:
    """Return the hexadecimal digest of a whole column of samples, read in slices.

    Raises
    ------
    OSError : part of it cannot be read.
    """
    return _digest(dataset[begin : begin + SLICE] for begin in range(0, dataset.shape[0], SLICE))


def update_level(digest: hashlib._Hash, rows: NDArray[np.float64]) -> None:
    """Add buckets of a level of the overview, shape (2, n), to a running digest, bucket by bucket."""
    update(digest, rows.T)


def level_digest_of(dataset: Any) -> str:
    """Return the hexadecimal digest of a whole level of the overview, shape (2, n), read in slices.

    Raises
    ------
    OSError : part of it cannot be read.
    """
    return _digest(dataset[:, begin : begin + SLICE].T for begin in range(0, dataset.shape[1], SLICE))


def _digest(blocks: Iterable[NDArray[Any]]) -> str:
    digest = hashlib.sha256()
    for block in blocks:
        update(digest, block)
    return digest.hexdigest()


def part_digests(run: Any) -> dict[str, str]:
    """Return the digests of the parts of an open group /run, by name.

    Raises
    ------
    OSError : something cannot be read.
    """
    groups = {name: item for name, item in run.items() if hasattr(item, "items")}
    found = {name: _tree_digest([(name, item)]) for name, item in groups.items()}
    top = [(name, item) for name, item in run.items() if name not in groups]
    found[TOP] = _tree_digest(top, _attributes(run))
    found[FILE] = _tree_digest([], _attributes(run.parent))
    return found


@dataclass(frozen=True, slots=True)
class ComparedParts:
    """Names of the parts of a recording that are there, missing, not as written, or added by others."""

    there: tuple[str, ...]
    missing: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    added: tuple[str, ...] = ()


def compared_parts(run: Any) -> ComparedParts | None:
    """Hold the parts of an open group /run against the digests kept with them; None where none were kept.

    Raises
    ------
    OSError : something cannot be read.
    """
    kept = _kept_parts(run)
    if kept is None:
        return None
    found = part_digests(run)
    if not kept:
        return ComparedParts(tuple(sorted(found)), changed=(PARTS_ATTRIBUTE,))
    if FILE not in kept:  # a recording from before that one was kept
        del found[FILE]
    return ComparedParts(
        tuple(sorted(found)),
        missing=tuple(sorted(kept.keys() - found.keys())),
        changed=tuple(
            sorted(name for name in kept.keys() & found.keys() if not _is_kept(run, name, kept, found))
        ),
        added=tuple(sorted(found.keys() - kept.keys())),
    )


def _kept_parts(run: Any) -> dict[str, str] | None:
    """Return the digests kept with a recording: an empty mapping where damaged, None where not kept."""
    text = run.attrs.get(PARTS_ATTRIBUTE)
    if text is None:
        return None
    try:
        kept = json.loads(text)
    except (ValueError, TypeError, RecursionError):
        return {}
    return kept if isinstance(kept, dict) else {}


def is_part_whole(run: Any, name: str) -> bool:
    """Tell whether a part is as it was written; one that is not there yet is."""
    return _is_kept(run, name, _kept_parts(run) or {}, part_digests(run))


def _is_kept(run: Any, name: str, kept: dict[str, str], found: dict[str, str]) -> bool:
    """Tell whether the digest found of a part is the one kept, or both are none.

    Recordings from before the attributes of levels belonged to a part keep its digest without them.
    """
    if kept.get(name) == found.get(name):
        return True
    is_group = name in found and name not in (TOP, FILE)
    return is_group and kept.get(name) == _tree_digest([(name, run[name])], with_levels=False)


def seal(run: Any, names: Iterable[str] | None = None) -> None:
    """Keep the digests of all parts, or of those `names` that have just been written.

    A part that is not named keeps its digest: what was damaged before is not declared whole.
    """
    digests = part_digests(run)
    if names is not None:
        kept = _kept_parts(run)
        if not kept:
            return  # a recording from before there were any, or they are damaged
        written = set(names)
        others = {name: digest for name, digest in kept.items() if name not in written}
        digests = {**others, **{name: digests[name] for name in written if name in digests}}
    run.attrs[PARTS_ATTRIBUTE] = json.dumps(digests, sort_keys=True)


def _tree_digest(items: Iterable[tuple[str, Any]], first: str = "", *, with_levels: bool = True) -> str:
    digest = hashlib.sha256(_encoded(first))
    waiting = sorted(items, key=lambda named: named[0], reverse=True)
    while waiting:
        path, item = waiting.pop()
        digest.update(_encoded(repr(path) + _attributes(item)))
        if hasattr(item, "items"):
            covered = ((name, one) for name, one in item.items() if _is_covered(name, one, with_levels))
            below = ((f"{path}/{name}", one) for name, one in covered)
            waiting += sorted(below, key=lambda named: named[0], reverse=True)
        elif ATTRIBUTE not in item.attrs:
            value = np.asarray(item[()])
            digest.update(_encoded(repr(value.shape)))
            if value.dtype.kind in "biuf":
                update(digest, np.atleast_1d(value))
            else:
                digest.update(_encoded(repr(value.tolist())))
    return digest.hexdigest()


def _is_covered(name: str, item: Any, with_levels: bool) -> bool:
    """Tell whether something below a part belongs to its digest: levels without one of their own do not."""
    if name not in DERIVED or not with_levels or not hasattr(item, "items"):
        return name not in DERIVED
    return any(ATTRIBUTE in level.attrs for level in item.values())


def _attributes(item: Any) -> str:
    names = sorted(name for name in item.attrs if name not in NOT_COVERED)
    return repr([(name, np.asarray(item.attrs[name]).tolist()) for name in names])


def _encoded(text: str) -> bytes:
    return text.encode("utf-8", "backslashreplace")
