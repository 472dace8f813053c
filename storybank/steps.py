"""What a teacher asks of problems of two steps, or of three and four addends."""

from collections.abc import Mapping, Sequence

from storybank import situations, strategies
from storybank.errors import RequestError
from storybank.situations import two_steps

WITHIN = 20
"""The largest number where none is asked for: single-digit parts make at most 18."""
MOST = 100
ANY = "any"
_ALONE = {
    "pair": "a pair names the numbers of a single step",
    "crossing": "whether numbers regroup is asked of a single step",
    "diagnose": "a wrong answer of two steps does not show in which of them it arose",
    "levels_side_by_side": "a story of two steps is told at a single level so far",
}

OF_SUMS = ("whole-unknown",)
_SUM = {
    "steps": "its parts are added in a single step",
    "strategy": "a sum of several addends is taught by its friendly pair",
    "pair": "a pair has two numbers",
    "crossing": "whether numbers regroup is asked of two numbers",
    "diagnose": "mistakes are told apart for two numbers so far",
    "levels_side_by_side": "a sum of several addends is told at a single level so far",
}


def asked(
    counts: tuple[int, int],
    named: tuple[Sequence[str], Sequence[str], Sequence[str]],
    within: int | None,
    others: Mapping[str, bool],
) -> tuple[tuple[tuple[str, str], ...], int]:
    """The pairs of situations of two steps, none for one, and the largest number by default.

    `counts` are those of steps and addends, `named` the situations of the first and the second step
    and the strategies. Raises RequestError for what does not go together.
    """
    (steps, addends), (situation, then, strategy) = counts, named
    if addends != 2:
        most = largest_sum(addends, within)
        further = {
            "steps": steps != 1 or bool(then),
            "strategy": tuple(strategy) not in ((), (ANY,)),
        }
        check_addends({**further, **others}, situation)
        return (), most
    pairs = pairs_asked(steps, situation, then, others)
    return pairs, largest(within) if pairs else MOST


def pairs_asked(
    steps: int, situation: Sequence[str], then: Sequence[str], others: Mapping[str, bool]
) -> tuple[tuple[str, str], ...]:
    """The situations of the first and the second step, every pair wished; none for one step.

    `situation` names first steps, `then` second ones, and `others` says of each further wish by
    its name whether it was made. Raises RequestError for a count of steps other than 1 or 2, for
    a pair that is refused, and for a wish that does not go with two steps.
    """
    if steps == 1:
        if then:
            raise RequestError(
                f"--then names a second step ({', '.join(then)}), and problems of one step are "
                "asked for. Add --steps 2, or leave out --then."
            )
        return ()
    if steps != 2:
        raise RequestError(f"--steps is {steps}. Choose 1 or 2.")
    for name, made in others.items():
        if made:
            option = f"--{name.replace('_', '-')}"
            raise RequestError(
                f"{option} does not go with --steps 2: {_ALONE[name]}. Leave out {option}, or ask "
                "for problems of one step."
            )
    return two_steps.pairs(tuple(dict.fromkeys(situation)), tuple(dict.fromkeys(then)))


def largest(within: int | None) -> int:
    """The largest number of two steps. Raises RequestError for one beyond 100."""
    if within is not None and within > MOST:
        raise RequestError(
            f"--within {within} does not go with --steps 2: problems of two steps stay within "
            f"{MOST} (CCSS-M 2.OA.1). Choose at most {MOST}."
        )
    return WITHIN if within is None else within


def taught_by(
    pairs: Sequence[tuple[str, str]], named: tuple[str, ...], told: bool
) -> tuple[tuple[str, str], ...]:
    """Those of the pairs of which both steps can be taught by one of the strategies `named`.

    Raises RequestError where none is left, and, where a situation was `told` by name, for a step
    that no strategy named suits.
    """
    if named == (ANY,):
        return tuple(pairs)
    wished = [strategies.get(name) for name in named]
    if "doubles" in named:
        raise RequestError(
            "doubles does not go with --steps 2: its numbers are equal, so the number between the "
            "steps would stand in the story. Choose another strategy, or any."
        )
    suited = {
        name
        for name in {one for pair in pairs for one in pair}
        if any(one.suit(situations.get(name)) is not None for one in wished)
    }
    kept = tuple(pair for pair in pairs if set(pair) <= suited)
    odd = [name for pair in pairs for name in pair if name not in suited]
    if odd and (told or not kept):
        reasons = " ".join(f"{one.id}: {one.refusal(situations.get(odd[0]))}" for one in wished)
        raise RequestError(
            f"A step of two, {odd[0]}, cannot be taught by {', '.join(named)}; each step must be. "
            f"{reasons} Choose other situations, or --strategy any."
        )
    return kept


def largest_sum(addends: int, within: int | None) -> int:
    """The largest sum of so many addends: 20 for three, 100 for four, unless `within` is given.

    Raises RequestError for a number of addends, or a limit, that is not told. Sources: CCSS-M
    1.OA.2 (three whole numbers whose sum is at most 20), 2.NBT.6 (up to four two-digit numbers).
    """
    if addends not in (3, 4):
        raise RequestError(f"--addends is {addends}. Choose 2, 3 or 4.")
    least = 10 if addends == 3 else 50
    if within is not None and not least <= within <= MOST:
        raise RequestError(
            f"--within {within} does not go with --addends {addends}: choose {least} to {MOST}."
        )
    return within if within is not None else WITHIN if addends == 3 else MOST


def check_addends(others: Mapping[str, bool], situation: Sequence[str]) -> None:
    """Raises RequestError for a wish that does not go with three or four addends."""
    for name, made in others.items():
        if made:
            option = f"--{name.replace('_', '-')}"
            raise RequestError(
                f"{option} does not go with --addends above 2: {_SUM[name]}. Leave out {option}, "
                "or --addends."
            )
    odd = [name for name in situation if name not in OF_SUMS]
    if odd:
        raise RequestError(
            f"The situation {odd[0]} has two known numbers at most; three or four addends are told "
            f"as {OF_SUMS[0]}. Leave out --situation, or --addends."
        )
