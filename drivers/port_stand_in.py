"""What stands in front of an open port, sees what is read, and is that port in everything else."""

from __future__ import annotations

from typing import Any

from drivers.link import Port

__all__ = ["PortStandIn"]


class PortStandIn:
    """Hands everything on to `port`; subclasses come between where they have to."""

    def __init__(self, port: Port) -> None:
        object.__setattr__(self, "_port", port)

    def __getattr__(self, name: str) -> Any:
        return getattr(object.__getattribute__(self, "_port"), name)

    def __setattr__(self, name: str, value: Any) -> None:
        setattr(object.__getattribute__(self, "_port"), name, value)
