"""What a person can put right: one sentence with the file, the place and the way out; never a traceback."""

from __future__ import annotations


class UserError(Exception):
    """Something the person can put right: one sentence with the file, the place and the way out.

    `status` is the exit status: 2 for wrong usage or input, 3 for a file that cannot be used.
    """

    def __init__(self, message: str, status: int = 2) -> None:
        super().__init__(message)
        self.status = status
