"""A strategy as the other stages see it: its rule, its stories and its way of working."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import ModuleType

from storybank.model import Form, Situation, Solution
from storybank.strategies._steps import Line, Walk, sum_of_jumps, walked
from storybank.strategies._stories import shared_refusal

Rule = Callable[[Form, int, int, int], bool]


@dataclass(frozen=True, slots=True)
class Suit:
    """That a strategy suits a situation: the forms in which it is carried out there, and why."""

    forms: tuple[Form, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Strategy:
    """One of the ways in which children add and take away.

    `teacher` says in one sentence when it pays, `in_short` what children call it, `i_can` what a
    child can do who has learned it, `at_home` how it goes in plain words for a family; `words`
    are its words with plain meanings. `suits` and `refuses` name situations.
    `rule` holds for (form, a, b, limit) where the numbers call for this strategy, in the order
    given, and `reason` says why it does. `thin` says where they do and yet show little of it,
    so that other numbers are better for the strategy of the day. `highest` is the largest number
    met on the way, where that may lie above `a` and the answer without the rule minding it.
    """

    id: str
    title: str
    rank: int
    teacher: str
    in_short: str
    i_can: str
    at_home: str
    words: Mapping[str, str]
    suits: Mapping[str, Suit]
    refuses: Mapping[str, str]
    rule: Rule = field(repr=False)
    reason: Callable[[Form, int, int], str] = field(repr=False)
    thin: Callable[[Form, int, int], bool] | None = field(repr=False)
    highest: Callable[[Form, int, int], int] | None = field(repr=False)
    jumps: Callable[[Form, int, int], Walk | None] | None = field(repr=False)
    lines: Callable[[Form, int, int], tuple[Line, ...] | None] | None = field(repr=False)

    def ordered(self, form: Form, a: int, b: int, limit: int) -> tuple[int, int] | None:
        """The order in which the rule holds and the working stays within `limit`, or None.

        Adding tries both orders, the given one first; the other forms keep theirs.
        """
        for first, second in _orders(form, a, b):
            if self.rule(form, first, second, limit) and (
                self.highest is None or self.highest(form, first, second) <= limit
            ):
                return (first, second)
        return None

    def solve(self, form: Form, a: int, b: int, limit: int) -> Solution | None:
        """The worked solution, or None where this strategy cannot be carried out.

        It is narrower than arithmetic and wider than the rule: no step is empty and nothing
        leaves 0..limit. For an addition `a` and `b` of the solution are in the order solved.
        """
        if min(a, b) < 1 or (a + b if form is Form.ADD else a) > limit:
            return None
        if form is not Form.ADD and b >= a:
            return None
        best = self.ordered(form, a, b, limit)
        for first, second in (*((best,) if best else ()), *_orders(form, a, b)):
            solution = self._worked(form, first, second, limit)
            if solution is not None:
                return solution
        return None

    @property
    def seeks(self) -> bool:
        """Whether some story has this strategy count up to a sought difference."""
        return any(Form.SOUGHT in suit.forms for suit in self.suits.values())

    def suit(self, situation: Situation) -> Suit | None:
        """How this strategy suits `situation`, or None if it is refused.

        A situation that the strategy does not name is allowed unless its operation, or asking
        for both parts, rules it out.
        """
        if situation.id in self.suits or situation.id in self.refuses:
            return self.suits.get(situation.id)
        if shared_refusal(situation, self._operations()) is not None:
            return None
        form = Form.ADD if situation.operation == "+" else Form.SUBTRACT
        if situation.sought and self.seeks:
            form = Form.SOUGHT
        return Suit((form,), "The numbers alone decide; nothing speaks against this story.")

    def refusal(self, situation: Situation) -> str | None:
        """Why this strategy does not suit `situation`, or None if it does."""
        if situation.id in self.suits or situation.id in self.refuses:
            return self.refuses.get(situation.id)
        return shared_refusal(situation, self._operations())

    def _operations(self) -> set[str]:
        forms = {form for suit in self.suits.values() for form in suit.forms}
        return {"+" if form is Form.ADD else "-" for form in forms}

    def _worked(self, form: Form, a: int, b: int, limit: int) -> Solution | None:
        operation = "+" if form is Form.ADD else "-"
        if self.lines is not None:
            found = None if form is Form.SOUGHT else self.lines(form, a, b)
            if found is None or (self.highest is not None and self.highest(form, a, b) > limit):
                return None
            equations = tuple(line.equation for line in found)
            says = tuple(line.says for line in found)
            return Solution(operation, a, b, None, (), equations, "last line", says)
        walk = self.jumps(form, a, b) if self.jumps is not None else None
        if walk is None:
            return None
        jumps, says = walked(walk)
        if any(not 0 <= jump.to <= limit for jump in jumps):
            return None
        answer_is = "landing"
        if form is not Form.ADD and walk.start == b:
            answer_is = "sum of jumps"
            says = (*says[:-1], f"{says[-1]} {sum_of_jumps(jumps)}")
        return Solution(operation, a, b, walk.start, jumps, (), answer_is, says)


def from_module(strategy_id: str, module: ModuleType) -> Strategy:
    """The strategy that a module of this folder defines.

    The module gives TITLE, RANK, TEACHER, IN_SHORT, I_CAN, AT_HOME, WORDS, SUITS, REFUSES,
    `rule`, `reason`, either `jumps` or `lines`, and, where they apply, `thin` and `highest`.
    """
    return Strategy(
        id=strategy_id,
        title=module.TITLE,
        rank=module.RANK,
        teacher=module.TEACHER,
        in_short=module.IN_SHORT,
        i_can=module.I_CAN,
        at_home=module.AT_HOME,
        words=module.WORDS,
        suits=module.SUITS,
        refuses=module.REFUSES,
        rule=module.rule,
        reason=module.reason,
        thin=getattr(module, "thin", None),
        highest=getattr(module, "highest", None),
        jumps=getattr(module, "jumps", None),
        lines=getattr(module, "lines", None),
    )


def _orders(form: Form, a: int, b: int) -> tuple[tuple[int, int], ...]:
    return ((a, b), (b, a)) if form is Form.ADD and a != b else ((a, b),)
