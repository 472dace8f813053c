"""What of a problem no longer holds in a teacher's own words, said so that she can mend it."""

import re
from collections import Counter
from collections.abc import Iterator

from storybank.model import Problem

NUMERAL = re.compile(r"\d+")


def questions_of(problem: Problem, sentences: int) -> int:
    """How many sentences at the end of a story of so many ask: two where all pairs are sought."""
    return 2 if problem.unknown == "parts" and sentences > 2 else 1


def laws(problem: Problem, told: Problem) -> Iterator[str]:
    """What of the numbers, the question, the people and the answer no longer holds."""
    yield from _numbers(problem, told.story.text)
    yield from _question(problem, told.story.sentences)
    yield from _answer(problem, told.story.answer_sentence)
    for name in problem.story.people:
        if name in told.story.people and name not in told.story.text:
            yield f"{name} is not in the story any more, and the answer is about {name}."


def _numbers(problem: Problem, text: str) -> Iterator[str]:
    unneeded = {str(one.number) for one in problem.extra}
    wanted = Counter([*map(str, problem.story.given), *sorted(unneeded)])
    found = Counter(NUMERAL.findall(text))
    gone, new = list((wanted - found).elements()), list((found - wanted).elements())
    telling = _telling(problem)
    if len(gone) == len(new) == 1 and new[0] not in telling:
        yield (
            f"The number {gone[0]} has become {new[0]}, and the answer and the key still work "
            f"with {gone[0]}. Put {gone[0]} back, or ask for other numbers first."
        )
        return
    for number in gone:
        if number in unneeded:
            yield f"The number {number} is missing, and the key says that it is not needed."
        else:
            yield f"The number {number} is missing. Nobody can find the answer without it."
    for number in new:
        if number in telling:
            yield telling[number]
        elif number in wanted:
            yield f"The number {number} stands in the story once too often."
        else:
            yield f"The number {number} stands in the story, and the key knows nothing of it."


def _telling(problem: Problem) -> dict[str, str]:
    """What is said where a number is told that a child is to find, by that number."""
    told = {}
    if problem.missing is not None:
        number = problem.missing.number
        told[str(number)] = f"The number {number} is told, and children are to ask for it."
    if problem.hidden is not None:
        told[str(problem.hidden)] = (
            f"The number {problem.hidden} is told, which children are to find in the first step."
        )
    told[str(problem.answer)] = f"The answer, {problem.answer}, is given away in the story."
    return told


def _question(problem: Problem, sentences: tuple[str, ...]) -> Iterator[str]:
    questions = questions_of(problem, len(sentences))
    told, asked = sentences[:-questions], sentences[-questions:]
    if not told:
        yield "The story has one sentence only. Tell first what happens, and then ask."
    if any("?" in one for one in told):
        yield "A question stands before the end. The story asks once, in its last sentence."
    if all(one.rstrip("\"'\N{RIGHT DOUBLE QUOTATION MARK}").endswith("?") for one in asked):
        return
    if questions > 1:
        yield "The story ends with two questions, one for each part, each with a question mark."
    else:
        yield "The last sentence is no question. End with the question and its question mark."


def _answer(problem: Problem, sentence: str) -> Iterator[str]:
    found = [int(one) for one in NUMERAL.findall(sentence) if len(one) < 10]
    answer = problem.answer
    if isinstance(answer, int):
        if found != [answer]:
            yield f"The answer sentence must tell the answer, {answer}, once and no other number."
    elif tuple(found) not in answer:
        whole = sum(answer[0])
        yield f"The answer sentence must tell two numbers that make {whole}, as one example."
