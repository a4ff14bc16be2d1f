"""A TOML file, as a person wrote it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path

from sheetgen.errors import UserError
from sheetgen.texts import say

Toml = Mapping[str, object]


def read_toml(path: Path) -> dict[str, object]:
    """A TOML file; UserError that names the file and the line if it is missing or malformed."""
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8-sig"))
    except FileNotFoundError:
        raise UserError(say("{path}: there is no such file; check the name.", path=path)) from None
    except IsADirectoryError:
        raise UserError(say("{path}: is a folder; name the file in it.", path=path)) from None
    except (UnicodeDecodeError, OSError):
        raise UserError(say("{path}: cannot be read as text; save it as UTF-8.", path=path)) from None
    except ValueError as error:
        raise UserError(say("{path}: {error}; correct that line.", path=path, error=error)) from None
    except RecursionError:
        raise UserError(
            say("{path}: has lists within lists without end; write it as the sample briefs are.", path=path)
        ) from None
