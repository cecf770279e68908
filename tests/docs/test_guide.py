"""The guide holds: its links lead somewhere, its commands exist, its snippets run, its numbers are found."""

import ast
import re
import shlex
import shutil

import h5py
import numpy as np
import pytest

from gui.app import _parser as window_parser
from logger.analysis.findings import findings
from logger.analysis.findings_text import findings_text
from logger.bench import parse_bench, read_bench
from logger.commands import _parser, main
from logger.reader import read_recording
from tests.docs.pages import DOCS, PAGES, ROOT, fenced, page_id

INVENTED = ROOT / "recordings" / "invented"
LINK = re.compile(r"\]\(([^)#]+)?(?:#([^)]+))?\)")
SNIPPETS = [body for info, body in fenced(DOCS / "formats.md") if info == "python"]


def anchors(path):
    for heading in re.findall(r"^#+ (.+)$", path.read_text("utf-8"), re.MULTILINE):
        yield re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


@pytest.mark.parametrize("page", PAGES, ids=page_id)
def test_links_lead_somewhere(page):
    for target, anchor in LINK.findall(page.read_text("utf-8")):
        if target.startswith(("http:", "https:")):
            continue
        path = page if not target else (page.parent / target)
        assert path.exists(), f"{page_id(page)} links to {target}"
        if anchor:
            assert anchor in anchors(path), f"{page_id(page)} links to #{anchor}"


def test_every_page_of_the_guide_is_in_its_list():
    listed = {target for target, _ in LINK.findall((DOCS / "README.md").read_text("utf-8"))}
    assert {page.name for page in DOCS.glob("*.md")} - {"README.md"} <= listed


def commands():
    for page in PAGES:
        for info, body in fenced(page):
            if info == "":
                for line in body.splitlines():
                    if line.startswith("galvanote"):
                        yield pytest.param(line, id=f"{page_id(page)}: {line[:40]}")


@pytest.mark.parametrize("line", list(commands()))
def test_commands_are_known_with_these_options(line):
    name, *arguments = shlex.split(line, comments=True)
    parser = {"galvanote": _parser, "galvanote-window": window_parser}[name]()
    parser.parse_args(arguments)  # a wrong one raises SystemExit


@pytest.fixture
def folder(tmp_path, monkeypatch):
    shutil.copy(INVENTED / "good-lesson.h5", tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def need_its_libraries(code):
    for node in ast.walk(ast.parse(code)):
        if isinstance(node, ast.Import):
            for one in node.names:
                pytest.importorskip(one.name.partition(".")[0])
    if "h5netcdf" in code:
        pytest.importorskip("h5netcdf")


def run_snippet(code):
    need_its_libraries(code)
    variables = {}
    exec(compile(code, "docs/formats.md", "exec"), variables)
    return variables


@pytest.mark.parametrize("code", SNIPPETS, ids=map(str, range(len(SNIPPETS))))
def test_snippets_run_and_say_something(code, folder, capsys):
    need_its_libraries(code)
    for ending in [one for one in ("csv", "parquet") if f"good-lesson.{one}" in code]:
        assert main(["export", "good-lesson.h5", "--to", f"good-lesson.{ending}"]) == 0
    capsys.readouterr()
    run_snippet(code)
    assert capsys.readouterr().out.strip()


def snippet_with(words):
    (found,) = [code for code in SNIPPETS if words in code]
    return found


def truth(name):
    with h5py.File("good-lesson.h5") as file:
        return float(file[f"run/instrument/cell_voltage/details/truth_{name}"][()])


def test_the_h5py_snippet_finds_the_voltage_before(folder):
    found = run_snippet(snippet_with("before_salt ="))
    before_V = found["voltage_V"][found["before_salt"]].mean()
    assert before_V == pytest.approx(truth("voltage_before_V"), abs=0.005)  # lesson noise: bubbles of 2 mV


def test_the_findings_snippet_holds_the_truth_and_a_bench_file(folder):
    found = run_snippet(snippet_with("bench_toml"))
    low_V, high_V = found["findings"]["voltage_saved"]["interval95_V"]
    assert low_V <= truth("saved_V") <= high_V
    assert parse_bench(found["bench_toml"]).cell.anode_area_cm2 == 2.0


def test_the_xarray_snippet_averages_all_readings(folder):
    found = run_snippet(snippet_with("import xarray"))
    averaged, all_V = found["each_10_s"], found["voltage_V"]
    assert averaged.sizes["time"] == 167  # 1664.5 s in tens
    assert float(averaged[0]) == pytest.approx(float(np.mean(all_V.values[:20])), abs=1e-12)  # two a second


def test_the_csv_snippet_finds_the_phases(folder, capsys):
    assert main(["export", "good-lesson.h5", "--to", "good-lesson.csv"]) == 0
    found = run_snippet(snippet_with("read_csv"))
    medians = found["readings"].groupby(found["phase"], observed=True)["cell_voltage_V"].median()
    assert medians["dry_cell"] == pytest.approx(truth("open_circuit_voltage_V"), abs=0.01)
    assert medians["electrodes_in"] == pytest.approx(truth("voltage_after_V"), abs=0.01)


QUOTES = [
    pytest.param(info.split()[1], line, id=f"{info.split()[1]}: {line[:30]}")
    for info, body in fenced(DOCS / "findings.md")
    if info.startswith("findings ")
    for line in body.splitlines()
]


@pytest.fixture(scope="module")
def printed():
    no_break = "\N{NO-BREAK SPACE}"
    return {
        name: findings_text(findings(read_recording(INVENTED / f"{name}.h5")))
        .replace(no_break, " ")
        .splitlines()
        for name in {one.values[0] for one in QUOTES}
    }


@pytest.mark.parametrize(("name", "line"), QUOTES)
def test_quoted_findings_are_those_of_the_recording(name, line, printed):
    assert line in printed[name]


def test_csv_out_and_in_again_gives_the_same_findings(folder):
    blocks = [body for info, body in fenced(DOCS / "formats.md") if "galvanote import" in body]
    for line in "\n".join(blocks).splitlines():
        assert main(shlex.split(line)[1:]) == 0
    again, whole, first = (
        findings(read_recording(folder / f"{name}.h5")) for name in ("again", "whole", "good-lesson")
    )
    for found in (again, whole, first):
        del found["file"]
    assert whole == first
    for found in (again, first):
        del found["run"]["duration_s"]  # of the last reading in a table; the run ended a moment later
    assert again == first


@pytest.mark.parametrize("path", sorted((ROOT / "recordings").rglob("*.toml")), ids=page_id)
def test_the_bench_files_can_be_used_and_say_that_they_are_invented(path):
    assert read_bench(path).steps
    assert path.read_text("utf-8").startswith("# ")
    assert "nvented" in path.read_text("utf-8").splitlines()[0]


def test_the_bench_of_the_laboratory_can_be_used():
    (text,) = [body for info, body in fenced(DOCS / "laboratory.md") if info == "toml"]
    assert parse_bench(text).settling.limit_mV_per_min == 0.5
