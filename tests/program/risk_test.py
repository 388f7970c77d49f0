"""spadework risk, sweep and merge, end to end."""

import csv
import json
import os
import pathlib
import pty
import re
import select
import shutil
import signal
import subprocess
import tempfile
import unittest

from running import (INTERRUPTED, INVALID_SITE, OK, PATIENCE_SECONDS, PROGRAM, SCENARIOS, USAGE, read_until_closed, run,
                     run_bytes)

ORCHARD = SCENARIOS / "orchard.yaml"
LAKESIDE = SCENARIOS / "lakeside.yaml"


def price_site(folder):
    """Lakeside with ranges of prices alone, so that draws take microseconds."""
    text = LAKESIDE.read_text()
    for passage, replacement in (("groundworks-rate: 62", "groundworks-rate: {low: 50, likely: 62, high: 90}"),
                                 ("strands: 12, price: 1.30", "strands: 12, price: {low: 1, likely: 1.3, high: 2.8}")):
        assert passage in text
        text = text.replace(passage, replacement)
    path = pathlib.Path(folder) / "open.yaml"
    path.write_text(text)
    return path


def holds_a_picture_and_no_heading_twice(test, page):
    test.assertIn("<svg", page)
    headings = re.findall("<h2[^>]*>(.*?)</h2>", page)
    captions = re.findall("<caption>(.*?)</caption>", page)
    test.assertGreater(len(headings), 1)
    test.assertEqual([name for name in captions if name in headings], [])


FEW = ("--draws", "400", "--plans", "2", "--checks", "1")


class Risk(unittest.TestCase):
    def setUp(self):
        self.temporary = tempfile.TemporaryDirectory()
        self.folder = pathlib.Path(self.temporary.name)
        self.site = price_site(self.folder)

    def tearDown(self):
        self.temporary.cleanup()

    def test_the_answer_is_the_same_whatever_the_threads_and_differs_with_the_random_seed(self):
        one = run("risk", self.site, *FEW, "--threads", "1")
        self.assertEqual((one.code, one.err), (OK, ""))
        self.assertEqual(run("risk", self.site, *FEW, "--threads", "3").out, one.out)
        self.assertNotEqual(run("risk", self.site, *FEW, "--random-seed", "9").out, one.out)

    def test_four_shards_merge_into_what_the_single_run_prints_byte_for_byte(self):
        whole = run_bytes("risk", self.site, *FEW)
        self.assertEqual(whole.code, OK)
        files = []
        for part in (2, 4, 1, 3):
            ended = run("risk", self.site, *FEW, "--shard", f"{part}/4")
            self.assertEqual(ended.code, OK, ended.err)
            files.append(self.folder / f"{part}.json")
            files[-1].write_text(ended.out)
        self.assertEqual(run_bytes("merge", *files), whole)
        self.assertEqual(run_bytes("merge", *files, "--format", "json").out, run_bytes("risk", self.site, *FEW, "--json").out)
        missing = run("merge", *files[:3])
        self.assertEqual(missing.code, INVALID_SITE)
        self.assertIn("draws 200 to 299 before it are in no file", missing.err)

    def test_a_portfolio_runs_side_by_side_under_a_parallel_runner(self):
        runner = shutil.which("xargs")
        if runner is None:
            self.skipTest("skipped: no xargs (Debian package findutils)")
        jobs = [f"{site} {part}" for site in (self.site, ORCHARD) for part in (1, 2)]
        script = f'"{PROGRAM}" risk "$0" --draws 64 --plans 1 --checks 0 --shard "$1/2" > "{self.folder}/$(basename "$0").$1"'
        subprocess.run([runner, "-P", "2", "-n", "2", "sh", "-c", script], input="\n".join(jobs), text=True, check=True,
                       timeout=PATIENCE_SECONDS)
        for site in (self.site, ORCHARD):
            parts = [self.folder / f"{site.name}.{part}" for part in (1, 2)]
            merged = run("merge", *parts)
            self.assertEqual(merged.out, run("risk", site, "--draws", "64", "--plans", "1", "--checks", "0").out)
        foreign = run("merge", self.folder / "open.yaml.1", self.folder / "orchard.yaml.2")
        self.assertEqual(foreign.code, INVALID_SITE)
        self.assertIn("another site", foreign.err)

    def test_gnu_parallel_runs_the_parts_too(self):
        runner = shutil.which("parallel")
        if runner is None:
            self.skipTest("skipped: no GNU parallel (Debian package parallel)")
        subprocess.run([runner, "--will-cite", "-j", "2", f"{PROGRAM} risk {self.site} {' '.join(FEW)} --shard {{}}/2 > "
                        f"{self.folder}/p{{}}", ":::", "1", "2"], check=True, timeout=PATIENCE_SECONDS,
                       stdin=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.assertEqual(run("merge", self.folder / "p1", self.folder / "p2").out, run("risk", self.site, *FEW).out)

    def test_every_total_of_the_tables_is_that_of_the_draws(self):
        out = self.folder / "out"
        ended = run("risk", self.site, *FEW, "--out", out)
        self.assertEqual(ended.code, OK, ended.err)
        self.assertEqual((out / "risk.txt").read_text(), ended.out)
        with open(out / "risk-draws.csv", newline="") as table:
            draws = list(csv.DictReader(table))
        self.assertEqual(len(draws), 400)
        study = json.loads((out / "risk.json").read_text())
        for layout in study["layouts"]:
            totals = sorted(float(draw[layout["layout"] + "_best"]) for draw in draws)
            self.assertAlmostEqual(layout["mean"][0], sum(totals) / len(totals), places=2)
            middle = (totals[199] + totals[200]) / 2
            self.assertAlmostEqual(layout["p50"][0], middle, places=2)
            least = [min(float(total) for name, total in draw.items() if name.endswith("_best")) for draw in draws]
            as_cheap = [float(draw[layout["layout"] + "_best"]) == cheapest for draw, cheapest in zip(draws, least)]
            self.assertAlmostEqual(layout["cheapest_share"][0], sum(as_cheap) / len(draws), places=5)
        holds_a_picture_and_no_heading_twice(self, (out / "risk.html").read_text())

    def test_a_file_without_ranges_has_no_risk_to_study(self):
        ended = run("risk", LAKESIDE)
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertIn("no value is a range", ended.err)

    def test_wrong_options_are_refused(self):
        for arguments in (["--shard", "5/4"], ["--shard", "x"], ["--draws", "3"], ["--draws", "many"]):
            ended = run("risk", self.site, *arguments)
            self.assertEqual((ended.code, ended.out), (USAGE, ""), arguments)

    def test_what_cannot_be_merged_is_told_with_what_is_wanted(self):
        none = run("merge")
        self.assertEqual((none.code, none.out), (USAGE, ""))
        self.assertIn("no files; expected those that all parts of 'spadework risk --shard' have printed", none.err)
        ended = run("merge", self.folder / "nowhere", LAKESIDE)
        self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
        self.assertIn("nowhere: error: cannot be read: ", ended.err)
        self.assertIn("lakeside.yaml:1:1: error: '#'; expected a part of a risk study, which begins with '{'", ended.err)

    def test_the_random_seed_has_one_name_for_every_command_and_a_short_one(self):
        command = ("sweep", LAKESIDE, "--vary", "labour.groundworks-rate", "--from", "20", "--to", "120", "--points", "2",
                   "--layouts", "home-runs,trunk-one")
        self.assertEqual(run(*command, "--seed", "9").out, run(*command, "--random-seed", "9").out)
        for name in ("--seed", "--random-seed"):
            refused = run("compare", LAKESIDE, name, "-1")
            self.assertEqual((refused.code, refused.out), (USAGE, ""))
            self.assertIn("'-1' is not a whole number from 0 to 2^64-1", refused.err)

    def test_compare_says_that_values_are_ranges(self):
        ended = run("compare", self.site, "--layouts", "home-runs")
        self.assertIn("2 values of the site file are ranges; the likely value counts here.", ended.out)
        self.assertNotIn("ranges", run("compare", LAKESIDE, "--layouts", "home-runs").out)

    def test_check_shows_ranges_among_the_values_in_force(self):
        ended = run("check", self.site, "--show-defaults")
        self.assertIn("50 to 90, likely 62,", ended.out)

    def test_ctrl_c_prints_what_there_is(self):
        ours, theirs = pty.openpty()
        process = subprocess.Popen([PROGRAM, "risk", str(self.site), "--draws", "1000000", "--json"],
                                   stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=theirs)
        os.close(theirs)
        self.assertTrue(select.select([ours], [], [], PATIENCE_SECONDS)[0], "no progress was drawn")
        process.send_signal(signal.SIGINT)
        out, _ = process.communicate(timeout=PATIENCE_SECONDS)
        screen = read_until_closed(ours)
        os.close(ours)
        self.assertEqual(process.returncode, INTERRUPTED, screen)
        study = json.loads(out)
        self.assertNotEqual(study["interrupted"], "")
        self.assertLess(study["draws"], 1000000)
        self.assertGreater(study["draws"], 0)


class Sweep(unittest.TestCase):
    def test_a_sweep_prints_points_and_changes_and_writes_them(self):
        with tempfile.TemporaryDirectory() as folder:
            ended = run("sweep", LAKESIDE, "--vary", "labour.groundworks-rate", "--from", "20", "--to", "120", "--points",
                        "6", "--out", folder)
            self.assertEqual((ended.code, ended.err), (OK, ""))
            self.assertEqual((pathlib.Path(folder) / "sweep.txt").read_text(), ended.out)
            sweep = json.loads((pathlib.Path(folder) / "sweep.json").read_text())
            self.assertEqual([point["at"][0] for point in sweep["points"]], [20, 40, 60, 80, 100, 120])
            for point in sweep["points"]:
                for layout in point["layouts"]:
                    self.assertLessEqual(layout["lower_bound"], layout["total"])
            holds_a_picture_and_no_heading_twice(self, (pathlib.Path(folder) / "sweep.html").read_text())

    def test_keys_may_be_written_with_points(self):
        arguments = ("--from", "1", "--to", "9", "--points", "2", "--layouts", "home-runs,trunk")
        brackets = run("sweep", LAKESIDE, "--vary", "grounds[grass].methods[plough].plant", *arguments)
        points = run("sweep", LAKESIDE, "--vary", "grounds.grass.methods.plough.plant", *arguments)
        self.assertEqual(brackets.code, OK, brackets.err)
        self.assertEqual(points.out, brackets.out)

    def test_ranges_of_a_geojson_map_are_drawn_and_swept(self):
        with tempfile.TemporaryDirectory() as name:
            folder = pathlib.Path(name)
            for file in ("campus.yaml", "prices"):
                (shutil.copytree if (SCENARIOS / file).is_dir() else shutil.copy)(SCENARIOS / file, folder / file)
            text = (SCENARIOS / "campus.geojson").read_text()
            self.assertEqual(text.count('"amount": 850'), 1)
            site = folder / "campus.yaml"
            (folder / "campus.geojson").write_text(
                text.replace('"amount": 850', '"amount": {"low": 400, "likely": 850, "high": 9000}'))
            risk = run("risk", site, *FEW, "--layouts", "home-runs,trunk-one", "--format", "json")
            self.assertEqual((risk.code, risk.err), (OK, ""))
            key = "map.geojson[road-bore].charges[permit of the road authority].amount"
            self.assertIn(key, risk.out)
            swept = run("sweep", site, "--vary", key, "--from", "850", "--to", "1850", "--points", "2", "--layouts",
                        "home-runs", "--format", "json")
            self.assertEqual((swept.code, swept.err), (OK, ""))
            totals = [point["layouts"][0]["total"] for point in json.loads(swept.out)["points"]]
            # Contingency and tax are on top of the 1,000 that the permit costs more.
            on_top = totals[1] - totals[0]
            (folder / "campus.geojson").write_text(text.replace('"amount": 850', '"amount": 1850'))
            dearer = json.loads(run("compare", site, "--layouts", "home-runs", "--format", "json").out)
            (folder / "campus.geojson").write_text(text)
            plain = json.loads(run("compare", site, "--layouts", "home-runs", "--format", "json").out)
            by_compare = dearer["layouts"][0]["total_cost"] - plain["layouts"][0]["total_cost"]
            self.assertGreater(by_compare, 1000)
            self.assertAlmostEqual(on_top, by_compare, places=2)
            (folder / "campus.geojson").write_text(text.replace('"amount": 850', '"amount": {"low": 900, "high": 1}'))
            wrong = run("risk", site)
            self.assertEqual(wrong.code, INVALID_SITE)
            self.assertRegex(wrong.err, r"campus\.geojson:22:\d+: error: low 900 is above high 1")

    def test_mistakes_are_told(self):
        for arguments, said in ((["--vary", "labour.groundwork-rate", "--from", "1", "--to", "2"],
                                 "did you mean 'labour.groundworks-rate'?"),
                                (["--vary", "distance", "--from", "2", "--to", "1"], "--from 2 is not below --to 1"),
                                (["--vary", "distance", "--from", "1"], "each --vary wants a --from and a --to"),
                                (["--vary", "distance", "--from", "1", "--to", "x"], "'x' is not a number"),
                                (["--vary", "rules.hop-limit", "--from", "1", "--to", "4", "--points", "3"],
                                 "hop-limit would be 2.5; expected a whole number"),
                                ([], "--vary is given 0 times")):
            ended = run("sweep", LAKESIDE, *arguments)
            self.assertEqual((ended.code, ended.out), (USAGE, ""), arguments)
            self.assertIn(said, ended.err)


if __name__ == "__main__":
    unittest.main()
