"""Lets programs that no one here wrote open every export: python -m tests.campaigns.outside_readers [--quick]

A simulated lesson with hostile labels is exported in every format. What is not installed is named as skipped,
and then the campaign fails. Used: frictionless, openpyxl, pandas, xarray, pyarrow, Pillow,
h5dump (hdf5-tools), pdfinfo/pdftotext/pdftoppm (poppler-utils), soffice (libreoffice-calc-nogui), chromium,
xmllint (libxml2-utils) and the NeXus definitions' nxcheck.
--quick leaves out LibreOffice, Chromium and nxcheck, and skips what is not there.
"""

from __future__ import annotations

import argparse
import base64
import contextlib
import csv
import functools
import http.server
import io
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np

from logger.commands import main as galvanote
from logger.moments import clean_label
from logger.picture_edits import attach
from logger.reader import read_recording
from logger.recording import Recording
from tests.campaigns.table import print_table
from tests.logger.export.hostile import LABELS
from tests.logger.shelf_files import write_recording
from tests.logger.simulated_run import BENCH
from tests.logger.simulated_run import lesson as simulated_lesson
from tests.logger.test_attachments import png

FORMATS = ("csv", "xlsx", "png", "svg", "pdf", "html", "parquet")
PICTURES = (png(300, 200, 60), png(200, 400, 90), png(50, 50, 120))
PICTURE_NAMES = ("<img src=x onerror=\"document.title='run'\">.png", "=1+1,'x'.png", "anode ü.png")
SIXTEEN_DIGITS = 5e-16
"""XlsxWriter writes 16 significant digits."""


class Skipped(Exception):
    """A program or package is not there."""


class Exports:
    """A recording and everything it was exported to, in one folder with an awkward name."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "Über gabe #1 & 100 %"
        self.folder.mkdir()
        made, _ = simulated_lesson(seed=5)
        channel = made.channels[0]
        values_V = channel.values.copy()
        values_V[:3] = [np.inf, np.inf, -np.inf]
        tags = [(m.time_s, m.kind, m.label) for m in made.moments]
        tags += [(300.0 + i, "note", label) for i, label in enumerate(LABELS)]
        title = "<img src=http://127.0.0.1:9/x onerror=\"document.title='run'\"> =1+1"
        bench = BENCH.replace("[cell]", "[cell]\nmetal_salt = \"=cmd|' /C calc'!A0\"")
        self.path = write_recording(
            self.folder / "Größe 1.h5", channel.times_s, values_V, tags, title=title, bench_toml=bench
        )
        moments = read_recording(self.path).moments
        for moment, name, data in zip(moments, PICTURE_NAMES, PICTURES, strict=False):
            attach(read_recording(self.path), moment.id, name, data)
        for ending in FORMATS:
            self._run("export", str(self.path), "--to", str(self.out(ending)))
        self._run("export", str(self.path), "--to", str(self.folder / "komma.csv"), "--decimal-comma")
        self.recording: Recording = read_recording(self.path)

    def profile(self, name: str) -> Path:
        """Return a new folder, of a plain name, for the settings of a program."""
        return Path(tempfile.mkdtemp(prefix=f"{name}-", dir=self.folder.parent))

    def out(self, ending: str) -> Path:
        """Return where the export with that ending is."""
        return self.folder / f"Größe 1.{ending}"

    def _run(self, *arguments: str) -> None:
        with open(os.devnull, "w") as nowhere:
            kept, sys.stdout = sys.stdout, nowhere
            try:
                assert galvanote(arguments) == 0, arguments
            finally:
                sys.stdout = kept


def tell(program: str, *arguments: object, **options: object) -> str:
    """Run a program that must succeed; return what it told."""
    if shutil.which(program) is None:
        raise Skipped(f"{program} is not installed")
    done = subprocess.run(
        [program, *map(str, arguments)],
        capture_output=True,
        encoding="utf-8",
        timeout=300,
        check=False,
        **options,
    )  # type: ignore[call-overload]
    assert done.returncode == 0, (program, done.stderr[-500:])
    return str(done.stdout)


def package(name: str) -> object:
    """Import a package."""
    try:
        return __import__(name)
    except ImportError as error:
        raise Skipped(f"{name} is not installed") from error


def check_frictionless(exports: Exports) -> str:
    frictionless = package("frictionless")
    counts = []
    for name in ("Größe 1", "komma"):
        with contextlib.chdir(exports.folder):
            report = frictionless.validate(f"{name}.datapackage.json")  # type: ignore[attr-defined]
        assert report.valid, report.flatten(["title", "message"])
        counts.append(f"{report.stats['tasks']} tables valid")
    return ", ".join(counts)


def check_pandas(exports: Exports) -> str:
    pandas = package("pandas")
    channel = exports.recording.channels[0]
    for name, choices in (("Größe 1", {}), ("komma", {"sep": ";", "decimal": ","})):
        table = pandas.read_csv(exports.folder / f"{name}.csv", **choices)  # type: ignore[attr-defined]
        np.testing.assert_array_equal(table["time_s"], channel.times_s)
        np.testing.assert_array_equal(table["cell_voltage_V"], channel.values)
        np.testing.assert_array_equal(table["quality"], channel.quality)
    moments = pandas.read_csv(exports.folder / "Größe 1.moments.csv", keep_default_na=False)  # type: ignore[attr-defined]
    assert len(moments) == len(exports.recording.moments)
    return f"{len(table)} rows equal in every bit, both forms of CSV"


def check_parquet(exports: Exports) -> str:
    package("pyarrow")
    from pyarrow import parquet

    table = parquet.read_table(exports.out("parquet"))
    np.testing.assert_array_equal(table["cell_voltage_V"].to_numpy(), exports.recording.channels[0].values)
    return f"{table.num_rows} rows equal in every bit"


def check_openpyxl(exports: Exports) -> str:
    openpyxl = package("openpyxl")
    book = openpyxl.load_workbook(exports.out("xlsx"))  # type: ignore[attr-defined]
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert {cell.data_type for cell in cells} == {"n", "s"}
    assert not any(cell.hyperlink for cell in cells)
    values = [row[1] for row in book["cell_voltage"].iter_rows(min_row=2, values_only=True)]
    same_values([str(value) for value in values], exports.recording)
    return f"{len(cells)} cells, no formula, {len(book['Summary']._charts)} chart, values equal"


def same_values(texts: list[str], recording: Recording) -> None:
    """Check voltages as texts against the recording, to the digits that a workbook holds."""
    found = np.array([float(text) for text in texts])
    np.testing.assert_allclose(found, recording.channels[0].values, rtol=SIXTEEN_DIGITS, atol=0)


def check_libreoffice(exports: Exports) -> str:
    folder = exports.folder / "libreoffice"
    profile = f"-env:UserInstallation={exports.profile('libreoffice').as_uri()}"
    # Token 8: cells as they are, not as shown; last: every sheet.
    form = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"
    tell("soffice", profile, "--headless", "--convert-to", form, "--outdir", folder, exports.out("xlsx"))
    with next(folder.glob("*-cell_voltage.csv")).open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    # LibreOffice writes 15 digits at most (its own "General" format).
    found = np.array([float(row["cell_voltage_V"]) for row in rows])
    np.testing.assert_allclose(found, exports.recording.channels[0].values, rtol=1e-14)
    tell("soffice", profile, "--headless", "--convert-to", "fods", "--outdir", folder, exports.out("xlsx"))
    tell(
        "soffice", profile, "--headless", "--infilter=Text - txt - csv (StarCalc):44,34,76,1", "--convert-to",
        "fods:OpenDocument Spreadsheet Flat XML", "--outdir", folder, exports.folder / "Größe 1.moments.csv",
    )  # fmt: skip
    formulas = [name.name for name in folder.glob("*.fods") if "table:formula" in name.read_text("utf-8")]
    assert formulas == []
    control = folder / "control.csv"
    control.write_text("label\n=1+1\n")
    tell("soffice", profile, "--headless", "--convert-to", "fods", "--outdir", folder, control)
    assert "table:formula" in (folder / "control.fods").read_text("utf-8")  # it would have run one
    return f"{len(rows)} rows equal, no formula in workbook or CSV; an unguarded label became one"


def check_poppler(exports: Exports) -> str:
    about = tell("pdfinfo", exports.out("pdf"))
    pages = int(re.findall(r"Pages: +(\d+)", about)[0])
    assert 2 <= pages <= 4, "what the first page of so many labels cannot hold follows behind it"
    assert "(A4)" in about
    assert tell("pdfinfo", "-js", exports.out("pdf")) == ""
    text = tell("pdftotext", "-l", "1", "-layout", exports.out("pdf"), "-")
    for part in ("voltage saved, 95 % interval", "Our conclusions", "SHA-256", "Cautions"):
        assert part in text, part
    image = exports.folder / "page"
    tell("pdftoppm", "-r", "50", "-gray", "-singlefile", exports.out("pdf"), image)
    data = image.with_suffix(".pgm").read_bytes()
    dots = np.frombuffer(data, np.uint8)[-413 * 585 :].reshape(585, 413) if len(data) > 413 * 585 else None
    assert dots is not None
    ink = float((dots < 200).mean())
    assert 0.02 < ink < 0.4, ink
    images = tell("pdfimages", "-list", exports.out("pdf")).splitlines()[2:]
    assert len(images) == len(PICTURES)
    return (
        f"{pages} pages of A4, text found on the first, {100 * ink:.0f} % of its dots are ink; "
        f"{len(images)} pictures on the last"
    )


def check_pillow(exports: Exports) -> str:
    """Pictures beside the tables, and those inside the page."""
    package("PIL")
    from PIL import Image

    files = sorted(exports.folder.glob("Größe 1.picture-*.png"))
    assert [file.read_bytes() for file in files] == list(PICTURES)
    sizes = [Image.open(file).size for file in files]
    assert sizes == [(300, 200), (200, 400), (50, 50)]
    held = re.findall(r'src="data:image/png;base64,([^"]+)"', exports.out("html").read_text("utf-8"))
    small = [Image.open(io.BytesIO(base64.b64decode(one))) for one in held]
    for one, (width, height) in zip(small, sizes, strict=True):
        one.load()
        assert abs(one.width / one.height - width / height) < 0.02
    return f"{len(files)} pictures beside the tables byte for byte, {len(small)} small ones in the page"


def check_xml(exports: Exports) -> str:
    tell("xmllint", "--noout", "--nonet", exports.out("svg"))
    return "SVG is well-formed"


@contextmanager
def listening(hits: list[str]) -> Iterator[int]:
    """Serve anything on a free port and note what was asked for."""

    class Handler(http.server.BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            hits.append(self.path)
            self.send_response(204)
            self.end_headers()

        def log_message(self, *_: object) -> None:
            """Say nothing."""

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield server.server_address[1]
    finally:
        server.shutdown()
        server.server_close()


def check_chromium(exports: Exports) -> str:
    hits: list[str] = []
    with listening(hits) as port:
        report = exports.folder / "with links.html"
        text = exports.out("html").read_text("utf-8").replace("127.0.0.1:9/", f"127.0.0.1:{port}/")
        report.write_text(text, "utf-8")
        browse = functools.partial(browse_with, exports.profile("chromium"))
        dom = browse(report, "--dump-dom")
        title = re.search(r"<title>(.*?)</title>", dom, re.DOTALL)
        assert title is not None
        assert "onerror" in title.group(1)  # it is still the words, nothing has run
        assert "<script" not in dom
        browse(report, f"--screenshot={exports.folder / 'report.png'}", "--window-size=1100,1900")
        browse(report, f"--print-to-pdf={exports.folder / 'printed.pdf'}", "--no-pdf-header-footer")
        browse(exports.out("svg"), "--dump-dom")
        assert hits == []
        control = exports.folder / "control.html"
        control.write_text(
            f"<title>x</title><img src=http://127.0.0.1:{port}/y onerror=\"document.title='run'\">"
        )
        assert "<title>run</title>" in browse(control, "--dump-dom")
        assert "/y" in hits  # both would have been seen
    pages = re.search(r"Pages: +(\d+)", tell("pdfinfo", exports.folder / "printed.pdf"))
    shown = (exports.folder / "report.png").stat().st_size
    assert shown > 20_000
    assert pages is not None
    return f"no request, nothing ran (both seen on a control page); prints on {pages.group(1)} page(s)"


def browse_with(profile: Path, path: Path, *arguments: str) -> str:
    return tell(
        "chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={profile}",
        "--disable-background-networking", "--disable-component-update", "--no-first-run",
        "--virtual-time-budget=3000",
        *arguments, path.as_uri(),
    )  # fmt: skip


def check_hdf5(exports: Exports) -> str:
    told = tell("h5dump", "-A", "-g", "/run/cell_voltage", exports.path)
    for part in ("NXdata", "signal", "axes", '"V"'):
        assert part in told, part
    values = tell(
        "h5dump", "-d", "/run/cell_voltage/value", "-s", "100", "-c", "5", "-m", "%.17g", exports.path
    )
    lines = re.sub(r"\(\d+\):", "", values.split("DATA {")[1].split("}")[0])
    found = [float(one) for one in lines.split(",")]
    assert found == exports.recording.channels[0].values[100:105].tolist()
    return "attributes and values as recorded"


def check_xarray(exports: Exports) -> str:
    xarray = package("xarray")
    package("h5netcdf")
    with xarray.open_dataset(exports.path, engine="h5netcdf", group="run/cell_voltage") as data:  # type: ignore[attr-defined]
        assert data["value"].dims == ("time",)
        np.testing.assert_array_equal(data["value"].values, exports.recording.channels[0].values)
        count = data.sizes["time"]
    return f"value(time) with {count} samples equal in every bit"


def check_nexus(exports: Exports) -> str:
    command = [sys.executable, "-m", "tests.campaigns.nexus_check", str(exports.path)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", check=False)
    assert done.returncode == 0, done.stdout + done.stderr[-500:]
    return done.stdout.strip().split(": ")[-1]


def check_labels(exports: Exports) -> str:
    """Not by a foreign reader, but what all of these rest on: the hostile labels are there, cleaned."""
    found = {clean_label(label) for label in LABELS}
    stored = {moment.label for moment in exports.recording.moments}
    assert found <= stored
    about = json.loads((exports.folder / "Größe 1.datapackage.json").read_text("utf-8"))
    return f"{len(LABELS)} hostile labels in {len(about['resources'])} tables"


CHECKS: dict[str, Callable[[Exports], str]] = {
    "frictionless": check_frictionless,
    "pandas": check_pandas,
    "pyarrow": check_parquet,
    "openpyxl": check_openpyxl,
    "LibreOffice": check_libreoffice,
    "poppler": check_poppler,
    "Pillow": check_pillow,
    "xmllint": check_xml,
    "Chromium": check_chromium,
    "h5dump": check_hdf5,
    "xarray": check_xarray,
    "nxcheck": check_nexus,
    "labels": check_labels,
}


HEAVY = frozenset({"LibreOffice", "Chromium", "nxcheck"})


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument(
        "--quick", action="store_true", help="without the heavy ones; what is not installed is skipped"
    )
    parser.add_argument("--keep", type=Path, help="make the exports in this folder and leave them there")
    chosen = parser.parse_args(arguments)
    rows, failed = [], 0
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as temporary:
        exports = Exports(chosen.keep or Path(temporary))
        for name, check in CHECKS.items():
            if chosen.quick and name in HEAVY:
                continue
            try:
                verdict = check(exports)
            except Skipped as reason:
                verdict = f"SKIPPED: {reason}"
                failed += not chosen.quick
            except AssertionError as error:
                verdict = f"FAILED: {' '.join(str(error).split())[:300]}"
                failed += 1
            rows.append([name, verdict])
    print_table(["reader", "what it found"], rows)
    return 1 if failed else 0


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    raise SystemExit(main())
