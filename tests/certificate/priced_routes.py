"""Steps 3 to 5 of lib/certificate/certificate.hpp: what the prices of a piece of evidence prove of routes, of all plans
or of those that keep to some choices of edges."""

import math

from edge_network import EdgeNetwork, triples_of


class PricedRoutes(EdgeNetwork):
    """One piece of evidence, or one part of its splits."""

    def __init__(self, evidence, choices=()):
        self.demands, self.roots, self.sets = evidence["demands"], evidence["roots"], evidence["prices"]
        used, closed = ({edge for edge, is_used in choices if is_used == side} for side in (1, 0))
        self.opened = sum(evidence["edges"][edge]["opening"] for edge in used)
        edges = [dict(edge, opening=0) if number in used else edge for number, edge in enumerate(evidence["edges"])]
        super().__init__(dict(evidence, edges=edges), self.demands, self.sets, closed)
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

    def reaches_all(self, root):
        """Whether there is a plan from a root at all, for which one set of prices is as good as another."""
        return all(root["at"] in distance for ways in self.ways[:1] for distance in ways)

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
        return self.constant + max(0, routes + self.opened - self.rebate) // self.units

    def bound_by_prices(self, root):
        if not self.sets:
            return self.constant
        step = self.step()
        parts = self.sum_of(self.best_set(root), root)
        return self.bound(-(-parts // (self.parts * step)) * step + root["cost"])


def parts_of(evidence):
    """Each part of a piece of evidence that splits plans by whether they use an edge."""
    parts, edges = evidence.get("splits", []), range(len(evidence["edges"]))
    all_choices = [list(zip(part["choices"][::2], part["choices"][1::2], strict=True)) for part in parts]
    for choices in all_choices:
        chosen = [edge for edge, _ in choices]
        assert all(type(edge) is int and edge in edges and used in (0, 1) for edge, used in choices), "an unknown choice"
        assert len(set(chosen)) == len(chosen), "an edge is chosen twice"
    assert not parts or are_all(all_choices), "the splits are not all plans"
    return [PricedRoutes(dict(evidence, prices=[part["prices"]], parts=part["parts"]), choices)
            for part, choices in zip(parts, all_choices)]


def are_all(rests):
    """Whether lists of choices leave out no plan: one list without any, or those that begin with an edge in use and
    those that begin with the same edge out of use, which again leave out none."""
    if rests == [[]]:
        return True
    if not all(rests) or len({rest[0][0] for rest in rests}) != 1:
        return False
    return all(are_all([rest[1:] for rest in rests if rest[0][1] == side]) for side in (1, 0))
