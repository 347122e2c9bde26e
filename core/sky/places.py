"""Towns and time zones, looked up without a network.

Towns are of GeoNames (geonames.org, Creative Commons Attribution 4.0): those of more than 15,000
people. Zones of any coordinates are of tzfpy, whose borders are a little simplified.
"""

import itertools
import lzma
import unicodedata
from functools import cache
from importlib import resources

import tzfpy
from attrs import frozen

# Letters that Unicode does not take apart into a plain letter and an accent.
_PLAIN_LETTERS = str.maketrans(
    {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th"}
)


@frozen(kw_only=True)
class Place:
    """A town: degrees north and east positive, an IANA zone, and how many people live there."""

    name: str
    region: str
    country: str
    latitude_deg: float
    longitude_deg: float
    time_zone: str
    population: int

    @property
    def label(self) -> str:
        """The name with what tells it from its namesakes: region where known, and country."""
        return ", ".join(part for part in (self.name, self.region, self.country) if part)


def fold(text: str) -> str:
    """Return a text without accents, capitals and punctuation, words parted by one space.

    >>> fold("São Paulo (Centro)")
    'sao paulo centro'
    """
    taken_apart = unicodedata.normalize("NFKD", text.casefold().translate(_PLAIN_LETTERS))
    kept = (
        letter if letter.isalnum() else " "
        for letter in taken_apart
        if not unicodedata.combining(letter) and letter not in "'’ʻʼ`"
    )
    return " ".join("".join(kept).split())


@frozen
class _Entry:
    """A place with all its names, folded, each between two bars; and its region and country as they are."""

    place: Place
    names: str
    around: str


@cache
def _entries() -> tuple[_Entry, ...]:
    """Read every town, the largest first; takes a few tenths of a second, once."""
    packed = resources.files("resources").joinpath("places.tsv.xz").read_bytes()
    entries = []
    for line in lzma.decompress(packed).decode().splitlines():
        name, region, country, latitude, longitude, zone, people, names = line.split("\t")
        place = Place(
            name=name,
            region=region,
            country=country,
            latitude_deg=float(latitude),
            longitude_deg=float(longitude),
            time_zone=zone,
            population=int(people),
        )
        entries.append(_Entry(place, f"|{names}|", f"{region} {country}"))
    return tuple(entries)


def prepare() -> None:
    """Read the towns now, so that the first search is quick; safe to call from another thread."""
    _entries()


def search_places(text: str, *, limit: int = 12) -> tuple[Place, ...]:
    """Return the towns that a text may mean, the likeliest first.

    A town whose own name is the text comes first, then one that is also called so, then one of whose names
    begins so, then one with a later word that begins so; within each, the one with more people comes first.
    Accents and capitals do not matter, any script will do, and what follows a comma names the region or
    country ("Paris, Texas"); without a comma its last word or two may do the same ("Portland Oregon").
    """
    return tuple(itertools.islice(itertools.chain(*_meant(text)), limit))


def only_match(text: str) -> Place | None:
    """Return the town that a text can only mean: the only one of that name, else the only one found."""
    tiers = _meant(text)
    named = tiers[0] or tiers[1] or tuple(itertools.chain(*tiers))
    return named[0] if len(named) == 1 else None


def _meant(text: str) -> tuple[list[Place], ...]:
    """Return the towns that a text may mean in four tiers, the likeliest first."""
    name, comma, around = text.partition(",")
    tiers = _tiers(fold(name), fold(around))
    words = fold(name).split()
    for count in (1, 2):
        if comma or any(tiers) or len(words) <= count:
            break
        tiers = _tiers(" ".join(words[:-count]), " ".join(words[-count:]))
    return tiers


def _tiers(wanted: str, wanted_around: str) -> tuple[list[Place], ...]:
    """Return the towns of a folded name, and of a region or country of another, in four tiers."""
    tiers: tuple[list[Place], ...] = ([], [], [], [])
    if not wanted:
        return tiers
    whole, start, word = f"|{wanted}|", f"|{wanted}", f" {wanted}"
    for entry in _entries():
        names = entry.names
        if start not in names and word not in names:
            continue
        if wanted_around and f" {wanted_around}" not in f" {fold(entry.around)}":
            continue
        if names.startswith(whole):
            tiers[0].append(entry.place)
        elif whole in names:
            tiers[1].append(entry.place)
        elif start in names:
            tiers[2].append(entry.place)
        else:
            tiers[3].append(entry.place)
    return tiers


def zone_at(latitude_deg: float, longitude_deg: float) -> str:
    """Return the IANA time zone of a place in degrees; on the open sea one of the Etc/GMT zones.

    >>> zone_at(38.72, -9.14)
    'Europe/Lisbon'
    """
    wrapped_deg = (longitude_deg + 180.0) % 360.0 - 180.0
    return str(tzfpy.get_tz(wrapped_deg, latitude_deg)) or "Etc/UTC"
