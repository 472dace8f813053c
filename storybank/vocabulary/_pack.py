"""A vocabulary pack as values: the limits of a story's English and the support beside it."""

from dataclasses import dataclass

from storybank.model.words import Gloss


@dataclass(frozen=True, slots=True, eq=False)
class Vocabulary:
    """The limits and the support of one vocabulary pack; names as in its file.

    `level`, 1 (first English) to 4 (ordinary wording), says which tellings are used.
    `statement_words` to `unfamiliar_words` are largest counts a sentence or story; a story with a
    further step, or a further part, may have `further_sentences` and `further_words` more.
    `unfamiliar_need` and `second_meanings` say what an unfamiliar word and a word with a second
    everyday meaning must come with; `support` what is printed beside the story. `familiar` are
    the familiar words where they are not just those of our own list. `shipped` is whether the
    pack is one of ours as it stands: of those every plan is tested to keep the limits.
    """

    id: str
    title: str
    level: int
    statement_words: int
    question_words: int
    sentences: int
    words: int
    further_sentences: int
    further_words: int
    finite_verbs: int
    tenses: tuple[str, ...]
    past_in_question: tuple[str, ...]
    passive: bool
    if_clauses: bool
    negation: bool
    relative_clauses: int
    pronouns: str
    modifiers: int
    prepositional_phrases: int
    unfamiliar_words: int
    unfamiliar_need: str
    second_meanings: str
    plain_words: bool
    things_need_picture: bool
    name_letters: int
    question_line: str
    support: tuple[str, ...]
    talk_frames: tuple[str, ...]
    math_words: tuple[Gloss, ...]
    familiar: frozenset[str] | None = None
    shipped: bool = True
