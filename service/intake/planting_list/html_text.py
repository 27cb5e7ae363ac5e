"""The text of an HTML page or mail body: lines as they are seen, the cells of a table with tabs between them.

What a mail program marks as quoted from an earlier mail gets the sign ">" that plain mails have.
"""

from __future__ import annotations

from collections.abc import Iterator
from html.parser import HTMLParser

_UNSEEN = frozenset({"head", "script", "style", "title", "template", "noscript", "svg", "select", "textarea"})
_BLOCKS = frozenset(
    {"address", "article", "blockquote", "br", "center", "dd", "div", "dl", "dt", "footer", "form", "h1", "h2", "h3",
     "h4", "h5", "h6", "header", "hr", "li", "ol", "p", "pre", "section", "table", "tbody", "thead", "tr", "ul"}
)  # fmt: skip
_DEEPEST = 10_000
_OPEN, _SHUT = "\x02", "\x03"
_VOID = frozenset({"br", "hr", "img", "input", "meta", "link", "col", "area", "base", "wbr", "source", "embed"})


def html_text(page: str, *, longest: int) -> str:
    """The text of a page, cut at `longest` letters.

    >>> html_text("<p>Hello</p><table><tr><td>2</td><td>Liberty</td></tr></table>", longest=100)
    'Hello\\n2\\tLiberty'
    """
    reader = _Reader(longest)
    reader.feed(page[: 20 * longest].replace(_OPEN, "").replace(_SHUT, ""))
    reader.close()
    return "\n".join(_lines("".join(reader.parts)))[:longest]


def _lines(text: str) -> Iterator[str]:
    """The lines that say anything, the quoted ones with their sign."""
    depth = 0
    for line in text.split("\n"):
        depth = max(0, depth + line.count(_OPEN) - line.count(_SHUT))
        shown = line.replace(_OPEN, "").replace(_SHUT, "").strip(" \r\f\v").rstrip()
        if shown:
            yield f"> {shown}" if depth else shown


class _Reader(HTMLParser):
    """Collects what is seen."""

    def __init__(self, longest: int) -> None:
        super().__init__(convert_charrefs=True)
        self.parts: list[str] = []
        self.room = longest
        self.unseen: list[str] = []
        self.cell = 0
        self.quotes: list[bool] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A tag opens."""
        if tag in _VOID and self.unseen:
            return
        if self.unseen or tag in _UNSEEN:
            if tag not in _VOID and len(self.unseen) < _DEEPEST:
                self.unseen.append(tag)
            return
        if tag == "blockquote":
            self._add("\n" + (_OPEN if _is_quoted(attrs) else ""))
            self.quotes.append(_is_quoted(attrs))
            return
        if tag == "tr":
            self.cell = 0
        if tag in ("td", "th"):
            self._add("\t" if self.cell else "")
            self.cell += 1
        elif tag in _BLOCKS and not self.cell:
            self._add("\n- " if tag == "li" else "\n")
        elif tag in _BLOCKS:
            self._add("\n" if tag in ("tr", "table") else " ")

    def handle_endtag(self, tag: str) -> None:
        """A tag closes."""
        if self.unseen:
            if tag in self.unseen[-20:]:
                while self.unseen and self.unseen.pop() != tag:
                    pass
            return
        if tag == "blockquote":
            self._add((_SHUT if self.quotes and self.quotes.pop() else "") + "\n")
        elif tag in ("tr", "table"):
            self.cell = 0
            self._add("\n")
        elif tag in _BLOCKS and not self.cell:
            self._add("\n")

    def handle_data(self, data: str) -> None:
        """Letters between tags."""
        if not self.unseen:
            self._add(" ".join(data.replace("\xa0", " ").split()) if data.strip() else " " if data else "",
                      around=data)  # fmt: skip

    def _add(self, text: str, *, around: str = "") -> None:
        if around.strip():
            text = (" " if around[0].isspace() else "") + text + (" " if around[-1].isspace() else "")
        if self.room > 0:
            self.parts.append(text[: self.room])
            self.room -= len(text)


def _is_quoted(attrs: list[tuple[str, str | None]]) -> bool:
    """Whether a mail program marks a quotation as an earlier mail."""
    told = {name: (value or "").lower() for name, value in attrs}
    return told.get("type") == "cite" or "quote" in told.get("class", "")
