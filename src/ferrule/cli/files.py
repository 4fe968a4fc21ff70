"""Writing files that must not replace others."""

from pathlib import Path

from ferrule.cli.refused import Refused


def write_new(path: Path, text: str) -> None:
    """Write a file that does not exist yet, in a folder that may not exist yet.

    Raises `Refused` where it does exist or cannot be written.
    """
    if path.exists():
        raise Refused(f"{path} exists already and is left as it is; name another file")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "not a file's name"
        raise Refused(f"{path} cannot be written ({why})") from None
