"""Names of a package whose modules are loaded only when they are asked for."""

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any


def later(package: str, modules: Mapping[str, str]) -> Callable[[str], Any]:
    """The `__getattr__` of a package (PEP 562): each of its names by the module that has it.

    A command starts sooner without the modules of kinds of problem that nobody asked for.
    """

    def found(name: str) -> Any:
        if name not in modules:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        return getattr(import_module(f"{package}.{modules[name]}"), name)

    return found
