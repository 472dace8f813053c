"""Two numbers explained: every strategy that can do them, drawn, the cheapest first."""

from dataclasses import dataclass
from typing import Any

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from storybank import explanation, strategies
from storybank.drawings import NORMAL, to_svg, worked
from storybank.errors import StorybankError
from storybank.web._house import House

_MOST = 60
_FIRST = "46 + 38"


@dataclass(frozen=True, slots=True)
class Way:
    """A strategy at work on the two numbers."""

    title: str
    teacher: str
    fits: bool
    why: str
    steps: str
    says: tuple[str, ...]
    drawing: Markup | None


def routes(house: House) -> list[Route]:
    """The address of the explanation."""

    async def show(request: Request) -> Response:
        """The strategies for the numbers of the address."""
        text = request.query_params.get("numbers", "")[:_MOST]
        values: dict[str, Any] = {"text": text, "ways": (), "fault": "", "answer": None}
        status = 200
        if text.strip():
            try:
                found = explanation.explanations(text)
                first = sorted(found.ways, key=lambda one: not one.fits)
                values |= {"ways": [_way(one) for one in first], "answer": found}
            except StorybankError as error:
                values["fault"], status = str(error), 400
        title = f"{text}: every strategy" if values["ways"] else "Explain two numbers"
        return house.page(request, "explain.html", status, title=title, first=_FIRST, **values)

    return [Route("/explain", show)]


def _way(found: explanation.Way) -> Way:
    strategy = strategies.get(found.strategy)
    drawing = worked(strategy.id, found.solution, measures=NORMAL)
    return Way(
        title=strategy.title,
        teacher=strategy.teacher,
        fits=found.fits,
        why=_why(found),
        steps=found.steps,
        says=found.solution.says,
        drawing=None if drawing is None else Markup(to_svg(drawing, standalone=False)),
    )


def _why(found: explanation.Way) -> str:
    """Why it fits or does not, with the strategies that are simpler by their titles."""
    said, simpler, names = found.why.partition("simpler here: ")
    if not simpler:
        return said
    titles = (strategies.get(one).title for one in names.rstrip(".").split(", "))
    return f"{said}{simpler}{', '.join(f'“{one}”' for one in titles)}."
