"""The frozen values that the stages hand on to each other."""

from storybank.model.arithmetic import (
    Equations,
    Form,
    Jump,
    SecondWay,
    Situation,
    Solution,
    Triple,
    WatchFor,
)
from storybank.model.changes import Extra, Missing, NumberSet
from storybank.model.problem import (
    SET_FORMAT,
    BankWord,
    Problem,
    ProblemSet,
    Reading,
    Step,
    Story,
)

__all__ = [
    "SET_FORMAT",
    "BankWord",
    "Equations",
    "Extra",
    "Form",
    "Jump",
    "Missing",
    "NumberSet",
    "Problem",
    "ProblemSet",
    "Reading",
    "SecondWay",
    "Situation",
    "Solution",
    "Step",
    "Story",
    "Triple",
    "WatchFor",
]
