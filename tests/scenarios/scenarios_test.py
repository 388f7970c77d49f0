"""The shipped scenarios: each loads cleanly, says that it is invented, and has the winner it was made to have."""

import functools
import json
import pathlib
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "program"))

from make_estate import estate  # noqa: E402
from running import INFEASIBLE, OK, SCENARIOS, SHARE, run  # noqa: E402

SITES = sorted(SCENARIOS.glob("*.yaml"))
# Large sites take all the time they are given where sanitizers slow the search down; their winners do not need it.
TIME_LIMIT = ("--time-limit", "10") if SHARE > 1 else ()
WRITTEN = tempfile.TemporaryDirectory()  # till the program ends


@functools.cache
def compared(name):
    """Exit code and result of `compare`, once for all tests."""
    ended = run("compare", SCENARIOS / f"{name}.yaml", "--format", "json", "--out", pathlib.Path(WRITTEN.name, name),
                *TIME_LIMIT)
    return ended.code, json.loads(ended.out)


def report_of(name):
    """The report in words of that comparison."""
    compared(name)
    return pathlib.Path(WRITTEN.name, name, "comparison.txt").read_text()


def layout_of(name, layout):
    return next(each for each in compared(name)[1]["layouts"] if each["layout"] == layout)


def winner_of(name):
    return layout_of(name, compared(name)[1]["cheapest"])


def cost(layout, *categories):
    return sum(layout["cost_by_category"][category] for category in categories)


def kinds_of_cable(layout):
    """How the plan's cables are named: run-, trunk-, drop-, hop-."""
    return {cable["id"].split("-")[0] for cable in layout["cables"]}


def grounds_dug(layout):
    return set(layout["trench_m_by_ground"])


class Files(unittest.TestCase):
    def test_there_are_at_least_the_five_sites_that_were_asked_for(self):
        self.assertLessEqual({"campus", "estate", "lakeside", "remote-mast", "village"}, {site.stem for site in SITES})

    def test_every_site_loads_without_a_word_of_complaint(self):
        for site in SITES:
            with self.subTest(site=site.stem):
                ended = run("check", site)
                self.assertEqual((ended.code, ended.err), (OK, ""))

    def test_every_file_says_at_its_head_that_it_is_invented(self):
        files = [path for path in SCENARIOS.rglob("*") if path.suffix in (".yaml", ".geojson")]
        for path in files:
            self.assertIn("invented", "".join(path.read_text().splitlines(True)[:3]), path)

    def test_every_site_introduces_itself_in_its_first_line(self):
        for site in SITES:
            self.assertRegex(site.read_text().splitlines()[0], r"^# An? [^.]+\. ", site)

    def test_the_map_of_the_estate_is_what_its_program_makes(self):
        self.assertEqual((SCENARIOS / "estate" / "map.yaml").read_text(), estate())


class Winners(unittest.TestCase):
    def test_home_runs_win_at_the_studio_where_an_enclosure_saves_less_than_it_costs(self):
        self.assertEqual(compared("studio")[1]["cheapest"], "home-runs")
        home_runs, trunk = layout_of("studio", "home-runs"), layout_of("studio", "trunk")
        saved = cost(home_runs, "cable", "ducts") - cost(trunk, "cable", "ducts")
        self.assertLess(saved, cost(trunk, "enclosures"))
        chain = layout_of("studio", "daisy-chain")
        self.assertLess(cost(home_runs, "endpoint-gear", "optics"), cost(chain, "endpoint-gear", "optics"))

    def test_one_trunk_wins_at_the_lakeside_where_it_saves_more_cable_and_duct_than_the_enclosure_costs(self):
        self.assertEqual(compared("lakeside")[1]["cheapest"], "trunk-one")
        home_runs, trunk = layout_of("lakeside", "home-runs"), winner_of("lakeside")
        self.assertEqual([each["place"] for each in trunk["enclosures"]], ["lawn-corner"])
        saved = cost(home_runs, "cable", "ducts") - cost(trunk, "cable", "ducts")
        self.assertGreater(saved, cost(trunk, "enclosures", "terminations") - cost(home_runs, "terminations"))

    def test_several_trunks_win_on_the_estate(self):
        winner = winner_of("estate")
        self.assertIn(winner["layout"], ("trunk", "mixed"))
        self.assertGreaterEqual(len(winner["enclosures"]), 2)
        self.assertEqual(kinds_of_cable(winner), {"trunk", "drop"})

    def test_a_mix_wins_on_the_campus_with_home_runs_in_old_ducts_and_trunks_beyond_the_road(self):
        self.assertEqual(compared("campus")[1]["cheapest"], "mixed")
        winner = winner_of("campus")
        self.assertEqual(kinds_of_cable(winner), {"run", "trunk", "drop"})
        self.assertIn("public road", grounds_dug(winner))
        self.assertIn("existing duct", {trench["ground"] for trench in winner["trenches"]})

    def test_home_runs_on_the_campus_outgrow_the_old_ducts(self):
        home_runs, winner = layout_of("campus", "home-runs"), winner_of("campus")
        self.assertGreater(home_runs["trench_m"], winner["trench_m"] + 100)

    def test_a_daisy_chain_wins_in_the_village_by_its_short_cables(self):
        self.assertEqual(compared("village")[1]["cheapest"], "daisy-chain")
        chain, home_runs = winner_of("village"), layout_of("village", "home-runs")
        self.assertLess(cost(chain, "cable"), cost(home_runs, "cable") / 2)
        self.assertEqual(kinds_of_cable(chain), {"hop"})

    def test_between_them_every_layout_wins_somewhere(self):
        winners = {compared(site.stem)[1]["cheapest"] for site in SITES}
        self.assertLessEqual({"home-runs", "trunk-one", "mixed", "daisy-chain"}, winners)

    def test_the_winner_is_ahead_by_more_than_small_change(self):
        for name in ("lakeside", "studio", "campus", "village"):
            totals = sorted({each["total_cost"] for each in compared(name)[1]["layouts"]})
            self.assertGreater(totals[1], 1.015 * totals[0], name)

    def test_the_report_says_in_words_what_the_winner_saves(self):
        for name, saving in {"lakeside": "endpoint gear", "studio": "enclosures", "campus": "endpoint gear",
                             "village": "cable"}.items():
            report = " ".join(report_of(name).split())
            self.assertIn(f"It saves most on {saving} (", report, name)


class Sizes(unittest.TestCase):
    def test_the_estate_has_forty_buildings_and_a_thousand_segments(self):
        self.assertEqual(len({link["building"] for link in winner_of("estate")["links"]}), 40)
        segments = (SCENARIOS / "estate" / "map.yaml").read_text().count("from:")
        self.assertTrue(950 <= segments <= 1050, segments)

    def test_the_village_is_over_five_kilometres_long_and_measured_in_feet(self):
        text = (SCENARIOS / "village.yaml").read_text()
        self.assertIn("units: feet", text)
        winner = winner_of("village")
        route_m = sum(trench["length_m"] for trench in winner["trenches"])
        self.assertGreater(route_m, 5000)
        self.assertIn("pole line", {trench["ground"] for trench in winner["trenches"]})

    def test_the_campus_lies_in_the_open_sea(self):
        features = json.loads((SCENARIOS / "campus.geojson").read_text())["features"]
        for feature in features:
            for longitude, latitude in positions(feature["geometry"]["coordinates"]):
                self.assertTrue(-30.1 < longitude < -29.9 and 44.9 < latitude < 45.1, feature["id"])


def positions(coordinates):
    if isinstance(coordinates[0], float):
        return [coordinates]
    return [position for part in coordinates for position in positions(part)]


class Infeasible(unittest.TestCase):
    def test_nothing_can_be_built_to_the_remote_mast_and_every_layout_says_why(self):
        code, result = compared("remote-mast")
        self.assertEqual(code, INFEASIBLE)
        self.assertIsNone(result["cheapest"])
        self.assertGreaterEqual(len(result["layouts"]), 3)
        for layout in result["layouts"]:
            self.assertEqual(layout["status"], "infeasible")
            self.assertRegex(layout["reason"], r"mast.* km of glass is beyond the longest reach of 30\.000 km")


if __name__ == "__main__":
    unittest.main()
