"""The growth of whole runs: found where a model holds, honest where none does."""

import numpy as np
import pytest

from logger.analysis.findings import findings
from logger.analysis.findings_text import findings_text
from tests.logger.simulated_run import channel, lesson, recording

TAGS = [(20.0, "buffer_in"), (300.0, "salt_added"), (1200.0, "electrodes_out"), (1230.0, "electrodes_in")]


def grown(law, seed, sd=0.002):
    """A run of which the voltage follows `law` of the seconds since the salt, with bubble noise."""
    times = np.arange(0.1, 1700.0, 0.4)
    random = np.random.default_rng(seed)
    volts = np.where(times < 300, law(0.0), law(np.clip(times - 300, 0, 900)))
    phi = np.exp(-0.4 / 9.5)
    noise = np.empty(times.size)
    noise[0] = random.normal()
    for k, step in enumerate(np.sqrt(1 - phi * phi) * random.normal(size=times.size - 1), start=1):
        noise[k] = phi * noise[k - 1] + step
    volts = volts + sd * noise + 0.0003 * random.normal(size=times.size)
    volts[(times < 20) | ((times > 1200) & (times < 1230))] = 26.97
    return recording(channel(times, np.round(volts, 3)), moments=TAGS)


def codes(document):
    return [one["code"] for one in document["warnings"]]


def test_an_exponential_growth_is_found():
    right, hits = 0, 0
    for seed in range(8):
        document = findings(grown(lambda t: 2.0 + 0.25 * np.exp(-t / 150), seed))
        growth = document["growth"]
        assert growth["lack_of_fit"] < 2.0
        assert growth["settling_voltage_V"] == pytest.approx(2.0, abs=0.005)
        assert {"exponential", "stretched exponential"} <= set(growth["aicc"])
        assert "growth_poor_fit" not in codes(document)
        if growth["model"] == "exponential":  # else, by chance, a richer one
            right += 1
            u = growth["standard_uncertainties"]["time_constant_s"]
            hits += abs(growth["time_constant_s"] - 150) <= 2.2 * u
    assert right >= 6
    assert hits >= right - 1


def test_a_logarithmic_growth_has_no_settling_voltage():
    document = findings(grown(lambda t: 2.25 - 0.1 * np.log10(1 + t / 10), 1))
    assert document["growth"]["model"] == "logarithmic"
    assert document["growth"]["time_constant_s"] is None
    assert document["growth"]["settling_voltage_V"] is None


def test_too_short_a_growth_does_not_say_where_it_would_settle():
    document = findings(grown(lambda t: 2.0 + 0.25 * np.exp(-t / 600), 2))
    growth = document["growth"]
    if growth is not None and growth["model"] == "exponential":
        assert growth["settling_voltage_V"] is None
        assert "growth_too_short" in codes(document)
    else:
        assert {"no_growth_fit", "growth_not_distinguishable", "growth_poor_fit"} & set(codes(document))


def test_the_delayed_growth_of_the_simulator_is_none_of_the_models():
    """Its coverage is logistic: a delay, then a ramp. Reporting a time constant would be wrong."""
    for seed in range(4):
        document = findings(lesson(seed, faults=("rounded_1mV",))[0])
        growth = document["growth"]
        assert growth is None or growth["time_constant_s"] is None
        assert {"no_growth_fit", "growth_poor_fit"} & set(codes(document))


def test_no_fall_is_no_growth():
    document = findings(grown(lambda t: 2.25 + 0.0 * t, 3))
    assert document["growth"] is None
    assert "no_growth_fit" in codes(document)


def test_a_model_that_does_not_describe_the_growth_has_no_uncertainties():
    """A delay of 200 s and then a ramp: no exponential, however well its parameters seem to be known."""
    delayed = grown(lambda t: np.where(t < 200, 2.25, np.maximum(2.0, 2.25 - 0.25 * (t - 200) / 600)), 5)
    document = findings(delayed)
    assert document["growth"] is None or document["growth"]["standard_uncertainties"] is None
    assert {"no_growth_fit", "growth_poor_fit"} & set(codes(document))
    poor = findings(grown(lambda t: 2.0 + 0.25 * np.exp(-t / 100) * np.cos(t / 60) ** 2, 5))
    assert "growth_poor_fit" in codes(poor)
    assert poor["growth"]["standard_uncertainties"] is None
    assert "does not describe it" in findings_text(poor)
