"""spadework compare --explain, end to end: why the cheapest plan is as it is."""

import csv
import decimal
import io
import json
import pathlib
import pty
import select
import signal
import os
import subprocess
import tempfile
import unittest

from interrupt_test import large_site
from running import INFEASIBLE, INTERRUPTED, OK, PATIENCE_SECONDS, PROGRAM, SCENARIOS, read_until_closed, run

LAKESIDE = SCENARIOS / "lakeside.yaml"


def parsed(text):
    """JSON with amounts as exact decimals."""
    return json.loads(text, parse_float=decimal.Decimal, parse_int=decimal.Decimal)


def explanation_of(*options, site=LAKESIDE):
    ended = run("compare", site, "--explain", "--format", "json", *options)
    return ended.code, parsed(ended.out)


class Explain(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def test_the_section_follows_the_usual_output(self):
        plain, explained = run("compare", LAKESIDE), run("compare", LAKESIDE, "--explain")
        self.assertEqual((explained.code, explained.err), (OK, ""))
        self.assertTrue(explained.out.startswith(plain.out))
        section = explained.out[len(plain.out):]
        for wanted in ("Why this plan", "(EUR)", "(m)", "lawn-corner", "cabins", "Total"):
            self.assertIn(wanted, section)

    def test_every_building_and_enclosure_of_the_cheapest_plan_is_explained(self):
        for layouts in ("home-runs", "trunk-one", "mixed", "daisy-chain", "ring"):
            with self.subTest(layouts=layouts):
                code, result = explanation_of("--layouts", layouts)
                self.assertEqual(code, OK)
                explanation, layout = result["explanation"], result["layouts"][0]
                self.assertEqual(explanation["layout"], layout["layout"])
                self.assertFalse(explanation["interrupted"])
                self.assertEqual([one["building"] for one in explanation["buildings"]],
                                 ["boathouse", "cabins", "kiosk", "sauna"])
                self.assertEqual([one["place"] for one in explanation["enclosures"]],
                                 [one["place"] for one in layout["enclosures"]])

    def test_leaving_a_building_out_saves_what_the_program_finds_without_it(self):
        """The site file without the kiosk is the same site to the program, solved in full."""
        result = explanation_of("--layouts", "home-runs")[1]
        kiosk = next(one for one in result["explanation"]["buildings"] if one["building"] == "kiosk")
        text = LAKESIDE.read_text()
        start = text.index("  - id: kiosk\n")
        end = text.index("\n\n", start)
        without = self.folder / "without.yaml"
        without.write_text(text[:start].rstrip() + text[end:])
        fewer = parsed(run("compare", without, "--layouts", "home-runs", "--format", "json").out)
        self.assertEqual(len(fewer["layouts"][0]["links"]), 3)
        self.assertEqual(kiosk["left_out"]["extra_cost"],
                         fewer["layouts"][0]["total_cost"] - result["layouts"][0]["total_cost"])

    def test_an_enclosure_elsewhere_costs_what_the_ranking_of_places_says(self):
        ranking = parsed(run("enclosure", LAKESIDE, "--format", "json").out)["ranking"]
        result = explanation_of("--layouts", "trunk-one")[1]
        reason = result["explanation"]["enclosures"][0]
        self.assertEqual(reason["place"], ranking[0]["place"])
        self.assertEqual(reason["elsewhere"]["extra_cost"], ranking[1]["over_best"])
        self.assertEqual(reason["elsewhere"]["enclosures"], [ranking[1]["place"]])

    def test_the_answer_is_the_same_byte_for_byte_whatever_the_threads(self):
        for site in ("lakeside.yaml", "village.yaml"):
            one, many = (run("compare", SCENARIOS / site, "--explain", "--threads", threads, "--time-limit", "1000",
                             "--layouts", "home-runs,trunk-one")
                         for threads in (1, 5))
            self.assertEqual(one.code, OK)
            self.assertEqual(one, many)

    def test_out_writes_the_table_and_a_later_run_without_it_removes_it(self):
        ended = run("compare", LAKESIDE, "--explain", "--out", self.folder, "--format", "json")
        self.assertEqual(ended.code, OK)
        self.assertEqual((self.folder / "comparison.json").read_text(), ended.out)
        self.assertIn("Why this plan", (self.folder / "comparison.txt").read_text())
        rows = list(csv.DictReader(io.StringIO((self.folder / "explanation.csv").read_bytes().decode())))
        explanation = parsed(ended.out)["explanation"]
        self.assertEqual(len(rows), 2 * len(explanation["buildings"]) + 2 * len(explanation["enclosures"]))
        saved = [decimal.Decimal(row["extra_cost"]) for row in rows if (row["part"], row["change"]) ==
                 ("building", "left-out")]
        self.assertEqual(saved, [one["left_out"]["extra_cost"] for one in explanation["buildings"]])
        run("compare", LAKESIDE, "--out", self.folder)
        self.assertFalse((self.folder / "explanation.csv").exists())

    def test_a_site_that_nothing_serves_has_nothing_to_explain(self):
        site = self.folder / "infeasible.yaml"
        site.write_text(LAKESIDE.read_text().replace("links: [{rate: 1G}]", "links: [{rate: 100G}]"))
        code, result = explanation_of(site=site)
        self.assertEqual(code, INFEASIBLE)
        self.assertIsNone(result["explanation"])
        self.assertIn("no plan to explain", run("compare", site, "--explain").out)

    def test_without_the_option_nothing_is_explained(self):
        self.assertNotIn("explanation", parsed(run("compare", LAKESIDE, "--format", "json").out))

    def test_after_ctrl_c_what_was_not_looked_at_is_said(self):
        site = self.folder / "site.yaml"
        site.write_text(large_site())
        ours, theirs = pty.openpty()
        process = subprocess.Popen([PROGRAM, "compare", str(site), "--explain", "--time-limit", "60", "--layouts",
                                    "home-runs"], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=theirs)
        os.close(theirs)
        self.assertTrue(select.select([ours], [], [], PATIENCE_SECONDS)[0], "no progress was drawn")
        process.send_signal(signal.SIGINT)
        out, _ = process.communicate(timeout=PATIENCE_SECONDS)
        screen = read_until_closed(ours)
        os.close(ours)
        self.assertEqual(process.returncode, INTERRUPTED, screen)
        self.assertIn(b"not looked at", out)


if __name__ == "__main__":
    unittest.main()
