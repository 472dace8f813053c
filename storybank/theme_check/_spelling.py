"""Warns of unlikely word forms; an author who knows better writes `forms: as written`."""

import re
from collections.abc import Iterator
from typing import Any

from storybank.located import At, Faults, ListAt, MappingAt
from storybank.themes import forms, is_language_key

_ARTICLE = re.compile(r"\b(an?) ([^\W_][\w'\u2019-]*)")
_KEEP = f"If it is right, keep it with `forms: {forms.AS_WRITTEN}` beside it"


def warn(content: Any, warnings: Faults) -> None:
    """Warns of each plural, verb and article of a pack's content that is unlikely."""
    for node, path in _mappings(content, ()):
        one, many = node.get("one"), node.get("many")
        if isinstance(one, At) and isinstance(many, At):
            _noun(one, many, warnings)
        verb = node.get("verb")
        if isinstance(verb, At):
            _verb(verb, warnings)
        for key, value in node.items():
            foreign = len(path) == 2 and path[0] in ("things", "words") and is_language_key(key)
            if isinstance(value, At) and not foreign:
                _articles(value, warnings)


def _mappings(node: Any, path: tuple[str, ...]) -> Iterator[tuple[MappingAt, tuple[str, ...]]]:
    if isinstance(node, MappingAt):
        if str(node.get("forms")) == forms.AS_WRITTEN:
            return
        yield node, path
        for key, value in node.items():
            yield from _mappings(value, (*path, str(key)))
    elif isinstance(node, ListAt):
        for item in node:
            yield from _mappings(item, path)


def _noun(one: At, many: At, warnings: Faults) -> None:
    bare = str(one).partition(" ")[2]
    likely = forms.plurals(bare)
    if many not in likely:
        warnings.add(
            many.line,
            f'"{many}" is an unlikely plural of "{bare}". Write `many: {likely[0]}`. {_KEEP}.',
        )


def _verb(verb: At, warnings: Faults) -> None:
    base, *written = str(verb).split()
    likely = (forms.s_forms(base), forms.pasts(base), forms.participles(base))
    odd = [form for form, some in zip(written, likely, strict=True) if form not in some]
    if odd:
        right = " ".join(
            form if form in some else some[0] for form, some in zip(written, likely, strict=True)
        )
        said = ", ".join(f'"{form}"' for form in odd)
        are = "is an unlikely form" if len(odd) == 1 else "are unlikely forms"
        warnings.add(
            verb.line,
            f'{said} {are} of the verb "{base}". Write `verb: {base} {right}`. {_KEEP}.',
        )


def _articles(text: At, warnings: Faults) -> None:
    for article, word in _ARTICLE.findall(text):
        right = forms.article(word)
        if article != right:
            warnings.add(
                text.line,
                f'"{article} {word}" is unlikely. Write "{right} {word}". {_KEEP}.',
            )
