"""Stands in until the guard is merged."""

from starlette.datastructures import FormData
from starlette.requests import Request


async def form_of(
    request: Request, *, files: int = 4, fields: int = 4000, field_size: int = 1 << 20
) -> FormData:
    """The form of a request."""
    return await request.form(max_files=files, max_fields=fields, max_part_size=field_size)
