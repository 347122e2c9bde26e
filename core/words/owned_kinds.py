"""The kinds of thing an observer owns: what each is called, and what is enough to begin one."""

from enum import StrEnum
from typing import Self


class Kind(StrEnum):
    """A group of what is owned, by the name of its field in a profile; the observer is a group of one.

    ``one_more`` names one thing of the group with its article, as inside a sentence; ``enough`` tells what is
    enough to begin one, and how it may be typed.
    """

    one_more: str
    enough: str

    TELESCOPE = (
        "telescopes",
        "a telescope",
        (
            "Name, aperture and focal length are enough. Type figures as they are written on the tube: 150, "
            '6 in, 4 1/2", f/8. Instruments with a power of their own go in as 10x50 or 20-60x80.'
        ),
    )
    EYEPIECE = (
        "eyepieces",
        "an eyepiece",
        (
            "The focal length in mm is enough, such as 10, or 8-24 for a zoom. With its field stop or its "
            "apparent field the true field is known too."
        ),
    )
    BARLOW = (
        "barlows",
        "a Barlow or reducer",
        (
            "The factor is enough: 2 for a Barlow that doubles the power, 0.63 for a reducer. A factor you "
            "have measured yourself is used in place of the marked one."
        ),
    )
    FILTER = (
        "filters",
        "a filter",
        (
            "The colour number (Wratten) is enough, or for a neutral filter the share of light that it lets "
            "through."
        ),
    )
    SITE = (
        "sites",
        "a site",
        (
            "Latitude, longitude and a name. Trees, roofs and warm chimneys can be added, so that times when "
            "they stand in the way are not offered."
        ),
    )
    OBSERVER = ("observer", "an observer")

    def __new__(cls, group: str, one_more: str, enough: str = "") -> Self:
        """Make a kind by its group's name alone, the words beside it."""
        kind = str.__new__(cls, group)
        kind._value_ = group
        kind.one_more, kind.enough = one_more, enough
        return kind

    @property
    def heading(self) -> str:
        """The name of the group."""
        return self.value.capitalize()

    @property
    def singular(self) -> str:
        """The name of one thing of the group, as inside a sentence."""
        return self.one_more.partition(" ")[2]

    @property
    def short(self) -> str:
        """The name of one thing, as short as can be."""
        return self.singular.split()[0]

    @property
    def stem(self) -> str:
        """How the ids of such things begin, and the name of the file of their form."""
        return self.value.removesuffix("s")


LISTED = tuple(kind for kind in Kind if kind is not Kind.OBSERVER)
