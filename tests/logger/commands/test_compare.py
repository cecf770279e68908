"""Comparing real files: lessons brought in by the import command, a blank among them."""

import hashlib
import json

import numpy as np
import pytest

from drivers.simulated.cell import LessonCell
from drivers.simulated.lesson import LESSONS
from logger.commands import main
from tests.logger.simulated_run import BENCH, readings


def bring_in(folder, name, seed, *, is_blank=False):
    """Make a recording of a simulated lesson by the import command."""
    plan = LESSONS["demo"]
    if is_blank:
        plan = type(plan)(
            plan.dry_s, plan.before_s, plan.growth_s, plan.out_s, plan.after_s, lambda seconds: 0.0 * seconds
        )
    cell = LessonCell(plan, seed)
    times, volts = readings(cell)
    table = "\n".join(f"{t:.1f},{v:.3f}" for t, v in zip(times, volts, strict=True))
    (folder / f"{name}.csv").write_text(f"time_s,cell_voltage_V\n{table}\n")
    tags = [tag for tag in cell.moments if not (is_blank and tag.kind == "salt_added")]
    lines = "\n".join(f"{tag.time_s:.1f},{tag.kind}," for tag in tags)
    (folder / f"{name}_moments.csv").write_text(f"time_s,kind,label\n{lines}\n")
    (folder / "bench.toml").write_text(BENCH)
    status = main([
        "import", str(folder / f"{name}.csv"), "--moments", str(folder / f"{name}_moments.csv"),
        "--bench", str(folder / "bench.toml"), "--out", str(folder / f"{name}.h5"),
    ])  # fmt: skip
    assert status == 0
    return folder / f"{name}.h5"


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("compare")
    runs = [bring_in(folder, f"run{seed}", seed) for seed in (1, 2, 3)]
    return [*runs, bring_in(folder, "blank", 11, is_blank=True)]


def digests(files):
    return [hashlib.sha256(path.read_bytes()).hexdigest() for path in files]


def test_text_comes_first_and_files_stay_as_they_are(files, capsys) -> None:
    before = digests(files)
    assert main(["compare", *map(str, files)]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    rows = out.splitlines()
    assert rows[0].split()[:4] == ["run", "kind", "before", "after"]
    assert [row.split()[1] for row in rows[1:5]] == ["run", "run", "run", "blank"]
    assert "on average of 3 (95 %)" in out
    assert "blank.h5 counts as a blank" in out
    assert digests(files) == before


def test_one_document_of_json(files, capsys) -> None:
    assert main(["compare", "--json", *map(str, files)]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["quantity"] == "saved_at_equal_current"
    savings = [one["saved"]["value_V"] for one in document["runs"] if one["kind"] == "run"]
    assert document["with_salt"]["statistics"]["mean"] == pytest.approx(float(np.mean(savings)))
    assert document["with_salt"]["statistics"]["standard_deviation"] == pytest.approx(
        float(np.std(savings, ddof=1))
    )
    assert document["against_blanks"] is None
    assert {one["code"] for one in document["warnings"]} >= {"taken_as_blank", "one_blank"}


def test_the_same_saving_as_analyse_says(files, capsys) -> None:
    assert main(["compare", "--json", *map(str, files[:2])]) == 0
    compared = json.loads(capsys.readouterr().out)["runs"][0]
    assert main(["analyse", "--json", str(files[0])]) == 0
    analysed = json.loads(capsys.readouterr().out)[0]["voltage_saved"]
    assert compared["as_measured"]["value_V"] == analysed["value_V"]
    assert (
        compared["at_equal_current"]["standard_uncertainty_V"]
        == (analysed["at_equal_current_standard_uncertainty_V"])
    )


@pytest.mark.parametrize("ending", ["html", "svg"])
def test_a_report_is_written_and_nothing_replaced_unasked(files, capsys, tmp_path, ending) -> None:
    out = tmp_path / f"Klasse ü 1.{ending}"
    assert main(["compare", *map(str, files[:2]), "--to", str(out)]) == 0
    assert f"Wrote {out}" in capsys.readouterr().out
    text = out.read_text("utf-8")
    assert "2 runs compared" in text
    assert list(tmp_path.iterdir()) == [out]
    assert main(["compare", *map(str, files[:2]), "--to", str(out)]) == 1
    assert "exists" in capsys.readouterr().err
    assert out.read_text("utf-8") == text


def test_an_unknown_ending_is_refused_before_any_work(capsys, tmp_path) -> None:
    assert main(["compare", "no.h5", "none.h5", "--to", str(tmp_path / "a.doc")]) == 1
    assert "known: .html, .pdf, .svg, .png" in capsys.readouterr().err
