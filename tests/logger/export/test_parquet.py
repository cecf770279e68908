"""Parquet, read back by pyarrow's own reader."""

from __future__ import annotations

import json

import numpy as np
import pytest

from logger.errors import OutputExists
from logger.export.parquet import export_parquet
from tests.logger.export.test_picture import lesson

parquet = pytest.importorskip("pyarrow.parquet", exc_type=ImportError)


def test_every_bit_and_what_belongs_to_the_run(tmp_path):
    run = lesson()
    run.channels[0].values[:2] = [np.inf, -np.inf]
    (out,) = export_parquet(run, tmp_path / "ü 1.parquet")
    table = parquet.read_table(out)
    assert table.column_names == ["time_s", "cell_voltage_V", "quality"]
    np.testing.assert_array_equal(table["time_s"].to_numpy(), run.channels[0].times_s)
    np.testing.assert_array_equal(table["cell_voltage_V"].to_numpy(), run.channels[0].values)
    np.testing.assert_array_equal(table["quality"].to_numpy(), run.channels[0].quality)
    about = json.loads(table.schema.metadata[b"galvanote"])
    assert about["start_time"] == run.start_time
    assert [one["kind"] for one in about["moments"]] == ["buffer_in", "salt_added", "note"]
    assert about["gaps"][0]["reason"] == "unplugged"


def test_what_exists_is_kept_unless_asked(tmp_path):
    (tmp_path / "a.parquet").write_text("mine")
    with pytest.raises(OutputExists):
        export_parquet(lesson(), tmp_path / "a.parquet")
    assert (tmp_path / "a.parquet").read_text() == "mine"
    export_parquet(lesson(), tmp_path / "a.parquet", replace=True)
    assert parquet.read_table(tmp_path / "a.parquet").num_rows == 3600
