"""Makes the map of the industrial estate, scenarios/estate/map.yaml: a street grid, the same at every run.

    python3 tests/scenarios/make_estate.py > scenarios/estate/map.yaml

Blocks stand in rows and columns with streets between. Cables run along the pavements and verges around each block, cross
the streets at its corners (and here and there in between), cut through parks, and reach each building from one or two
sides. The hub stands apart at the end of an access road. A handhole marks every corner where an enclosure could stand.
"""

import random
import sys

COLUMNS, ROWS = 9, 6
STREET_M = 14
BOULEVARD = 3  # The street south of this row, counted from 0, is the boulevard.
PARKS = {(2, 1), (6, 1), (4, 4), (7, 4)}
PONDS = {(0, 5), (8, 0), (8, 5)}  # Nothing crosses them, nothing is built there.
CAR_PARKS = {(1, 4), (3, 0), (5, 2), (7, 2), (2, 5), (6, 5), (0, 0)}
ACCESS_ROAD_M = (0, 210, 430, 640)

HEAD = """\
# The map of the industrial estate: an invented street grid, made by tests/scenarios/make_estate.py. Change that, not this.
# Places: x metres east and y metres north of the estate's south-west corner.
"""


class Map:
    """Places and segments as lines of YAML, in the order they are added."""

    def __init__(self, numbers):
        self.numbers = numbers
        self.places, self.segments, self.at = [], [], {}

    def place(self, name, at, kind="junction", more=""):
        self.at[name] = at
        kind = "" if kind == "junction" else f", kind: {kind}"
        self.places.append(f"  - {{id: {name}{kind}, at: [{at[0]:.1f}, {at[1]:.1f}]{more}}}")

    def segment(self, name, ends, ground, more=""):
        self.segments.append(f"  - {{id: {name}, from: {ends[0]}, to: {ends[1]}, ground: {ground}{more}}}")

    def chance(self, share):
        return self.numbers.random() < share

    def between(self, low, high):
        return low + (high - low) * self.numbers.random()


def edges(numbers, count, low, high):
    """Where blocks begin and end along one direction, with a street between each two."""
    spans, at = [], 0.0
    for _ in range(count):
        size = round(low + (high - low) * numbers.random())
        spans.append((at, at + size))
        at += size + STREET_M
    return spans


def pavement(map_, row_or_column, horizontal):
    """The ground along one street: the boulevard has verges, the rest by chance."""
    if horizontal and row_or_column == BOULEVARD:
        return "verge"
    return ("verge", "paving", "paving", "asphalt path")[int(map_.numbers.random() * 4)]


def add_side(map_, block, side, ends, ground):
    """One side of a block, in three pieces of uneven length."""
    (x0, y0), (x1, y1) = map_.at[ends[0]], map_.at[ends[1]]
    names = [ends[0]]
    for i, share in enumerate((map_.between(0.25, 0.4), map_.between(0.6, 0.75)), start=1):
        name = f"{block}{side}{i}"
        map_.place(name, (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share))
        names.append(name)
    names.append(ends[1])
    for i in range(3):
        map_.segment(f"{block}{side}-{i + 1}", (names[i], names[i + 1]), ground)


def add_block(map_, block, box, grounds):
    """A block's corners and its four sides."""
    (west, east), (south, north) = box
    corners = {"sw": (west, south), "se": (east, south), "ne": (east, north), "nw": (west, north)}
    for corner, at in corners.items():
        is_handhole = map_.chance(0.35)
        more = ", enclosure: {extra: 260, reason: needs a guard rail}" if is_handhole and map_.chance(0.15) else ""
        map_.place(f"{block}{corner}", at, "handhole" if is_handhole else "junction", more)
    for side, ends in {"s": ("sw", "se"), "n": ("nw", "ne"), "w": ("sw", "nw"), "e": ("se", "ne")}.items():
        add_side(map_, block, side, [block + end for end in ends], grounds[side])


def add_crossing(map_, ends, boulevard):
    ground = "main road" if boulevard else "street"
    charge = ", charges: [{what: traffic control, amount: 380}]" if boulevard else ""
    map_.segment(f"x-{ends[0]}-{ends[1]}", ends, ground, charge)


def add_crossings(map_):
    """Across the streets, at the corners and sometimes half-way along a block."""
    for row in range(ROWS):
        for column in range(COLUMNS):
            here = name_of(column, row)
            if column + 1 < COLUMNS:
                right = name_of(column + 1, row)
                add_crossing(map_, (f"{here}se", f"{right}sw"), False)
                add_crossing(map_, (f"{here}ne", f"{right}nw"), False)
            if row + 1 < ROWS:
                above = name_of(column, row + 1)
                boulevard = row + 1 == BOULEVARD
                add_crossing(map_, (f"{here}nw", f"{above}sw"), boulevard)
                add_crossing(map_, (f"{here}ne", f"{above}se"), boulevard)
                if map_.chance(0.35):
                    add_crossing(map_, (f"{here}n1", f"{above}s1"), boulevard)


def name_of(column, row):
    return f"{'ABCDEFGHI'[column]}{row + 1}"


def add_park(map_, block, box):
    """Paths from every corner and side to the middle."""
    (west, east), (south, north) = box
    middle = f"{block}park"
    at = (west + (east - west) * map_.between(0.4, 0.6), south + (north - south) * map_.between(0.4, 0.6))
    map_.place(middle, at, "handhole", ", enclosure: {allowed: false, reason: the park is kept free of cabinets}")
    for end in ("sw", "se", "ne", "nw", "s1", "n2", "w1", "e2"):
        from_at = map_.at[block + end]
        bend = ((from_at[0] + at[0]) / 2 + map_.between(-6, 6), (from_at[1] + at[1]) / 2 + map_.between(-6, 6))
        via = f", via: [[{bend[0]:.1f}, {bend[1]:.1f}]]"
        map_.segment(f"{block}path-{end}", (block + end, middle), "park", via)


def add_building(map_, number, block, box):
    """A unit in its yard, reached from the south or the north, and sometimes from the side as well."""
    (west, east), (south, north) = box
    at = (west + (east - west) * map_.between(0.35, 0.65), south + (north - south) * map_.between(0.35, 0.65))
    unit, side = f"unit-{number:02}", "s" if map_.chance(0.5) else "n"
    map_.place(unit, at, "building")
    door = map_.at[f"{block}{side}1"]
    map_.place(f"{unit}-yard", (door[0] + (at[0] - door[0]) * 0.6, door[1] + (at[1] - door[1]) * 0.6))
    map_.segment(f"{unit}-drive", (f"{block}{side}1", f"{unit}-yard"), "yard")
    map_.segment(f"{unit}-door", (f"{unit}-yard", unit), "yard")
    map_.segment(f"{unit}-side", (f"{block}{'w' if map_.chance(0.5) else 'e'}2", f"{unit}-yard"), "yard")


def add_access_road(map_):
    """From the hub, far off in the west, to the boulevard."""
    end = map_.at[f"A{BOULEVARD + 1}sw"]
    names = []
    for i, metres in enumerate(ACCESS_ROAD_M):
        name = "exchange" if i == len(ACCESS_ROAD_M) - 1 else f"access-{i}"
        map_.place(name, (end[0] - 30 - metres, end[1] + (15 if i == 2 else 0)), "hub" if name == "exchange" else "junction")
        names.append(name)
    for i in range(1, len(names)):
        map_.segment(f"access-road-{i}", (names[i], names[i - 1]), "verge")
    map_.segment("access-north", (names[0], f"A{BOULEVARD + 1}sw"), "verge")
    map_.segment("access-south", (names[0], f"A{BOULEVARD}nw"), "verge")


def estate(seed=2026):
    """The whole map as YAML text."""
    numbers = random.Random(seed)
    map_ = Map(numbers)
    columns, rows = edges(numbers, COLUMNS, 92, 128), edges(numbers, ROWS, 66, 96)
    across = [pavement(map_, row, True) for row in range(ROWS + 1)]
    along = [pavement(map_, column, False) for column in range(COLUMNS + 1)]
    boxes = {(c, r): (columns[c], rows[r]) for r in range(ROWS) for c in range(COLUMNS)}
    for (column, row), box in boxes.items():
        grounds = {"s": across[row], "n": across[row + 1], "w": along[column], "e": along[column + 1]}
        add_block(map_, name_of(column, row), box, grounds)
    add_crossings(map_)
    number = 0
    for block, box in boxes.items():
        if block in PARKS:
            add_park(map_, name_of(*block), box)
        elif block not in PONDS | CAR_PARKS:
            number += 1
            add_building(map_, number, name_of(*block), box)
    add_access_road(map_)
    return "\n".join([HEAD + "places:", *map_.places, "segments:", *map_.segments]) + "\n"


if __name__ == "__main__":
    sys.stdout.write(estate())
