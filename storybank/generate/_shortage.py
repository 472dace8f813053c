"""What is said where no numbers or no story are left for a set."""

from collections.abc import Callable, Iterable

from storybank import families, number_choice, strategies
from storybank.number_choice import Wish
from storybank.request import ANY, Pair, Settled


def nothing_left(settled: Settled, made: int) -> str:
    """Why no more than `made` problems can be told, and the largest count possible."""
    if settled.pairs:
        return _no_pair_left(settled.pairs, settled, made)
    asked = f"{settled.count} problems were asked for"
    reasons, there_are = [], False
    for situation_id in settled.situations:
        for strategy in settled.strategies_for[situation_id] or (None,):
            wish = Wish(
                situation=situation_id,
                strategy=strategy,
                limit=settled.within,
                crossing=settled.crossings[made],
                diagnose=settled.diagnose,
            )
            reasons.append(number_choice.explain_shortage(wish, settled.count))
            there_are = there_are or any(True for _ in number_choice.supply(wish))
    said = " ".join(dict.fromkeys(reasons[:3]))
    if made == 0 and there_are:
        return _no_room(settled)
    if made == 0:
        return f"{asked}, and no numbers meet all wishes. {said}"
    return (
        f"{asked}, but only {made} different sets of three numbers meet all wishes in these "
        f"scenes. The largest count possible is {made}. {said}"
    )


def _no_room(settled: Settled) -> str:
    """That there are numbers but no story for them, and what to ask for instead."""
    told_of = f" of {', '.join(settled.units)}" if settled.units else ""
    return (
        f"{settled.count} problems were asked for, and no story{told_of} of the themes "
        f"{', '.join(settled.themes)} has room for such numbers: situations "
        f"{', '.join(settled.situations)}, strategies {', '.join(settled.strategies)}, within "
        f"{settled.within}, vocabulary {settled.vocabulary.id}. Ask for other themes or "
        "situations, for --strategy any, or for another --within."
    )


def _no_pair_left(pairs: tuple[Pair, ...], settled: Settled, made: int) -> str:
    pair = pairs[made % len(pairs)]
    named = [name for name in settled.strategies if name != "any"]
    for name in named:
        strategies.get(name)
    by = f" by {', '.join(named)}" if named else ""
    if made < len(pairs):
        return (
            f'No story can be told for the pair "{pair}"{by}: no scene of the themes '
            f"{', '.join(settled.themes)} has room for these numbers in the situations "
            f"{', '.join(settled.situations)}. Choose other numbers, or leave out --strategy, "
            "--situation or --theme."
        )
    return (
        f"{settled.count} problems were asked for, but only {made} different stories can be told "
        f"for these pairs{by}. The largest count possible is {made}; add pairs or themes."
    )


def no_space(settled: Settled) -> str:
    """That there is no problem to be numbered, and what to ask for instead."""
    told_of = f" of {', '.join(settled.units)}" if settled.units else ""
    return (
        f"There is no problem{told_of} to be numbered: no story of the themes "
        f"{', '.join(settled.themes)} has numbers that meet all wishes in the situations "
        f"{', '.join(settled.situations)}, with the strategies {', '.join(settled.strategies)}, "
        f"within {settled.within}, crossing {settled.crossing}, vocabulary "
        f"{settled.vocabulary.id}. Ask for other themes or situations, for --strategy any, or for "
        "another --within."
    )


def nothing_told(settled: Settled) -> str:
    """That no story can be told within the limits of the vocabulary pack, and what to loosen."""
    pack = settled.vocabulary
    small = " A list of familiar words needs the small ones too, such as how, many, has and there."
    told = ", ".join(settled.situations)
    if settled.step_pairs:
        told = _pairs_of_steps(settled)
    return (
        f"No story can be told within the vocabulary {pack.id} in the situations "
        f"{told} with the themes {', '.join(settled.themes)}: its limits "
        f"({pack.statement_words} words a sentence, {pack.words} in all, {pack.unfamiliar_words} "
        "unfamiliar ...) leave none. Loosen a setting of it, or take other situations or themes."
        f"{'' if pack.familiar is None else small}"
    )


def no_steps_left(settled: Settled, made: int, *, tellable: bool) -> str:
    """Why no more than `made` problems of two steps can be told, and what to change.

    `tellable` is whether any story was found within the limits of the vocabulary pack. Where none
    can be told, the step that has no numbers by itself is named.
    """
    if not made and not tellable and not settled.vocabulary.shipped:
        return nothing_told(settled)
    asked = f"{settled.count} problems of two steps were asked for"
    named = "any strategy" if settled.strategies == (ANY,) else ", ".join(settled.strategies)
    small = " and with single-digit parts (say --within 100 for larger ones)"
    where = (
        f"told within {settled.within}{small if settled.small else ''} by {named}: "
        f"{_pairs_of_steps(settled)}"
    )
    advice = (
        "Ask for other situations or themes, for --strategy any, or raise --within"
        f"{', or leave out --keywords none' if settled.keywords == 'none' else ''}."
    )
    if made:
        return (
            f"{asked}, but only {made} different ones can be {where}. The largest count possible "
            f"is {made}. {advice}"
        )
    # One part of the second step may be what the first gives, which is no single digit then.
    for at, step, least in ((0, "first", max), (1, "second", min)):
        told = {pair[at]: None for pair in settled.step_pairs}
        lacking = _without_numbers(settled, told, least)
        if lacking:
            return f"{asked}, and no numbers meet all wishes for the {step} step. {lacking}"
    return (
        f"{asked}, and none can be {where}. Each step has numbers by itself, but in no scene are "
        "there two steps of which the second goes on from what the first gives, with five "
        f"different numbers in all. {advice}"
    )


def _pairs_of_steps(settled: Settled) -> str:
    pairs = "; ".join(f"{first}, then {then}" for first, then in settled.step_pairs[:3])
    return f"{pairs}{' ...' if len(settled.step_pairs) > 3 else ''}"


def _without_numbers(
    settled: Settled, told: Iterable[str], small: Callable[[int, int], int]
) -> str:
    """Why none of these situations has numbers, whatever its story; nothing where one has.

    `small` gives, of two parts, the one that must be a single digit.
    """
    wishes = [
        Wish(situation=name, strategy=strategy, limit=settled.within)
        for name in told
        for strategy in settled.strategies_for[name] or (None,)
    ]
    triples = [triple for wish in wishes for triple in number_choice.supply(wish)]
    if not triples:
        return " ".join(number_choice.explain_shortage(wish, settled.count) for wish in wishes[:2])
    if settled.small and all(small(one.a, one.b) > number_choice.SMALL for one in triples):
        return (
            f"Within {settled.within} two steps have single-digit parts, and none fits there. Say "
            "--within 100 for larger ones."
        )
    return ""


def no_family_left(settled: Settled, made: int) -> str:
    """Why no more fact families than those of `made` stories can be told, and what to change."""
    reasons = []
    shapes = {name: pair[0] for name, pair in families.SHAPES.items()}
    for shape, adding in shapes.items():
        if adding not in settled.strategies_for:
            continue
        for strategy in settled.strategies_for[adding] or (None,):
            wish = Wish(
                situation=adding,
                strategy=strategy,
                limit=settled.within,
                crossing=settled.crossings[made],
                diagnose=settled.diagnose,
            )
            reasons.append(number_choice.explain_family_shortage(shape, wish))
    said = " ".join(reasons[:2])
    asked = f"{settled.count} stories in fact families were asked for"
    if made == 0:
        return f"{asked}, and no numbers meet all wishes in these scenes. {said}"
    told = made // families.STORIES
    return (
        f"{asked}, but only {told} {'family' if told == 1 else 'families'} of different numbers "
        f"can be told in these scenes. The largest count possible is {made}. {said}"
    )
