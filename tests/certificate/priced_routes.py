"""Steps 3 to 5 of lib/certificate/certificate.hpp: what the prices of a piece of evidence prove of routes."""

import heapq
import math


def triples_of(triples):
    """Edge, direction and price of each."""
    return zip(triples[::3], triples[1::3], triples[2::3], strict=True)


class PricedRoutes:
    """One piece of evidence. Charges are in parts, a list over edges for each direction."""

    def __init__(self, evidence):
        self.edges, self.demands, self.roots = evidence["edges"], evidence["demands"], evidence["roots"]
        self.constant, self.units, self.parts = evidence["constant"], evidence["units_a_minor"], evidence["parts"]
        self.sets = evidence["prices"]
        self.check_figures()
        for prices in self.sets:
            self.check_prices(prices)
        self.into, self.out_of = {}, {}
        for number, edge in enumerate(self.edges):
            for direction, (tail, head) in enumerate(((edge["from"], edge["to"]), (edge["to"], edge["from"]))):
                self.into.setdefault(head, []).append((tail, number, direction))
                self.out_of.setdefault(tail, []).append((head, number, direction))
        self.rebate = sum(max(0, edge["room"]) * edge["room_price"] for edge in self.edges)
        #: For each set and demand, distances from all places.
        self.ways = [[self.distances(demand["at"], self.with_prices(self.charges_of(demand), triples))
                      for demand, triples in zip(self.demands, prices)] for prices in self.sets]

    def check_figures(self):
        """No figure is below nothing, or no number of edges and directions."""
        figures = [self.units - 1, self.parts - 1, *(edge["room"] + 1 for edge in self.edges)]
        figures += [edge[key] for edge in self.edges for key in ("way", "opening", "length", "passage", "room_price")]
        figures += [demand[key] for demand in self.demands for key in ("weight", "multiplicity")]
        triples = [triple for prices in self.sets for one in prices for triple in triples_of(one)]
        figures += [figure for triple in triples for figure in triple]
        assert all(type(figure) is int and figure >= 0 for figure in figures), "a figure that is below nothing"
        assert all(edge < len(self.edges) and direction < 2 for edge, direction, _ in triples), "an unknown edge"

    def check_prices(self, prices):
        """Step 3: no edge's prices come to more than its opening."""
        one_group = any(all(edge[what] == 0 for edge in self.edges) for what in ("length", "passage"))
        sums = {}
        for demand, triples in zip(self.demands, prices, strict=True):
            divisor = math.gcd(demand["weight"], demand["multiplicity"]) or 1
            group = None if one_group else (demand["weight"] // divisor, demand["multiplicity"] // divisor)
            for edge, direction, price in triples_of(triples):
                sums.setdefault((edge, group), [0, 0])[direction] += price
        claims = [0] * len(self.edges)
        for (edge, _), directions in sums.items():
            claims[edge] += max(directions)
        for claim, edge in zip(claims, self.edges):
            assert claim <= self.parts * edge["opening"], f"prices above the opening of segment {edge['segment']}"

    def charges_of(self, demand):
        return [self.parts * (demand["weight"] * edge["length"] + demand["multiplicity"] * edge["passage"])
                for edge in self.edges]

    def with_prices(self, charges, triples):
        directed = (list(charges), list(charges))
        for edge, direction, price in triples_of(triples):
            directed[direction][edge] += price
        return directed

    def distances(self, place, directed):
        """Step 4: what the cheapest way to a place costs from each."""
        distance, queue = {}, [(0, place)]
        while queue:
            here, place = heapq.heappop(queue)
            if place in distance:
                continue
            distance[place] = here
            for before, edge, direction in self.into.get(place, ()):
                if before not in distance:
                    heapq.heappush(queue, (here + directed[direction][edge], before))
        return distance

    def sum_of(self, number, root):
        """What one set of prices makes of all routes from a root, in parts."""
        return sum(distance[root["at"]] for distance in self.ways[number])

    def best_set(self, root):
        """The number of the set of prices that proves most for a root."""
        return max(range(len(self.sets)), key=lambda number: self.sum_of(number, root))

    def step(self):
        """What the cost of every plan's routes is a multiple of."""
        return math.gcd(*(edge["opening"] for edge in self.edges),
                        *(demand["weight"] * edge["length"] for demand in self.demands for edge in self.edges),
                        *(demand["multiplicity"] * edge["passage"] for demand in self.demands for edge in self.edges)
                        ) or 1

    def bound(self, root, routes):
        """Step 5: the direct cost that follows where routes come to so many units at least."""
        return self.constant + max(0, routes + root["cost"] - self.rebate) // self.units

    def bound_by_prices(self, root):
        step = self.step()
        parts = self.sum_of(self.best_set(root), root)
        return self.bound(root, -(-parts // (self.parts * step)) * step)
