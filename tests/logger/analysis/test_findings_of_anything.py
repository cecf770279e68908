"""Whatever a recording holds, the findings are complete, plain, and do not fail."""

import json

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from drivers.samples import Samples
from logger.analysis.findings import findings
from logger.analysis.findings_text import findings_text
from logger.assessment import Assessment
from logger.bench import parse_bench
from logger.errors import BenchError
from logger.moments import KINDS
from tests.logger.simulated_run import BENCH, channel, recording

BENCHES = (
    BENCH,
    "",
    "[supply]\nstack_voltage_V = 4.5\nresistor_ohm = 100\n",
    "[supply]\ncurrent_A = 0.002\n",
    "[settling]\nwindow_s = 5\nlimit_mV_per_min = 0.01\n",
    "[settling]\nwindow_s = 7200\n",
    "not TOML [",
    "[supply]\nresistor_ohm = 1000\ncells = 3\ncell_voltage_V = 9\n"
    "[cell]\ntemperature_C = 99.9\npressure_kPa = 31\n",
)
LEVELS = (0.0, 0.9, 1.3, 2.0, 2.25, 3.9, 6.0, 26.97, -2.25, np.nan, np.inf, -np.inf, 1e300, -1e300, 5e-324)
LABELS = ("", "4.7k", "22 degC", "nothing", "-5", "1e999", "0", "inf", "295")

stretches = st.lists(
    st.tuples(
        st.sampled_from(LEVELS),
        st.integers(1, 120),
        st.sampled_from([0.0, 0.1, 0.4, 1.0, 60.0, 1e5]),
        st.sampled_from([0.0, 0.001]),
    ),
    max_size=12,
)
moments = st.lists(
    st.tuples(st.floats(0, 2000), st.sampled_from(sorted(KINDS)), st.sampled_from(LABELS)), max_size=8
)


def samples(parts):
    random = np.random.default_rng(1)
    values = [level + noise * random.normal(size=count) for level, count, _, noise in parts]
    steps = [np.full(count, step) for _, count, step, _ in parts]
    joined = np.concatenate([np.empty(0), *values])
    return np.cumsum(np.concatenate([np.empty(0), *steps])), joined


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@example([(2.0, 31, 0.1, 0.0), (1e300, 1, 0.0, 0.0)], [], BENCH, 0)
@given(stretches, moments, st.sampled_from(BENCHES), st.integers(0, 255))
def test_never_fails(parts, tags, bench, flags):
    times, values = samples(parts)
    quality = np.where(np.arange(times.size) % 7 == 0, flags, 0)
    document = findings(recording(channel(times, values, quality=quality), moments=tags, bench=bench))
    assert json.loads(json.dumps(document, allow_nan=False)) == document
    assert findings_text(document)
    saved = document["voltage_saved"]
    if saved is not None:
        assert document["settled"]["before"] is not None
        assert document["settled"]["after"] is not None
        assert saved["standard_uncertainty_V"] > 0.0


@settings(max_examples=80, suppress_health_check=[HealthCheck.too_slow])
@given(stretches, moments, st.sampled_from(BENCHES), st.integers(1, 50))
def test_the_live_assessment_never_fails(parts, tags, bench, size):
    try:
        table = parse_bench(bench)
    except BenchError:
        table = None
    times, values = samples(parts)
    assessment = Assessment(table)
    run = recording(channel(times, values), moments=tags)
    for begin in range(0, times.size, size):
        part = slice(begin, begin + size)
        flags = np.zeros(times[part].size, dtype=np.uint8)
        assessment.add(Samples("cell_voltage", times[part], values[part], flags))
        assessment.set_moments(run.moments)
        view = assessment.view(float(times[part][-1]) + 1.0)
        assert view.verdict in ("settled", "not_yet", "cannot_tell")
        assert view.charge_C is None or np.isfinite(view.charge_C)


@pytest.mark.parametrize("count", [0, 1, 2, 29, 30, 31])
def test_few_readings(count):
    document = findings(recording(channel(0.4 * np.arange(count), np.full(count, 2.25))))
    assert document["voltage_saved"] is None
