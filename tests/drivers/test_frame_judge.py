"""Repeats and lone outliers in a row of frames."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from drivers.frame_judge import LoneOutliers, RepeatWatch, TimedReading
from drivers.samples import Quality


def judged(values: list[float], step: float = 0.001) -> list[tuple[float, Quality]]:
    watch = LoneOutliers()
    out = []
    for place, value in enumerate(values):
        out += watch.feed(TimedReading(float(place), value, step if math.isfinite(value) else 0.0))
    return [(one.value_V, one.quality) for one in [*out, *watch.flush()]]


class TestRepeats:
    def flags(self, frames: list[tuple[float, bytes]]) -> list[bool]:
        watch = RepeatWatch()
        return [watch.is_repeat(raw, time_s) for time_s, raw in frames]

    def test_each_conversion_sent_twice(self):
        """The second of two equal frames 60 ms apart, with conversions 0.4 s apart (reference, 2e)."""
        frames = [(0.4 * k + 0.06 * copy, b"%d" % k) for k in range(20) for copy in (0, 1)]
        flags = self.flags(frames)
        assert flags[8:] == [False, True] * 16
        assert not any(flags[0::2])

    def test_a_steady_voltage_is_no_repeat(self):
        assert not any(self.flags([(0.4 * k, b"same") for k in range(50)]))

    def test_a_little_jitter_is_no_repeat(self):
        frames = [(0.4 * k + (0.1 if k % 3 else 0.0), b"same") for k in range(50)]
        assert not any(self.flags(frames))

    def test_only_exact_repeats_count(self):
        frames = [(0.4 * k + 0.06 * copy, b"%d %d" % (k, copy)) for k in range(20) for copy in (0, 1)]
        assert not any(self.flags(frames))

    def test_the_period_is_that_of_conversions(self):
        watch = RepeatWatch()
        for k in range(60):
            for copy in (0, 1):
                watch.is_repeat(b"%d" % k, 0.4 * k + 0.06 * copy)
        assert watch.period_s is not None
        assert abs(watch.period_s - 0.4) < 1e-9


class TestLoneOutliers:
    def test_a_lone_outlier_is_marked_and_kept(self):
        assert judged([1.500, 1.501, 7.5, 1.501, 1.502]) == [
            (1.500, Quality.GOOD),
            (1.501, Quality.GOOD),
            (7.5, Quality.SUSPECT),
            (1.501, Quality.GOOD),
            (1.502, Quality.GOOD),
        ]

    def test_a_step_is_none(self):
        assert all(quality == Quality.GOOD for _, quality in judged([1.5, 1.5, 7.5, 7.5, 7.5]))

    def test_neighbours_that_do_not_agree_clear_it(self):
        assert all(quality == Quality.GOOD for _, quality in judged([1.500, 7.5, 1.503]))
        assert judged([1.500, 7.5, 1.502])[1] == (7.5, Quality.SUSPECT)

    def test_twenty_counts_are_not_too_many(self):
        assert all(quality == Quality.GOOD for _, quality in judged([1.500, 1.520, 1.500]))
        assert judged([1.500, 1.521, 1.500])[1][1] == Quality.SUSPECT

    def test_a_lone_overload_is_one_too(self):
        assert judged([1.5, math.inf, 1.5])[1] == (math.inf, Quality.SUSPECT)
        assert all(quality == Quality.GOOD for _, quality in judged([1.5, math.inf, math.inf, 1.5, 1.5]))
        assert judged([math.inf, math.inf, 1.5, math.inf])[2] == (1.5, Quality.SUSPECT)

    def test_a_point_in_the_wrong_place(self):
        """The outlier's own count is ten times larger; its neighbours' count decides."""
        watch = LoneOutliers()
        rows = [(1.234, 0.001), (12.34, 0.01), (1.235, 0.001)]
        out = [one for t, (v, s) in enumerate(rows) for one in watch.feed(TimedReading(float(t), v, s))]
        assert [one.quality for one in out] == [Quality.GOOD, Quality.SUSPECT, Quality.GOOD]

    def test_only_a_jump_waits(self):
        watch = LoneOutliers()
        assert len(watch.feed(TimedReading(0.0, 1.0, 0.001))) == 1
        assert len(watch.feed(TimedReading(1.0, 1.01, 0.001))) == 1
        assert watch.feed(TimedReading(2.0, 2.0, 0.001)) == []
        assert watch.held is not None
        assert len(watch.flush()) == 1
        assert len(watch.feed(TimedReading(3.0, 2.0, 0.001))) == 1

    @given(st.lists(st.sampled_from([0.0, 1.0, 1.001, 1.03, 5.0, math.inf, -math.inf]), max_size=30))
    def test_every_reading_comes_out_once_and_in_order(self, values: list[float]):
        assert [value for value, _ in judged(values)] == values

    @given(st.lists(st.sampled_from([0.0, 1.0, 1.001, 1.03, 5.0, math.inf]), max_size=30))
    def test_marked_are_exactly_those_of_the_rule(self, values: list[float]):
        """The rule written down a second time: between neighbours that agree, far from both."""

        def counts(a: float, b: float) -> float:
            return 0.0 if a == b else round(abs(a - b) / 0.001, 6)

        expected = [False] * len(values)
        for k in range(1, len(values) - 1):
            before = next(values[j] for j in range(k - 1, -1, -1) if not expected[j])
            here, after = values[k], values[k + 1]
            expected[k] = counts(before, after) <= 2 and min(counts(here, before), counts(here, after)) > 20
        assert [quality == Quality.SUSPECT for _, quality in judged(values)] == expected
