"""A site as far as bounds rest on it. Lengths are whole millimetres, work is whole seconds, money is whole minor units,
prices are thousandths of a minor unit: a metre, an hour, a piece."""

import dataclasses
from fractions import Fraction

MILLIMETRES = 1000
THOUSANDTHS = 1000
SECONDS = 3600


class NotRead(Exception):
    """The site has something that these scripts do not know."""


def nearest(number, divisor=1):
    """The whole number nearest to a quotient, halves upwards."""
    return (2 * number + divisor) // (2 * divisor)


def rounded_up(number, divisor=1):
    return -(-number // divisor)


@dataclasses.dataclass
class Way:
    """One way of using a segment."""
    duct: int  # price a metre for each cable
    pull: Fraction  # installer's hours a metre for each cable
    groundworks: int  # price a metre, once
    once: int  # money: set-up and charges
    room: int = -1  # cables that it takes; -1: any number


@dataclasses.dataclass
class Segment:
    start: str
    end: str
    length: int
    ways: list  # none where it is banned


@dataclasses.dataclass
class Building:
    place: str
    wanted: list  # megabits a second and how many links
    devices: list  # how many, and watts of each

    def links(self):
        return sum(count for _, count in self.wanted)

    def rate(self):
        return max(rate for rate, _ in self.wanted)


@dataclasses.dataclass
class Cable:
    strands: int
    price: int  # a metre
    step: int
    longest: int
    end: int  # price


@dataclasses.dataclass
class Optic:
    rate: int
    strands: int
    reach: int
    price: int


@dataclasses.dataclass
class Gear:
    """Of a building or of the hub; an enclosure has adapters for copper ports."""
    price: int
    install: int
    copper_ports: int
    optic_ports: int = 0
    rate: int = 0
    milliwatts: int = 0
    converter: bool = False


@dataclasses.dataclass
class Catalogue:
    cables: list
    enclosures: list
    optics: list
    cords: list  # strands and price
    building_gear: list
    hub_gear: list
    pigtail: int
    splice: int  # work a strand
    set_up: int  # work once a splicing place
    splicer: int  # price an hour


@dataclasses.dataclass
class Rules:
    factory: bool  # cables come with ends
    strands_a_link: int
    ends: int  # rise and coils at both ends of a cable together
    coil: int  # in each handhole
    allowance: Fraction
    drop_spare: int
    trunk_spare: Fraction
    trunk_spare_least: int
    headroom: Fraction
    spare_ports: int
    most_enclosures: int
    hop_limit: int
    contingency: Fraction
    tax: Fraction


@dataclasses.dataclass
class Hub:
    place: str
    growth_ports: int
    free_optic_ports: int
    free_copper_ports: int
    devices: int


@dataclasses.dataclass
class Labour:
    installer: int  # price an hour
    plug: int  # work a strand
    test: int  # work a strand
    mobilisation: int  # money


@dataclasses.dataclass
class Site:
    name: str
    hub: Hub
    buildings: dict  # by id, in the order of ids
    kinds: dict  # of each place
    enclosures: dict  # money that an enclosure costs more, by place where one may stand
    segments: dict  # by id; none where there is open ground
    has_open_ground: bool
    passages: set  # duct and pull of all ways there are
    catalogue: Catalogue
    rules: Rules
    labour: Labour

    def charged(self, direct):
        """What the customer pays for a direct cost: contingency on it, tax on both, each rounded."""
        with_contingency = direct + nearest(direct * self.rules.contingency)
        return with_contingency + nearest(with_contingency * self.rules.tax)

    def fastest_rate(self):
        return max(building.rate() for building in self.buildings.values())

    def in_use(self, building):
        return building.links() * self.rules.strands_a_link

    def all_in_use(self):
        return sum(map(self.in_use, self.buildings.values()))

    def trunk_strands(self, in_use):
        spare = max(self.rules.trunk_spare_least, rounded_up(in_use * self.rules.trunk_spare))
        return in_use + spare + rounded_up(in_use * self.rules.headroom)

    def has_coils(self):
        """Whether cables leave coils anywhere on their way."""
        return any(self.coil_at(place) for place in self.kinds)

    def coil_at(self, place):
        """Half a coil, where cables that pass leave one."""
        return self.rules.coil // 2 if self.kinds.get(place) == "handhole" else 0
