"""Step 6 of lib/certificate/certificate.hpp: what prices prove where cables are counted as they are bought."""

import bisect
import heapq
import math

from edge_network import triples_of
from site_model import MILLIMETRES, THOUSANDTHS

MOST_KEPT = 20_000  #: Beginnings of paths kept in one search, as those who make certificates keep no more either.


def payers_by_edge(routes, prices):
    """For each edge the demands that have prices on it, by direction."""
    payers = [(set(), set()) for _ in routes.edges]
    for number, triples in enumerate(routes.sets[prices]):
        for edge, direction, _ in triples_of(triples):
            payers[edge][direction].add(number)
    return payers


def shared_out(routes, prices, wanted):
    """Lengths no longer than wanted, of which two demands that have prices on an edge in opposite directions have no
    more together than twice its length. Short edges come first; of two that both want more than the edge's length each
    gets that, else the one that wants less gets all it wants, and the other what that leaves."""
    lengths = list(wanted)
    payers = payers_by_edge(routes, prices)
    for whole, edge in sorted((edge["length"], number) for number, edge in enumerate(routes.edges)):
        most = [max((lengths[number] for number in side), default=0) for side in payers[edge]]
        if all(payers[edge]) and sum(most) > 2 * whole:
            for side, other in zip(payers[edge], reversed(most)):
                for number in side:
                    lengths[number] = min(lengths[number], max(whole, 2 * whole - other))
    return lengths


class Front:
    """Pairs of cost and length of which none is beaten in both: ascending in cost, descending in length."""

    def __init__(self):
        self.costs, self.lengths = [], []

    def takes(self, cost, length):
        """Takes a pair in unless another is no worse in both."""
        at = bisect.bisect_right(self.costs, cost)
        if at > 0 and self.lengths[at - 1] <= length:
            return False
        after = at
        while after < len(self.costs) and self.lengths[after] >= length:
            after += 1
        self.costs[at:after], self.lengths[at:after] = [cost], [length]
        return True


class BoughtCables:
    """One root, with the set of prices that proves most of it, of all plans or of a part that `routes` speak of. Costs
    are in parts where nothing else is said."""

    def __init__(self, evidence, root, routes):
        self.evidence, self.routes, self.real, self.root = evidence, routes, evidence.real, root
        self.set = self.routes.best_set(root)
        self.coil = evidence.site.coil_at(root["at"])  # no cable leaves one where it begins

    def minor(self, amount):
        return amount * self.routes.units * self.routes.parts

    def priced(self, number, charges):
        """Charges in solver units, and the demand's prices on top."""
        return self.routes.with_prices([self.routes.parts * charge for charge in charges],
                                       self.routes.sets[self.set][number])

    def counted(self, number, left_out):
        """What is counted for a cable already: its distance, and what 2b counts."""
        place = self.root["at"]
        return (self.routes.ways[self.set][number][place] + self.routes.parts * left_out
                + self.minor(self.evidence.apart(number, place)))

    def metres(self, cable, length):
        """Cable by the metre that does not leave a coil where it begins."""
        return cable.metre * self.minor(length - self.coil) // (THOUSANDTHS * MILLIMETRES)

    def most_products(self, cable):
        """How many may be laid in parallel for its strands: one where one is large enough."""
        products = self.evidence.site.catalogue.cables
        return 1 if any(product.strands >= cable.strands for product in products) else cable.strands

    def cheapest(self, number):
        """The least that any path from the root comes to with the cable as it is bought: beginnings of paths with their
        cost beside cable and their length, of which those that another beats in both are dropped."""
        cable, demand = self.evidence.cables[number], self.routes.demands[number]
        beside = self.priced(number, [cable.pieces * passage for passage in self.real.passages])
        rest = self.routes.distances(demand["at"], self.priced(number, self.real.along(cable)))
        ends = self.minor(cable.ends - self.most_products(cable))  # which are rounded each

        def begun(cost, length, place):
            """What all paths that begin so come to at least; then the beginning."""
            return cost + self.metres(cable, length) + ends + rest[place], cost, length, place
        queue, kept, count, best = [begun(0, 0, self.root["at"])], {}, 0, math.inf
        while queue and queue[0][0] < best and count <= MOST_KEPT:
            _, cost, length, place = heapq.heappop(queue)
            if not kept.setdefault(place, Front()).takes(cost, length):
                continue
            count += 1
            if place == demand["at"]:
                bought = self.evidence.prices.price(cable.strands, max(0, length - self.coil))
                best = min(best, cost + self.minor(bought))
                continue
            for after, edge, direction in self.routes.out_of[place]:
                further = begun(cost + beside[direction][edge], length + self.real.lengths[edge], after)
                if further[0] < best:
                    heapq.heappush(queue, further)
        return min(best, queue[0][0]) if queue else best

    def bound(self):
        """The direct cost that no plan from the root undercuts."""
        charges = [self.routes.parts * demand["weight"] for demand in self.routes.demands]
        more = [max(0, self.cheapest(number) - self.counted(number, left_out))
                for number, left_out in enumerate(self.evidence.left_out(self.root))]
        wanted = [one // charge + 1 if one and charge else 0 for one, charge in zip(more, charges)]
        lengths = shared_out(self.routes, self.set, wanted)
        allowed = [max(0, charge * length - 1) for charge, length in zip(charges, lengths)]
        parts = self.routes.sum_of(self.set, self.root) + sum(map(min, more, allowed))
        return self.routes.bound(parts // self.routes.parts + self.evidence.cost_at(self.root))
