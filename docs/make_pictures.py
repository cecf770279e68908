"""Make the pictures of the guide from the real window.

    .venv/bin/python docs/make_pictures.py [FOLDER] [--quick]

Needs no screen. It uses of the window only what people use: begin, open, choose a page. A page that cannot be
shown is told, and the others are made all the same. What is seen are a simulated lesson and the invented
recordings, in copies, so that no folder of the computer at hand gets into a picture. With --quick it does not
wait for pages that load for long: to try the script.
"""

from __future__ import annotations

import argparse
import os
import shutil
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["LC_ALL"] = "C.UTF-8"  # English, and dates that are read alike everywhere

import numpy as np
from PySide6.QtCore import QPoint, QPointF, QRectF, QSettings, QStandardPaths, Qt
from PySide6.QtGui import QAction, QColor, QImage, QKeySequence, QLinearGradient, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QAbstractItemView, QApplication, QWidget

from gui.demo import demo_bench
from gui.fonts import font, load_fonts
from gui.language import load_language
from gui.page_list import FINDINGS, RUN
from gui.pages.findings_page import FindingsPage
from gui.recordings_folder import FOLDER_KEY
from gui.session import Plan
from gui.theme import Theme
from gui.wakefulness import Wakefulness
from gui.window import Window

HERE = Path(__file__).resolve().parent
INVENTED = HERE.parent / "recordings" / "invented"
PAGES = ("bench", FINDINGS, "shelf")
WIDTH, HEIGHT = 1440, 810
HEIGHTS = {"bench": 908, "shelf": 945, "findings": 896}  # where a line of text would be cut
COLOURS, APART = 256, 10
LESSON = "cell:demo?seed=4&speed={speed}"
SPEED, QUICK_SPEED = 50, 1000  # the faster, the further the numbers lag behind the curve
PICTURED_S = 900.0  # run time: the catalyst has grown for ten minutes
PATIENCE_S = 90.0
STILL_S, QUICK_STILL_S = 5.0, 0.3  # a page that has not changed for so long shows all it has to show
WALL_S, LAYOUT_S = 1.0, 0.2
EDITED, PICTURED = 3, 4  # moments of the good lesson: electrodes out, fresh buffer


class Awake:
    """A system that lets itself be kept awake, as a desktop does: whoever runs this may have none."""

    def hold(self) -> None:
        """Stay awake."""

    def release(self) -> None:
        """Sleep again."""


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


def let_work(application: QApplication, seconds: float) -> None:
    """Let the window work for so long."""
    end_s = time.monotonic() + seconds
    wait_for(application, lambda: time.monotonic() > end_s, "the end of a wait")


def let_settle(application: QApplication, window: QWidget, still_s: float) -> None:
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
    bench = demo_bench()
    window.begin(Plan((LESSON.format(speed=speed),), Path("lesson.h5"), bench, bench.title or ""))

    def has_grown() -> bool:
        return window.session is not None and window.session.now_s >= PICTURED_S

    wait_for(application, has_grown, "the simulated lesson")


def save(picture: QPixmap, name: str, folder: Path) -> None:
    """Save a picture with few colours: a third of the bytes, and nothing to be seen of it.

    The colours kept are the most frequent ones, no two of them nearly the same.
    """
    image = picture.toImage().convertToFormat(QImage.Format.Format_RGB32)
    pixels = np.frombuffer(image.constBits(), np.uint32)
    found, counts = np.unique(pixels, return_counts=True)
    found = found[np.argsort(-counts)]
    parts = found.view(np.uint8).reshape(-1, 4)[:, :3].astype(int)
    left, kept = np.arange(found.size), list[int]()
    while left.size and len(kept) < COLOURS:
        kept.append(int(left[0]))
        left = left[np.abs(parts[left] - parts[left[0]]).max(axis=1) >= APART]
    few = image.convertToFormat(
        QImage.Format.Format_Indexed8,
        [int(colour) for colour in found[kept]],
        Qt.ImageConversionFlag.ThresholdDither | Qt.ImageConversionFlag.AvoidDither,
    )
    out = folder / f"{name}.png"
    if not few.save(str(out), "PNG", 0):
        raise OSError(f"{out} could not be written")
    sys.stdout.write(f"{out}, {out.stat().st_size // 1000} kB\n")


def act_of(window: Window, key: str) -> QAction:
    """Return what stands in the menu with that key.

    Raises
    ------
    LookupError : nothing does.
    """
    for action in window.findChildren(QAction):
        if action.shortcut() == QKeySequence(key):
            return action
    raise LookupError(f"the menu has nothing with {key}")


def show_page(application: QApplication, window: Window, name: str, still_s: float) -> None:
    """Bring a page to the front, as its tab does; tick what can be ticked, so that runs are compared.

    Raises
    ------
    LookupError : the window has no such page now.
    """
    window.show_page(name)
    if window.stack.present_name() != name:
        raise LookupError(f"the window has no page {name} to show")
    if name == "shelf":  # a child process reads the folder, on a busy machine for seconds
        wait_for(application, lambda: has_rows(window), "the runs of the shelf")
    let_settle(application, window, still_s)
    for view in window.findChildren(QAbstractItemView):
        model = view.model()
        for row in range(model.rowCount() if view.isVisible() and model is not None else 0):
            if model.flags(model.index(row, 0)) & Qt.ItemFlag.ItemIsUserCheckable:
                model.setData(model.index(row, 0), Qt.CheckState.Checked, Qt.ItemDataRole.CheckStateRole)
    let_settle(application, window, still_s)


def has_rows(window: Window) -> bool:
    """Tell whether a list in front has something in it."""
    views = [view for view in window.findChildren(QAbstractItemView) if view.isVisible()]
    return any(model.rowCount() > 0 for view in views if (model := view.model()) is not None)


def show_wall(application: QApplication, window: Window, still_s: float) -> None:
    """The view for the wall, in a window as large as the others; a run that goes on is never still."""
    act_of(window, "F11").trigger()
    window.setWindowState(Qt.WindowState.WindowNoState)
    window.resize(WIDTH, HEIGHT)
    let_work(application, still_s)


def moments_page(application: QApplication, window: Window, still_s: float) -> FindingsPage:
    """Bring the moments of the finished run to the front.

    Raises
    ------
    LookupError : no findings are in front.
    """
    window.show_page(FINDINGS)
    page = window.stack.currentWidget()
    if not isinstance(page, FindingsPage):
        raise LookupError("no findings are in front")
    page.views.tabs["moments"].click()
    let_settle(application, window, still_s)
    return page


def edit_moment(application: QApplication, window: Window, still_s: float) -> None:
    """Edit a moment of the finished run: its time and words in the row below the curve."""
    page = moments_page(application, window, still_s)
    page.moments.edit(page.moments.keeper.moments[EDITED].id)
    let_settle(application, window, still_s)


def show_picture(application: QApplication, window: Window, still_s: float) -> QWidget:
    """Attach a picture to a moment of the finished run; return the view that shows it."""
    page = moments_page(application, window, still_s)
    page.moments.entry.settle()
    drawing = Path("anode.png")
    draw_electrodes().save(str(drawing))
    moment_id = page.moments.keeper.moments[PICTURED].id
    page.pictures.open(moment_id)
    page.pictures.attach_file(drawing)
    wait_for(application, lambda: bool(page.moments.acts.pictures_of(moment_id)), "the picture")
    let_settle(application, window, still_s)
    view = page.pictures.view
    if view is None:
        raise LookupError("no view of pictures is open")
    let_settle(application, view, still_s)
    return view


def draw_electrodes() -> QImage:
    """A drawing, so that nobody takes it for a photograph: two electrodes, one with a film."""
    image = QImage(900, 600, QImage.Format.Format_RGB32)
    image.fill(QColor("#eef2f0"))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor("#d5e6ec"))
    painter.drawRect(QRectF(170, 200, 560, 330))
    for left, top_colour, low_colour in ((290, "#9aa3a8", "#9aa3a8"), (530, "#9aa3a8", "#5b3a22")):
        metal = QLinearGradient(QPointF(0, 195), QPointF(0, 225))
        metal.setColorAt(0, QColor(top_colour))
        metal.setColorAt(1, QColor(low_colour))
        painter.setBrush(metal)
        painter.drawRect(QRectF(left, 60, 80, 400))
    random = np.random.default_rng(8)
    painter.setBrush(QColor("#ffffff"))
    for left in (275, 375, 515, 615):
        for x, y, r in random.uniform((left, 215, 2), (left + 12, 450, 6), (22, 3)).tolist():
            painter.drawEllipse(QPointF(x, y), r, r)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor("#6d7a80"), 5))
    painter.drawPolyline([QPointF(165, 110), QPointF(165, 535), QPointF(735, 535), QPointF(735, 110)])
    painter.setPen(QColor("#20282c"))
    painter.setFont(font(24))
    painter.drawText(QRectF(0, 545, 900, 50), Qt.AlignmentFlag.AlignCenter, "Drawn, not photographed")
    painter.end()
    return image


def with_dialog(window: Window, dialog: QWidget) -> QPixmap:
    """Return the window with a dialog over its middle, as a screen shows them."""
    picture, over = window.grab(), dialog.grab()
    middle = QPoint(window.width() - dialog.width(), window.height() - dialog.height()) / 2
    painter = QPainter(picture)
    painter.drawPixmap(middle, over)
    painter.end()
    return picture


def make_all(application: QApplication, window: Window, folder: Path, *, quick: bool) -> list[str]:
    """Make every picture; return what failed."""
    speed, still_s = (QUICK_SPEED, QUICK_STILL_S) if quick else (SPEED, STILL_S)
    failed = []

    def attempt(name: str, show: Callable[[], QWidget | None]) -> None:
        try:
            window.resize(WIDTH, HEIGHTS.get(name, HEIGHT))
            dialog = show()
            window.untell("saved")  # the bar names a folder of this computer
            let_work(application, LAYOUT_S)
            save(window.grab() if dialog is None else with_dialog(window, dialog), name, folder)
        except Exception as error:  # noqa: BLE001 - one page must not keep the others from being made
            traceback.print_exc()
            failed.append(f"{name}: {error!r}")

    attempt(RUN, lambda: begin_lesson(application, window, speed))
    attempt("wall", lambda: show_wall(application, window, min(still_s, WALL_S)))
    act_of(window, "F11").trigger()
    end_lesson(application, window)
    window.open_file(Path("good-lesson.h5"))
    wait_for(application, lambda: len(window.findings_pages) > 1, "the invented recording")
    for name in PAGES:
        attempt(name, lambda name=name: show_page(application, window, name, still_s))
    attempt("moments", lambda: edit_moment(application, window, still_s))
    attempt("picture", lambda: show_picture(application, window, still_s))
    return failed


def make_german(application: QApplication, window: Window, folder: Path, *, quick: bool) -> list[str]:
    """Make the picture of a window that was made in German; return what failed."""
    try:
        begin_lesson(application, window, QUICK_SPEED if quick else SPEED)
        save(window.grab(), "german", folder)
        end_lesson(application, window)
    except Exception as error:  # noqa: BLE001 - as above
        traceback.print_exc()
        return [f"german: {error!r}"]
    return []


def end_lesson(application: QApplication, window: Window) -> None:
    """End the simulated lesson, and remove what it recorded: the next one has the same name."""
    window.stop()
    wait_for(application, lambda: bool(window.findings_pages), "the end of the lesson")
    Path("lesson.h5").unlink(missing_ok=True)


def main(arguments: list[str]) -> int:
    """Make all of them, beside the guide or in the folder named."""
    parser = argparse.ArgumentParser(description="Picture the window for the guide.")
    parser.add_argument("folder", nargs="?", type=Path, default=HERE / "pictures", metavar="FOLDER")
    parser.add_argument("--quick", action="store_true", help="do not wait for pages that load for long")
    wanted = parser.parse_args(arguments)
    folder = wanted.folder.absolute()
    folder.mkdir(parents=True, exist_ok=True)
    QStandardPaths.setTestModeEnabled(True)  # keeps the settings and caches of whoever runs this as they are
    application = QApplication(sys.argv[:1])
    application.setStyle("Fusion")
    load_fonts()
    application.setFont(font(14))
    application.setCursorFlashTime(0)
    failed = []
    with tempfile.TemporaryDirectory(prefix="guide-") as scratch:
        shutil.copytree(INVENTED, scratch, dirs_exist_ok=True)
        os.chdir(scratch)
        os.environ["HOME"] = scratch  # pictures name no folder of this computer
        settings = QSettings(f"{scratch}/settings.ini", QSettings.Format.IniFormat)
        settings.setValue("cautions_understood", True)
        settings.setValue("shelf_folder", f"{scratch}/class")
        settings.setValue(FOLDER_KEY, f"{scratch}/Galvanote")
        Path("Galvanote").mkdir()
        for language, make in (("system", make_all), ("de", make_german)):
            load_language(application, language)
            window = Window(Theme(application, "light"), settings)
            window.watch.wakefulness = Wakefulness(Awake())
            window.resize(WIDTH, HEIGHT)
            window.show()
            failed += make(application, window, folder, quick=wanted.quick)
            window.stop_and_quit()
            window.save_now()
            window.hide()
        os.chdir(HERE)
    for text in failed:
        sys.stderr.write(f"not made: {text}\n")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
