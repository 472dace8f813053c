"""What several tests share."""

import os
import shutil
from collections.abc import Callable, Iterator

import pytest

NeedsProgram = Callable[[str], str]


@pytest.fixture(scope="session", autouse=True)
def no_settings_of_the_user(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """A settings file of whoever runs the tests changes none of them, nor does what was kept."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        patch.setenv("XDG_CONFIG_HOME", str(tmp_path_factory.mktemp("config")))
        yield


@pytest.fixture(scope="session")
def needs_program() -> NeedsProgram:
    """A function that gives the path of a program; without it the test is skipped.

    With CI=true in the environment a missing program is a failure: there nothing may go unchecked.
    """

    def find(name: str) -> str:
        path = shutil.which(name)
        if path is not None:
            return path
        message = f"the program {name} is not installed, so this was not checked"
        if os.environ.get("CI") == "true":
            pytest.fail(message)
        pytest.skip(message)

    return find
