"""The word bank as tables: of one problem for its page, of the whole set for the key."""

from collections.abc import Iterable, Sequence

from storybank.documents._page import Table
from storybank.model import BankWord, Problem, ProblemSet

_COGNATE_LANGUAGE = "es"
_NO_LANGUAGE = "none"
_EMPTY = "\N{NO-BREAK SPACE}"
_NAMES = {
    "am": "\u12a0\u121b\u122d\u129b",
    "ar": "\u0627\u0644\u0639\u0631\u0628\u064a\u0629",
    "bn": "\u09ac\u09be\u0982\u09b2\u09be",
    "es": "Espa\u00f1ol",
    "fa": "\u0641\u0627\u0631\u0633\u06cc",
    "fr": "Fran\u00e7ais",
    "hi": "\u0939\u093f\u0928\u094d\u0926\u0940",
    "hmn": "Hmoob",
    "ht": "Krey\u00f2l",
    "ko": "\ud55c\uad6d\uc5b4",
    "pl": "Polski",
    "pt": "Portugu\u00eas",
    "ru": "\u0420\u0443\u0441\u0441\u043a\u0438\u0439",
    "so": "Soomaali",
    "sw": "Kiswahili",
    "tl": "Tagalog",
    "uk": "\u0423\u043a\u0440\u0430\u0457\u043d\u0441\u044c\u043a\u0430",
    "ur": "\u0627\u0631\u062f\u0648",
    "vi": "Ti\u1ebfng Vi\u1ec7t",
    "zh": "\u4e2d\u6587",
}


def language_name(code: str) -> str:
    """A language in its own words (ISO 639 code `es` as Espa\u00f1ol); the code where unknown."""
    return _NAMES.get(code, code)


def languages_of(problem_set: ProblemSet, problem: Problem) -> tuple[str, ...]:
    """The languages a problem's word bank prints: those asked for, else those of its level."""
    asked = tuple(problem_set.request.get("home_language", ()))
    if not asked and "cognates" in problem.story.support:
        asked = (_COGNATE_LANGUAGE,)
    return tuple(code for code in asked if code != _NO_LANGUAGE)


def word_table(problem: Problem, languages: Sequence[str], *, narrow: bool = False) -> Table:
    """The word bank of one problem, with what its level prints beside a word.

    In a `narrow` table the translations stand behind the word instead of beside it, and there is
    no column for the child's own word: that stands on the page of words.
    """
    support = problem.story.support
    own_word = "my-word" in support and not narrow
    bank = problem.story.word_bank
    columns = _languages_with_words(bank, languages)
    beside = () if narrow else columns
    header = ["Word", "What it means", *(language_name(code) for code in beside)]
    rows = []
    for entry in bank:
        word = _both_forms(entry, pictures="pictures" in support)
        row = [_with_translations(word, entry, columns) if narrow else word, entry.meaning]
        row += [entry.translations.get(code, "") or _EMPTY for code in beside]
        if own_word:
            row.append(_EMPTY)
        rows.append(tuple(row))
    if own_word:
        header.append("My word")
    return Table(tuple(header), tuple(rows), _widths(len(header), narrow=narrow))


def set_words(problem_set: ProblemSet, *, narrow: bool = False) -> tuple[Table, ...]:
    """All words of a set's word banks, each once: singular and plural, picture, meaning.

    In a `narrow` table the translations stand behind the word instead of beside it.
    """
    bank: dict[str, BankWord] = {}
    languages: dict[str, None] = {}
    told = [one for problem in problem_set.problems for one in (problem, *problem.levels)]
    for problem in told:
        for entry in problem.story.word_bank:
            bank.setdefault(entry.word, entry)
        languages.update(dict.fromkeys(languages_of(problem_set, problem)))
    if not bank:
        return ()
    things = sorted((one for one in bank.values() if one.one), key=lambda one: one.word)
    others = sorted((one for one in bank.values() if not one.one), key=lambda one: one.word)
    columns = _languages_with_words(bank.values(), tuple(languages))
    beside = () if narrow else columns
    header = ("Word", "What it means", *(language_name(code) for code in beside), "My word")
    rows = [
        (
            _with_translations(_both_forms(one), one, columns) if narrow else _both_forms(one),
            one.meaning,
            *(one.translations.get(code, "") or _EMPTY for code in beside),
            _EMPTY,
        )
        for one in (*things, *others)
    ]
    return (Table(header, tuple(rows), _widths(len(header), narrow=narrow)),)


def thing_table(problem: Problem) -> Table | None:
    """The things of a story with their pictures, singular and plural; None where it has none.

    A bean and a plant are left out where the story is about bean plants.
    """
    things = [one for one in problem.story.word_bank if one.one]
    rows = tuple(
        (_both_forms(one), one.meaning)
        for one in things
        if not any(_is_part(one, other) for other in things if other is not one)
    )
    return Table(("Words to use", "What it means"), rows, _widths(2)) if rows else None


def _is_part(one: BankWord, other: BankWord) -> bool:
    """Whether the word is one of the words of the other, in singular or plural."""
    bare = (one.one or "").partition(" ")[2]
    words = other.word.split()
    return len(words) > 1 and (bare in words or one.word in words)


def _both_forms(entry: BankWord, *, pictures: bool = True) -> str:
    word = entry.word if entry.one is None else f"{entry.one}, {entry.word}"
    return f"{entry.picture} {word}" if entry.picture and pictures else word


def _with_translations(word: str, entry: BankWord, columns: Sequence[str]) -> str:
    found = [entry.translations[code] for code in columns if entry.translations.get(code)]
    return " \N{MIDDLE DOT} ".join((word, *found))


def _languages_with_words(bank: Iterable[BankWord], languages: Sequence[str]) -> tuple[str, ...]:
    bank = tuple(bank)
    return tuple(code for code in languages if any(one.translations.get(code) for one in bank))


def _widths(columns: int, *, narrow: bool = False) -> tuple[int, ...]:
    """Shares of the page: meanings are longer than words, but not where translations join them."""
    if narrow:
        return (38, 62) if columns == 2 else (36, 40, 24)
    if columns == 2:
        return (30, 70)
    others = columns - 2
    share = min(26, 56 // others)
    return (22, 78 - share * others, *[share] * others)
