"""Which packs a set is made from: subjects switched off, observances switched on."""

from collections.abc import Iterable, Sequence

from storybank import themes
from storybank.errors import RequestError, unknown_value
from storybank.model.words import Header, Theme
from storybank.themes._subjects import SUBJECTS, without

__all__ = ["SUBJECTS", "chosen", "festivals", "festivals_there_are", "subjects", "without"]


def subjects(names: Iterable[str]) -> tuple[str, ...]:
    """The subjects, each once, in our order. Raises RequestError for an unknown one."""
    named = list(names)
    for name in named:
        if name not in SUBJECTS:
            raise RequestError(unknown_value("subject", name, SUBJECTS))
    return tuple(one for one in SUBJECTS if one in named)


def festivals_there_are() -> tuple[str, ...]:
    """What can be switched on: each observance of a pack, and the ids of those packs."""
    tied = [head for head in themes.headers() if head.observance is not None]
    named = sorted({head.observance for head in tied if head.observance is not None})
    return (*named, *(head.id for head in tied))


def festivals(names: Iterable[str]) -> tuple[str, ...]:
    """The observances and packs, each once, spelt as in the packs.

    Capital letters do not matter. Raises RequestError for one that no pack is tied to.
    """
    there = {name.casefold(): name for name in festivals_there_are()}
    found = []
    for name in names:
        if name.casefold() not in there:
            if not there:
                raise RequestError(
                    f'There is no festival "{name}": no theme pack here is tied to an observance. '
                    "Leave festivals out."
                )
            raise RequestError(unknown_value("festival", name, there.values()))
        found.append(there[name.casefold()])
    return tuple(dict.fromkeys(found))


def chosen(
    named: Sequence[str], switched_off: Sequence[str], switched_on: Sequence[str]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The ids of the packs for a set, and notes on those that were left out.

    Those `named`, or else all that are tied to no observance or to one that is switched on. A
    pack of which nothing is left without the subjects that are switched off is left out, with a
    note, unless it was named. Raises RequestError for an unknown pack, for a named one of which
    nothing is left, and where no pack is left at all.
    """
    off = frozenset(switched_off)
    if not named and not off:
        on = tuple(head.id for head in themes.headers() if _is_on(head, switched_on))
        if on:
            return on, ()  # Which of them a set uses shows later; the others need not be read.
    packs = list(themes.several(named)) or [
        themes.get(head.id) for head in themes.headers() if _is_on(head, switched_on)
    ]
    left = [pack for pack in packs if without(pack, off).scenes]
    gone = [pack for pack in packs if pack not in left]
    if gone and (named or not left):
        raise RequestError(
            f"Without {', '.join(switched_off)} nothing is left to tell of the "
            f"{_packs(gone)}. Choose another theme, or leave a subject on: --without takes "
            f"{', '.join(SUBJECTS)}."
        )
    notes = (f"Nothing is left of the {_packs(gone)} without {', '.join(switched_off)}.",)
    return tuple(pack.header.id for pack in left), notes if gone else ()


def _is_on(head: Header, switched_on: Sequence[str]) -> bool:
    return head.observance is None or head.observance in switched_on or head.id in switched_on


def _packs(some: Sequence[Theme]) -> str:
    names = ", ".join(pack.header.id for pack in some)
    return f"theme {names}" if len(some) == 1 else f"themes {names}"
