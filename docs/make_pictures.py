"""Make the pictures of the guide from the real window.

    .venv/bin/python docs/make_pictures.py [FOLDER] [--quick]

Needs no screen. It uses of the window only what people use: begin, open, choose a page. A page that cannot be
shown is told, and the others are made all the same. What is seen are a simulated lesson and the invented
recordings, in copies, so that no folder of the computer at hand gets into a picture. With --quick it does not
wait for pages that load for long: to try the script.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QSettings, QStandardPaths, Qt
from PySide6.QtWidgets import QAbstractItemView, QApplication

from gui.demo import demo_bench
from gui.fonts import font, load_fonts
from gui.page_list import FINDINGS, RUN
from gui.session import Plan
from gui.theme import Theme
from gui.window import Window

HERE = Path(__file__).resolve().parent
INVENTED = HERE.parent / "recordings" / "invented"
PAGES = ("bench", FINDINGS, "shelf")
WIDTH, HEIGHT = 1440, 810
LESSON = "cell:demo?seed=4&speed={speed}"
SPEED, QUICK_SPEED = 50, 1000  # the faster, the further the numbers lag behind the curve
PICTURED_S = 900.0  # run time: the catalyst has grown for ten minutes
PATIENCE_S = 90.0
STILL_S, QUICK_STILL_S = 5.0, 0.3  # a page that has not changed for so long shows all it has to show


def wait_for(application: QApplication, is_so: Callable[[], bool], what: str) -> None:
    """Let the window work until `is_so`.

    Raises
    ------
    TimeoutError : it never became so.
    """
    end_s = time.monotonic() + PATIENCE_S
    while not is_so():
        if time.monotonic() > end_s:
            raise TimeoutError(f"{what} did not come within {PATIENCE_S:g} s")
        application.processEvents()
        time.sleep(0.005)


def let_settle(application: QApplication, window: Window, still_s: float) -> None:
    """Let the window work until what it shows has not changed for `still_s`.

    Raises
    ------
    TimeoutError : it goes on changing.
    """
    seen, since_s = window.grab().toImage(), time.monotonic()

    def is_still() -> bool:
        nonlocal seen, since_s
        now = window.grab().toImage()
        if now != seen:
            seen, since_s = now, time.monotonic()
        return time.monotonic() - since_s > still_s

    wait_for(application, is_still, "a still page")


def begin_lesson(application: QApplication, window: Window, speed: int) -> None:
    """Begin a simulated lesson and wait until there is something to see."""
    window.begin(Plan((LESSON.format(speed=speed),), Path("lesson.h5"), demo_bench(), "Simulated lesson"))

    def has_grown() -> bool:
        return window.session is not None and window.session.now_s >= PICTURED_S

    wait_for(application, has_grown, "the simulated lesson")


def picture(window: Window, name: str, folder: Path) -> Path:
    """Save what the window shows now."""
    out = folder / f"{name}.png"
    if not window.grab().save(str(out)):
        raise OSError(f"{out} could not be written")
    return out


def show_page(application: QApplication, window: Window, name: str, still_s: float) -> None:
    """Bring a page to the front, as its tab does; tick what can be ticked, so that runs are compared.

    Raises
    ------
    LookupError : the window has no such page now.
    """
    window.show_page(name)
    if window.stack.present_name() != name:
        raise LookupError(f"the window has no page {name} to show")
    let_settle(application, window, still_s)
    for view in window.findChildren(QAbstractItemView):
        model = view.model()
        for row in range(model.rowCount() if view.isVisible() and model is not None else 0):
            if model.flags(model.index(row, 0)) & Qt.ItemFlag.ItemIsUserCheckable:
                model.setData(model.index(row, 0), Qt.CheckState.Checked, Qt.ItemDataRole.CheckStateRole)
    let_settle(application, window, still_s)


def make_all(application: QApplication, window: Window, folder: Path, *, quick: bool) -> list[str]:
    """Make every picture; return what failed."""
    speed, still_s = (QUICK_SPEED, QUICK_STILL_S) if quick else (SPEED, STILL_S)
    failed = []

    def attempt(name: str, show: Callable[[], None]) -> None:
        try:
            show()
            window.untell("saved")  # the bar names a folder of this computer
            application.processEvents()
            sys.stdout.write(f"{picture(window, name, folder)}\n")
        except Exception as error:  # noqa: BLE001 - one page must not keep the others from being made
            traceback.print_exc()
            failed.append(f"{name}: {error!r}")

    attempt(RUN, lambda: begin_lesson(application, window, speed))
    window.stop()
    wait_for(application, lambda: bool(window.findings_pages), "the end of the lesson")
    window.open_file(Path("good-lesson.h5"))
    wait_for(application, lambda: len(window.findings_pages) > 1, "the invented recording")
    for name in PAGES:
        attempt(name, lambda name=name: show_page(application, window, name, still_s))
    return failed


def main(arguments: list[str]) -> int:
    """Make all of them, beside the guide or in the folder named."""
    places = [one for one in arguments if one != "--quick"]
    folder = Path(places[0]).absolute() if places else HERE / "pictures"
    folder.mkdir(parents=True, exist_ok=True)
    QStandardPaths.setTestModeEnabled(True)  # keeps the settings and caches of whoever runs this as they are
    application = QApplication(sys.argv[:1])
    application.setStyle("Fusion")
    load_fonts()
    application.setFont(font(14))
    application.setCursorFlashTime(0)
    with tempfile.TemporaryDirectory(prefix="guide-") as scratch:
        shutil.copytree(INVENTED, scratch, dirs_exist_ok=True)
        os.chdir(scratch)
        os.environ["HOME"] = scratch  # pictures name no folder of this computer
        settings = QSettings(f"{scratch}/settings.ini", QSettings.Format.IniFormat)
        settings.setValue("cautions_understood", True)
        settings.setValue("shelf_folder", f"{scratch}/class")
        window = Window(Theme(application, "light"), settings)
        window.resize(WIDTH, HEIGHT)
        window.show()
        failed = make_all(application, window, folder, quick="--quick" in arguments)
        window.stop_and_quit()
        window.save_now()
        window.hide()
        os.chdir(HERE)
    for text in failed:
        sys.stderr.write(f"not made: {text}\n")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
