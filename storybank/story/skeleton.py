"""Skeletons: a telling with every word chosen, and gaps for people and numbers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from storybank.model import BankWord
from storybank.model.words import Scene, Theme
from storybank.story.gaps import Sentence
from storybank.story.parts import Parts
from storybank.story.word_bank import bases_of, word_bank
from storybank.story.writer import Writer
from storybank.tellings import Telling, keywords_in
from storybank.vocabulary import Vocabulary
from storybank.vocabulary.measures import second_meanings, unfamiliar, words_of


@dataclass(frozen=True, slots=True)
class Skeleton:
    """The sentences with gaps; the last `questions` of `sentences` ask. `people` is 0 to 2."""

    sentences: tuple[Sentence, ...]
    questions: int
    answer: Sentence
    people: int
    pronouns: bool
    own_line: bool
    talk_frames: tuple[str, ...]
    support: tuple[str, ...]
    word_bank: tuple[BankWord, ...]
    keywords: tuple[str, ...]
    opening_keywords: tuple[str, ...] = ()
    then_keywords: tuple[str, ...] = ()
    """Of two steps, the keywords of the sentences that tell the first, and the second."""
    unit: str | None = None


def build(
    telling: Telling,
    parts: Parts,
    theme: Theme,
    scene: Scene,
    tense: str,
    vocabulary: Vocabulary,
) -> Skeleton | None:
    """The skeleton of a plan, or None where it would leave the limits of the vocabulary pack."""
    writer = Writer(parts, scene, tense, vocabulary.plain_words)
    sentences = [writer.sentence(pattern) for pattern in telling.sentences]
    sentences += [writer.sentence(pattern) for pattern in telling.questions]
    answer = writer.sentence(telling.answer)
    return finished(writer, sentences, len(telling.questions), answer, theme, vocabulary)


def finished(
    writer: Writer,
    sentences: Sequence[Sentence],
    questions: int,
    answer: Sentence,
    theme: Theme,
    vocabulary: Vocabulary,
    further: int = 0,
    opening: int = 0,
) -> Skeleton | None:
    """The skeleton of sentences that a writer wrote, or None where they leave the pack's limits.

    The last `questions` of them ask; `further` is how many steps or parts they tell beyond a
    story's first, `opening` how many sentences tell the first of two steps.
    """
    probe = [as_text(sentence, "Ada", "Ben", "7") for sentence in sentences]
    bank = word_bank(theme, probe, vocabulary)
    skeleton = Skeleton(
        sentences=tuple(sentences),
        questions=questions,
        answer=answer,
        people=2 if writer.said["b"] else int(writer.said["a"]),
        pronouns=vocabulary.pronouns != "none",
        own_line=vocabulary.question_line == "own",
        talk_frames=vocabulary.talk_frames,
        support=vocabulary.support,
        word_bank=bank,
        keywords=keywords_in(" ".join(probe)),
        opening_keywords=keywords_in(" ".join(probe[:opening])),
        then_keywords=keywords_in(" ".join(probe[opening:])) if opening else (),
    )
    return (
        skeleton if within_limits(skeleton, probe, bases_of(theme), vocabulary, further) else None
    )


def as_text(sentence: Sentence, a: str, b: str, number: str) -> str:
    """The sentence with stand-ins in its gaps, names repeated: what limits are measured on."""
    out = []
    for piece in sentence:
        if isinstance(piece, str):
            out.append(piece)
        elif piece.kind == "number":
            out.append(f"{number} {piece.many}")
        elif piece.kind == "agree":
            out.append(piece.many)
        else:
            out.append(b if piece.kind == "b" else a)
    return "".join(out)


def within_limits(
    skeleton: Skeleton,
    probe: Sequence[str],
    bases: Mapping[str, str],
    pack: Vocabulary,
    further: int = 0,
) -> bool:
    """Whether the sentences, told with stand-ins in `probe`, keep the limits of the pack.

    `bases` gives the base of each word form; `further` is how many steps or parts there are
    beyond those of a plain story.
    """
    counts = [len(words_of(text)) for text in probe]
    told, asked = counts[: -skeleton.questions], counts[-skeleton.questions :]
    if max(told) > pack.statement_words or max(asked) > pack.question_words:
        return False
    if len(counts) > pack.sentences + further * pack.further_sentences:
        return False
    if sum(counts) > pack.words + further * pack.further_words:
        return False
    forms = unfamiliar(probe, ("Ada", "Ben"), bases, pack.familiar)
    hard = tuple(dict.fromkeys(bases.get(form, form) for form in forms))
    if len(hard) > pack.unfamiliar_words:
        return False
    banked = {word: entry for entry in skeleton.word_bank for word in words_of(entry.word.lower())}
    for many, one in bases.items():
        if many in banked:
            banked.setdefault(one, banked[many])
    mathematical = {gloss.word for gloss in pack.math_words}
    doubtful = [word for word in second_meanings(probe) if word not in mathematical]
    return _explained(hard, pack.unfamiliar_need, banked) and _explained(
        doubtful, pack.second_meanings, banked
    )


def _explained(words: Sequence[str], need: str, banked: Mapping[str, BankWord]) -> bool:
    """Whether all words stand in the word bank, with a picture where that is needed."""
    if need not in ("picture", "word-bank"):
        return True
    return all(word in banked and (need == "word-bank" or banked[word].picture) for word in words)
