"""Steps 3 to 5 of lib/certificate/certificate.hpp: what the prices of a piece of evidence prove of routes."""

import math

from edge_network import EdgeNetwork, triples_of


class PricedRoutes(EdgeNetwork):
    """One piece of evidence."""

    def __init__(self, evidence):
        self.demands, self.roots, self.sets = evidence["demands"], evidence["roots"], evidence["prices"]
        super().__init__(evidence, self.demands, self.sets)
        for prices in self.sets:
            self.check_prices(prices)
        #: Step 4: for each set and demand, distances from all places.
        self.ways = [[self.distances(demand["at"], self.with_prices(self.charges_of(demand), triples))
                      for demand, triples in zip(self.demands, prices)] for prices in self.sets]

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

    def bound(self, routes):
        """Step 5: the direct cost that follows where routes and a root come to so many units at least."""
        return self.constant + max(0, routes - self.rebate) // self.units

    def bound_by_prices(self, root):
        step = self.step()
        parts = self.sum_of(self.best_set(root), root)
        return self.bound(-(-parts // (self.parts * step)) * step + root["cost"])
