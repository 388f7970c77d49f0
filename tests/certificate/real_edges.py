"""What cables really take on the edges of a piece of evidence, by the site, and step 2a of
lib/certificate/certificate.hpp, which compares it with what they are charged."""

import functools

from site_model import MILLIMETRES, THOUSANDTHS, NotRead, Segment, Way, nearest


class RealEdges:
    """For each edge millimetres of cable, coils included, and ducts and pulling of one cable in solver units."""

    def __init__(self, site, network, payers, cables, coils=True):
        """`payers` are the evidence's cables with a weight and a multiplicity, `cables` what these really are."""
        self.site, self.network, self.payers, self.cables, self.coils = site, network, payers, cables, coils
        self.segments = site.segments or self.segments_of_edges()
        self.edges_of = {}
        for number, edge in enumerate(network.edges):
            self.edges_of.setdefault(edge["segment"], {})[edge["way"]] = number
        self.check_edges()
        self.check_ways()
        self.lengths = [self.length(edge["segment"]) for edge in network.edges]
        self.passages = [self.least_passage(edge) for edge in network.edges]

    def segments_of_edges(self):
        """Segments over open ground, which the site file does not list. Where ducts and pulling cost the same all over
        the site, edges measure ways in millimetres: a cable pays for one its price, and duct and pulling too unless an
        edge says what these come to. What opening it costs is not known."""
        if len(self.site.passages) != 1 or (self.coils and self.site.has_coils()):
            raise NotRead("open ground where edges do not measure in millimetres")
        way = Way(*min(self.site.passages), groundworks=None, once=0)
        for payer, cable in zip(self.payers, self.cables):
            passages = 0 if payer["multiplicity"] else cable.pieces
            a_metre = cable.metre + passages * (way.duct + way.pull * self.site.labour.installer)
            a_millimetre = a_metre * self.network.units / (THOUSANDTHS * MILLIMETRES)
            if not 0 <= a_millimetre - payer["weight"] <= 1 + cable.pieces:
                raise NotRead("open ground where edges do not measure in millimetres")
        segments = {}
        for edge in self.network.edges:
            known = segments.setdefault(edge["segment"], Segment(edge["from"], edge["to"], edge["length"], []))
            known.ways += [way] * (edge["way"] + 1 - len(known.ways))
        return segments

    def length(self, name):
        segment = self.segments[name]
        coils = self.site.coil_at(segment.start) + self.site.coil_at(segment.end)
        return segment.length + (coils if self.coils else 0)

    def passage(self, name, way):
        """Duct and pulling of one cable, in solver units, rounded down."""
        a_metre = way.duct + way.pull * self.site.labour.installer
        return a_metre * self.segments[name].length * self.network.units // (THOUSANDTHS * MILLIMETRES)

    def least_passage(self, edge):
        """In whichever way the edge stands for: its own, and those of its segment without an edge."""
        name = edge["segment"]
        without = [way for number, way in enumerate(self.segments[name].ways) if number not in self.edges_of[name]]
        own = self.passage(name, self.segments[name].ways[edge["way"]]) + edge["room_price"]
        return min([own] + [self.passage(name, way) for way in without])

    def metres(self, cable, millimetres):
        return cable.metre * millimetres * self.network.units // (THOUSANDTHS * MILLIMETRES)

    def along(self, cable):
        """Cable by the metre, ducts and pulling, on each edge."""
        return [self.metres(cable, length) + cable.pieces * passage
                for length, passage in zip(self.lengths, self.passages)]

    @functools.cache
    def shortest(self, place):
        """Millimetres on the map from each place to this one."""
        lengths = [self.segments[edge["segment"]].length for edge in self.network.edges]
        return self.network.distances(place, (lengths, lengths))

    @functools.cache
    def left_out(self, number):
        """What charges leave out of the ways from all places to a demand, at least, in solver units."""
        demand = self.payers[number]
        left = [max(0, along - demand["weight"] * edge["length"] - demand["multiplicity"] * edge["passage"])
                for along, edge in zip(self.along(self.cables[number]), self.network.edges)]
        return self.network.distances(demand["at"], (left, left))

    def check_edges(self):
        """Edges are ways of the site's segments."""
        for edge in self.network.edges:
            name = edge["segment"]
            assert name in self.segments, f"the site has no segment {name}"
            segment = self.segments[name]
            assert (edge["from"], edge["to"]) == (segment.start, segment.end), f"segment {name} ends elsewhere"
            assert edge["way"] < len(segment.ways), f"segment {name} has no way {edge['way']}"
            assert edge["room"] == segment.ways[edge["way"]].room, f"segment {name} has no such room"
            assert edge["room_price"] == 0 or edge["room"] >= 0, f"segment {name} has a price on room without limit"

    def check_ways(self):
        """Step 2a: every way of every segment has an edge that charges no more than it does."""
        for name, segment in self.segments.items():
            for number, way in enumerate(segment.ways):
                edges = [self.network.edges[edge] for edge in self.edges_of.get(name, {}).values()]
                stands = any(self.stands_for(edge, number, way) for edge in edges)
                assert stands, f"segment {name}, way {number}, has no edge that charges as little"

    def stands_for(self, edge, number, way):
        name = edge["segment"]
        if way.groundworks is not None:
            once = nearest(way.groundworks * self.segments[name].length, THOUSANDTHS * MILLIMETRES) + way.once
            if edge["opening"] > once * self.network.units:
                return False
        passage = self.passage(name, way) + (edge["room_price"] if edge["way"] == number else 0)
        return all(
            payer["weight"] * edge["length"] + payer["multiplicity"] * edge["passage"]
            <= self.metres(cable, self.length(name)) + cable.pieces * passage
            for payer, cable in zip(self.payers, self.cables))
