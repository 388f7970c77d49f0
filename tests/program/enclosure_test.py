"""spadework enclosure, end to end."""

import json
import pathlib
import tempfile
import unittest

from running import INFEASIBLE, OK, SCENARIOS, run

LAKESIDE = SCENARIOS / "lakeside.yaml"


def ranked(path, *options):
    ended = run("enclosure", path, "--format", "json", *options)
    return ended.code, json.loads(ended.out)


class Enclosure(unittest.TestCase):
    def test_every_shipped_scenario_is_ranked_from_the_cheapest_place_up(self):
        for path in SCENARIOS.glob("*.yaml"):
            with self.subTest(site=path.stem):
                code, study = ranked(path, "--time-limit", "2")
                ranking = study["ranking"]
                self.assertEqual(code, OK if ranking else INFEASIBLE)
                totals = [place["total_cost"] for place in ranking]
                self.assertEqual(totals, sorted(totals))
                for place in ranking:
                    self.assertAlmostEqual(place["over_best"], place["total_cost"] - totals[0], places=2)
                    if place["over_best"] > 0:
                        self.assertRegex(place["why"], r"[0-9]\.[0-9]+ more")

    def test_every_place_is_either_ranked_or_barred_with_a_reason(self):
        study = ranked(LAKESIDE)[1]
        ranking = [place["place"] for place in study["ranking"]]
        barred = [place["place"] for place in study["barred"]]
        self.assertEqual(sorted(ranking + barred), sorted(set(ranking + barred)))
        self.assertIn("lawn-corner", ranking)
        reasons = {place["place"]: place["reason"] for place in study["barred"]}
        self.assertIn("floods in spring", reasons["jetty"])
        self.assertTrue(all(reasons.values()))

    def test_the_best_place_is_that_of_the_layout_with_one_enclosure(self):
        best = ranked(LAKESIDE)[1]["ranking"][0]
        compared = json.loads(run("compare", LAKESIDE, "--format", "json", "--layouts", "trunk-one").out)
        layout = compared["layouts"][0]
        self.assertEqual(best["place"], layout["enclosures"][0]["place"])
        self.assertEqual(best["total_cost"], layout["total_cost"])

    def test_the_answer_does_not_depend_on_the_threads(self):
        one = run("enclosure", LAKESIDE, "--threads", "1")
        self.assertEqual(run("enclosure", LAKESIDE, "--threads", "5"), one)

    def test_out_writes_what_is_printed(self):
        with tempfile.TemporaryDirectory() as folder:
            text = run("enclosure", LAKESIDE, "--out", folder)
            self.assertEqual((text.code, text.err), (OK, ""))
            self.assertEqual((pathlib.Path(folder) / "enclosure.txt").read_text(), text.out)
            self.assertEqual((pathlib.Path(folder) / "enclosure.json").read_text(),
                             run("enclosure", LAKESIDE, "--format", "json").out)


if __name__ == "__main__":
    unittest.main()
