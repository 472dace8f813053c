"""The set as JSON in the published format, described by `set_schema.json`."""

from pathlib import Path

from storybank.documents._format import Format
from storybank.documents._layout import Layout
from storybank.model import ProblemSet

FORMAT = Format(id="json", title="Data (JSON)", suffix=".json")
SCHEMA = Path(__file__).with_name("set_schema.json")


def render(problem_set: ProblemSet, layout: Layout) -> dict[str, bytes]:
    """The file `set.json`."""
    return {"set.json": problem_set.to_text().encode("utf-8")}
