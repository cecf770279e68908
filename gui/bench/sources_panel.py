"""The sources on the bench: one card each, and finding out what is plugged in."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from drivers.listening import Heard, listen_to_all
from drivers.port_list import PortInfo, find_ports
from drivers.port_release import PortRelease
from gui.bench.source_card import SourceCard
from gui.bench.source_texts import calibration_text, heard_text
from gui.job import Job
from gui.message_words import message_sentence
from gui.pages.page import PageHost
from gui.widgets.text_button import text_button
from gui.words import translate
from logger.calibration import Calibration
from logger.probe_calibration import forget_calibration, keep_again, kept_calibration, take_point
from logger.source_form import SourceForm, SourceFormError
from logger.source_probe import ProbedChannel, SourceProbe

__all__ = ["SourcesPanel"]

HEARD_PASSES_S = 10.0


class _Listening(Job[tuple[Heard, ...]]):
    """Listens to all ports; nobody is asked about it when the window closes, and nobody waits for it."""

    def __init__(
        self,
        work: Callable[[], tuple[Heard, ...]],
        on_done: Callable[[tuple[Heard, ...] | None, Exception | None], None],
        ports: PortRelease,
    ) -> None:
        self._ports = ports
        super().__init__(work, on_done, "listen to all ports")

    def cancel(self) -> None:
        """Let go of the ports."""
        self._ports.let_go()


class SourcesPanel(QWidget):
    """Holds the cards; `host` is the window of the page.

    Attributes
    ----------
    changed : emitted with nothing when there are other sources.
    """

    changed = Signal()

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.host = host
        self.cards: list[SourceCard] = []
        self._ports: tuple[PortInfo, ...] = ()
        self._heard: list[str] = []
        self._cards = QVBoxLayout()
        self._cards.setSpacing(10)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(10)
        layout.addLayout(self._cards)
        layout.addLayout(self._source_buttons())

    def _source_buttons(self) -> QHBoxLayout:
        self.add = text_button(translate("Bench", "Add a source"))
        self.look = text_button(translate("Bench", "Look for ports"), "flat")
        self.listen_all = text_button(translate("Bench", "Recognise what is plugged in"))
        self.listen_all.clicked.connect(lambda _checked=False: self._listen_to_all())
        self.add.clicked.connect(lambda _checked=False: self.add_source(SourceForm()))
        self.look.clicked.connect(lambda _checked=False: self.look_for_ports())
        row = QHBoxLayout()
        row.addWidget(self.listen_all)
        row.addWidget(self.add)
        row.addWidget(self.look)
        row.addStretch(1)
        return row

    @property
    def stops(self) -> tuple[QWidget, ...]:
        """Where the keys stop in it, in their order."""
        in_cards = (stop for card in self.cards for stop in card.stops)
        return (*in_cards, self.listen_all, self.add, self.look)

    def frame(self) -> None:
        """Show what the sources send."""
        for card in self.cards:
            card.frame()

    def checked_addresses(self) -> tuple[str, ...]:
        """Return the addresses of all sources.

        Raises
        ------
        SourceFormError : there is none, or one that cannot be.
        """
        if not self.cards:
            raise SourceFormError(translate("Bench", "There is no source; add one."))
        return tuple(card.form.checked_address() for card in self.cards)

    @property
    def are_real(self) -> bool:
        """Tell whether there are sources, and what stands for the cell voltage is not simulated."""
        forms = [card.form for card in self.cards]
        voltages = [form for form in forms if "cell_voltage" in form.roles]
        return bool(forms) and not any(form.kind == "cell" for form in voltages or forms)

    def stop_listening(self) -> list[SourceProbe]:
        """Give every port back; return the probes that are ending."""
        return [probe for card in self.cards if (probe := card.stop_listening()) is not None]

    def forget_heard(self) -> None:
        """Take away what was said of ports that were listened to: it is old by the next look at the bench."""
        while self._heard:
            self.host.untell(self._heard.pop())

    def let_listen(self) -> None:
        """Leave alone the ports that the run records; a simulated cell can be had many times."""
        held = self._held_ports()
        why = translate("Bench", "The run records this port; see the Run page.")
        for card in self.cards:
            card.let_listen(card.form.kind == "cell" or card.form.port not in held, why)

    def _held_ports(self) -> set[str]:
        session = self.host.session
        if session is None or session.is_over:
            return set()
        return {SourceForm.of(address).port for address in session.plan.addresses}

    def add_source(self, form: SourceForm) -> SourceCard:
        """Put one more source on the bench."""
        card = SourceCard(self.host.theme, form)
        card.show_ports(self._ports)
        card.removed.connect(lambda: self._remove(card))
        card.changed.connect(lambda: card.show_ports(self._ports))
        card.changed.connect(self.changed)
        card.point_wanted.connect(partial(self._take_point, card))
        card.calibration_asked.connect(lambda one: self._calibrate(card, partial(kept_calibration, one)))
        card.calibration_unwanted.connect(partial(self._forget, card))
        self.cards.append(card)
        self._cards.addWidget(card)
        self.changed.emit()
        return card

    def clear(self) -> None:
        """Take every source off the bench."""
        for card in tuple(self.cards):
            self._take_off(card)
        self.changed.emit()

    def _remove(self, card: SourceCard) -> None:
        self._take_off(card)
        self.add.setFocus()
        self.changed.emit()

    def _take_off(self, card: SourceCard) -> None:
        self.host.untell("forgotten")  # which leads back to its card
        card.stop_listening()
        self.cards.remove(card)
        self._cards.removeWidget(card)
        card.hide()
        card.deleteLater()

    def look_for_ports(self) -> None:
        """Find the ports there are, and offer them in every card."""

        def tell(ports: tuple[PortInfo, ...] | None, _error: Exception | None) -> None:
            self._ports = ports or ()
            for card in self.cards:
                card.show_ports(self._ports)

        self.host.do(Job(find_ports, tell, "look for ports"))

    def _take_point(self, card: SourceCard, channel: ProbedChannel, typed_V: str, against: str) -> None:
        def work() -> Calibration:
            return take_point(channel, typed_V, against)

        # To bring back what was forgotten would put the new point away; after a refused one it can be.
        self._calibrate(card, work, lambda: self.host.untell("forgotten"))

    def _calibrate(
        self,
        card: SourceCard,
        work: Callable[[], Calibration | None],
        once_kept: Callable[[], None] = lambda: None,
    ) -> None:
        def tell(kept: Calibration | None, error: Exception | None) -> None:
            if error is not None:
                card.show_calibration(message_sentence(str(error)), "danger")
            elif kept is None:
                card.show_calibration("", is_kept=False)
            else:
                once_kept()
                card.show_calibration(calibration_text(kept), is_kept=True)

        self.host.do(Job(work, tell, "calibrate"))

    def _forget(self, card: SourceCard, channel: ProbedChannel) -> None:
        """Forget what an instrument is corrected by; what a hand in a glove hit can be taken back."""

        def work() -> Calibration | None:
            kept = kept_calibration(channel)
            forget_calibration(channel)
            return kept

        def tell(forgotten: Calibration | None, error: Exception | None) -> None:
            if error is not None or forgotten is None:
                card.show_calibration(message_sentence(str(error)), "danger")
                return
            card.show_calibration("", is_kept=False)
            text = translate("Bench", "The calibration is forgotten; it corrects no later run.")
            say(forgotten, "info", text)

        def say(forgotten: Calibration, level: str, text: str) -> None:
            action = translate("Bench", "Bring it back")
            self.host.tell("forgotten", level, text, ((action, partial(bring_back, forgotten)),))

        def bring_back(forgotten: Calibration) -> None:
            def tell_back(kept: Calibration | None, error: Exception | None) -> None:
                if kept is None:
                    say(forgotten, "warning", message_sentence(str(error)))
                    return
                self.host.untell("forgotten")
                if card.listens_to(channel.identity):  # it may be of another instrument meanwhile
                    card.show_calibration(calibration_text(kept), is_kept=True)

            self.host.do(Job(partial(keep_again, channel, forgotten), tell_back, "bring back a calibration"))

        self.host.do(Job(work, tell, "forget a calibration"))

    def _listen_to_all(self) -> None:
        """Listen to all ports that nobody holds, and offer what is heard."""
        held = self._held_ports()
        self.stop_listening()
        text = translate("Bench", "Listening to all ports for five seconds; nothing is sent …")
        self.host.tell("listening", "info", text)
        self.listen_all.setEnabled(False)

        ports = PortRelease()

        def work() -> tuple[Heard, ...]:
            names = [one.device for one in find_ports() if one.is_worth_listening and one.device not in held]
            return listen_to_all(names, opener=ports.open)

        def tell(heard: tuple[Heard, ...] | None, error: Exception | None) -> None:
            self.listen_all.setEnabled(True)
            self.host.untell("listening")
            if error is not None:
                self.host.tell("heard", "warning", message_sentence(str(error)))
            elif not heard:
                text = translate("Bench", "No port was found. Plug the instrument in, then listen again.")
                self.host.tell("heard", "info", text, passes_after_s=HEARD_PASSES_S)
            for one in heard or ():
                actions = [(address, partial(self._use, one.port, address)) for address in one.addresses]
                self._heard.append(f"heard {one.port}")
                level = "info" if one.state == "recognised" else "warning"
                self.host.tell(f"heard {one.port}", level, heard_text(one), actions)

        self.host.do(_Listening(work, tell, ports))

    def _use(self, port: str, address: str) -> None:
        """Put a recognised instrument on the bench, in place of a simulated cell that stands there alone."""
        self.host.untell(f"heard {port}")
        if len(self.cards) == 1 and self.cards[0].form.kind == "cell":
            self._remove(self.cards[0])
        self.add_source(SourceForm.of(address)).listen.setFocus()
