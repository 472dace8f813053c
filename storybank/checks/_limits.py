"""Whether a told story keeps the limits of a vocabulary pack, before it becomes a problem."""

from collections.abc import Sequence

from storybank.checks import _shape
from storybank.checks._context import Context
from storybank.checks._reading import LineFinder
from storybank.checks._shape import Finder
from storybank.model import Story

LIMITING = (
    "density",
    "length",
    "plain-forms",
    "pronouns",
    "question",
    "tense",
    "unfamiliar-words",
    "word-bank",
)
"""The checks whose verdict hangs on the settings of the vocabulary pack."""


def broken(
    line_finders: Sequence[tuple[str, tuple[str, ...], LineFinder]],
    finders: Sequence[tuple[str, Finder]],
    story: Story,
    situation_id: str,
    context: Context,
) -> bool:
    """Whether any of the finders finds a fault in the story."""
    shape = _shape.shape_of(_shape.story_key(story, situation_id, 0, 0.0, context), context)
    for read in shape.readings:
        for _, parts, finder in line_finders:
            if read.part in parts and any(True for _ in finder(read, context.rules)):
                return True
    return any(True for _, finder in finders for _ in finder(shape))
