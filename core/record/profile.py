"""Profile files: one observer in TOML, read with every error told, written with every comment kept.

Ids are made from the names where a file has none, so that every thing read has one; they are written at
the first save and stay from then on. So does the profile's own id, a UUID. A file of an older schema is
read, and becomes one of the present schema when it is saved. The text from before a save is kept beside
the file, with a tilde after its name.
"""

import tomllib
import unicodedata
import uuid
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import attrs

from core.problems import Problem, ProblemsError, refuse
from core.record.files import (
    BYTE_ORDER_MARK,
    LARGEST_BYTES,
    has_byte_order_mark,
    is_file,
    kept_beside,
    place_to_keep,
    read_text,
    set_aside,
    write_atomically,
)
from core.record.migrations import migrated
from core.record.observer import SCHEMA, Profile
from core.record.own_copies import OwnCopies
from core.record.structure import KINDS, plain, repeats, structure_profile
from core.record.toml_limits import check_toml

if TYPE_CHECKING:
    from core.record.written_changes import KeyShape

_LONGEST_ID = 40
# A place to a tenth of a degree: a town, not a garden.
_DECIMALS_OF_A_TOWN = 1


def read_profile(path: Path) -> Profile:
    """Return the profile of a file, with an id for each thing; raise ProblemsError with all that is wrong."""
    try:
        return loads_profile(read_text(path), name=path.name)
    except ProblemsError as error:
        kept = kept_beside(path)
        if kept is None:
            raise
        hint = Problem("", f"the profile from before the last save is beside it, as {kept.name}")
        raise ProblemsError(*error.problems, hint) from None


def loads_profile(text: str, *, name: str = "") -> Profile:
    """Return the profile that a text holds; ``name`` is told where the text is no TOML at all."""
    return with_ids(_read(text, name))


def dumps_profile(profile: Profile, *, previous: str | None = None) -> str:
    """Return the text of a profile, ids filled in.

    Out of ``previous`` (a text that the profile was read from, perhaps long ago) come all comments, the
    order, and each value that is still the same, to the byte; a previous text that is no profile is
    ignored. Raises ProblemsError where two things of a kind share a name or an id.
    """
    from core.record.written_changes import new_document  # tomlkit is needed only to write

    profile = with_ids(profile)
    problems = [
        problem
        for kind in KINDS
        for problem in repeats(kind, [attrs.asdict(thing, recurse=False) for thing in getattr(profile, kind)])
    ]
    if problems:
        raise ProblemsError(*problems)
    text = None if previous is None else _changed(previous, profile)
    return new_document(profile, SCHEMA, _paired) if text is None else text


def save_profile(
    path: Path, profile: Profile, *, previous: str | None = None, own_copies: OwnCopies | None = None
) -> Path | None:
    """Write a profile to a file, wholly or not at all; return where the text that was there is kept.

    Comments and order come from ``previous``, else from the file as it is. A profile without an id gets
    that of the file it is written over, else a new one. The text from before is kept as
    `core.record.files.place_to_keep` says, over nothing but one of the ``own_copies``; a file that was no
    profile is kept under another name, so that the last good copy stays. Nothing is kept, and None returned,
    where nothing was there or it is the same. Raises ProblemsError in one sentence, and then nothing was
    changed.
    """
    there, aside, mark = None, None, ""
    own_id = profile.id
    if is_file(path):
        try:
            there = read_text(path)
            id_there = _read(there, path.name).id
            own_id = own_id or id_there
            mark = BYTE_ORDER_MARK if has_byte_order_mark(path) else ""
        except ProblemsError:
            aside, there = set_aside(path), None
    profile = attrs.evolve(profile, id=own_id or new_profile_id())
    text = dumps_profile(profile, previous=there if previous is None else previous)
    text = mark + text.removeprefix(BYTE_ORDER_MARK)
    if len(text.encode("utf-8", "replace")) > LARGEST_BYTES:
        raise refuse("would be over 1 MB and could not be opened again", where=path.name)
    keep_as = None
    if there is not None:
        keep_as = place_to_keep(path, lambda copy: own_copies is not None and own_copies.has(copy))
    kept = write_atomically(path, text, keep_as=keep_as)
    if kept is not None and own_copies is not None:
        own_copies.note(kept)
    return kept or aside


def new_profile_id() -> str:
    """Return an id that no other profile has."""
    return str(uuid.uuid4())


def with_ids(profile: Profile) -> Profile:
    """Return the profile with an id for each thing that had none, made from its name, unique in its kind."""
    lists: dict[str, Any] = {kind: _identified(kind, getattr(profile, kind)) for kind in KINDS}
    return attrs.evolve(profile, **lists)


def without_exact_place(profile: Profile) -> Profile:
    """Return the profile with every site moved to the nearest tenth of a degree, for a copy to be mailed.

    Write it without a previous text: a comment in there may tell the place.
    """
    sites = tuple(
        attrs.evolve(
            site,
            latitude_deg=round(site.latitude_deg, _DECIMALS_OF_A_TOWN) + 0.0,
            longitude_deg=round(site.longitude_deg, _DECIMALS_OF_A_TOWN) + 0.0,
        )
        for site in profile.sites
    )
    return attrs.evolve(profile, sites=sites)


# --- reading ---------------------------------------------------------------------------------------------


def _read(text: str, name: str) -> Profile:
    """Return the profile exactly as a text has it, ids missing where they are missing."""
    check_toml(text, where=name)
    try:
        table = tomllib.loads(text.removeprefix(BYTE_ORDER_MARK))
    except RecursionError:
        raise refuse("is not a profile: its brackets are nested too deep", where=name) from None
    except ValueError as error:
        raise refuse(plain(f"is not TOML: {error}"), where=name) from None
    schema = table.pop("schema", None)
    problems: list[Problem] = []
    if isinstance(schema, bool) or not isinstance(schema, int) or schema < 1:
        missing = "is missing; it must be" if schema is None else "must be"
        problems.append(Problem("schema", f"{missing} {SCHEMA}, the number of this form of file"))
    elif schema > SCHEMA:
        what = f"is of a newer Stillair than this one, which reads schema {SCHEMA}"
        raise ProblemsError(Problem("schema", what))
    else:
        table = migrated(table, schema)
    try:
        profile = structure_profile(table)
    except ProblemsError as error:
        raise ProblemsError(*problems, *error.problems) from None
    if problems:
        raise ProblemsError(*problems)
    return profile


# --- ids -------------------------------------------------------------------------------------------------


def _identified(kind: str, things: Sequence[Any]) -> tuple[Any, ...]:
    taken = {unicodedata.normalize("NFC", thing.id) for thing in things}
    identified = []
    for thing in things:
        if thing.id:
            identified.append(thing)
            continue
        new_id = _free_id(_words(thing.name) or kind.removesuffix("s"), taken)
        taken.add(new_id)
        identified.append(attrs.evolve(thing, id=new_id))
    return tuple(identified)


def _words(name: str) -> str:
    """Return a name in small letters of its own script, its words joined by hyphens."""
    normal = unicodedata.normalize("NFC", name.casefold())
    kept = "".join(c if c.isalnum() or unicodedata.category(c).startswith("M") else " " for c in normal)
    return "-".join(kept.split())[:_LONGEST_ID].strip("-")


def _free_id(wanted: str, taken: set[str]) -> str:
    number, free = 1, unicodedata.normalize("NFC", wanted)
    while free in taken:
        number += 1
        free = f"{wanted}-{number}"
    return free


# --- writing ---------------------------------------------------------------------------------------------


def _changed(previous: str, profile: Profile) -> str | None:
    """Return the previous text with the changes, or None where they cannot be told apart in it."""
    from core.record.table_text import ScatteredError, read_tables
    from core.record.written_changes import set_schema, updated

    text = previous.removeprefix(BYTE_ORDER_MARK)
    try:
        old = _read(text, "")
        is_present = tomllib.loads(text)["schema"] == SCHEMA
        if is_present and old == profile:
            return previous
        tables = read_tables(text.replace("\r\n", "\n"))
        if not is_present:
            set_schema(tables, SCHEMA)
        new = updated(tables, old, profile, _paired)
        if _read(new, "") != profile:
            return None
    except (ProblemsError, ScatteredError):
        return None
    mark = BYTE_ORDER_MARK if previous.startswith(BYTE_ORDER_MARK) else ""
    return mark + (new.replace("\n", "\r\n") if "\r\n" in text else new)


def _paired(field: "KeyShape", olds: Sequence[Any], news: Sequence[Any]) -> list[int | None]:
    """Tell which old thing each new thing was: by id, by likeness and then place where there is none."""
    if field.name in KINDS:
        places = {thing.id: place for place, thing in enumerate(_identified(field.name, olds))}
        return [places.get(thing.id) for thing in news]
    free = list(range(len(olds)))
    pairs: list[int | None] = []
    for thing in news:
        same = next((place for place in free if olds[place] == thing), None)
        pairs.append(same)
        if same is not None:
            free.remove(same)
    return [free.pop(0) if pair is None and free else pair for pair in pairs]
