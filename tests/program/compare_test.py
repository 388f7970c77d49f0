"""spadework compare, end to end: what it prints and writes, and how it ends."""

import decimal
import functools
import json
import os
import pathlib
import subprocess
import tempfile
import unittest

from running import CANNOT_WRITE, INFEASIBLE, INVALID_SITE, OK, PROGRAM, SCENARIOS, run

LAKESIDE = SCENARIOS / "lakeside.yaml"
FIELDS = {"site", "currency", "seed", "cheapest", "layouts"}
LAYOUT_FIELDS = {"layout", "status", "reason", "total_cost", "lower_bound", "gap", "cost_by_category", "labour_hours",
                 "trench_m", "trench_m_by_ground", "cable_m_by_strands", "enclosures", "trenches", "cables", "links",
                 "findings"}


def parsed(text):
    """JSON with amounts as exact decimals."""
    return json.loads(text, parse_float=decimal.Decimal, parse_int=decimal.Decimal)


def compare_json(path, *options):
    ended = run("compare", path, "--format", "json", *options)
    return ended.code, parsed(ended.out)


@functools.cache
def compared_in_short():
    """Site, exit code and result of every shipped site, compared once for all tests."""
    return [(path.stem, *compare_json(path, "--time-limit", "2")) for path in sorted(SCENARIOS.glob("*.yaml"))]


class Compare(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def infeasible_site(self):
        """The lakeside site with links that no optic of its catalogue carries."""
        path = self.folder / "infeasible.yaml"
        path.write_text(LAKESIDE.read_text().replace("links: [{rate: 1G}]", "links: [{rate: 100G}]"))
        return path

    def test_the_text_names_every_layout_the_verdict_and_the_currency(self):
        ended = run("compare", LAKESIDE)
        self.assertEqual((ended.code, ended.err), (OK, ""))
        for wanted in ("Home runs", "Trunk", "Daisy chain", "EUR", "Cautions"):
            self.assertIn(wanted.lower(), ended.out.lower())

    def test_the_json_has_the_fields_it_promises(self):
        code, result = compare_json(LAKESIDE)
        self.assertEqual(code, OK)
        self.assertLessEqual(FIELDS, set(result))
        self.assertLessEqual({"name", "digest"}, set(result["site"]))
        for layout in result["layouts"]:
            self.assertLessEqual(LAYOUT_FIELDS, set(layout), layout["layout"])

    def test_every_feasible_layout_adds_up(self):
        for site, _, result in compared_in_short():
            for layout in result["layouts"]:
                if layout["status"] == "feasible":
                    with self.subTest(site=site, layout=layout["layout"]):
                        self.adds_up(layout)

    def adds_up(self, layout):
        total, bound = layout["total_cost"], layout["lower_bound"]
        self.assertEqual(sum(layout["cost_by_category"].values()), total)
        self.assertLessEqual(0, bound)
        self.assertLessEqual(bound, total)
        self.assertAlmostEqual(layout["gap"], (total - bound) / total, places=5)
        dug = {}
        for trench in layout["trenches"]:
            if trench["dug"]:
                dug[trench["ground"]] = dug.get(trench["ground"], 0) + trench["length_m"]
        self.assertEqual(dug, layout["trench_m_by_ground"])
        self.assertEqual(sum(dug.values()), layout["trench_m"])
        self.assertEqual(sum(trench["length_m"] for trench in layout["trenches"]),
                         layout["trench_m"] + layout["reused_m"])
        by_strands = {}
        for cable in layout["cables"]:
            metres = by_strands.setdefault(str(cable["strands"]), [0, 0])
            metres[0] += cable["route_m"]
            metres[1] += cable["ordered_m"]
        self.assertEqual(by_strands, {strands: [metres["route_m"], metres["ordered_m"]]
                                      for strands, metres in layout["cable_m_by_strands"].items()})
        for link in layout["links"]:
            self.assertAlmostEqual(link["margin_db"], link["limit_db"] - link["loss_db"], places=2)
            self.assertGreaterEqual(link["margin_db"], 0)

    def test_the_cheapest_layout_is_the_feasible_one_of_least_total(self):
        for _, code, result in compared_in_short():
            totals = {layout["layout"]: layout["total_cost"] for layout in result["layouts"]
                      if layout["status"] == "feasible"}
            self.assertEqual(code, OK if totals else INFEASIBLE)
            if totals:
                self.assertEqual(totals[result["cheapest"]], min(totals.values()))
            else:
                self.assertIsNone(result["cheapest"])

    def test_the_answer_is_the_same_byte_for_byte_whatever_the_threads_the_locale_and_the_folder(self):
        first = run("compare", LAKESIDE, "--format", "json", "--threads", "1")
        self.assertEqual(first.code, OK)
        again = run("compare", LAKESIDE, "--format", "json", "--threads", "1")
        many = run("compare", LAKESIDE, "--format", "json", "--threads", "7")
        abroad = run("compare", LAKESIDE, "--format", "json", environment={"LC_ALL": "de_DE.UTF-8", "LANG": "tr_TR"})
        elsewhere = run("compare", "lakeside.yaml", "--format", "json", cwd=SCENARIOS)
        for other in (again, many, abroad, elsewhere):
            self.assertEqual(other, first)

    def test_only_the_layouts_asked_for_are_compared_in_their_usual_order(self):
        result = compare_json(LAKESIDE, "--layouts", "daisy-chain,home-runs")[1]
        self.assertEqual([layout["layout"] for layout in result["layouts"]], ["home-runs", "daisy-chain"])

    def test_rings_are_compared_and_stand_the_cuts_that_the_map_lets_them_stand(self):
        layouts = {layout["layout"]: layout for layout in compare_json(LAKESIDE)[1]["layouts"]}
        ring = layouts["ring"]
        self.assertEqual(ring["status"], "feasible")
        roles = [cable["role"] for cable in ring["cables"]]
        self.assertEqual(sorted(set(roles)), ["closing", "hop"])
        self.assertEqual(roles.count("hop"), 4)
        back = [link for link in ring["links"] if link["from"] == "hub" and link["number"] > 1]
        self.assertEqual(len(back), roles.count("closing"))
        self.assertGreater(ring["total_cost"], layouts["daisy-chain"]["total_cost"])
        text = run("compare", LAKESIDE).out
        self.assertRegex(text, r"Mixed +Daisy chain +Ring\n")

    def test_the_seed_is_reported(self):
        self.assertEqual(compare_json(LAKESIDE, "--seed", "18446744073709551615")[1]["seed"], 2**64 - 1)

    def test_the_shortest_time_limit_still_gives_a_plan_and_a_bound(self):
        code, result = compare_json(LAKESIDE, "--time-limit", "0.000001")
        self.assertEqual(code, OK)
        for layout in result["layouts"]:
            self.assertEqual(layout["status"], "feasible")
            self.adds_up(layout)

    def test_a_site_that_nothing_serves_is_a_result_with_a_reason_and_its_own_exit_code(self):
        code, result = compare_json(self.infeasible_site())
        self.assertEqual(code, INFEASIBLE)
        for layout in result["layouts"]:
            self.assertEqual(layout["status"], "infeasible")
            self.assertNotIn(layout["reason"], ("", None))
        ended = run("compare", self.infeasible_site())
        self.assertEqual(ended.code, INFEASIBLE)
        self.assertIn(result["layouts"][0]["reason"].split()[0], ended.out)

    def test_verbose_adds_reasons_on_standard_error_and_changes_nothing_else(self):
        command = ("compare", SCENARIOS / "campus.yaml", "--layouts", "home-runs", "--time-limit", "1000")
        plain, verbose = run(*command), run(*command, "--verbose")
        self.assertEqual(verbose.out, plain.out)
        self.assertEqual(plain.err, "")
        self.assertIn("existing duct", verbose.err)

    def test_an_invalid_site_prints_no_result(self):
        ended = run("compare", "-", stdin="format: 1\n")
        self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))

    # Files of --out.

    def test_out_writes_files_whose_json_is_the_one_printed(self):
        out = self.folder / "new" / "plan"
        ended = run("compare", LAKESIDE, "--format", "json", "--out", out)
        self.assertEqual(ended.code, OK)
        self.assertEqual((out / "comparison.json").read_text(), ended.out)
        names = {path.name for path in out.iterdir()}
        self.assertTrue(any(name.endswith(".csv") for name in names), names)
        self.assertTrue(any(name.endswith(".geojson") for name in names), names)
        for path in out.glob("*json"):
            json.loads(path.read_text())

    def test_out_writes_a_report_and_each_plan_as_a_drawing_and_for_map_programs(self):
        ended = run("compare", SCENARIOS / "campus.yaml", "--layouts", "home-runs,trunk-one", "--out", self.folder)
        self.assertEqual((ended.code, ended.err), (OK, ""))
        names = {path.name for path in self.folder.iterdir()}
        plans = {f"{plan}.{ending}" for plan in ("plan", "plan-home-runs", "plan-trunk-one")
                 for ending in ("svg", "geojson", "kml")}
        self.assertLessEqual(plans | {"report.html"}, names)
        best = parsed((self.folder / "comparison.json").read_text())["cheapest"]
        for ending in ("svg", "geojson", "kml"):
            self.assertEqual((self.folder / f"plan.{ending}").read_bytes(),
                             (self.folder / f"plan-{best}.{ending}").read_bytes())
        report = (self.folder / "report.html").read_text()
        self.assertIn("Places for one enclosure", report)
        self.assertNotIn("id=\"explanation\"", report)

    def test_a_site_on_a_local_plan_gets_no_kml_and_is_told_why(self):
        ended = run("compare", LAKESIDE, "--out", self.folder)
        self.assertIn("no plan.kml", ended.err)
        self.assertEqual(list(self.folder.glob("*.kml")), [])
        self.assertIn("no plan.kml", (self.folder / "report.html").read_text())
        self.assertEqual(run("compare", LAKESIDE, "--out", self.folder, "--quiet").err, "")

    def test_plans_of_an_earlier_run_that_this_one_has_none_of_are_removed(self):
        run("compare", LAKESIDE, "--out", self.folder, "--explain")
        for name in ("plan.kml", "plan-ring.kml"):
            (self.folder / name).write_text("old")
        self.assertEqual(run("compare", self.infeasible_site(), "--out", self.folder).code, INFEASIBLE)
        names = {path.name for path in self.folder.iterdir()}
        self.assertIn("report.html", names)
        self.assertEqual({name for name in names if name.startswith("plan") or name.startswith("explanation")}, set())

    def test_the_report_is_the_same_byte_for_byte_whatever_the_threads(self):
        pages = []
        for threads in ("1", "3"):
            run("compare", LAKESIDE, "--out", self.folder, "--explain", "--threads", threads)
            pages.append((self.folder / "report.html").read_bytes())
        self.assertEqual(pages[0], pages[1])
        self.assertIn(b"id=\"explanation\"", pages[0])

    def test_out_writes_the_same_files_again_over_the_old_ones_and_leaves_nothing_else(self):
        run("compare", LAKESIDE, "--out", self.folder)
        first = {path.name: path.read_bytes() for path in self.folder.iterdir()}
        (self.folder / "comparison.json").write_text("old")
        run("compare", LAKESIDE, "--out", self.folder)
        self.assertEqual({path.name: path.read_bytes() for path in self.folder.iterdir()}, first)

    def test_what_was_written_before_survives_a_run_that_fails(self):
        run("compare", LAKESIDE, "--out", self.folder)
        before = {path.name: path.read_bytes() for path in self.folder.iterdir()}
        self.assertEqual(run("compare", "-", "--out", self.folder, stdin="format: 1\n").code, INVALID_SITE)
        self.assertEqual({path.name: path.read_bytes() for path in self.folder.iterdir()}, before)

    def test_when_one_file_cannot_be_written_none_is(self):
        (self.folder / "comparison.json").mkdir()
        ended = run("compare", LAKESIDE, "--out", self.folder)
        self.assertEqual((ended.code, ended.out), (CANNOT_WRITE, ""))
        self.assertIn("comparison.json", ended.err)
        self.assertEqual([path.name for path in self.folder.iterdir()], ["comparison.json"])

    def test_a_folder_that_cannot_be_made_is_told_before_any_planning(self):
        (self.folder / "file").write_text("")
        ended = run("compare", LAKESIDE, "--out", self.folder / "file" / "plan")
        self.assertEqual((ended.code, ended.out), (CANNOT_WRITE, ""))
        self.assertIn("cannot write", ended.err)

    # Standard output.

    def test_a_full_device_is_an_error(self):
        with open("/dev/full", "w") as full:
            ended = subprocess.run([PROGRAM, "compare", str(LAKESIDE)], stdout=full, stderr=subprocess.PIPE, text=True)
        self.assertEqual(ended.returncode, CANNOT_WRITE)
        self.assertIn("standard output", ended.stderr)

    def test_a_reader_that_leaves_early_is_no_error(self):
        reading, writing = os.pipe()
        os.close(reading)
        ended = subprocess.run([PROGRAM, "compare", str(LAKESIDE)], stdout=writing, stderr=subprocess.PIPE, text=True)
        os.close(writing)
        self.assertEqual((ended.returncode, ended.stderr), (OK, ""))


if __name__ == "__main__":
    unittest.main()
