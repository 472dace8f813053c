"""What a plan names by a file beside it, or else by a name of ours."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from storybank import catalog, people, themes, vocabulary
from storybank.cleaning import clean_text
from storybank.errors import RequestError, unknown_value
from storybank.week import _fields as fields

GROUPS_AT_MOST = 4


class Beside:
    """Finds files in the folder of a plan; without a folder they are refused.

    `own_themes` are the files of a teacher's own themes by name.
    """

    def __init__(self, folder: Path | None, own_themes: Mapping[str, str]) -> None:
        self._folder = folder
        self._own_themes = own_themes

    def own(self, name: str) -> str:
        """The path of a file that the plan names. Raises RequestError where it may name none."""
        if self._folder is None:
            raise RequestError(
                f'"{clean_text(name, 60)[0]}" is a file, and a plan that lies in no folder has '
                "none beside it. Leave it out, or save the plan beside the file and write: "
                "storybank week PLAN.yaml"
            )
        return str(self._folder / name)

    def theme(self, name: str) -> str:
        """A theme pack, ours by id or one of the teacher's own by its name or file."""
        if name in self._own_themes:
            found = self._own_themes[name]
        else:
            found = self.own(name) if catalog.is_path(name) else name
        themes.get(found)
        return found

    def names_from(self, node: Any) -> str:
        """A list of names, ours by id or another by its file, which lies beside the plan."""
        name = fields.text(node)
        if self._folder is not None:
            return str(people.find_list(name, self._folder))
        if catalog.is_path(name) or name not in people.rosters():
            raise RequestError(unknown_value("name list", name, people.rosters()))
        return name

    def groups(self, node: Any) -> tuple[str, ...]:
        """The vocabularies of the groups; one group may have one of the teacher's own."""
        named = fields.texts(node)
        if len(named) == 1 and catalog.is_path(named[0]):
            vocabulary.find(self.own(named[0]))
            return (self.own(named[0]),)
        for name in named:
            if catalog.is_path(name):
                raise RequestError(
                    f'"{clean_text(name, 60)[0]}" is a vocabulary of your own. It can be told '
                    f"only where it is the only group. Choose from: {', '.join(vocabulary.ids())}."
                )
            vocabulary.get(name)
        if len(named) > GROUPS_AT_MOST:
            raise RequestError(f"{len(named)} groups are named. A week has 1 to {GROUPS_AT_MOST}.")
        return tuple(sorted(named, key=lambda one: vocabulary.get(one).level))
