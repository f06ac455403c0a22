"""A file is written whole or not at all."""

from contextlib import suppress
from pathlib import Path

from sourloam.base.errors import Surroundings


def write_whole(path: Path, content: bytes, *, otherwise: str) -> Path:
    """Write a file beside its place and move it there, so that no half of it is ever seen; `otherwise` is the remedy.

    Raises
    ------
    Surroundings
        If it cannot be written; what was there is left.
    """
    part = path.with_name(f".{path.name}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        part.write_bytes(content)
        part.replace(path)
    except OSError as error:
        with suppress(OSError):
            part.unlink()
        raise Surroundings(f"{path} cannot be written: {error.strerror}.", otherwise) from error
    return path
