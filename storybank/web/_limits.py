"""Stands in until the guard is merged."""

from starlette.datastructures import FormData
from starlette.requests import Request


async def form_of(request: Request) -> FormData:
    """The form of a request."""
    return await request.form(max_files=4, max_fields=4000, max_part_size=1 << 20)
