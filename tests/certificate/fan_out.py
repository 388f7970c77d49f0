"""What evidence proves of layouts whose cables fan out from one place: steps 2 to 6 of lib/certificate/certificate.hpp,
which are other files' but for 2b."""

import functools

from bought_cables import BoughtCables
from cable_prices import CablePrices
from plan_costs import PlanCosts
from priced_routes import PricedRoutes, parts_of
from real_edges import RealEdges
from site_model import MILLIMETRES, THOUSANDTHS, rounded_up


class Evidence:
    """One piece of evidence on a site; whatever is wrong with it is an AssertionError."""

    def __init__(self, site, evidence, has_trunk):
        self.site, self.routes, self.prices = site, PricedRoutes(evidence), CablePrices(site)
        self.parts = parts_of(evidence)
        self.has_trunk = has_trunk
        self.cables = [self.prices.least(site.in_use(building) + site.rules.drop_spare)
                       for building in site.buildings.values()]
        self.cables += [self.prices.least(site.trunk_strands(site.all_in_use()))] * has_trunk
        places = [building.place for building in site.buildings.values()] + [site.hub.place] * has_trunk
        assert [demand["at"] for demand in self.routes.demands] == places, "demands are not the layout's cables"
        self.real = RealEdges(site, self.routes, self.routes.demands, self.cables)
        costs = PlanCosts(site)
        self.beside = costs.beside_routes(self.cables, self.real.shortest(site.hub.place))
        if has_trunk:
            trunk = self.cables[-1]
            self.beside += costs.trunk(trunk) - costs.rounding(trunk) + costs.all_trunk_end_work()
        for root in self.routes.roots:
            self.left_out(root)  # which looks whether the root's cost can be explained

    @functools.cache
    def apart(self, number, place):
        """What 2b counts for a cable beside its charges: its ends, and what it costs beyond them on the shortest way,
        less half a coil that it is charged and does not leave where it fans out."""
        cable = self.cables[number]
        route = self.real.shortest(self.routes.demands[number]["at"])[place]
        coil = rounded_up(cable.metre * self.site.coil_at(place), THOUSANDTHS * MILLIMETRES)
        return cable.ends + self.prices.beyond(cable, route) - coil

    def paid(self, place):
        """What plans that fan out at a place pay beside their routes, minor units: at any place, and more at this."""
        more = sum(self.apart(number, place) - cable.ends for number, cable in enumerate(self.cables))
        if not self.has_trunk:
            return self.beside + more, 0
        half = self.site.rules.coil // 2  # one for each cable is off the constant, and back on where it is not left
        coils = sum(rounded_up(cable.metre * half, THOUSANDTHS * MILLIMETRES) for cable in self.cables)
        return self.beside - coils, more + coils + self.site.enclosures[place]

    def cost_at(self, root):
        """The root's cost, or where that is less, what plans pay there more than elsewhere; in solver units."""
        anywhere, more = self.paid(root["at"])
        too_much = max(0, self.routes.constant - anywhere)
        return max(root["cost"], (more - too_much) * self.routes.units)

    def left_out(self, root):
        """Step 2b: for each cable what the constant and the root's cost count of what charges leave out of its way, in
        solver units: the largest first, of as many cables as explain what the root's cost has above what plans pay
        there more than elsewhere."""
        anywhere, more = self.paid(root["at"])
        constant_over = self.routes.constant - anywhere
        over = root["cost"] - more * self.routes.units
        left = [self.real.left_out(number)[root["at"]] for number in range(len(self.cables))]
        assert over + constant_over * self.routes.units <= sum(left), (
            f"the constant and the cost at {root['at']} are above what plans pay")
        over += max(0, constant_over) * self.routes.units
        counted = [0] * len(left)
        for number in sorted(range(len(left)), key=left.__getitem__, reverse=True):
            counted[number] = max(0, min(left[number], over))
            over -= counted[number]
        return counted

    def bounds(self):
        """Steps 4 and 5: for each root, the direct cost that no plan from there undercuts."""
        return {root["at"]: max([self.routes.bound_by_prices(root)]
                                + self.least_of_parts(root, lambda part: part.bound_by_prices(root)))
                for root in self.routes.roots}

    def least_of_parts(self, root, bound):
        """The least that is proved of a part that has plans from a root; nothing where plans are not split."""
        bounds = [bound(part) for part in self.parts if part.reaches_all(root)]
        return [min(bounds)] if bounds else []

    def bounds_as_bought(self, place):
        """Step 6: what the best set of prices proves of a root, and what is proved of it by splits."""
        if any(edge["passage"] for edge in self.routes.edges):
            return []
        bounds = []
        for root in (root for root in self.routes.roots if root["at"] == place):
            bounds += [BoughtCables(self, root, self.routes).bound()] * bool(self.routes.sets)
            bounds += self.least_of_parts(root, lambda part: max(
                part.bound_by_prices(root), BoughtCables(self, root, part).bound()))
        return bounds


def bound(site, evidence, has_trunk):
    """The direct cost that pieces of evidence prove no plan undercuts. Roots are looked at again by step 6 from the
    lowest bound up, until none is left below the least that is proved so."""
    pieces = [Evidence(site, piece, has_trunk) for piece in evidence]
    bounds = {}
    for piece in pieces:
        for place, bound in piece.bounds().items():
            bounds[place] = max(bound, bounds.get(place, bound))
    reached = pieces[0].real.shortest(site.hub.place)
    wanted = set(site.enclosures) & set(reached) if has_trunk else {site.hub.place}
    assert wanted <= set(bounds), f"nothing bounds plans from {', '.join(sorted(wanted - set(bounds)))}"
    least = None
    for place in sorted(wanted, key=lambda place: (bounds[place], place)):
        if least is not None and bounds[place] >= least:
            break
        raised = max([bounds[place]] + [bound for piece in pieces for bound in piece.bounds_as_bought(place)])
        least = raised if least is None else min(least, raised)
    return least
