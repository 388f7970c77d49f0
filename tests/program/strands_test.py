"""spadework strands and spadework schema, end to end."""

import json
import pathlib
import tempfile
import unittest

from running import INFEASIBLE, OK, SCENARIOS, run

LAKESIDE = SCENARIOS / "lakeside.yaml"


class Strands(unittest.TestCase):
    def test_the_need_of_the_lakeside_site_adds_up(self):
        # 4 duplex links: 8 strands in use; 25 % spare are 2; 20 % headroom are 1.6, a whole 2.
        ended = run("strands", LAKESIDE)
        self.assertEqual((ended.code, ended.err), (OK, ""))
        for line, strands in (("In use", "8"), ("Spare", "2"), ("Headroom", "2"), ("Together", "12")):
            found = [text for text in ended.out.splitlines() if text.startswith(line)]
            self.assertEqual(found[0].split()[-1], strands, found)

    def test_every_shipped_scenario_has_a_recommendation_or_none_fits(self):
        for path in SCENARIOS.glob("*.yaml"):
            ended = run("strands", path, "--format", "json")
            study = json.loads(ended.out)
            self.assertIn(ended.code, (OK, INFEASIBLE), path)
            self.assertEqual(ended.code == OK, bool(study["recommended"]), path)

    def test_no_cable_large_enough_is_infeasible(self):
        text = LAKESIDE.read_text()
        site = "".join(line for line in text.splitlines(True) if "cable-12" not in line and "cable-24" not in line)
        self.assertLess(len(site), len(text))
        ended = run("strands", "-", stdin=site)
        self.assertEqual(ended.code, INFEASIBLE)

    def test_out_writes_what_is_printed(self):
        with tempfile.TemporaryDirectory() as folder:
            ended = run("strands", LAKESIDE, "--out", folder)
            self.assertEqual((pathlib.Path(folder) / "strands.txt").read_text(), ended.out)
            json.loads((pathlib.Path(folder) / "strands.json").read_text())


class Schema(unittest.TestCase):
    def test_the_schema_is_json_and_the_one_shipped(self):
        ended = run("schema")
        self.assertEqual((ended.code, ended.err), (OK, ""))
        self.assertIn("$schema", json.loads(ended.out))
        self.assertEqual(ended.out, (SCENARIOS / "site.schema.json").read_text())


if __name__ == "__main__":
    unittest.main()
