"""A person at the window: keys, words, bars, the end of a run."""

from __future__ import annotations

import math
import re
import shutil
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QObject, QSettings, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QFileDialog,
    QLabel,
    QLineEdit,
    QListWidget,
    QWidget,
)
from pytestqt.qtbot import QtBot

from gui.chart.chart import Chart
from gui.session import Finished, Session
from gui.widgets.key_button import KeyButton
from gui.window import Window
from logger.errors import LoggerError
from logger.notices import RunNotice
from logger.recording import ChannelData, Recording
from tests.gui.fakes import FakeRun, lesson, plan
from tests.gui.test_findings_texts import FOUND


class Bench:
    """A window with a fake run in it."""

    def __init__(self, window: Window, qtbot: QtBot) -> None:
        self.window, self.qtbot = window, qtbot
        assert window.session is not None
        assert window.run_page is not None
        self.session: Session = window.session
        self.page = window.run_page
        self.run: FakeRun = self.session._run  # type: ignore[assignment]

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """Press and release as the window system does: through the window, not into a widget."""
        QTest.keyClick(self.window.windowHandle(), key, modifiers)

    def type(self, text: str) -> None:
        for letter in text:
            QTest.keyClick(self.window.windowHandle(), letter)

    def look(self) -> None:
        """Let a frame pass, with its texts."""
        self.window._texts_s = self.page._texts_s = -math.inf
        self.window.frame()
        QApplication.processEvents()

    def labels(self) -> str:
        found = "\n".join(w.text() for w in self.window.findChildren(QLabel) if w.isVisible())
        return found.replace("\u00a0", " ")


@pytest.fixture
def bench(window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    monkeypatch.setattr("gui.stamping.EventDelay.of", lambda _delay, _stamp_ms: 0.0)
    monkeypatch.setattr("gui.window.Session", lambda plan: Session(plan, make_run=FakeRun))  # type: ignore[arg-type]
    window.activateWindow()
    with qtbot.waitActive(window):
        pass
    window.begin(plan(tmp_path / "a.h5"))
    assert window.session is not None
    window.session.wait_opened(10.0)
    made = Bench(window, qtbot)
    made.run.push(*lesson(120))
    made.look()
    return made


def recording(path: Path) -> Recording:
    times_s, values = lesson(1200)
    channel = ChannelData(
        "cell_voltage", "cell_voltage", "V", times_s, values, np.zeros(times_s.size, np.uint8),
        {"address": "cell:demo"},
    )  # fmt: skip
    return Recording(path, "0", "Strip 4", "2026-11-25T09:10:03+01:00", None, "UTC", 1200.0, (channel,))


# ---------------------------------------------------------------- stamping


def test_the_time_is_that_of_the_key_going_down(bench: Bench) -> None:
    """What happens between press and release, or while words are typed, does not move the moment."""
    handle = bench.window.windowHandle()
    bench.run.clock.time_s = 61.5
    QTest.keyPress(handle, Qt.Key.Key_M)
    bench.run.clock.time_s = 65.0
    QTest.keyRelease(handle, Qt.Key.Key_M)
    bench.type("buffer cloudy")
    bench.run.clock.time_s = 90.0
    bench.press(Qt.Key.Key_Return)
    (moment,) = bench.session.moments
    assert (moment.time_s, moment.kind, moment.label) == (61.5, "note", "buffer cloudy")


def test_the_time_a_key_has_waited_is_taken_off(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("gui.stamping.EventDelay.of", lambda _delay, _stamp_ms: 0.25)
    bench.run.clock.time_s = 61.5
    bench.run.clock.speed = 4.0
    bench.press(Qt.Key.Key_M)
    assert [m.time_s for m in bench.session.moments] == [60.5]


def test_the_moment_is_kept_before_any_word_is_typed(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    assert len(bench.session.moments) == 1
    assert bench.page.foot.entry.isVisible()


def test_m_is_text_while_words_are_typed_and_ctrl_m_stamps_even_then(bench: Bench) -> None:
    bench.run.clock.time_s = 10.0
    bench.press(Qt.Key.Key_M)
    bench.type("milky mess")
    assert len(bench.session.moments) == 1
    bench.run.clock.time_s = 12.0
    bench.press(Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    bench.type("more")
    bench.press(Qt.Key.Key_Return)
    assert [(m.time_s, m.label) for m in bench.session.moments] == [(10.0, "milky mess"), (12.0, "more")]


def test_a_kind_is_tagged_while_the_words_of_an_earlier_moment_go_on(bench: Bench) -> None:
    bench.run.clock.time_s = 10.0
    bench.press(Qt.Key.Key_M)
    bench.type("milky")
    bench.run.clock.time_s = 12.0
    bench.press(Qt.Key.Key_3, Qt.KeyboardModifier.ControlModifier)
    bench.type(" mess 5")  # none of this is a key: no step, no note, no kind
    bench.press(Qt.Key.Key_Return)
    moments = [(m.time_s, m.kind, m.label) for m in bench.session.moments]
    assert moments == [(10.0, "note", "milky mess 5"), (12.0, "stirring_on", "")]


def test_esc_keeps_the_moment_without_words(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("never mind")
    bench.press(Qt.Key.Key_Escape)
    assert [m.label for m in bench.session.moments] == [""]
    assert not bench.page.foot.entry.isVisible()
    bench.press(Qt.Key.Key_M)
    assert len(bench.session.moments) == 2


def test_a_held_key_stamps_once(bench: Bench) -> None:
    handle = bench.window.windowHandle()
    for repeats in (False, True, True):
        event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_M, Qt.KeyboardModifier.NoModifier, "m", repeats)
        QApplication.sendEvent(handle, event)
    assert len(bench.session.moments) == 1


def test_a_kind_may_be_typed_or_chosen(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("salt_added two drops")
    bench.press(Qt.Key.Key_Return)
    assert [(m.kind, m.label) for m in bench.session.moments] == [("salt_added", "two drops")]


def test_the_menu_of_kinds_stamps_when_it_opens(bench: Bench) -> None:
    bench.run.clock.time_s = 30.0
    bench.page.foot.open_kinds()
    bench.run.clock.time_s = 33.0
    menu = bench.page.foot._menu
    action = next(a for a in menu.actions() if "Electrodes out" in a.text())
    action.trigger()
    menu.close()
    bench.press(Qt.Key.Key_Return)
    assert [(m.time_s, m.kind) for m in bench.session.moments] == [(30.0, "electrodes_out")]


def test_the_button_stamps_as_it_goes_down(bench: Bench) -> None:
    bench.run.clock.time_s = 20.0
    QTest.mousePress(bench.page.foot.tag, Qt.MouseButton.LeftButton)
    bench.run.clock.time_s = 21.0
    QTest.mouseRelease(bench.page.foot.tag, Qt.MouseButton.LeftButton)
    assert [m.time_s for m in bench.session.moments] == [20.0]


def test_a_moment_is_edited_removed_and_brought_back(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "first", 50.0)
    bench.look()
    bench.page.edit(moment.id)
    entry = bench.page.foot.entry
    entry._time.setText("0:48,5")
    entry._kind.setCurrentIndex(entry._kind.findData("photo"))
    entry._label.setText("photo of the film")
    bench.press(Qt.Key.Key_Return)
    (edited,) = bench.session.moments
    assert (edited.time_s, edited.kind, edited.label) == (48.5, "photo", "photo of the film")
    bench.look()
    listed = bench.page.panel.moments
    listed.choose(moment.id)
    listed._list.setFocus()
    bench.press(Qt.Key.Key_Delete)
    assert bench.session.moments == ()
    assert "removed" in bench.window.bars.texts
    back = next(b for b in bench.window.bars.findChildren(QAbstractButton) if b.text() == "Bring it back")
    back.click()
    assert [m.label for m in bench.session.moments] == ["photo of the film"]
    assert "removed" not in bench.window.bars.texts


def test_a_time_that_is_none_is_refused_in_words(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "", 50.0)
    bench.page.edit(moment.id)
    entry = bench.page.foot.entry
    entry._time.setText("soon")
    bench.press(Qt.Key.Key_Return)
    assert entry.isVisible()
    assert "12:30" in entry._trouble.text()
    bench.press(Qt.Key.Key_Escape)
    assert bench.session.moments[0].time_s == 50.0


# ---------------------------------------------------------------- showing


def test_the_page_tells_voltage_state_and_how_fresh_the_disk_is(bench: Bench) -> None:
    bench.qtbot.waitUntil(lambda: bench.session.view is not None, timeout=10_000)
    bench.look()
    number = bench.page.panel.number
    assert number.accessibleDescription().startswith("2.2")
    assert "Splitting water" in bench.labels()
    assert "saved to disk 0.4 s ago" in bench.labels()
    assert "Bench meter" in bench.labels()


def test_a_stale_number_is_grey_and_tells_its_age(bench: Bench) -> None:
    bench.run.clock.time_s += 12.0
    bench.look()
    assert "12\u00a0s ago" in bench.page.panel.number.accessibleDescription()


def test_dangers_are_bars_and_go_when_all_is_well_again(bench: Bench) -> None:
    bench.run.told.append(RunNotice(1.0, "danger", "lost", "The cable is out."))
    bench.look()
    assert bench.window.bars.texts["lost"] == "The cable is out."
    bench.run.told.append(RunNotice(2.0, "info", "back", "The meter is back."))
    bench.look()
    assert "lost" not in bench.window.bars.texts
    assert bench.window.bars.texts["back"] == "The meter is back."


def test_each_source_has_its_own_danger_until_it_is_back(bench: Bench) -> None:
    bench.run.told += [
        RunNotice(1.0, "danger", "lost", "The cell's meter is gone.", "text:COM3"),
        RunNotice(2.0, "danger", "lost", "The shunt's meter is gone.", "scpi:COM4"),
    ]
    bench.look()
    shown = bench.window.bars.texts.values()
    assert {"The cell's meter is gone.", "The shunt's meter is gone."} <= set(shown)
    bench.run.told.append(RunNotice(3.0, "info", "back", "The shunt's meter is back.", "scpi:COM4"))
    bench.look()
    shown = bench.window.bars.texts.values()
    assert "The cell's meter is gone." in shown
    assert "The shunt's meter is gone." not in shown


def test_no_meter_is_asked_for_once_its_run_is_over(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("gui.session.load_finished", lambda path: Finished(recording(path), FOUND))
    bench.run.told += [
        RunNotice(1.0, "danger", "lost", "The meter is gone. Plug it in again.", "text:COM3"),
        RunNotice(2.0, "warning", "echo", "The adapter echoes.", "text:COM3"),
    ]
    bench.look()
    assert "The meter is gone. Plug it in again." in bench.window.bars.texts.values()
    bench.window.stop()
    bench.look()
    assert "The meter is gone. Plug it in again." not in bench.window.bars.texts.values()
    assert "The adapter echoes." in bench.window.bars.texts.values()  # that may still be worth knowing


def test_trouble_with_the_judgement_is_told_of_each_run(bench: Bench, tmp_path: Path) -> None:
    bench.session.trouble = "The judgement of this run stopped."
    bench.look()
    assert "trouble" in bench.window.bars.texts
    bench.session.state = "failed"
    bench.window.begin(plan(tmp_path / "b.h5"))
    session = bench.window.session
    assert session is not None
    session.wait_opened(10.0)
    bench.look()
    assert "trouble" not in bench.window.bars.texts
    session.trouble = "The judgement of the other run stopped, too."
    bench.look()
    assert "the other run" in bench.window.bars.texts["trouble"]


def test_touching_electrodes_are_a_danger_until_they_part(bench: Bench) -> None:
    end_s = bench.run.clock.time_s
    bench.run.push(end_s + np.arange(1, 60) / 3, np.full(59, 0.005))
    bench.qtbot.waitUntil(
        lambda: bench.session.view is not None and bench.session.view.state == "touching", timeout=10_000
    )
    bench.look()
    assert "touch" in bench.window.bars.texts["touching"]
    bench.run.push(end_s + 20 + np.arange(1, 60) / 3, np.full(59, 2.2))
    bench.qtbot.waitUntil(lambda: bench.session.view.state != "touching", timeout=10_000)  # type: ignore[union-attr]
    bench.look()
    assert "touching" not in bench.window.bars.texts


def test_many_bars_stay_few_and_keep_the_gravest(bench: Bench) -> None:
    for i in range(8):
        bench.window.bars.show_bar(f"i{i}", "info", "a note")
    bench.window.bars.show_bar("d", "danger", "a danger")
    assert len(bench.window.bars.texts) == 3
    assert "d" in bench.window.bars.texts


def test_following_is_one_visible_control(bench: Bench) -> None:
    bench.page.chart.setFocus()
    assert bench.page.follow.accessibleName() == "Following the whole run"
    bench.press(Qt.Key.Key_F)
    assert bench.page.follow.accessibleName().startswith("Standing still")
    bench.page.follow.click()
    assert bench.page.follow.accessibleName().startswith("Following")


def test_cautions_are_shown_until_understood(bench: Bench, settings: QSettings) -> None:
    assert "hydrogen and oxygen" in bench.window.bars.texts["cautions"]
    bench.window.stack.show_cautions()
    assert "qualified people decide" in bench.labels()
    bench.press(Qt.Key.Key_Escape)
    assert bench.window.stack.currentWidget() is bench.page
    understood = next(b for b in bench.window.bars.findChildren(QAbstractButton) if b.text() == "Understood")
    understood.click()
    assert "cautions" not in bench.window.bars.texts
    assert settings.value("cautions_understood", type=bool) is True


def test_ctrl_s_says_that_nothing_need_be_done(bench: Bench) -> None:
    bench.press(Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert "Ctrl+E" in bench.window.bars.texts["saved"]
    assert bench.session.state == "running"


# ---------------------------------------------------------------- the end


def test_stop_and_save_by_key(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("last words")
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.is_over, timeout=10_000)
    assert bench.run.stopped == 1
    assert [m.label for m in bench.session.moments] == ["last words"]
    assert not bench.page.foot.stop.isEnabled()


def test_closing_while_recording_asks_and_may_be_declined(bench: Bench) -> None:
    bench.window.close()
    question = bench.window.leaving.question
    assert question is not None
    assert question.text.text().endswith(("2:00.", "1:59."))
    bench.run.clock.time_s = 130.0
    bench.qtbot.waitUntil(lambda: "2:10" in question.text.text(), timeout=5_000)  # the time goes on
    question.keep.click()
    assert bench.window.isVisible()
    assert bench.session.state == "running"
    bench.window.close()
    question = bench.window.leaving.question
    assert question is not None
    with bench.qtbot.waitSignal(bench.window.done, timeout=10_000):
        question.act.click()
    assert bench.run.stopped == 1


def test_an_end_from_outside_does_not_wait_for_the_question(bench: Bench) -> None:
    bench.window.close()
    assert bench.window.leaving.question is not None
    with bench.qtbot.waitSignal(bench.window.done, timeout=10_000):
        bench.window.stop_and_quit()
    assert bench.run.stopped == 1


def test_a_signal_from_outside_saves_without_asking(bench: Bench) -> None:
    with bench.qtbot.waitSignal(bench.window.done, timeout=10_000):
        bench.window.stop_and_quit()
    assert bench.window.leaving.question is None
    assert bench.run.stopped == 1


def test_a_run_that_cannot_begin_says_why_and_offers_another_try(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    from gui.session import Plan
    from logger.bench import Bench as BenchFile

    window.begin(Plan(("scpi:/dev/nothing-here",), tmp_path / "a.h5", BenchFile(), "Strip 4"))
    qtbot.waitUntil(lambda: "failed" in window.bars.texts, timeout=20_000)
    assert "/dev/nothing-here" in window.bars.texts["failed"]
    again = next(b for b in window.bars.findChildren(QAbstractButton) if b.text() == "Try again")
    again.click()
    qtbot.waitUntil(lambda: window.session is not None and window.session.is_over, timeout=20_000)


def test_why_a_run_could_not_begin_is_gone_once_another_has(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    """Its other try would have begun nothing, beside a run that goes on."""
    from gui.session import Plan
    from logger.bench import Bench as BenchFile

    window.begin(Plan(("scpi:/dev/nothing-here",), tmp_path / "a.h5", BenchFile(), "Strip 4"))
    qtbot.waitUntil(lambda: "failed" in window.bars.texts, timeout=20_000)
    window.begin(Plan(("cell:demo?speed=20",), tmp_path / "b.h5", BenchFile(), "Strip 5"))
    assert "failed" not in window.bars.texts
    assert window.session is not None
    window.session.wait_opened(20.0)


def test_a_run_that_could_not_be_saved_stays_and_is_saved_again(bench: Bench) -> None:
    """The only offer began another run of that name: it was refused, and the curve of this one was gone."""
    page, told = bench.page, "No room for a.h5. What was recorded is safe in a.h5.journal"
    bench.run.disk_error = LoggerError(told)
    bench.run.told += [RunNotice(120.0, "danger", code, told) for code in ("disk_full", "not_archived")]
    bench.look()
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    key = f"failed {bench.session.plan.out}"
    bench.qtbot.waitUntil(lambda: key in bench.window.bars.texts, timeout=10_000)
    bench.run.clock.time_s += 600.0
    bench.look()
    dangers = bench.window.bars.keys_of("danger")
    assert dangers == (key,), "one bar says it"
    assert "The run is over, and not saved yet." in bench.labels()
    buttons = {b.text(): b for b in bench.window.bars.findChildren(QAbstractButton) if b.isVisible()}
    assert "Try again" not in buttons
    bench.run.disk_error = None
    shutil.copy(Path(__file__).parents[2] / "recordings" / "invented" / "blank.h5", bench.session.plan.out)
    buttons["Save again"].click()
    bench.qtbot.waitUntil(lambda: bool(bench.window.findings_pages), timeout=20_000)
    assert bench.window.run_page is page, "its curve has stayed"
    assert key not in bench.window.bars.texts


def test_a_run_that_could_not_be_saved_is_saved_while_the_next_one_goes_on(
    bench: Bench, tmp_path: Path
) -> None:
    """The button did nothing but go: nobody was told that the run was in its journal alone."""
    first, key = bench.session, f"failed {bench.session.plan.out}"
    bench.run.disk_error = LoggerError("No room for a.h5.")
    bench.window.stop()
    bench.qtbot.waitUntil(lambda: key in bench.window.bars.texts, timeout=10_000)
    bench.window.begin(plan(tmp_path / "b.h5"))
    assert bench.window.session is not None
    bench.window.session.wait_opened(10.0)
    bench.look()

    def save_again() -> None:
        buttons = {b.text(): b for b in bench.window.bars.findChildren(QAbstractButton) if b.isVisible()}
        buttons["Save again"].click()

    save_again()
    bench.qtbot.waitUntil(lambda: key in bench.window.bars.texts, timeout=10_000)  # no room yet
    bench.run.disk_error = None
    shutil.copy(Path(__file__).parents[2] / "recordings" / "invented" / "blank.h5", first.plan.out)
    save_again()
    bench.qtbot.waitUntil(lambda: bool(bench.window.findings_pages), timeout=20_000)
    assert key not in bench.window.bars.texts
    assert first.state == "finished"
    assert bench.window.session.state == "running"


def test_a_second_place_can_be_named_while_saving_waits_for_room(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bar of the full disk offers it; what memory holds is lost where it is refused."""
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path / "stick"))
    bench.session.state = "saving"
    bench.window.ways.choose_second_folder()
    bench.qtbot.waitUntil(lambda: bench.run.second_folder == tmp_path / "stick", timeout=10_000)
    bench.session.state = "running"


def test_findings_follow_the_run(bench: Bench, tmp_path: Path) -> None:
    bench.session.finished = Finished(recording(tmp_path / "a.h5"), FOUND)
    bench.session.state = "finished"
    bench.look()
    texts = bench.labels().replace("\u00a0", " ")
    for part in ("254.6 ± 2.6 mV", "95 %", "2.251 ± 0.013 V", "The leads were reversed.", str(tmp_path)):
        assert part in texts
    assert "Simulated, invented data" in texts
    pages = [b.text() for b in bench.window.header.findChildren(QAbstractButton) if b.isVisible()]
    assert pages[:3] == ["Run", "Bench", "Findings"]
    bench.window.show_page("run")
    assert bench.window.stack.currentWidget() is bench.page


def test_a_file_that_is_no_recording_is_told_in_a_bar(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    path = tmp_path / "notes.h5"
    path.write_text("no recording")
    window.open_file(path)
    assert "Opening notes.h5" in "\n".join(w.text() for w in window.stack.start_page.findChildren(QLabel))
    qtbot.waitUntil(lambda: bool(window.bars.texts), timeout=10_000)
    assert "notes.h5" in next(iter(window.bars.texts.values()))


def test_once_a_recording_is_open_the_start_page_offers_what_can_be_done(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    path = Path(shutil.copy(Path(__file__).parents[2] / "recordings" / "invented" / "blank.h5", tmp_path))
    window.open_file(path)
    qtbot.waitUntil(lambda: bool(window.findings_pages), timeout=20_000)
    assert window.stack.currentWidget() is window.findings_pages[0]
    window.show_page("run")
    start = window.stack.start_page
    assert window.stack.currentWidget() is start
    seen = [label.text() for label in start.findChildren(QLabel) if label.isVisible()]  # no bar that is gone
    assert not any("Opening" in text for text in seen)
    buttons = [b for b in start.findChildren(QAbstractButton) if b.isVisible()]
    assert len(buttons) == 3
    assert start.focusProxy() in buttons


def test_several_recordings_open_in_their_order_and_the_first_stays_in_front(
    window: Window, qtbot: QtBot
) -> None:
    """Whichever is read quickest; and a file that cannot be read keeps none of the others out."""
    folder = Path(__file__).parents[2] / "recordings" / "invented"
    names = ["good-lesson.h5", "missing.h5", "blank.h5"]
    for name in names:
        window.open_file(folder / name)
    start = window.stack.start_page
    assert "Opening good-lesson.h5, 1 of 3 …" in [one.text() for one in start.findChildren(QLabel)]
    qtbot.waitUntil(lambda: len(window.findings_pages) == 2, timeout=60_000)
    opened = [page.finished.recording.path.name for page in window.findings_pages]
    assert opened == ["good-lesson.h5", "blank.h5"]
    assert window.stack.currentWidget() is window.findings_pages[0]
    assert any("missing.h5" in text for text in window.bars.texts.values())


def test_several_recordings_can_be_switched(window: Window, tmp_path: Path) -> None:
    for name in ("a.h5", "b.h5"):
        window.add_findings(Finished(recording(tmp_path / name), FOUND))
    window.header.file_chosen.emit(0)
    assert window.stack.currentWidget() is window.findings_pages[0]


def test_the_picture_is_saved_beside_the_recording(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    window.add_findings(Finished(recording(tmp_path / "a.h5"), FOUND))
    window.recordings.save_picture()
    qtbot.waitUntil(lambda: "picture" in window.bars.texts, timeout=20_000)
    assert (tmp_path / "a.png").stat().st_size > 10_000, window.bars.texts


def test_a_picture_saved_again_replaces_nothing(window: Window, qtbot: QtBot, tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(b"mine")
    window.add_findings(Finished(recording(tmp_path / "a.h5"), FOUND))
    window.recordings.save_picture()
    qtbot.waitUntil(lambda: "picture" in window.bars.texts, timeout=20_000)
    assert (tmp_path / "a.png").read_bytes() == b"mine"
    assert (tmp_path / "a (2).png").stat().st_size > 10_000, window.bars.texts
    assert "a (2).png" in window.bars.texts["picture"]


# ---------------------------------------------------------------- for everyone


def controls(root: QWidget) -> list[QWidget]:
    kinds = (QAbstractButton, QLineEdit, QComboBox, QListWidget, Chart)
    return [w for w in root.findChildren(QWidget) if isinstance(w, kinds) and w.isVisible()]


def test_every_control_has_a_name_and_is_reached_by_tab(bench: Bench) -> None:
    moment = bench.session.add_moment("note", "first", 50.0)
    bench.look()
    bench.page.edit(moment.id)
    found = controls(bench.window)
    assert len(found) > 10
    for widget in found:
        text = widget.text() if isinstance(widget, QAbstractButton) else ""
        assert widget.accessibleName() or text, f"{widget} has no name"
    bench.press(Qt.Key.Key_Escape)
    reached = set()
    for _ in range(60):
        bench.press(Qt.Key.Key_Tab)
        reached.add(QApplication.focusWidget())
    for widget in controls(bench.window):
        if widget.isEnabled() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            assert widget in reached, f"{widget.accessibleName()} is not reached by Tab"


def test_buttons_are_large_enough_to_hit(bench: Bench) -> None:
    """WCAG 2.2, 2.5.8: at least 24 by 24."""
    for widget in controls(bench.window):
        assert widget.width() >= 24
        assert widget.height() >= 24, widget.accessibleName()


SIZES = [(1366, 768), (1280, 720), (1920, 1080), (960, 540), (683, 384)]
"""The last two are a full-HD screen and a school laptop's at 200 %."""


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_everything_fits_the_screen(bench: Bench, width: int, height: int) -> None:
    for typing in (False, True):
        if typing:
            bench.press(Qt.Key.Key_M)
        bench.window.resize(width, height)
        bench.look()
        assert (bench.window.width(), bench.window.height()) == (width, height)
        assert bench.window._scroll.verticalScrollBar().maximum() == 0  # with the cautions in their bar, too
        for widget in controls(bench.window):
            corner = widget.mapTo(bench.window, widget.rect().bottomRight())
            if bench.page.panel.isAncestorOf(widget):  # the column scrolls up and down, never sideways
                corner.setY(0)
            assert corner.x() <= width, widget.accessibleName()
            assert corner.y() <= height, widget.accessibleName()


def test_the_menu_fits_the_height_of_a_school_laptop(bench: Bench) -> None:
    """A longer one falls into two columns, which hide the run."""
    assert bench.window.menu.sizeHint().height() <= 720


def test_what_has_no_room_in_a_small_window_stays_in_the_menu(bench: Bench) -> None:
    bench.window.resize(683, 384)
    bench.look()
    assert not bench.page.foot.kinds.isVisible()
    assert not bench.page.foot.skip.isVisible()
    keys = {key.toString() for a in bench.window.actions() for key in a.shortcuts()}
    assert {"K", "Ctrl+K", "Ctrl+R", "Ctrl+T"} <= keys
    assert bench.page.foot.tag.accessibleName() == "Tag"
    bench.window.resize(1366, 768)
    bench.look()
    assert bench.page.foot.kinds.isVisible()


def test_no_line_breaks_between_a_number_and_its_unit(bench: Bench) -> None:
    """The space between a number and its unit is a no-break space, wherever words are shown."""
    times_s, values = lesson(900)
    bench.run.push(times_s[360:900], values[360:900])
    bench.session.add_moment("salt_added", "", 285.0)
    bench.qtbot.waitUntil(
        lambda: any(p.phase == "growth" for v in [bench.session.view] if v for p in v.phases), timeout=10_000
    )
    bench.run.push(times_s[900:], values[900:])
    bench.qtbot.waitUntil(
        lambda: bench.session.view is not None and bench.session.view.saved is not None, timeout=10_000
    )
    bench.page.stamp("step", bench.session.now_s)
    bench.look()
    texts = [w.text() for w in bench.window.findChildren(QLabel) if w.isVisible()]
    texts += [w.accessibleName() for w in bench.window.findChildren(KeyButton)]  # they paint their words
    assert any("mA" in text for text in texts)
    units = r"(?:s|min|h|V|mV|A|mA|C|mL|%|°C|mV/min|readings/s|Hz|MB)"
    for text in texts:
        assert not re.search(rf"\d {units}(?![\w/])", text), text


def test_the_dialogs_have_names_and_are_reached_by_tab(bench: Bench) -> None:
    bench.page.plan_steps()
    bench.window.close()
    dialogs = [d for d in bench.window.findChildren(QDialog) if d.isVisible()]
    assert len(dialogs) == 2
    for dialog in dialogs:
        for widget in dialog.findChildren(QWidget):
            if isinstance(widget, QAbstractButton | QLineEdit | QComboBox) and widget.isVisible():
                text = widget.text() if isinstance(widget, QAbstractButton) else ""
                assert widget.accessibleName() or text, f"{widget} has no name"
                assert widget.focusPolicy() & Qt.FocusPolicy.TabFocus
                assert widget.height() >= 24
        dialog.close()


def test_words_being_typed_are_kept_when_the_source_ends(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("colour brown")
    bench.run.has_ended = True
    bench.look()
    assert bench.session.state != "running"
    assert bench.session.moments[-1].label == "colour brown"


@pytest.mark.parametrize("scheme", ["dark", "light"])
def test_the_chart_follows_a_change_of_colours(bench: Bench, scheme: str) -> None:
    bench.window.theme.choose(scheme)
    chart = bench.window.findChild(Chart)
    chart.refresh(bench.run.clock.now_s())
    picture = chart.grab().toImage()
    ground = picture.pixelColor(picture.width() - 2, picture.height() // 2)
    assert ground.name() == bench.window.theme.colours.paper


def test_ctrl_e_stops_the_run_while_words_are_typed_and_keeps_them(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("colour brown")
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.state != "running")
    assert bench.session.moments[-1].label == "colour brown"


class TakesCtrlLetters(QObject):
    """Makes a field take letters with Ctrl for keys of its own, as every line of text does under X11."""

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.modifiers() == Qt.KeyboardModifier.ControlModifier:
            event.accept()
            return event.type() == QEvent.Type.ShortcutOverride
        return super().eventFilter(watched, event)


def test_ctrl_e_stops_the_run_from_a_field_of_the_bench(bench: Bench) -> None:
    bench.press(Qt.Key.Key_F3)
    title = QApplication.focusWidget()
    assert isinstance(title, QLineEdit)
    title.installEventFilter(TakesCtrlLetters(title))
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.state != "running")


def test_the_text_being_typed_leaves_the_windows_shortcuts_alone(bench: Bench) -> None:
    bench.press(Qt.Key.Key_M)
    bench.type("colour brown")
    field = bench.page.foot.entry._label
    bench.press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    assert field.selectedText() == "colour brown"
    field.installEventFilter(TakesCtrlLetters(field))
    bench.press(Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: bench.session.state != "running")
    assert bench.session.moments[-1].label == "colour brown"
