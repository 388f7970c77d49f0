"""What evidence proves of daisy chains and rings: the claims of lib/graph/chain_certificate.hpp and of
ring_certificate.hpp beside it, and the figures that they rest on. Letters are those of the claims."""

import math

from cable_prices import CablePrices
from edge_network import EdgeNetwork
from plan_costs import PlanCosts
from real_edges import RealEdges
from site_model import rounded_up
from two_ways import TwoWays

MOST_NEIGHBOURS = 10


class Chains:
    def __init__(self, site, evidence, is_ring):
        self.site, self.evidence, self.is_ring = site, evidence, is_ring
        self.stops = [building.place for building in site.buildings.values()]
        self.joining, self.arrival, self.closing = (
            evidence[f"{what}_prices"] for what in ("joining", "arrival", "closing"))
        self.network = EdgeNetwork(evidence, [evidence], [self.joining, self.arrival, self.closing])
        self.check_lists()
        self.check_figures()
        self.check_prices()

    def check_lists(self):
        edges, stops = len(self.network.edges), len(self.stops)
        wanted = {"hop_charges": edges, "joining_prices": stops, "arrival_prices": stops, "visit_prices": stops,
                  "neighbours": stops, "closing_prices": stops * self.is_ring, "pass_charges": edges * self.is_ring}
        for key, count in wanted.items():
            assert len(self.evidence[key]) == count, f"{len(self.evidence[key])} entries of {key}, not {count}"
        for stop, remembered in enumerate(self.evidence["neighbours"]):
            known = set(range(stops)) - {stop}
            assert len(set(remembered)) == len(remembered) <= MOST_NEIGHBOURS and set(remembered) <= known, "neighbours"
        for entry in self.evidence["entry_prices"]:
            inside = set(entry["buildings"])
            assert inside and len(inside) == len(entry["buildings"]) and inside <= set(range(stops)), "entry prices"
            assert entry["price"] >= 0, "an entry's price below 0"

    def check_figures(self):
        """Step 2: edges, and what plans pay beside routes for each number of chains that can be lit."""
        site, costs, evidence = self.site, PlanCosts(self.site), self.evidence
        links = max(building.links() for building in site.buildings.values())
        in_use = links * site.rules.strands_a_link
        hop = CablePrices(site).least(in_use + site.rules.drop_spare)
        RealEdges(site, self.network, [evidence], [hop])
        beside_hop = (hop.ends + costs.end_work(in_use) - costs.rounding(hop)
                      + links * costs.link(site.fastest_rate(), 0))
        each, savings = site.labour.mobilisation, []
        for building in site.buildings.values():
            at_end, within = (costs.gear(building, ports, site.fastest_rate()) for ports in (links, 2 * links))
            assert within is not None or (at_end is not None and not self.is_ring), "a building that cannot be lit"
            savings.append(0 if self.is_ring or within is None else within - at_end)
            each += beside_hop + (at_end if within is None else within)
        a_chain = beside_hop if self.is_ring else -max(savings)
        for count in range(rounded_up(len(self.stops), site.rules.hop_limit), len(self.stops) + 1):
            hub = costs.hub((1 + self.is_ring) * count * links)
            if hub is None:
                break
            claimed = (evidence["chain_cost"] - evidence["end_saving"]) * count
            paid = each + hub + a_chain * count - evidence["constant"]
            assert claimed <= paid * self.network.units, f"the constant and {count} chains are above what plans pay"

    def check_prices(self):
        """No edge's prices come to more than opening it and what one cable pays there beyond the hops' charge."""
        joining, hops = (self.sums(prices) for prices in (self.joining, self.arrival + self.closing))
        charges = self.network.charges_of(self.evidence)
        for number, edge in enumerate(self.network.edges):
            w = self.evidence["hop_charges"][number]
            s = self.evidence["pass_charges"][number] if self.is_ring else 0
            passing = w + self.site.rules.hop_limit * s
            joins = [direction[number] for direction in joining]
            pays = (sum(joins) if self.is_ring else max(joins)) + sum(direction[number] for direction in hops)
            assert min(w, s) >= 0 and passing <= charges[number], f"hops pay too much on segment {edge['segment']}"
            assert pays <= self.network.parts * edge["opening"] + charges[number] - passing, (
                f"prices above what segment {edge['segment']} costs")

    def sums(self, prices):
        return self.network.with_prices([0] * len(self.network.edges), [one for triples in prices for one in triples])

    def hops_to(self, place, prices):
        """H: what the cheapest hop to a place costs from each other, its prices whichever way it goes."""
        forwards, backwards = self.sums([prices])
        charges = [sum(costs) for costs in zip(self.evidence["hop_charges"], forwards, backwards)]
        return self.network.distances(place, (charges, charges))

    def entering_earns(self, before, after):
        """What a hop earns by the sets that it enters; `before` is None for the hub."""
        return sum(entry["price"] for entry in self.evidence["entry_prices"]
                   if after in entry["buildings"] and before not in entry["buildings"])

    def least_entries(self):
        """What plans earn by entries at least: a chain holds no more buildings of a set than it holds in all."""
        return sum(entry["price"] * rounded_up(len(entry["buildings"]), self.site.rules.hop_limit)
                   for entry in self.evidence["entry_prices"])

    def joined(self):
        """The sum of D."""
        if self.is_ring:
            ways = TwoWays(self.network.edges, self.evidence["pass_charges"])
            return sum(ways.least(self.site.hub.place, stop, self.sums([prices]))
                       for stop, prices in zip(self.stops, self.joining))
        return sum(self.network.distances(stop, self.sums([prices]))[self.site.hub.place]
                   for stop, prices in zip(self.stops, self.joining))

    def routes_by_length(self):
        """For each number of steps and each stop, the least that a route costs that ends there, earnings taken off."""
        earned, number = self.evidence["visit_prices"], range(len(self.stops))
        hops = [self.hops_to(stop, prices) for stop, prices in zip(self.stops, self.arrival)]
        steps = [[hops[after][self.stops[before]] - earned[after] - self.entering_earns(before, after)
                  for before in number] for after in number]
        remembers = [sum(1 << other for other in remembered) for remembered in self.evidence["neighbours"]]
        routes = [{0: hops[stop][self.site.hub.place] - earned[stop] - self.entering_earns(None, stop)}
                  for stop in number]
        for _ in range(min(self.site.rules.hop_limit, len(self.stops))):
            yield [min(memories.values(), default=math.inf) for memories in routes]
            longer = [{} for _ in number]
            for before, after in ((before, after) for before in number for after in number if before != after):
                for memory, cost in routes[before].items():
                    if not memory >> after & 1:
                        kept = (memory | 1 << before) & remembers[after]
                        longer[after][kept] = min(longer[after].get(kept, math.inf), cost + steps[after][before])
            routes = longer

    def least_routes(self):
        """R: routes that end at different stops and have as many steps together as there are stops."""
        a_chain = (self.evidence["chain_cost"] - self.evidence["end_saving"]) * self.network.parts
        least = [0] + [math.inf] * len(self.stops)
        lengths = list(self.routes_by_length())
        for stop, place in enumerate(self.stops):
            end = a_chain
            if self.is_ring:
                end += self.hops_to(self.site.hub.place, self.closing[stop])[place]
            for steps in range(len(self.stops), 0, -1):
                ending_here = [least[steps - length] + routes[stop] + end
                               for length, routes in enumerate(lengths[:steps], 1)]
                least[steps] = min([least[steps]] + ending_here)
        return least[-1]

    def bound(self):
        """The direct cost that no plan undercuts."""
        parts = self.joined() + sum(self.evidence["visit_prices"]) + self.least_entries() + self.least_routes()
        units = rounded_up(parts, self.network.parts) - self.network.rebate
        return self.network.constant + units // self.network.units
