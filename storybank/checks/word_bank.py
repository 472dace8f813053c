"""The word bank explains the things told of, the mathematics words, and words of two meanings."""

from collections.abc import Iterator
from dataclasses import replace

from storybank.checks import _grammar
from storybank.checks._context import Context
from storybank.checks._reading import Reading, once
from storybank.checks._rules import Fault, Rules
from storybank.checks._shape import Shape, judged
from storybank.model import Problem
from storybank.vocabulary.measures import second_meanings, words_of

TITLE = "Word bank"
_COUNTING = ("many", "other")


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each word that lacks its entry, picture or meaning."""
    pack, lexicon = shape.vocabulary, shape.lexicon
    bank = {word.lower(): picture for word, picture, _ in shape.bank}
    for word, _, meaning in shape.bank:
        if not meaning:
            yield -1, f'the word bank does not say what "{word}" means.'
    if len(bank) < len(shape.bank):
        yield -1, "a word stands twice in the word bank."
    for thing in _counted(shape):
        picture = lexicon.pictures[thing]
        if pack.things_need_picture and picture is None:
            yield -1, f'"{thing}" has no picture; this level tells only of things with one.'
        if "word-bank" in pack.support and thing not in bank:
            yield -1, f'the word bank does not explain "{thing}", which is counted.'
        elif bank.get(thing, picture) != picture:
            yield -1, f'the picture of "{thing}" in the word bank is not that of the pack.'
    if "word-bank" not in pack.support:
        return
    text = f" {' '.join(low for line in shape.sentences for low in line.lows)} "
    for gloss in pack.math_words:
        said = any(f" {form.lower()} " in text for form in gloss.forms)
        if said and gloss.word.lower() not in bank:
            yield -1, f'the word bank does not explain "{gloss.word}".'
    yield from _second_meanings(shape, text)


def _second_meanings(shape: Shape, text: str) -> Iterator[Fault]:
    """A fault for each word with a second everyday meaning that is not explained.

    Whether it needs a picture is for the vocabulary pack to say; mathematics words need none.
    """
    plain = {gloss.word for gloss in shape.vocabulary.math_words}
    need = shape.vocabulary.second_meanings
    if need == "free":
        return
    picture_needed = need == "picture"
    for word in sorted(second_meanings([text])):
        if not any(
            word in words_of(entry.lower()) and (picture or not picture_needed or word in plain)
            for entry, picture, _ in shape.bank
        ):
            wanted = "a picture in the word bank" if picture_needed else "a word bank entry"
            yield -1, f'"{word}" has a second everyday meaning and needs {wanted}, or avoid it.'


def _counted(shape: Shape) -> list[str]:
    """The plurals of the things of the pack that the story names."""
    said = [once(_things, read, shape.rules) for read in shape.told]
    return list(dict.fromkeys(thing for things in said for thing in things))


def _things(read: Reading, rules: Rules) -> tuple[str, ...]:
    """The plurals of the things that a sentence counts."""
    plural, pictures = rules.lexicon.plural, rules.lexicon.pictures
    line, found = read.line, []
    for at, token in enumerate(line.tokens):
        many = token.low if token.has("n2") else plural.get(token.low, "")
        if many not in pictures or not token.has("n1", "n2"):
            continue
        if line.can(at + 1, "n1", "n2", "n", "x"):
            continue
        first = line.tokens[_grammar.group_start(line, at)]
        if first.has("num", "dm", "d1") or first.low in _COUNTING:
            found.append(many)
    return tuple(found)


def judge(problem: Problem, context: Context) -> list[str]:
    """What is missing from the word bank of a problem."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with an empty bank, a word without meaning, twice the same, and a wrong picture."""
    story = problem.story
    if not story.word_bank:
        return []
    first = story.word_bank[0]
    samples = [
        (replace(first, meaning=""), *story.word_bank[1:]),
        (first, *story.word_bank),
        (replace(first, picture="\N{SNOWMAN}"), *story.word_bank[1:]),
    ]
    if problem.vocabulary != "level-4":
        samples.append(())
    return [replace(problem, story=replace(story, word_bank=bank)) for bank in samples]
