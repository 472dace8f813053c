"""Few unfamiliar words, and those explained as the pack asks: by a picture or in the word bank."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._line import NAMES
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem
from storybank.vocabulary.measures import unfamiliar, words_of

TITLE = "Unfamiliar words"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for too many unfamiliar words, and for each that is not explained."""
    pack = shape.vocabulary
    texts = [line.text for line in shape.sentences]
    bases = shape.lexicon.word_bases
    forms = unfamiliar(texts, NAMES, shape.lexicon.bases, pack.familiar)
    hard = tuple(dict.fromkeys(bases.get(word, word) for word in forms))
    if len(hard) > pack.unfamiliar_words:
        yield (
            -1,
            (
                f"{len(hard)} words may be unfamiliar ({', '.join(hard)}); this level allows "
                f"{pack.unfamiliar_words}. Choose a plainer word."
            ),
        )
    if pack.unfamiliar_need == "none":
        return
    explained = {
        word
        for text, picture, meaning in shape.bank
        if meaning and (picture or pack.unfamiliar_need != "picture")
        for one in words_of(text.lower())
        for word in (one, bases.get(one, one))
    }
    for word in hard:
        if explained.isdisjoint((word, shape.lexicon.plural.get(word))):
            need = (
                "a picture in the word bank"
                if pack.unfamiliar_need == "picture"
                else ("an entry in the word bank")
            )
            yield -1, f'the word "{word}" may be unfamiliar and needs {need}.'


def judge(problem: Problem, context: Context) -> list[str]:
    """Which words of a problem are unfamiliar and not explained."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with four unfamiliar words, and with one that is not explained."""
    hard = _spoiling.retold(problem, r"\.$", " with zyx, wuv, tusp and quorl.")
    if problem.vocabulary != "level-4":
        hard += _spoiling.retold(problem, r"\.$", " with zyx.")
    return hard
