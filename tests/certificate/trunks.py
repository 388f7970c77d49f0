"""What evidence proves of layouts with any number of enclosures, where buildings may be on home runs (a mix) or not:
the claim of lib/certificate/set_bounds.hpp, and the figures that it rests on (step 2)."""

import itertools
import math

from cable_prices import CablePrices
from edge_network import EdgeNetwork
from plan_costs import PlanCosts
from real_edges import RealEdges
from site_model import rounded_up


class Trunks:
    def __init__(self, site, evidence, is_mixed):
        self.site, self.is_mixed, self.evidence = site, is_mixed, evidence
        self.demands, self.sites, self.sizes = (evidence[key] for key in ("demands", "sites", "sizes"))
        self.network = EdgeNetwork(evidence, self.demands + self.sizes, evidence["prices"])
        self.prices, self.costs = CablePrices(site), PlanCosts(site)
        self.strands = [site.in_use(building) for building in site.buildings.values()]
        self.step = math.gcd(*self.strands)
        self.steps = sum(self.strands) // self.step
        self.check_figures()
        self.check_prices()
        self.check_entries()
        self.multiples = self.common_multiples()
        self.trunks = [self.trunk_costs(place) for place in self.sites]

    # Step 2.

    def check_figures(self):
        site, units = self.site, self.network.units
        assert [demand["at"] for demand in self.demands] == [
            building.place for building in site.buildings.values()], "demands are not the buildings"
        cables = [self.prices.least(in_use + site.rules.drop_spare) for in_use in self.strands]
        sizes = self.sizes_in_use()
        self.real = RealEdges(site, self.network, self.demands + [size for size, _ in sizes],
                              cables + [cable for _, cable in sizes], coils=False)
        from_hub = self.real.shortest(site.hub.place)
        most = self.prices.least(site.trunk_strands(sum(self.strands)))
        beside = self.costs.beside_routes(cables, from_hub) + self.costs.all_trunk_end_work()
        beside -= self.costs.rounding(most) * site.rules.most_enclosures
        assert self.network.constant <= beside, f"the constant is above the {beside} that plans pay beside routes"
        for demand, in_use in zip(self.demands, self.strands):
            saved = self.costs.trunk_end_work(in_use)
            assert (demand["home_run"] is not None) == self.is_mixed, "home runs"
            assert not self.is_mixed or demand["home_run"] <= -saved * units, f"a home run saves {saved}"
        self.check_sites(sizes, from_hub)

    def sizes_in_use(self):
        """For each number of strands in use the first size that holds them, with the cable of such a trunk."""
        units = [size["units"] for size in self.sizes]
        assert units == sorted(set(units)) and units[-1] >= sum(self.strands), "sizes of trunks"
        known = {}
        for in_use in range(1, sum(self.strands) + 1):
            size = next(size for size in self.sizes if size["units"] >= in_use)
            cable = self.prices.least(self.site.trunk_strands(in_use))
            assert size["fixed"] <= self.costs.trunk(cable) * self.network.units, f"ends of a trunk of {in_use}"
            known[size["units"], cable] = size
        return [(size, cable) for (_, cable), size in known.items()]

    def check_sites(self, sizes, from_hub):
        """Enclosures may stand at these places and no others, and cost no less there."""
        wanted = sorted(set(self.site.enclosures) & set(from_hub))
        assert sorted(place["at"] for place in self.sites) == wanted, "places of enclosures"
        for place in self.sites:
            assert len(place["size_costs"]) == len(self.sizes), f"sizes at {place['at']}"
            assert place["cost"] <= self.site.enclosures[place["at"]] * self.network.units, f"cost at {place['at']}"
            for size, cable in sizes:
                more = place["size_costs"][self.sizes.index(size)]
                beyond = self.prices.beyond(cable, from_hub[place["at"]])
                assert more <= beyond * self.network.units, f"a trunk to {place['at']} costs no {more} more"

    def check_entries(self):
        """Entries name places in order, each with its units and what it asks, and prices that are there."""
        for entry in self.evidence["sets"]:
            sites = entry["sites"]
            assert sites == sorted(set(sites) & set(range(len(self.sites)))), "a set names places that are not there"
            assert len(entry["units"]) == 2 * len(entry["asks"]) == 2 * len(sites), "units and asks of a set"
            assert entry["prices"] in range(len(self.evidence["prices"])), "a set rests on prices that are not there"

    def check_prices(self):
        """On each arc a set's prices come to no more than its opening, and all demands measure paths alike."""
        for prices in self.evidence["prices"]:
            sums = self.network.with_prices([0] * len(self.network.edges), list(itertools.chain(*prices)))
            assert len(prices) == len(self.demands), "a set of prices is not for all buildings"
            for edge, *both in zip(self.network.edges, *sums):
                assert max(both) <= self.network.parts * edge["opening"], f"prices above opening {edge['segment']}"
        if all(any(edge[what] for edge in self.network.edges) for what in ("length", "passage")):
            ratios = {tuple(demand[key] // math.gcd(demand["weight"], demand["multiplicity"])
                            for key in ("weight", "multiplicity")) for demand in self.demands}
            assert len(ratios) == 1, "demands do not measure paths alike"

    # The claim. Costs are in parts.

    def common_multiples(self):
        """Each demand's charges as a multiple of those that all have in common."""
        has = {what: any(edge[key] for edge in self.network.edges)
               for what, key in (("weight", "length"), ("multiplicity", "passage"))}
        return [math.gcd(*(demand[what] * has[what] for what in has)) for demand in self.demands]

    def share(self, totals):
        """The most that a multiple may be charged where no demand is charged more than its total."""
        assert all(multiple or total >= 0 for total, multiple in zip(totals, self.multiples)), "no charge to measure by"
        return min((total // multiple for total, multiple in zip(totals, self.multiples) if multiple), default=0)

    def asked(self, ask):
        """What buildings may be asked where a strand in use is asked so much, each in proportion to its charges."""
        share = self.share([ask * strands for strands in self.strands])
        return [share * multiple for multiple in self.multiples]

    def trunk_costs(self, place):
        """The least cost of a trunk to a place over shortest ways, by how many steps of strands in use it serves."""
        lengths, passages = ([edge[key] for edge in self.network.edges] for key in ("length", "passage"))
        far, dear = (self.network.distances(self.site.hub.place, (figures, figures))[place["at"]]
                     for figures in (lengths, passages))
        return self.by_steps(place, [self.network.parts * (size["weight"] * far + size["multiplicity"] * dear)
                                     for size in self.sizes])

    def by_steps(self, place, ways):
        """The same where the ways cost so much, size by size."""
        costs = [(size["units"], self.network.parts * (place["cost"] + size["fixed"] + more) + way)
                 for size, more, way in zip(self.sizes, place["size_costs"], ways)]
        return [min(cost for units, cost in costs if units >= steps * self.step) for steps in range(self.steps + 1)]

    def dearer_trunks(self, prices, number):
        """What each of so many trunks costs, by place and steps, where each is charged an equal part of what buildings
        leave of the trenches on its way: their cost less the dearer direction's prices."""
        sums = self.network.with_prices([0] * len(self.network.edges), list(itertools.chain(*prices)))
        left = [self.network.parts * edge["opening"] - max(both) for edge, *both in zip(self.network.edges, *sums)]
        kinds = {(size["weight"], size["multiplicity"]): size for size in self.sizes}
        distances = {}
        for kind, size in kinds.items():
            charges = [number * cable + rest for cable, rest in zip(self.network.charges_of(size), left)]
            distances[kind] = self.network.distances(self.site.hub.place, (charges, charges))
        return [self.by_steps(place, [distances[size["weight"], size["multiplicity"]][place["at"]] // number
                                      for size in self.sizes]) for place in self.sites]

    def services(self, prices):
        """What one set of prices charges each building on a home run, and from each place: prices from the hub to a
        fork, prices and its cable from there to its place and to itself, whatever the fork."""
        hub, direct, from_place = self.site.hub.place, [], []
        for demand, triples in zip(self.demands, prices):
            bare = self.network.with_prices([0] * len(self.network.edges), triples)
            with_cable = self.network.with_prices(self.network.charges_of(demand), triples)
            to_fork, on = self.network.spread({hub: 0}, bare), self.network.distances(demand["at"], with_cable)
            at = self.network.spread({fork: cost + on[fork] for fork, cost in to_fork.items()}, with_cable)
            from_place.append([at[place["at"]] for place in self.sites])
            direct.append(on[hub])
        if not self.is_mixed:
            return [math.inf] * len(direct), list(zip(*from_place))
        share = self.share([demand["home_run"] * self.network.parts for demand in self.demands])
        return [cost + share * multiple for cost, multiple in zip(direct, self.multiples)], list(zip(*from_place))

    def of_entry(self, entry, services, trunks):
        """What an entry proves of the sets that it names, with units within its ranges, where trunks cost so much."""
        direct, from_place = services  # of home runs, and from places
        cheapest, least = direct, [0] + [math.inf] * self.steps
        for number, ask, steps in zip(entry["sites"], entry["asks"], self.ranges(entry)):
            cheapest = list(map(min, cheapest, map(sum, zip(from_place[number], self.asked(ask)))))
            trunk = trunks[number]
            costs = {here: trunk[here] - ask * self.step * here for here in steps}
            least = [min((least[served - here] + cost for here, cost in costs.items() if here <= served),
                         default=math.inf) for served in range(self.steps + 1)]
        return sum(cheapest) + (min(least) if self.is_mixed else least[-1])

    def ranges(self, entry):
        """The steps of strands in use that it names for each of its places."""
        units = entry["units"]
        return [range(rounded_up(fewest, self.step), min(most // self.step, self.steps) + 1)
                for fewest, most in zip(units[::2], units[1::2], strict=True)]

    def unlisted(self, listed, services):
        """What the first prices and asks prove of the other sets of places."""
        direct, from_place = services
        asked = [list(map(sum, zip(costs, self.asked(place["ask"])))) for costs, place in zip(from_place, self.sites)]
        trunks = [min(cost - place["ask"] * self.step * steps for steps, cost in enumerate(costs))
                  for costs, place in zip(self.trunks, self.sites)]
        waiting = [((), direct, 0)]
        while waiting:
            chosen, cheapest, cost = waiting.pop()
            if chosen not in listed and (chosen or self.is_mixed):
                yield sum(cheapest) + cost
            if len(chosen) < self.site.rules.most_enclosures:
                waiting += [((*chosen, number), list(map(min, cheapest, asked[number])), cost + trunks[number])
                            for number in range(chosen[-1] + 1 if chosen else 0, len(self.sites))]

    def check_listed(self, entries):
        """Together the entries of one set of places leave out no way of sharing out the strands in use."""
        boxes = [self.ranges(entry) for entry in entries]

        def is_left_out(place, low, high, within):
            """Whether shares in no box are left, where earlier places serve from low to high steps together."""
            if low > self.steps:
                return False
            if place == len(entries[0]["sites"]):
                return not within and (self.is_mixed or high >= self.steps)
            borders = sorted({0, self.steps + 1} | {border for box in within for border in (
                box[place].start, box[place].stop) if border <= self.steps})
            return any(is_left_out(place + 1, low + start, high + stop - 1, [
                box for box in within if box[place].start <= start and stop <= box[place].stop])
                for start, stop in zip(borders, borders[1:]))
        assert not is_left_out(0, 0, 0, boxes), f"shares of the places {entries[0]['sites']} are not bounded"

    def bound(self):
        """The direct cost that no plan undercuts."""
        services = [self.services(prices) for prices in self.evidence["prices"]]
        listed = {}
        for entry in self.evidence["sets"]:
            listed.setdefault(tuple(entry["sites"]), []).append(entry)
        for entries in listed.values():
            self.check_listed(entries)
        trunks = {key: self.dearer_trunks(self.evidence["prices"][key[0]], key[1]) for key in {
            (entry["prices"], len(entry["sites"])) for entry in self.evidence["sets"]} if key[1]}
        parts = [self.of_entry(entry, services[entry["prices"]], trunks.get((entry["prices"], len(entry["sites"]))))
                 for entry in self.evidence["sets"]]
        parts += self.unlisted(listed, services[0])
        units = rounded_up(min(parts), self.network.parts) - self.network.rebate
        return self.network.constant + units // self.network.units
