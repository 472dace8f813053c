"""All 13 x 15 pairs of strategy and situation within 20 and 100: problems, or the reason."""

import pytest

from storybank import Request, StorybankError, make_set, situations, strategies
from storybank.errors import NoNumbersError


@pytest.mark.parametrize("within", [20, 100])
@pytest.mark.parametrize("strategy", strategies.ids())
def test_each_pair_gives_problems_or_its_reason(strategy: str, within: int) -> None:
    for situation in situations.in_grade_order():
        request = Request(
            strategy=[strategy], situation=[situation.id], within=within, count=3, seed=5
        )
        refusal = strategies.get(strategy).refusal(situation)
        if refusal is not None:
            with pytest.raises(StorybankError) as refused:
                make_set(request)
            assert refusal in str(refused.value)
            continue
        try:
            made = make_set(request).problems
        except NoNumbersError as error:
            assert within == 20, f"{strategy} with {situation.id}: {error}"
            assert f"within {within}" in str(error)
            continue
        for problem in made:
            assert (problem.strategy, problem.situation) == (strategy, situation.id)


def test_the_default_set_varies_situations_and_scenes() -> None:
    made = make_set(Request(seed=1)).problems
    assert len(made) == 12
    assert {problem.strategy for problem in made} == {"friendly-then-compensate"}
    assert len({problem.situation for problem in made}) >= 4
    assert len({(problem.theme, problem.scene) for problem in made}) >= 8
