"""The zip file of a Word document: parts in a fixed order, with fixed dates."""

import io
import zipfile
from collections.abc import Mapping

_FIXED_TIME = (1980, 1, 1, 0, 0, 0)
_FIRST = ("[Content_Types].xml", "_rels/.rels")


def zipped(parts: Mapping[str, bytes]) -> bytes:
    """`parts` by name as a zip whose bytes depend on nothing but the parts (and zlib)."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        for name in (*_FIRST, *sorted(set(parts) - set(_FIRST))):
            info = zipfile.ZipInfo(name, _FIXED_TIME)
            info.create_system = 0
            packed = name.endswith(".png")
            info.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
            archive.writestr(info, parts[name], compresslevel=6)
    return target.getvalue()
