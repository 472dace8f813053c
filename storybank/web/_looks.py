"""How pages that are taken along are to look, as a form says it."""

import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

from starlette.datastructures import FormData, UploadFile

from storybank.documents import Layout

T = TypeVar("T")


async def template_of(form: FormData) -> bytes | None:
    """The school's Word file that was sent along, or None."""
    upload = form.get("template")
    return await upload.read() if isinstance(upload, UploadFile) and upload.size else None


@contextmanager
def lying_somewhere(template: bytes | None) -> Iterator[Mapping[str, Path]]:
    """The school's Word file as a value for a layout; it lies under a name of ours for so long."""
    if template is None:
        yield {}
        return
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "school.docx"
        path.write_bytes(template)
        yield {"template": path}


def with_layout(
    form: FormData, usual: Mapping[str, Any], template: bytes | None, make: Callable[[Layout], T]
) -> T:
    """What `make` gives with the layout of a form, before what is `usual`. Raises RequestError."""
    said: dict[str, Any] = dict(usual)
    for key in ("paper", "font"):
        value = form.get(key)
        if isinstance(value, str) and value.strip():
            said[key] = value.strip()
    if "paper" in form:
        said["large_print"] = form.get("large-print") == "yes"
    with lying_somewhere(template) as school:
        return make(Layout(**{**said, **school}))
