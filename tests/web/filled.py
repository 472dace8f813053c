"""A form of a page as a browser would send it, read with the standard library's parser."""

from html.parser import HTMLParser


class _Forms(HTMLParser):
    """Collects the fields of every form by its action."""

    def __init__(self) -> None:
        super().__init__()
        self.found: dict[str, list[tuple[str, str]]] = {}
        self._fields: list[tuple[str, str]] | None = None
        self._select: tuple[str, list[str], list[str], bool] | None = None
        self._area: tuple[str, list[str]] | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        name, value = said.get("name") or "", said.get("value") or ""
        if tag == "form":
            self._fields = self.found.setdefault(said.get("action") or "", [])
        elif self._fields is None:
            return
        elif tag == "input" and name:
            kind = said.get("type") or "text"
            if kind not in ("checkbox", "radio", "file") or "checked" in said:
                self._fields.append((name, value))
        elif tag == "select":
            self._select = (name, [], [], "multiple" in said)
        elif tag == "option" and self._select is not None:
            self._select[1].append(value)
            if "selected" in said:
                self._select[2].append(value)
        elif tag == "textarea":
            self._area = (name, [])

    def handle_data(self, data: str) -> None:
        if self._area is not None:
            self._area[1].append(data)

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._fields = None
        if self._fields is None:
            return
        if tag == "select" and self._select is not None:
            name, every, chosen, several = self._select
            for value in chosen if chosen or several else every[:1]:
                self._fields.append((name, value))
            self._select = None
        elif tag == "textarea" and self._area is not None:
            self._fields.append((self._area[0], "".join(self._area[1]).removeprefix("\n")))
            self._area = None


def filled(html: str, action: str) -> dict[str, list[str]]:
    """What a browser would send of the forms of a page that go to `action`."""
    reader = _Forms()
    reader.feed(html)
    fields: dict[str, list[str]] = {}
    for name, value in reader.found[action]:
        fields.setdefault(name, []).append(value)
    return fields
