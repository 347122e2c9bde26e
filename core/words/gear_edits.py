"""What is said while gear is listed and changed: steps that can be undone, what is lacking, own names."""

from collections.abc import Iterable
from typing import Final

from core.words.names import listed, uncapitalised

# Steps, as Undo and Redo tell them.
ADD: Final = "Add {thing}"
ADD_ANY: Final = "Add"
COPY: Final = "Copy {name}"
REMOVE: Final = "Remove {name}"
MOVE_UP: Final = "Move {name} up"
MOVE_DOWN: Final = "Move {name} down"
MOVE_TO: Final = "Move {name} to {place}"
SHAPE_SKY: Final = "Shape the sky of {name}"
CHANGE_OBSERVER: Final = "Change the observer's name"
_RENAME: Final = "Rename {name}"
_CHANGE: Final = "Change {field}"
_CHANGE_OF: Final = "Change {field} of {name}"

REMOVED: Final = "{name} is removed. Undo brings it back."
NEW_THING: Final = "New {kind}"
NEW_UNFINISHED: Final = "New {kind}, unfinished"
NAME_TAKEN: Final = "Another {kind} has this name already. Please choose another one."
NEEDED: Final = "{label} is needed."
OWNED: Final = "{count} owned. Choose one on the left to change it."
NONE_OWNED: Final = "None owned yet."
NO_ZONE: Final = "“{name}” is not a time zone; write it like Europe/Lisbon."
NO_ZONE_MEANT: Final = "“{name}” is not a time zone. Did you mean {meant}?"
WRITE_TIME_OR: Final = "Write a time such as 19:30 or 7:30 pm, or the word {word}."
ROW_PROBLEM: Final = "Row {number}: {problem}"
BLUR_OF: Final = "The blur of {look} air"
_STILL_NEEDED: Final = "Still needed: {fields}."

# Names that follow from the figures.
COPY_NAME: Final = "{name} copy"
NUMBERED_NAME: Final = "{name} {number}"
TELESCOPE_NAME: Final = "{aperture} {kind}"
FIXED_NAME: Final = "{powers}x, {aperture}"
REDUCER_NAME: Final = "{factor}x reducer"
BARLOW_NAME: Final = "{factor}x"
ZOOM_NAME: Final = "{low}-{high} zoom"
FOCAL_RATIO: Final = "f/{ratio}"


def rename_step(name: str) -> str:
    """Return the step of giving a thing another name."""
    return _RENAME.format(name=name)


def change_step(field: str, name: str | None = None) -> str:
    """Return the step of changing one field, by its label, of a named thing or of the observer."""
    template = _CHANGE if name is None else _CHANGE_OF
    return template.format(field=uncapitalised(field), name=name)


def still_needed_words(fields: Iterable[str]) -> str:
    """Return which fields, by their labels, still keep a thing from being one; nothing without any."""
    labels = [uncapitalised(label) for label in fields]
    return _STILL_NEEDED.format(fields=listed(labels)) if labels else ""
