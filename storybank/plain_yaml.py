"""Reads YAML as plain text with lines: no tags, no anchors, no key twice."""

from collections.abc import Iterator
from typing import Any

import yaml

from storybank.errors import PackError
from storybank.located import At, ListAt, MappingAt

MAX_DEPTH = 12


def parse_documents(text: str, name: str, *, first_only: bool = False) -> list[Any]:
    """The YAML documents in `text`, as `read_documents`; `name` stands in the messages."""
    documents: list[Any] = []
    try:
        events = _guarded(yaml.parse(text, Loader=_loader()), name)
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents.append(_node(next(events), events, name))
                if first_only:
                    break
    except yaml.MarkedYAMLError as error:
        raise PackError(_not_yaml(text, name, error)) from error
    except yaml.YAMLError as error:
        raise PackError(f"{name}: this is not valid YAML text: {error}.") from error
    return documents


def _not_yaml(text: str, name: str, error: Any) -> str:
    from storybank.yaml_faults import Mishap, explained

    mark = error.problem_mark or error.context_mark
    if mark is None:
        return f"{name}: this is not valid YAML: {error.problem}."
    begun = (error.context_mark or mark).line + 1
    mishap = Mishap(begun, mark.line + 1, mark.column, error.context or "", error.problem or "")
    line, why = explained(text, mishap)
    return f"{name}, line {line}: this is not valid YAML: {why}"


def _loader() -> Any:
    return getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def _guarded(events: Iterator[Any], name: str) -> Iterator[Any]:
    depth = 0
    for event in events:
        line = event.start_mark.line + 1
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise PackError(
                f"{name}, line {line}: anchors and aliases (& and *) are not allowed in a pack. "
                "Write the value out, or put text that begins with & or * in quotes."
            )
        tag = getattr(event, "tag", None)
        if tag:
            raise PackError(
                f'{name}, line {line}: the tag "{tag}" is not allowed in a pack. '
                "Remove it, or put text that begins with ! in quotes."
            )
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
            if depth > MAX_DEPTH:
                raise PackError(
                    f"{name}, line {line}: more than {MAX_DEPTH} levels of nesting. "
                    "A pack needs fewer; check the indentation and brackets."
                )
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1
        yield event


def _node(event: Any, events: Iterator[Any], name: str) -> Any:
    line = event.start_mark.line + 1
    if isinstance(event, yaml.ScalarEvent):
        text = At(event.value)
        text.line = line
        return text
    if isinstance(event, yaml.SequenceStartEvent):
        items = ListAt()
        items.line = line
        for item in events:
            if isinstance(item, yaml.SequenceEndEvent):
                break
            items.append(_node(item, events, name))
        return items
    mapping = MappingAt()
    mapping.line = line
    for item in events:
        if isinstance(item, yaml.MappingEndEvent):
            break
        key = _node(item, events, name)
        if not isinstance(key, At):
            raise PackError(f"{name}, line {line}: a key must be plain text, not a list.")
        if key in mapping:
            raise PackError(
                f'{name}, line {key.line}: the key "{key}" stands twice in one mapping. '
                "Keep one of them."
            )
        mapping[key] = _node(next(events), events, name)
    return mapping
