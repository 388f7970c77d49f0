"""compare --keep: a building joins, and what was plugged stays where it is."""

import csv
import json
import pathlib
import tempfile
import unittest

from running import INVALID_SITE, OK, SCENARIOS, USAGE, run

LAKESIDE = SCENARIOS / "lakeside.yaml"
PLACES = ["building", "link", "near_place", "near_adapter", "near_port", "far_place", "far_adapter", "far_port"]


def strands_in_use(folder):
    """What the strand map says of each strand in use, by its label."""
    with open(folder / "strand-map.csv", newline="") as table:
        return {row["label"]: [row[name] for name in PLACES] for row in csv.DictReader(table)
                if row["purpose"] == "in use"}


class Keep(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)
        text = LAKESIDE.read_text()
        begin = text.index("  - id: boathouse\n")
        cls.before = cls.folder / "before.yaml"
        cls.before.write_text(text[:begin] + text[text.index("  - id: kiosk\n", begin):])
        cls.compare(cls.before, cls.folder / "before")
        cls.plan = cls.folder / "before" / "plan.json"

    @staticmethod
    def compare(site, out, *options, layouts="trunk-one"):
        ended = run("compare", site, "--layouts", layouts, "--time-limit", "2", "--out", out, *options)
        assert ended.code == OK, ended.err
        return ended

    def test_every_strand_in_use_stays_where_it_was(self):
        ended = self.compare(LAKESIDE, self.folder / "kept", "--keep", self.plan)
        before, kept = strands_in_use(self.folder / "before"), strands_in_use(self.folder / "kept")
        self.assertEqual({label: kept[label] for label in before}, before)
        self.assertIn("Of the 12 strands in use of the earlier plan, 12 stay as they are",
                      " ".join(ended.out.split()))

    def test_without_it_the_newcomer_takes_the_first_strands(self):
        self.compare(LAKESIDE, self.folder / "anew")
        before, anew = strands_in_use(self.folder / "before"), strands_in_use(self.folder / "anew")
        self.assertNotEqual({label: anew[label] for label in before}, before)

    def test_what_could_not_be_kept_is_said_in_text_and_json(self):
        ended = self.compare(LAKESIDE, self.folder / "runs", "--keep", self.plan, layouts="home-runs")
        self.assertIn("Of the 12 strands in use of the earlier plan, 0 stay", " ".join(ended.out.split()))
        self.assertIn("This plan has no cable trunk-lawn-corner.", ended.out)
        (layout,) = json.loads((self.folder / "runs" / "comparison.json").read_text())["layouts"]
        self.assertIn("This plan has no cable drop-kiosk.", layout["kept"])

    def test_a_plan_file_with_errors_is_refused(self):
        broken = self.folder / "broken.json"
        broken.write_text(self.plan.read_text().replace('"strand": 2,', '"strand": 1,', 1))
        ended = run("compare", LAKESIDE, "--keep", broken)
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertIn("strand 1 of 'trunk-lawn-corner' twice", ended.err)
        self.assertEqual(ended.out, "")
        self.assertEqual(run("compare", "-", "--keep", "-").code, USAGE)


if __name__ == "__main__":
    unittest.main()
