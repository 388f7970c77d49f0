"""The program's accept: readings against a plan file, as a crew would hand them in."""

import csv
import io
import json
import pathlib
import tempfile
import unittest

from running import INVALID_SITE, NOT_ACCEPTED, OK, SCENARIOS, USAGE, run


class Accept(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)
        ended = run("compare", SCENARIOS / "lakeside.yaml", "--layouts", "trunk-one,home-runs", "--time-limit", "2",
                    "--out", cls.folder)
        assert ended.code == OK, ended.err
        cls.sheet = (cls.folder / "test-sheet.csv").read_bytes().decode()
        cls.plan = cls.folder / "trunk-one.plan.json"

    def filled_in(self, change=lambda row: None, delimiter=","):
        """The test sheet with the readings of one layout, each a little below its limit."""
        rows = list(csv.DictReader(io.StringIO(self.sheet)))
        for row in rows:
            if row["layout"] != "trunk-one":
                continue
            row["measured_loss_db"] = f"{float(row['pass_limit_db']) * 0.8:.2f}"
            row["measured_length_m"] = row["fibre_m"]
            row["date"] = "2026-11-20"
            change(row)
        table = io.StringIO()
        writer = csv.DictWriter(table, rows[0].keys(), delimiter=delimiter)
        writer.writeheader()
        writer.writerows(rows)
        return table.getvalue()

    def accept(self, readings, *options, plan=None):
        return run("accept", plan or self.plan, "-", *options, stdin=readings)

    def test_the_shipped_sheet_filled_in_is_accepted_and_the_record_written(self):
        out = self.folder / "record"
        ended = self.accept(self.filled_in(), "--out", out)
        self.assertEqual(ended.code, OK, ended.err)
        self.assertIn("Accepted: all 16 readings pass.", ended.out)
        self.assertEqual(sorted(path.name for path in out.iterdir()),
                         ["as_built.csv", "as_built.html", "as_built.json"])
        record = json.loads((out / "as_built.json").read_text())
        self.assertEqual(record["format"], "spadework-plan")
        self.assertEqual({reading["verdict"] for reading in record["as_built"]["readings"]}, {"pass"})
        self.assertEqual({reading["date"] for reading in record["as_built"]["readings"]}, {"2026-11-20"})

    def test_a_loss_over_its_limit_has_an_exit_code_of_its_own(self):
        def spoil(row):
            if row["building"] == "kiosk":
                row["measured_loss_db"] = "3.5"
        ended = self.accept(self.filled_in(spoil))
        self.assertEqual(ended.code, NOT_ACCEPTED)
        self.assertIn("4 are over their limit", ended.out)
        self.assertIn("kiosk link 1 strand 2", ended.out)

    def test_the_record_is_accepted_with_the_readings_that_were_taken_again(self):
        def leave_one_out(row):
            if row["building"] == "sauna":
                row["measured_loss_db"] = row["measured_length_m"] = ""
        out = self.folder / "first"
        self.assertEqual(self.accept(self.filled_in(leave_one_out), "--out", out).code, NOT_ACCEPTED)

        def only_sauna(row):
            if row["building"] != "sauna":
                row["measured_loss_db"] = row["measured_length_m"] = ""
        ended = self.accept(self.filled_in(only_sauna), plan=out / "as_built.json")
        self.assertEqual(ended.code, OK, ended.out)
        self.assertIn("12 readings are taken over from the earlier acceptance", " ".join(ended.out.split()))

    def test_the_sheet_of_another_layout_is_not_taken_for_this_plan(self):
        ended = self.accept(self.filled_in(), plan=self.folder / "home-runs.plan.json")
        self.assertEqual(ended.code, NOT_ACCEPTED)
        self.assertIn("of layout 'trunk-one'; the plan is home-runs", " ".join(ended.out.split()))

    def test_tolerances_are_options_with_their_unit_and_range(self):
        def longer(row):
            row["measured_length_m"] = f"{float(row['fibre_m']) * 1.05:.1f}"
        readings = self.filled_in(longer)
        self.assertEqual(self.accept(readings).code, NOT_ACCEPTED)
        self.assertEqual(self.accept(readings, "--length-tolerance", "6").code, OK)
        self.assertEqual(self.accept(readings, "--least-tolerance", "40").code, OK)
        ended = self.accept(readings, "--length-tolerance", "-1")
        self.assertEqual(ended.code, USAGE)
        self.assertIn("'-1' is not a number from 0 to 100", ended.err)

    def test_every_problem_of_both_files_is_told_at_once(self):
        broken = self.folder / "broken.plan.json"
        broken.write_text(self.plan.read_text().replace('"hub_ports": 4', '"hub_port": 4'))
        ended = self.accept("building,link\n", plan=broken)
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertEqual(ended.out, "")
        self.assertIn("no key 'hub_ports'", ended.err)
        self.assertIn("key 'hub_port'; expected no such key; did you mean 'hub_ports'?", ended.err)
        self.assertIn("<standard input>:1:1: error: no heading 'measured_loss_db'", ended.err)

    def test_a_sheet_that_nobody_filled_in_is_an_error_and_writes_nothing(self):
        out = self.folder / "nothing"
        ended = self.accept(self.sheet, "--out", out)
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertIn("no reading in any of 32 rows", ended.err)
        self.assertFalse(out.exists())

    def test_files_that_are_not_there_and_standard_input_twice_are_refused(self):
        ended = run("accept", self.folder / "no.json", self.folder / "no.csv")
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertEqual(ended.err.count("cannot be read: No such file or directory"), 2)
        self.assertEqual(run("accept", "-", "-").code, USAGE)

    def test_a_table_as_european_spreadsheets_save_it_is_read(self):
        with_commas = self.filled_in(delimiter=";").replace(".", ",")
        ended = self.accept(with_commas)
        self.assertEqual(ended.code, OK, ended.err)
        self.assertIn("with a decimal comma", ended.err)


if __name__ == "__main__":
    unittest.main()
