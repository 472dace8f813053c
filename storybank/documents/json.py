"""The set as JSON in the published format, described by `set_schema.json`."""

from pathlib import Path

from storybank.documents._format import Format
from storybank.model import ProblemSet

FORMAT = Format(id="json", title="Data (JSON)", files=("set.json",))
SCHEMA = Path(__file__).with_name("set_schema.json")


def render(problem_set: ProblemSet, file_name: str) -> bytes:
    """The bytes of `set.json`."""
    return problem_set.to_text().encode("utf-8")
