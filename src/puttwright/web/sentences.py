"""What a page says of a trouble: an error's sentence and hint, a fault and where it stands.

An error carries data and a sentence in English, which the commands, the log and the programs
that send readings get. A page that speaks another language says the error's own template
there with the same data. The fields that are English themselves (a reason, a name of ours)
are turned by the patterns that stand beside the templates; what somebody wrote, a path and
what a library said stay as they are.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from string import Formatter
from typing import Final

from puttwright.errors import Fault, PackageFaults, UserError
from puttwright.web.manner import manner
from puttwright.web.reworded import Pattern, Rewording, rewording, sections_of
from puttwright.web.texts import catalogue

_SAYS: Final = "says"
_HINTS: Final = "hints"
_PLACES: Final = frozenset({"path", "file", "where", "video"})
"""Fields that hold a name of the reader's own, whatever stands around them."""
_ENTRY: Final = re.compile(r"\bentry (\d+)")
_WORDS: Final = re.compile(r"[^\W\d_]{3}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """A language's templates and hints by the codes of the errors, and its patterns."""

    says: Mapping[str, str]
    hints: Mapping[str, str]
    pieces: Rewording


def sentence_of(error: UserError, /) -> str:
    """The sentence of an error as this page speaks; of a package, that of each fault.

    Examples
    --------
    >>> from puttwright.errors import NotFound
    >>> sentence_of(NotFound(what="build", name="X", known=""))
    "There is no build called 'X'."
    """
    if isinstance(error, PackageFaults):
        return "\n".join(map(fault_words, error.faults))
    spoken = spoken_in(manner().language)
    told = spoken.says.get(error.code) if spoken else None
    if spoken is None or told is None:
        return str(error)
    own = _PLACES | {name for _, name, how in _fields(_template(type(error))) if how == "r"}
    data = {
        name: spoken.pieces(value) if isinstance(value, str) and name not in own else value
        for name, value in error.data.items()
    }
    return _ended(told.format_map(data))


def hint_of(error: UserError, /) -> str:
    """What may help, as this page speaks; empty where nothing is to be said."""
    spoken = spoken_in(manner().language)
    return spoken.hints.get(error.code, error.hint) if spoken else error.hint


def with_hint(error: UserError, /) -> str:
    """The sentence, and what may help behind it."""
    return f"{sentence_of(error)} {hint_of(error)}".strip()


def fault_words(fault: Fault, /) -> str:
    """A fault behind its place: table, row and column, the names as they stand in the file.

    Examples
    --------
    >>> fault_words(Fault("putts.csv", 3, "distance_m", "is empty"))
    'putts.csv, row 3, distance_m: is empty'
    """
    text = catalogue()
    row = text("trouble.row", n=fault.row) if fault.row else ""
    column = _ENTRY.sub(lambda found: text("trouble.entry", n=found[1]), fault.column)
    place = ", ".join(filter(None, (fault.table, row, column)))
    return f"{place}: {said_here(fault.message)}"


def form_fault(fault: Fault, /) -> str:
    """A fault of what was typed into a form, where no file and no row can be named.

    Examples
    --------
    >>> form_fault(Fault("fitting.json", 0, "greens", "the shares sum to 0.5; they must sum to 1"))
    'greens: the shares sum to 0.5; they must sum to 1'
    """
    return f"{said_here(fault.column)}: {said_here(fault.message)}"


def beside_field(message: str, /) -> str:
    """A fault's message as a sentence, to stand beside the field it is about.

    Examples
    --------
    >>> beside_field("is empty; every row needs it")
    'Is empty; every row needs it.'
    """
    said = said_here(message)
    end = "" if not said or said.endswith((".", "?")) else "."
    return f"{said[:1].upper()}{said[1:]}{end}"


def said_here(words: str, /) -> str:
    """Words that a reader of files or an error came to before a page had them, as it speaks."""
    spoken = spoken_in(manner().language)
    return words if spoken is None else spoken.pieces.told(words) or _again(words, spoken) or words


@cache
def spoken_in(language: str, /) -> Spoken | None:
    """What a language has for errors; nothing for the one they are made in."""
    sections = dict(sections_of(f"errors_{language}.toml"))
    if not sections:
        return None
    says, hints = sections.pop(_SAYS), sections.pop(_HINTS)
    pieces = {said: told for each in sections.values() for said, told in each.items()}
    return Spoken(says=says, hints=hints, pieces=Rewording(pieces, beyond=rewording(language)))


def _again(words: str, spoken: Spoken) -> str | None:
    """The sentence of an error that was kept as words: it is known by its template."""
    for kind in _family(UserError):
        told = spoken.says.get(kind.code)
        pattern = _pattern(_template(kind), told) if told else None
        said = spoken.pieces.by_pattern(pattern, words) if pattern else None
        if said:
            return _ended(said)
    return None


def _family(root: type[UserError]) -> Iterator[type[UserError]]:
    yield root
    for kind in root.__subclasses__():
        yield from _family(kind)


@cache
def _pattern(template: str, told: str) -> Pattern | None:
    """An error's own sentence as a pattern; one that is all fields is like any sentence."""
    shape, literals = "", []
    names: dict[str, str] = {}
    for literal, name, how in _fields(template):
        literals.append(literal)
        shape += re.escape(literal)
        if name:
            shape += f"(?P={name})" if name in names else f"(?P<{name}>.*?)"
            names[name] = how
    if not any(map(_WORDS.search, literals)):
        return None
    return Pattern(
        literals=tuple(filter(None, (each.rstrip(".") for each in literals))),
        shape=re.compile(shape.removesuffix(r"\.") + r"\.?"),
        told=re.sub(r"\{(\w+):[^}]*\}", r"{\1}", told),
        maybe=tuple(name for name, how in names.items() if how != "r" and name not in _PLACES),
        quoted=tuple(name for name, how in names.items() if how == "r"),
    )


def _template(kind: type[UserError]) -> str:
    return (kind.__doc__ or "").strip().partition("\n")[0]


def _fields(template: str) -> list[tuple[str, str, str]]:
    """What a template is made of: literal words, the field behind them, how it is shown."""
    return [(words, name or "", how or "") for words, name, _, how in Formatter().parse(template)]


def _ended(sentence: str) -> str:
    return sentence[:-1] if sentence.endswith(("?.", "..")) else sentence
