"""The edges of a piece of evidence, and the cheapest ways over them."""

import heapq


def triples_of(triples):
    """Edge, direction and price of each."""
    return zip(triples[::3], triples[1::3], triples[2::3], strict=True)


class EdgeNetwork:
    """Charges are a list over edges for each direction, in parts of a solver unit where nothing else is said."""

    def __init__(self, evidence, payers, sets, closed=()):
        """`payers` have a weight and a multiplicity each; `sets` are all the lists of triples there are; no way leads
        over edges that are `closed`."""
        self.edges, self.payers = evidence["edges"], payers
        self.constant, self.units, self.parts = evidence["constant"], evidence["units_a_minor"], evidence["parts"]
        self.check_figures([triple for prices in sets for triples in prices for triple in triples_of(triples)])
        self.into, self.out_of = {}, {}
        for number, edge in enumerate(self.edges):
            if number in closed:
                continue
            for direction, (tail, head) in enumerate(((edge["from"], edge["to"]), (edge["to"], edge["from"]))):
                self.into.setdefault(head, []).append((tail, number, direction))
                self.out_of.setdefault(tail, []).append((head, number, direction))
        self.rebate = sum(max(0, edge["room"]) * edge["room_price"] for edge in self.edges)

    def check_figures(self, triples):
        """No figure is below nothing, or no number of edges and directions."""
        figures = [self.units - 1, self.parts - 1, *(edge["room"] + 1 for edge in self.edges)]
        figures += [edge[key] for edge in self.edges for key in ("way", "opening", "length", "passage", "room_price")]
        figures += [payer[key] for payer in self.payers for key in ("weight", "multiplicity")]
        figures += [figure for triple in triples for figure in triple]
        assert all(type(figure) is int and figure >= 0 for figure in figures), "a figure that is below nothing"
        assert all(edge < len(self.edges) and direction < 2 for edge, direction, _ in triples), "an unknown edge"

    def charges_of(self, payer):
        """What a cable pays on each edge, in either direction."""
        return [self.parts * (payer["weight"] * edge["length"] + payer["multiplicity"] * edge["passage"])
                for edge in self.edges]

    def with_prices(self, charges, triples):
        directed = (list(charges), list(charges))
        for edge, direction, price in triples_of(triples):
            directed[direction][edge] += price
        return directed

    def distances(self, place, directed):
        """What the cheapest way to a place costs from each that has one."""
        return spread(self.into, {place: 0}, directed)

    def spread(self, labels, directed):
        """What the cheapest way to each place costs, from whichever place with a label, label and all."""
        return spread(self.out_of, labels, directed)


def spread(steps, labels, directed):
    """By Dijkstra's algorithm."""
    distance, queue = {}, [(cost, place) for place, cost in labels.items()]
    heapq.heapify(queue)
    while queue:
        here, place = heapq.heappop(queue)
        if place in distance:
            continue
        distance[place] = here
        for other, edge, direction in steps.get(place, ()):
            if other not in distance:
                heapq.heappush(queue, (here + directed[direction][edge], other))
    return distance
