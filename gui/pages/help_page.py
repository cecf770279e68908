"""The help: topics on the left, the text on the right. Nothing is fetched from anywhere."""

from __future__ import annotations

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QAction, QResizeEvent, QTextDocument
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from gui.fonts import font
from gui.help.topics import (
    COLUMN_GAP,
    IN_COLUMNS,
    SHOWN_WIDTH,
    USUAL_PX,
    drawing,
    style,
    topic_html,
    topic_names,
)
from gui.pages.page import HeaderWords, Page, PageHost
from gui.words import translate

__all__ = ["HelpPage"]

LIST_WIDTH = 250
MEASURE = 39
"""Width of the text in sizes of its letters: some 75 of them in a line (R. Bringhurst, The Elements of
Typographic Style, 1992, 2.1.2)."""

LEAST_MEASURE = 34
"""Of a column of steps, where two stand beside one another."""

LARGER_FROM, PIXELS_A_SIZE, LARGEST_PX = 1000, 180, 20
"""A page wider than the first has larger letters, one pixel for each of so many, up to the last."""

LIST_EDGE = 6
MARGIN, BORDER = 10, 2
LINK = "topic"
DRAWING = QUrl("wiring")


class HelpPage(Page):
    """Shows one topic at a time."""

    def __init__(self, host: PageHost, parent: QWidget | None = None) -> None:
        super().__init__(host, parent)
        self.topics = QListWidget()
        self.text = QTextBrowser()
        self._letter_px, self._in_two = USUAL_PX, False
        self._shown = self._in_two, SHOWN_WIDTH
        self._build()
        self.topics.currentItemChanged.connect(lambda *_: self._show())
        self.text.anchorClicked.connect(self._follow)
        host.theme.changed.connect(self._recolour)
        self._recolour()
        self.topics.setCurrentRow(0)

    def _build(self) -> None:
        self.topics.setFrameShape(QFrame.Shape.NoFrame)
        self.topics.setFixedWidth(LIST_WIDTH)
        self.topics.setAccessibleName(translate("Help", "Topics"))
        for topic, words in topic_names().items():
            item = QListWidgetItem(words)
            item.setData(Qt.ItemDataRole.UserRole, topic)
            self.topics.addItem(item)
        self.text.setOpenLinks(False)
        self.text.setFrameShape(QFrame.Shape.NoFrame)
        # Texts fit at every width; Qt keeps a bar for a width that they had before their own bar came.
        self.text.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.text.setAccessibleName(translate("Help", "Text of the topic"))
        self.text.document().setDocumentMargin(MARGIN)
        row = QHBoxLayout(self)
        row.setContentsMargins(28, 22, 14, 12)
        row.setSpacing(28)
        left = QVBoxLayout()
        left.addWidget(self.topics)
        left.addStretch(1)
        row.addLayout(left)
        # On a wide page the text stands nearer to its topics than to the other edge.
        row.addStretch(1)
        row.addWidget(self.text, 100)
        row.addStretch(2)
        self.setFocusProxy(self.topics)
        self._write(USUAL_PX)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Write larger on a large screen, draw the wiring as wide as there is room, break names in little."""
        super().resizeEvent(event)
        letter_px = _letter_px(self.width())
        if letter_px != self._letter_px:
            self._write(letter_px)
            self._show()
        else:
            self._fit_text()
            if (self._in_two, self._room_for_text()) != self._shown:
                self._show()

    def _write(self, letter_px: int) -> None:
        """Take letters of that size, and the width in which they are read well."""
        self._letter_px = letter_px
        for widget in (self.topics, self.text):
            widget.setFont(font(letter_px))
        self._fit_topics()
        self._fit_text()

    def _fit_text(self) -> None:
        """Give the text the width in which it is read well, that of two columns where they have room."""
        layout, px = self.layout(), self._letter_px
        assert layout is not None
        self._in_two = self._topic() in IN_COLUMNS
        if self._in_two:
            self.text.setMaximumWidth(2 * MEASURE * px + COLUMN_GAP + 2 * MARGIN)
            layout.activate()
            self._in_two = self.text.width() >= 2 * LEAST_MEASURE * px + COLUMN_GAP + 2 * MARGIN
        if not self._in_two:
            self.text.setMaximumWidth(MEASURE * px + 2 * MARGIN)
            layout.activate()

    def _topic(self) -> str:
        return str(self.topics.item(max(self.topics.currentRow(), 0)).data(Qt.ItemDataRole.UserRole))

    def header_words(self) -> HeaderWords:
        """The topic."""
        topic = self.topics.item(max(self.topics.currentRow(), 0)).text()
        return HeaderWords(translate("Help", "Help"), (topic,))

    def entered(self) -> None:
        """What the keys do may have changed."""
        self._fit_topics()
        self._show()

    def _fit_topics(self) -> None:
        self.topics.setFixedWidth(max(LIST_WIDTH, self.topics.sizeHintForColumn(0) + 3 * LIST_EDGE))
        rows = self.topics.count() * self.topics.sizeHintForRow(0)
        self.topics.setFixedHeight(rows + 2 * LIST_EDGE)

    def show_topic(self, topic: str) -> None:
        """Show a topic by its name (`gui.help.TOPICS`)."""
        for number in range(self.topics.count()):
            if self.topics.item(number).data(Qt.ItemDataRole.UserRole) == topic:
                self.topics.setCurrentRow(number)

    def _show(self) -> None:
        self._fit_text()
        colours = self.host.theme.colours
        document = self.text.document()
        room = self._room_for_text()
        self._shown = self._in_two, room
        document.setDefaultStyleSheet(style(colours, self._letter_px))
        picture = drawing(colours, 2 * self.devicePixelRatioF())
        document.addResource(QTextDocument.ResourceType.ImageResource.value, DRAWING, picture)
        html = topic_html(
            self._topic(), self._actions(), room=room, letter_px=self._letter_px, in_two=self._in_two
        )
        self.text.setHtml(html)

    def _room_for_text(self) -> int:
        most = round(SHOWN_WIDTH * self._letter_px / USUAL_PX)
        # The bar comes with a long text, after this was asked.
        bar = self.text.verticalScrollBar().sizeHint().width()
        inside = self.text.width() - 2 * BORDER - bar
        return min(inside - 2 * MARGIN, most)

    def _actions(self) -> list[QAction]:
        """Everything of the window that has a key, in the order of its menus."""
        found = self.window().findChildren(QAction)
        return [action for action in found if "\t" in action.text() or not action.shortcut().isEmpty()]

    def _follow(self, link: QUrl) -> None:
        if link.scheme() == LINK:
            self.show_topic(link.path())

    def _recolour(self) -> None:
        colours = self.host.theme.colours
        self.setStyleSheet(
            "QTextBrowser { background: transparent; border-radius: 10px;"
            f" border: {BORDER}px solid transparent; }}"
            f"QTextBrowser:focus {{ border-color: {colours.curve}; }}"
            "QListWidget { background: transparent; border: 2px solid transparent; border-radius: 12px;"
            " padding: 2px; outline: none; }"
            f"QListWidget:focus {{ border-color: {colours.curve}; }}"
            f"QListWidget::item {{ padding: 9px 12px; border-radius: 9px; color: {colours.quiet}; }}"
            f"QListWidget::item:selected {{ background: {colours.band}; color: {colours.ink}; }}"
        )
        self._show()


def _letter_px(page_width: int) -> int:
    return min(USUAL_PX + max(0, page_width - LARGER_FROM) // PIXELS_A_SIZE, LARGEST_PX)
