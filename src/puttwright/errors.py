"""The family of user errors: what a person did or gave us that they can put right.

The class docstring is the sentence; its ``{fields}`` are filled from the data
the exception carries, so the domain raises data and only cli and web phrase it.
Everything else that is raised is a bug of ours.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar


class UserError(Exception):
    """Something in the input cannot be used."""

    code: ClassVar[str] = "user-error"
    exit_code: ClassVar[int] = 2
    http_status: ClassVar[int] = 422
    hint: ClassVar[str] = ""

    def __init__(self, **data: object) -> None:
        super().__init__(data)
        self.data: dict[str, Any] = data

    def __str__(self) -> str:
        sentence = (type(self).__doc__ or "").strip().splitlines()[0]
        said = sentence.format_map(self.data)
        return said[:-1] if said.endswith("?.") else said

    def __reduce__(self) -> tuple[Callable[..., UserError], tuple[object, ...], dict[str, Any]]:
        return _empty, (type(self),), self.__dict__


def _empty(kind: type[UserError]) -> UserError:
    """To be filled with an error that came from another process, whatever it was made from."""
    return kind.__new__(kind)


class OutOfRange(UserError):
    """{name} is {value:g}{unit}; it must lie between {low:g} and {high:g}{unit}{why}."""

    code = "out-of-range"

    def __init__(
        self, *, name: str, value: float, low: float, high: float, unit: str = "", why: str = ""
    ) -> None:
        reason = f" ({why})" if why else ""
        spaced = f" {unit}" if unit else ""
        super().__init__(name=name, value=value, low=low, high=high, unit=spaced, why=reason)


class NotANumber(UserError):
    """{name} says {text!r}, which is not a number{unit_hint}."""

    code = "not-a-number"


class UnknownUnit(UserError):
    """{text!r} ends in a unit we do not know; use one of {known}."""

    code = "unknown-unit"


class NotFound(UserError):
    """There is no {what} called {name!r}{known}."""

    code = "not-found"
    http_status = 404


class NotAllowed(UserError):
    """{what}"""

    code = "not-allowed"
    http_status = 409


class CannotRead(UserError):
    """{path}: {reason}."""

    code = "cannot-read"


class CannotWrite(UserError):
    """{path} cannot be written: {reason}."""

    code = "cannot-write"
    http_status = 507


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with a table: where it stands and what to do about it.

    ``row`` counts as a spreadsheet does, the header being row 1; 0 means the table as a whole.
    """

    table: str
    row: int
    column: str
    message: str

    def __str__(self) -> str:
        place = [self.table]
        if self.row:
            place.append(f"row {self.row}")
        if self.column:
            place.append(self.column)
        return f"{', '.join(place)}: {self.message}"


class PackageFaults(UserError):
    """The fitting package cannot be used."""

    code = "package-faults"

    def __init__(self, *, faults: Sequence[Fault]) -> None:
        super().__init__(faults=tuple(faults))

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Each of them."""
        return tuple(self.data["faults"])

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)
