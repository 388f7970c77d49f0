"""Checks the prices and distances of certificates by the rules that lib/certificate/certificate.hpp gives (its steps 3
to 5), with nothing of Spadework and nothing but Python's standard library:

    python3 check_by_script.py home-runs.certificate.json …

Without files it has the program make certificates of shipped sites and checks those: the test that two programs which
share no line agree."""

import heapq
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
PROGRAM = os.environ.get("SPADEWORK_PROGRAM", str(ROOT / "build" / "spadework"))


def check_prices(evidence, prices):
    """Step 3: no edge's prices come to more than its opening."""
    edges, demands = evidence["edges"], evidence["demands"]
    one_group = all(edge["length"] == 0 for edge in edges) or all(edge["passage"] == 0 for edge in edges)
    sums = {}
    for demand, triples in zip(demands, prices, strict=True):
        divisor = math.gcd(demand["weight"], demand["multiplicity"]) or 1
        group = None if one_group else (demand["weight"] // divisor, demand["multiplicity"] // divisor)
        for edge, direction, price in zip(triples[::3], triples[1::3], triples[2::3], strict=True):
            assert price >= 0
            sums.setdefault((edge, group), [0, 0])[direction] += price
    claims = [0] * len(edges)
    for (edge, _), directions in sums.items():
        claims[edge] += max(directions)
    for claim, edge in zip(claims, edges):
        assert claim <= evidence["parts"] * edge["opening"], f"prices above the opening of segment {edge['segment']}"


def distances_to(evidence, demand, triples):
    """Step 4: what the cheapest way from each place to the demand costs, in parts."""
    charge = [[evidence["parts"] * (demand["weight"] * edge["length"] + demand["multiplicity"] * edge["passage"])] * 2
              for edge in evidence["edges"]]
    for edge, direction, price in zip(triples[::3], triples[1::3], triples[2::3]):
        charge[edge][direction] += price
    into = {}
    for edge, (forwards, backwards) in zip(evidence["edges"], charge):
        into.setdefault(edge["to"], []).append((edge["from"], forwards))
        into.setdefault(edge["from"], []).append((edge["to"], backwards))
    distance, queue = {}, [(0, demand["at"])]
    while queue:
        here, place = heapq.heappop(queue)
        if place in distance:
            continue
        distance[place] = here
        for before, cost in into.get(place, []):
            heapq.heappush(queue, (here + cost, before))
    return distance


def direct_bounds(evidence):
    """Steps 4 and 5: for each root, the direct cost that no plan from there undercuts."""
    edges, demands = evidence["edges"], evidence["demands"]
    for prices in evidence["prices"]:
        check_prices(evidence, prices)
    ways = [[distances_to(evidence, demand, triples) for demand, triples in zip(demands, prices)]
            for prices in evidence["prices"]]
    step = math.gcd(*(edge["opening"] for edge in edges),
                    *(demand["weight"] * edge["length"] for demand in demands for edge in edges),
                    *(demand["multiplicity"] * edge["passage"] for demand in demands for edge in edges)) or 1
    rebate = sum(max(0, edge["room"]) * edge["room_price"] for edge in edges)
    bounds = {}
    for root in evidence["roots"]:
        parts = max(sum(distance[root["at"]] for distance in one_set) for one_set in ways)
        routes = -(-parts // (evidence["parts"] * step)) * step + root["cost"] - rebate
        bounds[root["at"]] = evidence["constant"] + max(0, routes) // evidence["units_a_minor"]
    return bounds


def proved(certificate):
    """The direct cost that the evidence proves no plan undercuts."""
    best = {}
    for evidence in certificate["proof"]["evidence"]:
        for place, bound in direct_bounds(evidence).items():
            best[place] = max(bound, best.get(place, bound))
    return min(best.values())


class ShippedSites(unittest.TestCase):
    def test_bounds_of_shipped_sites_follow_from_their_prices(self):
        """But for what step 6 adds: cables as they are bought, which are a small part of what a job costs."""
        for site, layouts in (("lakeside", ["home-runs"]), ("campus", ["home-runs", "trunk-one"]),
                              ("studio", ["home-runs", "trunk"]), ("village", ["home-runs", "trunk-one"])):
            with tempfile.TemporaryDirectory() as folder:
                subprocess.run([PROGRAM, "compare", ROOT / "scenarios" / f"{site}.yaml", "--layouts",
                                ",".join(layouts), "--certificate", folder, "--quiet"], check=True, capture_output=True)
                for layout in layouts:
                    with self.subTest(site=site, layout=layout):
                        certificate = json.loads(pathlib.Path(folder, f"{layout}.certificate.json").read_text())
                        by_prices, claimed = proved(certificate), certificate["direct_bound"]
                        self.assertLessEqual(by_prices, claimed)
                        self.assertGreater(by_prices, claimed * 0.998)


if __name__ == "__main__":
    if len(sys.argv) < 2:
        unittest.main()
    for name in sys.argv[1:]:
        one = json.loads(pathlib.Path(name).read_text())
        print(f"{name}: claims {one['direct_bound']}, its prices alone prove {proved(one)}")
