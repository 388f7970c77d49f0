"""The network of a GeoJSON map as scenarios/README.md describes it: lines cut where they share a vertex and where
laterals join them, buildings and other places joined by a lateral to the nearest point of the lines.

Not read: `buildings.take`, `hub.near`, areas, bans by property, MultiLineStrings and MultiPolygons, a property
`length`, cuts within half a metre of each other. A map in several parts is taken for one."""

import json
import math
from fractions import Fraction

from site_model import NotRead, nearest

JOINS_AT_VERTEX = 0.5  # metres from a vertex within which a lateral joins there
STANDS_ON_VERTEX = 0.05  # metres within which a place is the vertex itself
RADIUS, FLATTENING = 6378137.0, 1 / 298.257223563
SQUARED = FLATTENING * (2 - FLATTENING)  # eccentricity, squared


def metres_a_degree(latitude):
    """Eastwards and northwards, by the ellipsoid's radii of curvature."""
    w = 1 - SQUARED * math.sin(math.radians(latitude)) ** 2
    return (math.radians(RADIUS / math.sqrt(w) * math.cos(math.radians(latitude))),
            math.radians(RADIUS * (1 - SQUARED) / w ** 1.5))


def metres(a, b):
    """Of the geodesic, by the mean latitude (Gauss): right to a thousandth of a millimetre within a kilometre."""
    east, north = metres_a_degree((a[1] + b[1]) / 2)
    return math.hypot((a[0] - b[0]) * east, (a[1] - b[1]) * north)


class Plane:
    """Metres around the mean of some positions."""

    def __init__(self, positions):
        self.middle = [sum(values) / len(positions) for values in zip(*positions)]
        self.scale = metres_a_degree(self.middle[1])

    def to(self, at):
        return [(value - middle) * scale for value, middle, scale in zip(at, self.middle, self.scale)]

    def back(self, at):
        return tuple(value / scale + middle for value, middle, scale in zip(at, self.middle, self.scale))


def nearest_share(a, b, point):
    """The share of the way from a to b at which that comes nearest to a point."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    squared = dx * dx + dy * dy
    return min(1, max(0, ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / squared)) if squared else 0


def along(a, b, share):
    return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]


def crossing(edge, side):
    """The share of the edge at which the side crosses it, or nothing."""
    def beside(a, b, point):
        return (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])
    start, end = (beside(*side, point) for point in edge)
    crosses = start * end < 0 and beside(*edge, side[0]) * beside(*edge, side[1]) < 0
    return start / (start - end) if crosses else None


def closest(edge, side):
    """Distance to a thousandth of a millimetre, share of the edge, foot on the edge and entrance on the side of an
    outline; of equal ones what comes first on the edge."""
    share = crossing(edge, side)
    if share is not None:
        return 0.0, share, along(*edge, share), along(*edge, share)
    found = [(nearest_share(*edge, end), end) for end in side]
    pairs = [(share, along(*edge, share), end) for share, end in found]
    pairs += [(share, edge[share], along(*side, nearest_share(*side, edge[share]))) for share in (0, 1)]
    return min((round(math.dist(foot, entrance), 6), share, foot, entrance) for share, foot, entrance in pairs)


class Network:
    def __init__(self, features, options, site):
        self.options, self.site = options, site
        self.lines = [dict(feature, points=[tuple(point) for point in feature["geometry"]["coordinates"]])
                      for feature in features if feature["geometry"]["type"] == "LineString"]
        self.spots = {feature["id"]: feature for feature in features if self.is_wanted(feature)}
        self.plane = Plane([point for line in self.lines for point in line["points"]]
                           + [corner for feature in features for corner in self.corners(feature)])
        self.places, self.place_at, self.laterals, self.cuts = [], {}, [], []
        for name, spot in sorted(self.spots.items()):
            self.join(name, spot)

    def is_wanted(self, feature):
        wanted = {building.get("place", building["id"]) for building in self.site["buildings"]}
        is_place = "place" in feature.get("properties", {})
        if feature["geometry"]["type"] not in ("Point", "Polygon", "LineString"):
            raise NotRead(f"geometry {feature['geometry']['type']}")
        return feature["geometry"]["type"] != "LineString" and (
            is_place or feature["id"] in wanted | {self.site["hub"]["place"]})

    @staticmethod
    def corners(feature):
        given = feature["geometry"]["coordinates"]
        return {"Point": lambda: [given], "Polygon": lambda: given[0][:-1], "LineString": lambda: []}[
            feature["geometry"]["type"]]()

    def join(self, name, spot):
        """Joins a place to the nearest point of the lines that may be used."""
        corners = [self.plane.to(corner) for corner in self.corners(spot)]
        sides = list(zip(corners, corners[1:] + corners[:1]))
        found = [(*closest([self.plane.to(end) for end in ends], side), number, edge)
                 for number, line in enumerate(self.lines) if "ban" not in line["properties"]
                 for edge, ends in enumerate(zip(line["points"], line["points"][1:])) for side in sides]
        _, share, foot, entrance, number, edge = min(found, key=lambda one: (one[0], *one[4:], *one[1:4]))
        foot, entrance = self.plane.back(foot), self.plane.back(entrance)
        ends = self.lines[number]["points"][edge:edge + 2]
        vertex = min(ends, key=lambda end: metres(foot, end))
        if metres(foot, vertex) > JOINS_AT_VERTEX:
            vertex = foot
            self.cuts.append((number, edge, share, foot))
        kind = spot["properties"].get("place", "building")
        self.places.append({"id": name, "kind": kind, "enclosure": spot["properties"].get("enclosure", {})})
        if metres(entrance, vertex) <= STANDS_ON_VERTEX and vertex not in self.place_at:
            self.place_at[vertex] = name
        else:
            self.laterals.append((name, vertex, entrance))

    def cut_lines(self):
        """Puts the feet of laterals into the lines."""
        for number, edge, share, foot in sorted(self.cuts, reverse=True):
            points = self.lines[number]["points"]
            if min(metres(foot, point) for point in points) <= JOINS_AT_VERTEX:
                raise NotRead("laterals that join within half a metre of each other")
            points.insert(edge + 1, foot)

    def place_of(self, vertex):
        if vertex not in self.place_at:
            self.place_at[vertex] = f"{vertex[0]:.7f},{vertex[1]:.7f}"
            self.places.append({"id": self.place_at[vertex], "kind": "junction"})
        return self.place_at[vertex]

    def ground_of(self, properties):
        choice = self.options["grounds"]
        surface = properties.get(choice.get("property", "surface"))
        return properties.get("ground", choice.get("values", {}).get(surface, choice["default"]))

    def pieces(self, line, junctions):
        """The segments of one line."""
        points, properties = line["points"], line["properties"]
        cuts = [i for i, point in enumerate(points) if point in junctions or i in (0, len(points) - 1)]
        for number, (start, end) in enumerate(zip(cuts, cuts[1:]), 1):
            length = sum(metres(a, b) for a, b in zip(points[start:end], points[start + 1:end + 1]))
            yield {"id": line["id"] if len(cuts) == 2 else f"{line['id']}.{number}",
                   "from": self.place_of(points[start]), "to": self.place_of(points[end]),
                   "millimetres": nearest(Fraction(1000 * length)), "ground": self.ground_of(properties),
                   **{key: properties[key] for key in ("duct", "poles", "charges", "ban") if key in properties}}

    def segments(self):
        self.cut_lines()
        uses = [point for line in self.lines for point in line["points"]]
        joined = set(self.place_at) | {vertex for _, vertex, _ in self.laterals}
        junctions = joined | {point for point in uses if uses.count(point) > 1}
        found = [piece for line in self.lines for piece in self.pieces(line, junctions)]
        ground = self.options.get("lateral-ground", self.options["grounds"]["default"])
        return found + [{"id": f"lateral to {name}", "from": self.place_of(vertex), "to": name, "ground": ground,
                         "millimetres": nearest(Fraction(1000 * metres(vertex, entrance)))}
                        for name, vertex, entrance in self.laterals]


def network(options, folder, site):
    """Places and segments, as a site file would list them, segments with their `millimetres`."""
    features = json.loads((folder / options["file"]).read_text(), parse_float=float)["features"]
    if options.get("buildings", {}).get("take", "listed") != "listed" or {"bans", "areas", "length"} & set(options):
        raise NotRead("buildings taken from the map, bans, areas and lengths by property")
    built = Network(features, options, site)
    segments = built.segments()
    return built.places, segments
