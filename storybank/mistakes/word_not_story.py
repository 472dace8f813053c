"""Lets a word choose the operation against the story.

Lewis & Mayer 1987: errors on inconsistent compare problems are mostly reversals. Only where a
word that stands in the text points the other way.
"""

from storybank.mistakes._case import Case

TITLE = "Followed a word, not the story"
ORDER = 30
SAYS = (
    'Followed a word, not the story: saw "{word}" and worked out {first} {sign} {second}. '
    'Ask: "What happens in the story? Can you draw it before you choose?"'
)
_ADD: tuple[str, ...] = ("altogether", "in all", "total", "more")
_TAKE_AWAY: tuple[str, ...] = ("left", "fewer")


def _misleading(case: Case) -> str | None:
    """The word of the text that points the other way; of a comparison only its own can be it."""
    pointing = _TAKE_AWAY if case.adding else _ADD
    if case.situation.family == "compare":
        pointing = tuple(word for word in pointing if word == case.situation.wording)
    return next((word for word in pointing if word in case.keywords), None)


def predict(case: Case) -> int | None:
    """The other operation on the two given numbers, the larger first; None without such a word."""
    if len(case.given) != 2 or _misleading(case) is None:
        return None
    one, two = case.given
    return abs(one - two) if case.adding else one + two


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    first, second = sorted(case.given, reverse=True) if case.adding else case.given
    return SAYS.format(
        word=_misleading(case), first=first, second=second, sign="-" if case.adding else "+"
    )
