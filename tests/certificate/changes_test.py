"""Whatever is changed in a certificate, or in what a site costs, is found by check_by_script.py."""

import copy
import unittest

import claims
from shipped_sites import CROSSINGS, Sites


class Change(unittest.TestCase):
    """One thing is changed in what is proved as it stands, and is found."""

    def take(self, name, layout):
        self.site = copy.deepcopy(Sites.site(name))
        self.all_certificates = copy.deepcopy(Sites.certificates(name))
        self.certificate = self.all_certificates[layout]
        proof = self.certificate["proof"]
        self.piece = proof["trunks"] or proof["chains"] or (proof["evidence"] or [None])[0]

    def assert_found(self, why):
        with self.assertRaisesRegex(AssertionError, why):
            claims.check(self.site, self.certificate, self.all_certificates)


class ChangesOfFanOuts(Change):
    def setUp(self):
        self.take("lakeside", "trunk-one")

    def test_bound_with_contingency_and_tax(self):
        self.certificate["bound"] += 1
        self.assert_found("with contingency and tax")

    def test_plan_cheaper_than_its_bound(self):
        self.certificate["total"] = self.certificate["bound"] - 1
        self.assert_found("cheaper than its bound")

    def test_another_site(self):
        self.certificate["site"]["name"] = "Elsewhere"
        self.assert_found("Elsewhere")

    def test_constant(self):
        self.take("lakeside", "home-runs")
        self.piece["constant"] += 4  # what charges leave out of four cables is less than that
        self.assert_found("above what plans pay")

    def test_cost_of_a_root(self):
        self.take("lakeside", "home-runs")
        self.piece["roots"][0]["cost"] += 4 * self.piece["units_a_minor"]
        self.assert_found("above what plans pay")

    def test_root_left_out(self):
        for piece in self.certificate["proof"]["evidence"]:
            piece["roots"] = [root for root in piece["roots"] if root["at"] != "lawn-corner"]
        self.assert_found("nothing bounds plans from lawn-corner")

    def test_opening_of_an_edge(self):
        self.piece["edges"][1]["opening"] += 1  # the cheapest of its segment: no other edge stands for it
        self.assert_found("no edge that charges as little")

    def test_length_of_an_edge(self):
        self.piece["edges"][1]["length"] += 1
        self.assert_found("no edge that charges as little")

    def test_edge_left_out(self):
        edge = self.piece["edges"][-1]
        edge.update(segment=self.piece["edges"][0]["segment"], way=1 - edge["way"])
        self.assert_found("ends elsewhere")

    def test_unknown_segment(self):
        self.piece["edges"][0]["segment"] = "nowhere"
        self.assert_found("no segment nowhere")

    def test_unknown_way(self):
        self.piece["edges"][0]["way"] = 9
        self.assert_found("no way 9")

    def test_weight_of_a_demand(self):
        self.piece["demands"][0]["weight"] += 2
        self.assert_found("no edge that charges as little")

    def test_place_of_a_demand(self):
        self.piece["demands"][0]["at"] = self.piece["demands"][1]["at"]
        self.assert_found("demands are not")

    def test_price_above_an_opening(self):
        self.piece["prices"][0][0][2] += self.piece["parts"] * self.piece["edges"][0]["opening"]
        self.assert_found("prices above the opening")

    def test_price_below_nothing(self):
        self.piece["prices"][0][0][2] = -1
        self.assert_found("below nothing")

    def test_prices_left_out(self):
        for piece in self.certificate["proof"]["evidence"]:
            for prices in piece["prices"]:
                prices[0] = []
        self.assert_found("^claims a direct cost")

    def test_room_in_a_duct(self):
        self.take("campus", "home-runs")
        edge = next(edge for piece in self.certificate["proof"]["evidence"] for edge in piece["edges"]
                    if edge["room_price"] > 0)
        edge["room"] -= 1
        self.assert_found("no such room")

    def test_price_on_room_below_nothing(self):
        self.take("campus", "home-runs")
        next(edge for edge in self.piece["edges"] if edge["room"] > 0)["room_price"] = -1
        self.assert_found("below nothing")

    def test_price_on_room(self):
        self.take("campus", "home-runs")
        for edge in self.piece["edges"]:
            edge["room_price"] *= 2
        self.assert_found("^claims a direct cost")

    def test_cable_in_shorter_steps(self):
        for cable in self.site.catalogue.cables:
            cable.step = 1
        self.assert_found("^claims a direct cost")

    def test_cable_that_needs_fewer_joints(self):
        self.take("lakeside with joints", "home-runs")
        for cable in self.site.catalogue.cables:
            cable.longest = 400_000
        self.assert_found("^claims a direct cost|above what plans pay")

    def test_cheaper_cable(self):
        self.site.catalogue.cables[0].price -= 1000
        self.assert_found("no edge that charges as little")

    def test_cheaper_ends_of_cable(self):
        self.site.catalogue.cables[0].end -= 1000
        self.assert_found("above what plans pay")

    def test_cheaper_gear(self):
        for gear in self.site.catalogue.building_gear:
            gear.price -= 100 * 1000
        self.assert_found("above what plans pay")

    def test_cheaper_duct(self):
        for segment in self.site.segments.values():
            for way in segment.ways:
                way.duct -= 100
        self.assert_found("no edge that charges as little")

    def test_smaller_coils(self):
        self.take("campus", "trunk-one")
        self.site.rules.coil = 0
        self.assert_found("no edge that charges as little")


class ChangesOfSplits(Change):
    def setUp(self):
        self.take(CROSSINGS, "home-runs")
        self.first, self.last = self.piece["splits"][0], self.piece["splits"][-1]

    def used_edge(self):
        """An edge that all plans of the first part use."""
        choices = self.first["choices"]
        return next(edge for edge, used in zip(choices[::2], choices[1::2]) if used)

    def test_order_says_nothing(self):
        self.piece["splits"].reverse()
        claims.check(self.site, self.certificate, self.all_certificates)

    def test_part_left_out(self):
        for part in (self.first, self.last):
            self.take(CROSSINGS, "home-runs")
            self.piece["splits"].remove(part)
            self.assert_found("the splits are not all plans")

    def test_all_parts_left_out(self):
        del self.piece["splits"]
        self.assert_found("^claims a direct cost")

    def test_choice_the_other_way(self):
        self.first["choices"][-1] = 1 - self.first["choices"][-1]
        self.assert_found("the splits are not all plans")

    def test_choice_of_another_edge(self):
        self.first["choices"][-2] += 1
        self.assert_found("the splits are not all plans|chosen twice")

    def test_choice_left_out(self):
        del self.first["choices"][-2:]
        self.assert_found("the splits are not all plans")

    def test_choice_made_twice(self):
        self.first["choices"] += self.first["choices"][-2:]
        self.assert_found("chosen twice")

    def test_unknown_edge_and_use(self):
        for position, wrong in ((0, len(self.piece["edges"])), (0, -1), (1, 2)):
            self.take(CROSSINGS, "home-runs")
            self.piece["splits"][0]["choices"][position] = wrong
            self.assert_found("an unknown choice")

    def test_price_above_an_opening(self):
        edge = self.last["prices"][0][0]
        self.last["prices"][0][2] += self.last["parts"] * self.piece["edges"][edge]["opening"]
        self.assert_found("prices above the opening")

    def test_price_on_an_edge_in_use(self):
        self.first["prices"][0] += [self.used_edge(), 0, 1]
        self.assert_found("prices above the opening")

    def test_prices_left_out(self):
        for part in self.piece["splits"]:
            part["prices"] = [[] for _ in part["prices"]]
        self.assert_found("^claims a direct cost")

    def test_finer_parts_of_price(self):
        for part in self.piece["splits"]:
            part["parts"] *= 2
        self.assert_found("^claims a direct cost")


class ChangesOfTrunks(Change):
    def setUp(self):
        self.take("campus", "mixed")

    def test_constant(self):
        self.piece["constant"] += 1
        self.assert_found("the constant is above")

    def test_home_run(self):
        self.piece["demands"][0]["home_run"] += 10 * self.piece["units_a_minor"]
        self.assert_found("a home run saves")

    def test_home_runs_where_there_are_none(self):
        self.take("campus", "trunk")
        self.piece["demands"][0]["home_run"] = 0
        self.assert_found("home runs")

    def test_place_left_out(self):
        self.piece["sites"].pop()
        self.assert_found("places of enclosures")

    def test_cost_at_a_place(self):
        self.piece["sites"][0]["cost"] += 1
        self.assert_found("cost at")

    def test_cost_of_a_size(self):
        self.piece["sizes"][0]["fixed"] += 1
        self.assert_found("ends of a trunk")

    def test_largest_size_left_out(self):
        self.piece["sizes"].pop()
        self.assert_found("sizes of trunks")

    def test_cost_of_a_size_at_a_place(self):
        self.piece["sites"][0]["size_costs"][0] += 1
        self.assert_found("costs no 1 more")

    def test_weight_of_a_size(self):
        self.piece["sizes"][-1]["weight"] += 100_000
        self.assert_found("no edge that charges as little")

    def test_price_above_an_opening(self):
        edge = self.piece["prices"][0][0][0]
        self.piece["prices"][0][0][2] += self.piece["parts"] * self.piece["edges"][edge]["opening"]
        self.assert_found("prices above opening")

    def test_prices_left_out(self):
        for prices in self.piece["prices"]:
            prices[0] = []
        self.assert_found("^claims a direct cost")

    def test_shares_of_a_set_left_out(self):
        self.piece["sets"][0]["units"][1] -= 2
        self.assert_found("are not bounded")

    def test_all_sets_left_out(self):
        self.piece["sets"] = []
        self.assert_found("^claims a direct cost")

    def test_unknown_place_in_a_set(self):
        self.piece["sets"][0]["sites"][0] = -1
        self.assert_found("places that are not there")

    def test_prices_of_a_set(self):
        self.piece["sets"][0]["prices"] = len(self.piece["prices"])
        self.assert_found("prices that are not there")

    def test_more_enclosures(self):
        self.take("orchard", "mixed")
        self.site.rules.most_enclosures += 1
        self.assert_found("the constant is above|^claims a direct cost")

    def test_layout_that_contains_it(self):
        self.take("lakeside", "trunk")
        self.assertEqual(self.certificate["proof"]["contained_in"], "mixed")
        wide = self.all_certificates.pop("mixed")
        self.assert_found("bound is that of mixed, whose certificate is not there")
        self.all_certificates["ring"] = dict(wide, layout="ring")
        self.certificate["proof"]["contained_in"] = "ring"
        self.assert_found("plans of trunk are not all among those of ring")


class ChangesOfChains(Change):
    def setUp(self):
        self.take("campus", "ring")

    def test_constant(self):
        self.piece["constant"] += 1
        self.assert_found("chains are above what plans pay")

    def test_cost_of_a_chain(self):
        self.piece["chain_cost"] += self.piece["units_a_minor"]
        self.assert_found("chains are above what plans pay")

    def test_saving_at_ends(self):
        self.take("lakeside", "daisy-chain")
        self.assertGreater(self.piece["end_saving"], 0)
        self.piece["end_saving"] = 0
        self.assert_found("chains are above what plans pay")

    def test_weight(self):
        self.piece["weight"] += 1000
        self.assert_found("no edge that charges as little")

    def test_charge_of_hops(self):
        edge = self.piece["edges"][0]
        charge = self.piece["weight"] * edge["length"] + self.piece["multiplicity"] * edge["passage"]
        self.piece["hop_charges"][0] = self.piece["parts"] * charge + 1
        self.assert_found("hops pay too much")

    def test_charge_of_passes(self):
        edge = self.piece["edges"][0]
        self.piece["pass_charges"][0] += self.piece["parts"] * edge["opening"]
        self.assert_found("hops pay too much|prices above what segment")

    def test_price_above_an_opening(self):
        for kind in ("joining_prices", "arrival_prices", "closing_prices"):
            self.take("campus", "ring")
            triples = next(triples for triples in self.piece[kind] if triples)
            triples[2] += 2 * self.piece["parts"] * self.piece["edges"][triples[0]]["opening"]
            self.assert_found("prices above what segment")

    def test_prices_left_out(self):
        for layout in ("daisy-chain", "ring"):
            self.take("campus", layout)
            self.piece["joining_prices"][0] = []
            self.assert_found("^claims a direct cost")

    def test_lists_too_short(self):
        self.piece["visit_prices"].pop()
        self.assert_found("entries of visit_prices")

    def test_neighbours(self):
        for wrong in ([0], [1, 1], [99], list(range(1, 12))):
            self.piece["neighbours"][0] = wrong
            self.assert_found("neighbours")

    def test_entries(self):
        for wrong in ([], [0, 0], [-1], [99]):
            self.piece["entry_prices"] = [{"buildings": wrong, "price": 1}]
            self.assert_found("entry prices")
        self.piece["entry_prices"] = [{"buildings": [0], "price": -1}]
        self.assert_found("an entry's price below 0")

    def test_entries_left_out(self):
        self.take("estate", "daisy-chain")
        self.assertTrue(self.piece["entry_prices"])
        self.piece["entry_prices"] = []
        self.assert_found("^claims a direct cost")

    def test_price_of_an_entry(self):
        self.take("estate", "daisy-chain")
        self.piece["entry_prices"][0]["price"] *= 1000
        self.assert_found("^claims a direct cost")

    def test_longer_chains(self):
        self.take("orchard", "daisy-chain")
        self.site.rules.hop_limit += 1
        self.assert_found("^claims a direct cost")

    def test_layout(self):
        self.certificate["layout"] = "home-runs"
        self.assert_found("evidence of chains says nothing of home-runs")


if __name__ == "__main__":
    unittest.main()
