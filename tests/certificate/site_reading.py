"""Reads from a site file what bounds rest on.

It knows far less than Spadework does, and raises NotRead at what it does not know. Figures are rounded as Spadework
rounds them at its border.

Read: sections in files of their own, ranges (their likely value), metres and feet, plane maps, GeoJSON maps (by
geojson_map), and of sites with open ground all but its lattice. Not read: maps of places in degrees; ducts known by
their inside alone; `strand-use: cheaper`; currencies whose minor unit is no hundredth."""

import dataclasses
import math
import pathlib
from fractions import Fraction

import yaml

import geojson_map
from site_model import (MILLIMETRES, SECONDS, THOUSANDTHS, Building, Cable, Catalogue, Gear, Hub, Labour, NotRead,
                        Optic, Rules, Segment, Site, Way, nearest)

FOOT = Fraction(3048, 10000)
HUNDREDTHS = {"EUR", "USD", "GBP", "CHF", "CAD", "AUD", "NZD", "SEK", "NOK", "DKK", "PLN", "CZK"}
#: Megabits a second, strands and metres of reach of transceivers, by IEEE 802.3 clauses 38, 52, 58, 59 and 114.
STANDARDS = {"100BASE-LX10": (100, 2, 10000), "100BASE-BX10": (100, 1, 10000), "1000BASE-LX": (1000, 2, 5000),
             "1000BASE-LX10": (1000, 2, 10000), "1000BASE-BX10": (1000, 1, 10000), "10GBASE-LR": (10000, 2, 10000),
             "10GBASE-ER": (10000, 2, 30000), "25GBASE-LR": (25000, 2, 10000)}
STRANDS = {"duplex": 2, "bidirectional": 1}


def number(value):
    """A plain number, or the likely value of a range."""
    if not isinstance(value, dict):
        return Fraction(value)
    if "chance" in value:
        return number(value["then"] if Fraction(value["chance"]) > Fraction(1, 2) else value["otherwise"])
    return number(value["likely"]) if "likely" in value else (number(value["low"]) + number(value["high"])) / 2


def megabits(text):
    return int(Fraction(text[:-1]) * {"M": 1, "G": 1000}[text[-1]])


def is_true(value):
    return str(value).lower() == "true"


class Reader:
    def __init__(self, path):
        self.folder = path.parent
        self.site = self.load(path)
        self.feet = self.site.get("units") == "feet"
        self.catalogue, self.labour, self.rules, self.grounds = (
            self.section(key)[0] for key in ("catalogue", "labour", "rules", "grounds"))
        self.hub = self.site["hub"]
        if self.site["currency"] not in HUNDREDTHS:
            raise NotRead(f"prices in {self.site['currency']}")
        if self.rules.get("strand-use") == "cheaper" or "place" not in self.hub:
            raise NotRead("plans with either strand use, and hubs by their position")

    @staticmethod
    def load(path):
        return yaml.load(path.read_text(), Loader=yaml.BaseLoader)

    def section(self, key):
        """A section, and the folder that paths in it start from."""
        value = self.site.get(key, {})
        if not isinstance(value, str):
            return value, self.folder
        path = self.folder / value
        return self.load(path), path.parent

    # Values. `default` is in metres, as the format's table of keys has it.

    def metres(self, value):
        return number(value) * (FOOT if self.feet else 1)

    def length(self, mapping, key, default=None):
        return nearest(MILLIMETRES * (self.metres(mapping[key]) if key in mapping else Fraction(default)))

    def money(self, mapping, key):
        return nearest(100 * number(mapping.get(key, 0)))

    def price(self, mapping, key):
        return nearest(100 * THOUSANDTHS * number(mapping.get(key, 0)))

    def a_metre(self, mapping, key, default=0):
        """A price or hours a length."""
        return number(mapping[key]) / (FOOT if self.feet else 1) if key in mapping else Fraction(default)

    def price_a_metre(self, mapping, key):
        return nearest(100 * THOUSANDTHS * self.a_metre(mapping, key))

    def work(self, mapping, key, seconds=SECONDS, default=0):
        return nearest(seconds * number(mapping.get(key, default)))

    # The map.

    def way(self, method, difficulty=Fraction(1), pull="0.02"):
        crew = self.price(self.labour, "groundworks-rate")
        labour = nearest(crew * self.a_metre(method, "labour") * difficulty)
        harder = [nearest(self.price_a_metre(method, key) * difficulty)
                  for key in ("plant", "material", "reinstatement")]
        return Way(self.price_a_metre(method, "duct"), self.a_metre(method, "pull", pull), labour + sum(harder),
                   self.money(method, "set-up"))

    def ways_of_ground(self, name):
        ground = self.grounds[name]
        return [self.way(method, number(ground.get("difficulty", 1))) for method in ground["methods"]]

    def ways(self, segment):
        """The ways of a segment in their order, its own charges included."""
        if "ban" in segment:
            return []
        ways = self.ways_of_ground(segment["ground"])
        if "inner-diameter" in segment.get("duct", {}):
            raise NotRead("ducts that are known by their inside")
        room = int(segment.get("duct", {}).get("room", 0))
        if room > 0:
            ways.append(dataclasses.replace(self.existing_duct(), room=room))
        if is_true(segment.get("poles")):
            ways.append(self.pole_line())
        charges = sum(self.money(charge, "amount") for charge in segment.get("charges", []))
        return [dataclasses.replace(way, once=way.once + charges) for way in ways]

    def existing_duct(self):
        return self.way(self.site.get("existing-duct", {}))

    def pole_line(self):
        return self.way(self.site.get("pole-line", {}), pull="0.03")

    def length_of(self, line, at):
        if "length" in line:
            return self.length(line, "length")
        course = [at[line["from"]], *line.get("via", []), at[line["to"]]]
        points = [[float(self.metres(x)) for x in point] for point in course]
        return nearest(MILLIMETRES * Fraction(sum(map(math.dist, points, points[1:]))))

    def map(self):
        """Places and segments as they are listed, and whether there is open ground besides."""
        section, folder = self.section("map")
        if section.get("coordinates", "plane") != "plane":
            raise NotRead("places in degrees")
        if "geojson" in section:
            if self.feet or "areas" in section:
                raise NotRead("GeoJSON maps in feet or beside areas")
            return *geojson_map.network(section["geojson"], folder, self.site), False
        at = {place["id"]: place["at"] for place in section["places"]}
        lines = [dict(line, millimetres=self.length_of(line, at)) for line in section["segments"]]
        return section["places"], lines, "areas" in section

    def kinds(self, listed):
        kinds = {place["id"]: place.get("kind", "junction") for place in listed}
        kinds[self.hub["place"]] = "hub"
        for building in self.site["buildings"]:
            kinds[building.get("place", building["id"])] = "building"
        return kinds

    def enclosures(self, listed, kinds):
        usual = self.rules.get("enclosure-kinds", ["junction", "handhole", "pole"])
        rules = {place["id"]: place.get("enclosure", {}) for place in listed}
        return {name: self.money(rule, "extra") for name, rule in rules.items()
                if is_true(rule.get("allowed", kinds[name] in usual))}

    # What can be bought, and what is wanted.

    def gear(self, listed, ports="copper-ports"):
        return [Gear(self.price(one, "price"), self.work(one, "install-hours"), int(one.get(ports, 0)),
                     int(one.get("optic-ports", 0)), megabits(one.get("fastest-rate", "0M")),
                     nearest(1000 * number(one.get("poe-budget", 0))), one.get("kind") == "media-converter")
                for one in self.catalogue.get(listed, [])]

    def optic(self, one):
        rate, strands, metres = STANDARDS.get(one.get("standard"), (0, 0, 0))
        return Optic(megabits(one["rate"]) if "rate" in one else rate, STRANDS.get(one.get("strand-use"), strands),
                     self.length(one, "reach", metres), self.price(one, "price"))

    def products(self):
        splicing = self.catalogue.get("splicing", {})
        return Catalogue(
            cables=[Cable(int(one["strands"]), self.price_a_metre(one, "price"), self.length(one, "step"),
                          self.length(one, "longest"), self.price(one, "end")) for one in self.catalogue["cables"]],
            enclosures=self.gear("enclosures", "adapters"),
            optics=[self.optic(one) for one in self.catalogue["optics"]],
            cords=[(int(one["strands"]), self.price(one, "price")) for one in self.catalogue.get("patch-cords", [])],
            building_gear=self.gear("building-gear"),
            hub_gear=self.gear("hub-gear"),
            pigtail=self.price(splicing, "pigtail"),
            splice=self.work(splicing, "hours-per-splice"),
            set_up=self.work(splicing, "set-up-hours"),
            splicer=self.price(splicing, "rate"))

    def planning_rules(self):
        slack, spare = self.rules.get("slack", {}), self.rules.get("spare", {})
        return Rules(
            factory=self.rules.get("termination", "factory") == "factory",
            strands_a_link=STRANDS[self.rules.get("strand-use", "duplex")],
            ends=2 * (self.length(slack, "rise", 2) + self.length(slack, "coil", 3)),
            coil=self.length(slack, "handhole-coil", 2),
            allowance=number(slack.get("ordering-allowance", 10)) / 100,
            drop_spare=int(spare.get("drop-least", 2)),
            trunk_spare=number(spare.get("trunk", 25)) / 100,
            trunk_spare_least=int(spare.get("trunk-least", 2)),
            headroom=number(self.site.get("growth", {}).get("headroom", 0)) / 100,
            spare_ports=int(self.rules.get("spare-copper-ports", 0)),
            most_enclosures=int(self.rules.get("max-enclosures", 1)),
            hop_limit=int(self.rules.get("hop-limit", 8)),
            contingency=number(self.rules.get("contingency", 0)) / 100,
            tax=number(self.rules.get("tax", 0)) / 100)

    def building(self, one):
        devices = [(int(device.get("count", 1)), number(device.get("watts", 0))) for device in one.get("devices", [])]
        return Building(one.get("place", one["id"]),
                        [(megabits(link["rate"]), int(link.get("count", 1))) for link in one["links"]], devices)

    def read(self):
        listed, lines, has_open_ground = self.map()
        kinds = self.kinds(listed)
        segments = {} if has_open_ground else {
            line["id"]: Segment(line["from"], line["to"], line["millimetres"], self.ways(line)) for line in lines}
        ways = [way for name in self.grounds for way in self.ways_of_ground(name)]
        ways += [self.existing_duct()] * any("duct" in line for line in lines)
        ways += [self.pole_line()] * any("poles" in line for line in lines)
        return Site(
            name=self.site["site"],
            hub=Hub(self.hub["place"], *(int(self.hub.get(key, 0)) for key in (
                "growth-ports", "free-optic-ports", "free-copper-ports")),
                sum(int(device.get("count", 1)) for device in self.hub.get("devices", []))),
            buildings={one["id"]: self.building(one) for one in sorted(
                self.site["buildings"], key=lambda one: one["id"].encode())},
            kinds=kinds,
            enclosures=self.enclosures(listed, kinds),
            segments=segments,
            has_open_ground=has_open_ground,
            passages={(way.duct, way.pull) for way in ways},
            catalogue=self.products(),
            rules=self.planning_rules(),
            labour=Labour(self.price(self.labour, "installer-rate"),
                          self.work(self.labour, "plug-minutes", 60, 5), self.work(self.labour, "test-minutes", 60, 6),
                          self.money(self.labour, "mobilisation")))


def read_site(path):
    return Reader(pathlib.Path(path)).read()
