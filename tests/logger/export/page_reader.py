"""Reads an HTML page as strictly as the standard library can, and keeps what matters to the tests."""

from __future__ import annotations

import re
from html.parser import HTMLParser

VOID = frozenset({"meta", "br", "img", "link", "input", "hr"})


class Page(HTMLParser):
    """What an HTML document holds. Raises AssertionError where elements are not nested as they should.

    `text` is what a person reads; `elements` are (name, attributes) in order.
    """

    def __init__(self, document: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self._open: list[str] = []
        self._texts: list[str] = []
        assert document.startswith("<!DOCTYPE html>\n")
        self.feed(document)
        self.close()
        assert self._open == []
        self.text = " ".join("".join(self._texts).replace("\u00a0", " ").split())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len({name for name, _ in attrs}) == len(attrs)
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self._open.append(tag)
        self._texts.append(" ")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag
        self._texts.append("" if tag == "bdi" else " ")

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] != "style":
            self._texts.append(data)

    def names(self) -> set[str]:
        """The names of all elements."""
        return {name for name, _ in self.elements}

    def assert_inert(self) -> None:
        """Nothing runs, nothing is fetched, nothing leads elsewhere."""
        assert not self.names() & {
            "script", "iframe", "object", "embed", "link", "base", "form", "a",
            "use", "image", "foreignobject",
        }  # fmt: skip
        for name, attributes in self.elements:
            for key, value in attributes.items():
                assert not key.startswith("on"), (name, key)
                if (name, key) == ("img", "src"):
                    assert re.match(r"data:image/(png|jpeg|webp);base64,[A-Za-z0-9+/=]+$", value or "")
                    continue
                assert key not in ("src", "href", "xlink:href", "srcdoc", "action"), (name, key)
                assert "url(" not in (value or ""), (name, key, value)
        policies = [a["content"] for n, a in self.elements if n == "meta" and "http-equiv" in a]
        images = "; img-src data:" if "img" in self.names() else ""
        assert policies == [f"default-src 'none'; style-src 'unsafe-inline'{images}"]
