"""How pages that are taken along are to look, as a form says it."""

import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

from starlette.datastructures import FormData, UploadFile

from storybank.documents import Layout

T = TypeVar("T")


async def template_of(form: FormData) -> bytes | None:
    """The school's Word file that was sent along, or None."""
    upload = form.get("template")
    return await upload.read() if isinstance(upload, UploadFile) and upload.size else None


def with_layout(
    form: FormData, usual: Mapping[str, Any], template: bytes | None, make: Callable[[Layout], T]
) -> T:
    """What `make` gives with the layout of a form, before what is `usual`.

    The school's Word file lies under a name of ours for so long. Raises RequestError.
    """
    said: dict[str, Any] = dict(usual)
    for key in ("paper", "font"):
        value = form.get(key)
        if isinstance(value, str) and value.strip():
            said[key] = value.strip()
    if "paper" in form:
        said["large_print"] = form.get("large-print") == "yes"
    with tempfile.TemporaryDirectory() as folder:
        if template is not None:
            path = Path(folder) / "school.docx"
            path.write_bytes(template)
            said["template"] = path
        return make(Layout(**said))
