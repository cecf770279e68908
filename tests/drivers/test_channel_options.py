"""What the channel keys of an address mean."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drivers.address import parse_address
from drivers.channel_options import ChannelOptions
from drivers.errors import AddressError
from drivers.samples import ROLES
from drivers.source import Channel


def options(query: str = "") -> ChannelOptions:
    return ChannelOptions.from_address(parse_address("scpi:/dev/ttyUSB0" + query))


def test_without_keys_a_channel_is_the_cell_voltage_unchanged():
    plain = options()
    assert plain.channel == Channel("cell_voltage", "cell_voltage", "V")
    assert plain.calibration == {}
    readings = np.array([1.5, -0.1, np.inf])
    assert plain.apply(readings) is readings


@pytest.mark.parametrize("role", ROLES)
def test_a_channel_is_called_after_its_role(role: str):
    assert options(f"?role={role}").channel.name == role
    assert options(f"?role={role}").channel.role == role


def test_channel_names_two_sources_of_one_role_apart():
    channel = options("?role=stack_voltage&channel=stack_2").channel
    assert (channel.name, channel.role) == ("stack_2", "stack_voltage")


def test_a_temperature_is_in_degrees():
    assert options("?role=temperature").channel.unit == "degC"


def test_scale_and_offset_are_applied_and_stated():
    divider = options("?scale=20&offset=-0.005")
    assert divider.calibration == {"scale": 20.0, "offset": -0.005}
    assert divider.apply(np.array([1.0, 0.0])).tolist() == [20.0 - 0.005, -0.005]


def test_overload_keeps_its_direction_through_a_negative_scale():
    assert options("?scale=-2").apply(np.array([np.inf, -np.inf])).tolist() == [-np.inf, np.inf]


def test_a_scale_of_one_is_known_to_have_been_written():
    assert options("?scale=1").has_scale
    assert not options("?offset=1").has_scale


@pytest.mark.parametrize(
    ("query", "names"),
    [
        ("?role=cell_voltge", "did you mean cell_voltage?"),
        ("?role=zzz", "known: cell_voltage"),
        ("?channel=Anode", "channel=Anode"),
        ("?channel=2nd", "channel=2nd"),
        ("?channel=", "channel="),
        ("?scale=0", "scale=0"),
        ("?scale=twenty", "scale=twenty is not a number"),
        ("?scale=nan", "scale=nan is not a number"),
        ("?scale=1e12", "outside"),
        ("?offset=inf", "offset=inf is not a number"),
    ],
)
def test_what_cannot_be_meant_is_refused_with_the_remedy(query: str, names: str):
    with pytest.raises(AddressError) as refusal:
        options(query)
    assert names in str(refusal.value)


@given(st.floats(-9.9e36, 9.9e36), st.floats(-1e9, 1e9).filter(bool), st.floats(-1e9, 1e9))
def test_a_finite_reading_stays_finite(reading: float, scale: float, offset: float):
    channel = options()
    scaled = ChannelOptions(channel.channel, scale, offset).apply(np.array([reading]))
    assert np.isfinite(scaled).all()
