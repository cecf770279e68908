"""What every source must do, whatever is behind it. Each source's tests inherit one of these classes."""

from __future__ import annotations

import gc
import os
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import pytest

from drivers.errors import CannotOpen, SourceEnded, SourceError, SourceLost
from drivers.run_clock import RunClock
from drivers.samples import ROLES, Delivery, Quality, Samples
from drivers.source import Source

READ_TIMEOUT_S = 0.2


@dataclass
class Bench:
    """A way to make sources on one and the same instrument, and the clock of the run.

    `most_reads` bounds how many calls of `read` a test waits for what should come.
    """

    make: Callable[[], Source]
    clock: RunClock
    most_reads: int = 200


@dataclass
class InstrumentBench(Bench):
    """A bench whose instrument can be pulled out, put back, and told to say nothing."""

    unplug: Callable[[], None] = lambda: None
    replug: Callable[[], None] = lambda: None
    hush: Callable[[], None] = lambda: None


def collect(source: Source, bench: Bench, samples: int) -> list[Samples]:
    """Read until at least `samples` samples have come, or the source has ended."""
    blocks: list[Samples] = []
    for _ in range(bench.most_reads):
        try:
            delivery = source.read(READ_TIMEOUT_S)
        except SourceEnded:
            return blocks
        check_well_formed(delivery, source, bench.clock.now_s())
        blocks.extend(delivery.samples)
        if sum(map(len, blocks)) >= samples:
            return blocks
    raise AssertionError(f"{sum(map(len, blocks))} of {samples} samples after {bench.most_reads} reads")


def read_on(source: Source, bench: Bench, blocks: list[Samples]) -> None:
    """Read `most_reads` times and keep what comes; for tests in which the source should raise meanwhile."""
    for _ in range(bench.most_reads):
        blocks.extend(source.read(READ_TIMEOUT_S).samples)


def check_well_formed(delivery: Delivery, source: Source, now_s: float) -> None:
    """Assert all that the contract says about one delivery."""
    names = {channel.name for channel in source.channels}
    for block in delivery.samples:
        assert block.channel in names
        assert block.times_s.dtype == np.float64
        assert block.values.dtype == np.float64
        assert block.quality.dtype == np.uint8
        assert len(block) > 0
        assert np.isfinite(block.times_s).all()
        assert (block.times_s >= 0).all()
        assert (block.times_s <= now_s + 1e-6).all(), "a sample from the future"
        assert not np.isnan(block.values).any(), "a value that is none is no sample"
        overload = (block.quality & Quality.OVERLOAD) != 0
        assert (np.isinf(block.values) == overload).all()
        if block.board_ticks is not None:
            assert block.board_ticks.shape == block.times_s.shape
            assert block.board_ticks.dtype == np.int64
    for notice in delivery.notices:
        assert notice.code.isidentifier()
        assert notice.text


def check_order(blocks: list[Samples]) -> None:
    """Assert that times never decrease within a channel."""
    for name in {block.channel for block in blocks}:
        times_s = np.concatenate([block.times_s for block in blocks if block.channel == name])
        assert (np.diff(times_s) >= 0).all()


def open_handles() -> tuple[int, int]:
    """Count the threads and the open file descriptors of this process."""
    gc.collect()
    descriptors = "/proc/self/fd" if sys.platform == "linux" else "/dev/fd"
    return threading.active_count(), len(os.listdir(descriptors)) if os.path.isdir(descriptors) else 0


class SourceContract:
    """What holds for every source, an instrument's or a simulated one."""

    @pytest.fixture
    def bench(self) -> Bench:
        raise NotImplementedError("a source's tests say here how to make it")

    def test_close_needs_no_open_and_may_be_repeated(self, bench: Bench) -> None:
        source = bench.make()
        source.close()
        source.open(bench.clock)
        source.close()
        source.close()

    def test_a_source_that_is_not_open_cannot_be_read(self, bench: Bench) -> None:
        source = bench.make()
        with pytest.raises(SourceError):
            source.read(0.0)

    def test_channels_are_named_and_fixed(self, bench: Bench) -> None:
        with bench.make() as source:
            source.open(bench.clock)
            channels = source.channels
            assert channels
            assert len({channel.name for channel in channels}) == len(channels)
            assert all(channel.role in ROLES for channel in channels)
            collect(source, bench, 3)
            assert source.channels == channels

    def test_what_is_known_is_known_once_open(self, bench: Bench) -> None:
        with bench.make() as source:
            source.open(bench.clock)
            assert source.instrument.address == source.address.text
            assert source.instrument.clock["method"]

    def test_samples_come_in_order_of_time(self, bench: Bench) -> None:
        with bench.make() as source:
            source.open(bench.clock)
            check_order(collect(source, bench, 12))

    def test_opened_again_it_goes_on_in_the_same_run(self, bench: Bench) -> None:
        source = bench.make()
        source.open(bench.clock)
        blocks = collect(source, bench, 3)
        source.close()
        source.open(bench.clock)
        blocks += collect(source, bench, 3)
        source.close()
        check_order(blocks)

    def test_nothing_is_left_behind(self, bench: Bench) -> None:
        before = open_handles()
        with bench.make() as source:
            source.open(bench.clock)
            collect(source, bench, 3)
        assert open_handles() == before


def open_in_time(source: Source, bench: InstrumentBench, attempts: int = 60) -> None:
    """Open an instrument that has just come back, as patiently as a run does."""
    for attempt in range(attempts):
        try:
            source.open(bench.clock)
        except CannotOpen:
            if attempt == attempts - 1:
                raise
            time.sleep(0.1)  # a real process on a real line is still coming up
        else:
            return


class InstrumentContract(SourceContract):
    """What holds further for a source with a cable."""

    @pytest.fixture
    def bench(self) -> InstrumentBench:
        raise NotImplementedError("a source's tests say here how to make it")

    def test_silence_is_an_empty_delivery(self, bench: InstrumentBench) -> None:
        with bench.make() as source:
            source.open(bench.clock)
            collect(source, bench, 2)
            bench.hush()
            deliveries = [source.read(READ_TIMEOUT_S) for _ in range(3)]  # the first may hold what had come
            assert not deliveries[-1].samples

    def test_unplugged_lost_and_back_again(self, bench: InstrumentBench) -> None:
        source = bench.make()
        source.open(bench.clock)
        blocks = collect(source, bench, 3)
        bench.unplug()
        with pytest.raises(SourceLost) as loss:
            read_on(source, bench, blocks)
        assert source.address.port in str(loss.value)
        source.close()
        before = open_handles()
        with pytest.raises(CannotOpen):
            source.open(bench.clock)
        assert open_handles() == before, "a failed open left something open"
        bench.replug()
        open_in_time(source, bench)
        blocks += collect(source, bench, 3)
        source.close()
        check_order(blocks)
