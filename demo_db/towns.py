"""The places of the demo: real towns, and one ship.

Names, coordinates, regions, zones and ids are GeoNames' (https://www.geonames.org),
licensed CC BY 4.0; the spellings of the names are those a traveller would write.
"""

from keeper.model import Place

FERRY = "The night ferry"

_TOWNS = (
    # name, region, country, latitude, longitude, zone, GeoNames id
    ("Lübeck", "Schleswig-Holstein", "DE", 53.86893, 10.68729, "Europe/Berlin", 2875601),
    ("Stralsund", "Mecklenburg-Vorpommern", "DE", 54.30911, 13.0818, "Europe/Berlin", 2826287),
    ("Rønne", "Hovedstaden", "DK", 55.10091, 14.70664, "Europe/Copenhagen", 2614553),
    ("Gdańsk", "Pomorskie", "PL", 54.35227, 18.64912, "Europe/Warsaw", 3099434),
    ("Klaipėda", "Klaipėdos apskritis", "LT", 55.7068, 21.13912, "Europe/Vilnius", 598098),
    ("Liepāja", "Liepāja", "LV", 56.50474, 21.01085, "Europe/Riga", 457954),
    ("Pärnu", "Pärnumaa", "EE", 58.38588, 24.49711, "Europe/Tallinn", 589580),
    ("Turku", "Varsinais-Suomi", "FI", 60.45148, 22.26869, "Europe/Helsinki", 633679),
    ("Visby", "Gotlands län", "SE", 57.64089, 18.29602, "Europe/Stockholm", 2662689),
    ("Kalmar", "Kalmar län", "SE", 56.66157, 16.36163, "Europe/Stockholm", 2702261),
    ("Gothenburg", "Västra Götalands län", "SE", 57.70716, 11.96679, "Europe/Stockholm", 2711537),
    ("Helsingør", "Hovedstaden", "DK", 56.03606, 12.6136, "Europe/Copenhagen", 2620473),
    ("Aarhus", "Midtjylland", "DK", 56.15674, 10.21076, "Europe/Copenhagen", 2624652),
    ("Esbjerg", "Syddanmark", "DK", 55.47028, 8.45187, "Europe/Copenhagen", 2622447),
    ("Stavanger", "Rogaland", "NO", 58.97005, 5.73332, "Europe/Oslo", 3137115),
    ("Bergen", "Vestland", "NO", 60.39299, 5.32415, "Europe/Oslo", 3161732),
    ("Lerwick", "Scotland", "GB", 60.15339, -1.14427, "Europe/London", 2644605),
    ("Harlingen", "Fryslân", "NL", 53.17477, 5.42244, "Europe/Amsterdam", 2754817),
)  # fmt: skip

PLACES = (*(Place("", *town) for town in _TOWNS), Place("", FERRY, on_the_way=True))
"""As they are handed to the store, which gives them their ids."""

BY_NAME = {place.name: place for place in PLACES}
