"""Words and talk frames: the word bank of the whole set, and how to begin to speak about it."""

from storybank.documents._layout import Layout
from storybank.documents._page import Block, Heading, Page, Paragraph, Title
from storybank.documents._support import sentence_starter, shape_of
from storybank.documents._words import set_words
from storybank.model import ProblemSet

TITLE = "Words and talk frames of the set"
FOR_CHILDREN = True


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """The words of the set as a table, its talk frames, and the beginnings of its answers."""
    told = [one.story for one in problem_set.problems]
    frames = dict.fromkeys(frame for story in told for frame in story.talk_frames)
    starters = dict.fromkeys(sentence_starter(story.answer_frame) for story in told)
    blocks: list[Block] = [Title("Words for Our Stories")]
    words = set_words(problem_set, narrow=layout.large_print)
    if words:
        blocks += [Heading(1, "Words"), *words]
    if frames:
        blocks.append(Heading(1, "To talk about how you solved it"))
        blocks.extend(Paragraph("help", frame) for frame in frames)
    blocks.append(Heading(1, "To answer"))
    blocks.extend(Paragraph("help", starter) for starter in starters)
    return Page(title="Words for Our Stories", top=shape_of(problem_set), blocks=tuple(blocks))
