"""The related facts of a triple: the family of equations that share its three numbers."""

from storybank.model import Triple


def related_facts(triple: Triple) -> tuple[str, ...]:
    """The true equations that share the triple's numbers, in ASCII.

    A + B = C, B + A = C, C - A = B, C - B = A; with equal parts the two that differ. Fact
    families of four, and of two for doubles, are common classroom practice (CCSS-M 1.OA.3,
    1.OA.4 rest on them).
    """
    a, b, c = triple.a, triple.b, triple.c
    if a == b:
        return (f"{a} + {a} = {c}", f"{c} - {a} = {a}")
    return (f"{a} + {b} = {c}", f"{b} + {a} = {c}", f"{c} - {a} = {b}", f"{c} - {b} = {a}")
