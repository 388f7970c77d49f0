"""Certificates of shipped sites by check_by_script.py: two programs that share no line agree to the cent on what is
proved, and whatever is changed is found."""

import contextlib
import copy
import functools
import io
import json
import os
import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest
from fractions import Fraction
from types import SimpleNamespace

import bought_cables
import check_by_script
import fan_out
from cable_prices import CablePrices
from site_model import NotRead
from site_reading import number, read_site

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
SCENARIOS = ROOT / "scenarios"
PROGRAM = os.environ.get("SPADEWORK_PROGRAM", str(ROOT / "build" / "spadework"))
LAYOUTS = {"lakeside": ["home-runs", "trunk-one"], "campus": ["home-runs", "trunk-one"],
           "studio": ["home-runs", "trunk"], "green": ["home-runs", "trunk-one"],
           "orchard": ["home-runs", "trunk-one"], "village": ["home-runs", "trunk-one"],
           "estate": ["home-runs", "trunk-one"], "estate with one enclosure": ["trunk"],
           "lakeside with joints": ["home-runs", "trunk-one"], "lakeside with thin cables": ["home-runs", "trunk-one"]}
#: Shipped sites with a change: the site, what is replaced wherever it stands, and by what.
CHANGED = {"estate with one enclosure": ("estate", "max-enclosures: 3", "max-enclosures: 1"),
           "lakeside with joints": ("lakeside", "longest: 1000", "longest: 170"),
           "lakeside with thin cables": ("lakeside", r"    - \{id: cable-(12|24), .*\n", "")}


class Sites:
    """Sites and their certificates, made once."""

    folder = None

    @classmethod
    @functools.cache
    def path(cls, name):
        if name not in CHANGED:
            return SCENARIOS / f"{name}.yaml"
        site, old, new = CHANGED[name]
        text, count = re.subn(old, new, (SCENARIOS / f"{site}.yaml").read_text())
        assert count > 0
        folder = pathlib.Path(cls.folder, f"{name} site")
        for files in ("estate", "prices"):
            shutil.copytree(SCENARIOS / files, folder / files)
        path = folder / f"{site}.yaml"
        path.write_text(text)
        return path

    @classmethod
    @functools.cache
    def site(cls, name):
        return read_site(cls.path(name))

    @classmethod
    @functools.cache
    def certificates(cls, name):
        """By layout."""
        folder = pathlib.Path(cls.folder, name)
        subprocess.run([PROGRAM, "compare", cls.path(name), "--layouts", ",".join(LAYOUTS[name]), "--time-limit", "300",
                        "--certificate", folder, "--quiet"], check=True, capture_output=True)
        return {layout: json.loads((folder / f"{layout}.certificate.json").read_text()) for layout in LAYOUTS[name]}


def setUpModule():
    Sites.folder = tempfile.mkdtemp()
    unittest.addModuleCleanup(shutil.rmtree, Sites.folder)


def evidence_of(name, layout):
    pieces = Sites.certificates(name)[layout]["proof"]["evidence"]
    return [fan_out.Evidence(Sites.site(name), piece, layout != "home-runs") for piece in pieces]


class Claims(unittest.TestCase):
    def test_evidence_of_shipped_sites_proves_just_what_is_claimed(self):
        for name, layouts in LAYOUTS.items():
            for layout in layouts:
                with self.subTest(site=name, layout=layout):
                    certificate = Sites.certificates(name)[layout]
                    self.assertEqual(fan_out.check(Sites.site(name), certificate), certificate["direct_bound"])

    def test_a_claim_that_is_one_higher_is_not_proved(self):
        for name in ("lakeside", "studio", "campus", "orchard", "village"):
            for layout, certificate in Sites.certificates(name).items():
                higher = dict(certificate, direct_bound=certificate["direct_bound"] + 1)
                with self.subTest(site=name, layout=layout), self.assertRaisesRegex(AssertionError, "^claims a direct"):
                    fan_out.check(Sites.site(name), higher)

    def test_cables_as_they_are_bought_are_part_of_every_claim(self):
        for name in ("lakeside", "studio", "campus", "orchard", "village"):
            for layout, certificate in Sites.certificates(name).items():
                by_prices = min(bound for piece in evidence_of(name, layout) for bound in piece.bounds().values())
                self.assertLess(by_prices, certificate["direct_bound"], (name, layout))

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


class Changes(unittest.TestCase):
    """One thing is changed in what is proved as it stands, and is found."""

    def take(self, name, layout):
        self.site = copy.deepcopy(Sites.site(name))
        self.certificate = copy.deepcopy(Sites.certificates(name)[layout])
        self.piece = self.certificate["proof"]["evidence"][0]

    def setUp(self):
        self.take("lakeside", "trunk-one")

    def assert_found(self, why):
        with self.assertRaisesRegex(AssertionError, why):
            fan_out.check(self.site, self.certificate)

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
                                   ({"layout": "ring"}, 3, "not read: layouts with"),
                                   ({"direct_bound": certificate["direct_bound"] + 1}, 6, "not proved: claims")):
            path = folder / "one.json"
            path.write_text(json.dumps({**certificate, **change}))
            with contextlib.redirect_stdout(io.StringIO()) as out:
                self.assertEqual(check_by_script.main([str(SCENARIOS / "lakeside.yaml"), str(path)]), code)
            self.assertIn(told, out.getvalue())


if __name__ == "__main__":
    unittest.main()
