"""Noise that pulls a mean to one side: what is said of it, and that nothing is left out."""

import numpy as np
import pytest

from logger.analysis.findings import findings
from tests.logger.simulated_run import channel, lesson, recording


def told(values_of, seed=3):
    """What the findings say of the voltage after, of a lesson whose readings were changed by `values_of`."""
    run, _ = lesson(seed, faults=("rounded_1mV",))
    source = run.channels[0]
    tags = [(one.time_s, one.kind) for one in run.moments]
    values = values_of(source.times_s, source.values.copy())
    document = findings(recording(channel(source.times_s, values), moments=tags))
    plain = findings(run)["settled"]["after"]["voltage_V"]
    said = [one["message"] for one in document["warnings"] if one["code"] == "one_sided_after"]
    return said, document["settled"]["after"], plain


def bounced(count):
    def change(times, values):
        late = np.flatnonzero(times > 1450.0)
        values[late[:: late.size // count][:count]] = 3.8
        return values

    return change


def test_leads_that_bounced_are_counted_and_stay_in_the_mean():
    (message,), after, undisturbed_V = told(bounced(5))
    assert "5 readings lie far off the others" in message
    furthest_mV = float(message.split("the furthest by ")[1].split()[0])
    assert furthest_mV == pytest.approx(1000 * (3.8 - undisturbed_V), abs=10)
    assert "without them the mean would be 2.00" in message
    length_s = after["window_end_s"] - after["window_begin_s"]
    pulled_V = after["voltage_V"] - undisturbed_V
    assert pulled_V == pytest.approx(1.8 * 5 / (2.5 * length_s), rel=0.3)  # by hand
    assert after["median_V"] == pytest.approx(undisturbed_V, abs=0.0015)


def test_large_bubbles_are_told_from_a_bounced_lead():
    def masked(times, values):
        """A quarter of the time the electrode is covered: 30 mV more."""
        return values + np.where((times % 40.0) < 10.0, 0.030, 0.0)

    (message,), *_ = told(masked)
    assert "large bubbles" in message


def test_a_good_lesson_has_no_such_warning():
    said, *_ = told(lambda times, values: values)
    assert said == []
