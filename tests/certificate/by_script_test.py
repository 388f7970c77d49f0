"""Certificates of shipped sites by check_by_script.py: two programs that share no line agree to the cent on what is
proved."""

import contextlib
import io
import json
import pathlib
import unittest
from fractions import Fraction
from types import SimpleNamespace

import bought_cables
import check_by_script
import claims
import fan_out
from cable_prices import CablePrices
from priced_routes import are_all
from shipped_sites import CROSSINGS, LAYOUTS, SCENARIOS, SMALL, Sites
from site_model import NotRead
from site_reading import number, read_site
from two_ways import TwoWays


def evidence_of(name, layout):
    pieces = Sites.certificates(name)[layout]["proof"]["evidence"]
    return [fan_out.Evidence(Sites.site(name), piece, layout != "home-runs") for piece in pieces]


class Claims(unittest.TestCase):
    def test_evidence_of_shipped_sites_proves_just_what_is_claimed(self):
        for name, wanted in LAYOUTS.items():
            certificates = Sites.certificates(name)
            self.assertLessEqual(set(wanted), set(certificates))
            for layout, certificate in certificates.items():
                with self.subTest(site=name, layout=layout):
                    bound = claims.check(Sites.site(name), certificate, certificates)
                    self.assertEqual(bound, certificate["direct_bound"])

    def test_a_claim_that_is_one_higher_is_not_proved(self):
        for name in SMALL:
            certificates = Sites.certificates(name)
            for layout, certificate in certificates.items():
                higher = dict(certificate, direct_bound=certificate["direct_bound"] + 1)
                with self.subTest(site=name, layout=layout), self.assertRaisesRegex(AssertionError, "^claims a direct"):
                    claims.check(Sites.site(name), higher, certificates)

    def test_cables_as_they_are_bought_are_part_of_every_claim_where_cables_fan_out(self):
        for name in SMALL:
            for layout, certificate in Sites.certificates(name).items():
                if certificate["proof"]["evidence"]:
                    by_prices = min(bound for piece in evidence_of(name, layout) for bound in piece.bounds().values())
                    self.assertLess(by_prices, certificate["direct_bound"], (name, layout))

    def test_kinds_of_evidence_are_all_looked_at(self):
        proofs = [certificate["proof"] for name in SMALL for certificate in Sites.certificates(name).values()]
        for kind in ("evidence", "trunks", "chains", "contained_in"):
            self.assertTrue(any(proof[kind] for proof in proofs), kind)

    def test_lengths_and_joints_are_those_of_the_plan(self):
        for name in ("lakeside", "studio", "orchard"):  # without handholes, where plans have coils
            prices = CablePrices(Sites.site(name))
            for certificate in Sites.certificates(name).values():
                for cable in certificate["plan"]["cables"]:
                    with self.subTest(site=name, cable=cable["id"]):
                        self.assertEqual(prices.with_slack(cable["route"]), cable["with_slack"])
                        product = next(one for one in prices.site.catalogue.cables if one.strands >= cable["in_use"]
                                       + cable["spare"] + cable["headroom"])
                        self.assertEqual(prices.ordered(product, cable["route"]), (cable["ordered"], cable["joints"]))


class Splits(unittest.TestCase):
    """Plans split by whether they use an edge."""

    def test_without_them_less_is_proved(self):
        certificate = Sites.certificates(CROSSINGS)["home-runs"]
        bound = claims.check(Sites.site(CROSSINGS), certificate, {})
        self.assertLessEqual(bound, certificate["direct_bound"] + 1)
        pieces = evidence_of(CROSSINGS, "home-runs")
        self.assertGreaterEqual(max(len(piece.parts) for piece in pieces), 2)
        for piece in pieces:
            piece.parts = []
        without = [bound for piece in pieces for bound in (piece.bounds()["depot"], *piece.bounds_as_bought("depot"))]
        self.assertLess(max(without), 0.95 * bound)

    def test_lists_of_choices_that_leave_out_no_plan(self):
        for choices in ([[]], [[(4, 1)], [(4, 0)]], [[(4, 0)], [(4, 1)]],
                        [[(4, 1), (2, 0)], [(4, 0)], [(4, 1), (2, 1)]]):
            self.assertTrue(are_all(choices), choices)

    def test_lists_of_choices_that_leave_some_out(self):
        for choices in ([[(4, 1)]], [[(4, 1)], [(4, 1)]], [[(4, 1)], [(2, 0)]], [[], [(4, 1)], [(4, 0)]],
                        [[(4, 1), (2, 0)], [(4, 0)]], [[(4, 1)], [(4, 0), (2, 1)], [(4, 0), (3, 0)]]):
            self.assertFalse(are_all(choices), choices)


class SharedLengths(unittest.TestCase):
    """Of demands that have prices in opposite directions, how much may be counted beyond charges."""

    def shared(self, lengths, sets, wanted):
        routes = SimpleNamespace(edges=[{"length": length} for length in lengths], sets=[sets])
        return bought_cables.shared_out(routes, 0, wanted)

    def test_both_get_the_edge_where_both_want_more(self):
        self.assertEqual(self.shared([4], [[0, 0, 7], [0, 1, 7]], [9, 9]), [4, 4])

    def test_one_gets_what_the_other_leaves(self):
        self.assertEqual(self.shared([4], [[0, 0, 7], [0, 1, 7]], [9, 1]), [7, 1])

    def test_short_edges_come_first(self):
        against = [[0, 0, 7, 1, 0, 7], [0, 1, 7, 1, 1, 7]]
        self.assertEqual(self.shared([4, 2], against, [9, 1]), [3, 1])

    def test_nothing_is_lost_where_prices_run_one_way(self):
        self.assertEqual(self.shared([4], [[0, 0, 7], [0, 0, 7]], [9, 9]), [9, 9])

    def test_no_two_have_more_than_twice_an_edge_between_them(self):
        for evidence in evidence_of("estate", "home-runs"):
            wanted = [10 ** 9] * len(evidence.cables)
            lengths = bought_cables.shared_out(evidence.routes, 0, wanted)
            self.assertLess(lengths, wanted)
            payers = bought_cables.payers_by_edge(evidence.routes, 0)
            for edge, (forwards, backwards) in zip(evidence.routes.edges, payers):
                for one in forwards:
                    for other in backwards:
                        self.assertLessEqual(lengths[one] + lengths[other], 2 * edge["length"])


class Ways(unittest.TestCase):
    """Two ways that have no cut in common but bridges."""

    def least(self, edges, prices, passes):
        edges = [{"segment": f"{start}{end}{number}", "from": start, "to": end}
                 for number, (start, end) in enumerate(edges)]
        return TwoWays(edges, passes).least("a", edges[-1]["to"], (prices, [0] * len(edges)))

    def test_around_a_square(self):
        self.assertEqual(self.least(["ab", "ad", "dc", "bc"], [1, 2, 3, 4], [0, 0, 0, 0]), 10)

    def test_a_bridge_is_opened_once_and_passed_twice(self):
        self.assertEqual(self.least(["ab", "bd", "dc", "bc"], [7, 1, 1, 3], [10, 0, 0, 0]), 7 + 20 + 5)

    def test_the_second_takes_back_parts_of_the_first(self):
        # The cheapest way is a b c d; two ways apart are a b d and a c d.
        self.assertEqual(self.least(["ab", "bc", "ac", "bd", "cd"], [1, 1, 5, 5, 1], [0] * 5), 1 + 5 + 5 + 1)


class Reading(unittest.TestCase):
    def test_says_what_it_does_not_read(self):
        text = (SCENARIOS / "lakeside.yaml").read_text()
        for old, new, why in (("currency: EUR", "currency: JPY", "prices in JPY"),
                              ("rules:\n", "rules:\n  strand-use: cheaper\n", "either strand use"),
                              ("map:\n", "map:\n  coordinates: wgs84\n", "places in degrees")):
            self.assertEqual(text.count(old), 1)
            path = pathlib.Path(Sites.folder, "changed.yaml")
            path.write_text(text.replace(old, new))
            with self.assertRaisesRegex(NotRead, why):
                read_site(path)

    def test_likely_values_of_ranges(self):
        for value, likely in (("0.5", "0.5"), ({"low": "1", "high": "4"}, "2.5"),
                              ({"low": "1", "likely": "2", "high": "4"}, "2"),
                              ({"chance": "0.3", "otherwise": "1", "then": "2.5"}, "1"),
                              ({"chance": "0.6", "otherwise": "1", "then": "2.5"}, "2.5")):
            self.assertEqual(number(value), Fraction(likely))

    def test_tells_of_each_file_and_by_its_exit_code(self):
        folder = pathlib.Path(Sites.folder)
        certificate = Sites.certificates("lakeside")["home-runs"]
        for change, code, told in (({}, 0, "proved: claims a direct cost of"),
                                   ({"other_strand_use": {}}, 3, "not read: plans with"),
                                   ({"direct_bound": certificate["direct_bound"] + 1}, 6, "not proved: claims")):
            path = folder / "one.json"
            path.write_text(json.dumps({**certificate, **change}))
            with contextlib.redirect_stdout(io.StringIO()) as out:
                self.assertEqual(check_by_script.main([str(SCENARIOS / "lakeside.yaml"), str(path)]), code)
            self.assertIn(told, out.getvalue())


if __name__ == "__main__":
    unittest.main()
