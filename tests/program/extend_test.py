"""spadework extend, end to end: what was built is kept, what is new is served, mistakes are told at once."""

import json
import pathlib
import tempfile
import unittest

from running import INFEASIBLE, INVALID_SITE, OK, SCENARIOS, USAGE, run

LAKESIDE = SCENARIOS / "lakeside.yaml"
LATER = SCENARIOS / "marina.yaml"

NEW_PLACES = "    - {id: camp, kind: building, at: [300, 150]}\n"
NEW_SEGMENTS = "    - {id: to-camp, from: jetty, to: camp, ground: grass}\n"
NEW_BUILDING = "  - {id: camp, links: [{rate: 1G}], devices: [{what: camera, count: 1, watts: 7}]}\n"


def grown(text):
    """The lakeside site with a camp behind the jetty."""
    text = text.replace("  segments:\n", NEW_PLACES + "  segments:\n", 1)
    text = text.replace("    - {id: road, from", NEW_SEGMENTS + "    - {id: road, from", 1)
    return text.replace("\n# What can be bought", NEW_BUILDING + "\n# What can be bought", 1)


class Extend(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        cls.root = pathlib.Path(cls.scratch.name)
        ended = run("compare", LAKESIDE, "--out", cls.root / "built", "--time-limit", "5")
        assert ended.code == OK, ended.err
        cls.plan = cls.root / "built" / "trunk-one.plan.json"

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    def extend(self, plan, site, *more, stdin=""):
        ended = run("extend", plan, site, "--format", "json", *more, stdin=stdin)
        self.assertEqual((ended.code, ended.err), (OK, ""))
        return json.loads(ended.out)

    def strands_in_use(self, plan):
        """Cable and number of each strand in use: what it carries and where it is plugged."""
        return {(strand["cable"], strand["strand"]): strand
                for strand in json.loads(pathlib.Path(plan).read_text())["strands"] if strand["building"]}

    def test_two_that_come_and_one_that_goes(self):
        folder = self.root / "later"
        result = self.extend(self.plan, LATER, "--out", folder)
        self.assertEqual([each["building"] for each in result["additions"]], ["camp", "marina"])
        self.assertEqual(result["gone"], ["kiosk"])
        self.assertEqual(result["untouched"]["touched"], 0)
        self.assertEqual(result["untouched"]["links"], 3)
        self.assertLessEqual(result["bound"], result["total"])
        self.assertAlmostEqual(sum(line["amount"] for line in result["costs"]), result["total"], places=6)
        before, after = self.strands_in_use(self.plan), self.strands_in_use(folder / "extended.plan.json")
        for name, strand in before.items():
            if strand["building"] != "kiosk":
                self.assertEqual(after[name], strand)
        self.assertLess(result["new_trench"], 220)
        labels = (folder / "labels.csv").read_text()
        self.assertIn("drop-camp", labels)
        self.assertIn("drop-sauna", labels)
        self.assertIn("camp", (folder / "test-sheet.csv").read_text())
        materials = (folder / "materials.csv").read_text()
        self.assertIn("switch-8", materials)
        self.assertNotIn("cable-12", materials)

    def test_every_format_says_the_same_total(self):
        text = run("extend", self.plan, LATER).out
        total = self.extend(self.plan, LATER)["total"]
        self.assertIn(f"EUR {total:,.2f}", text)
        self.assertIn("No existing link is touched", text)
        self.assertIn("There is no outage", text)

    def test_extending_again_is_free_and_leaves_the_file_as_it_is_byte_for_byte(self):
        self.extend(self.plan, LATER, "--out", self.root / "once")
        once = self.root / "once" / "extended.plan.json"
        again = self.extend(once, LATER, "--out", self.root / "twice")
        self.assertEqual(again["total"], 0)
        self.assertEqual(again["additions"], [])
        self.assertEqual(once.read_bytes(), (self.root / "twice" / "extended.plan.json").read_bytes())

    def test_a_history_replays_to_the_same_bytes(self):
        def replayed(name):
            site = grown(LAKESIDE.read_text())
            self.extend(self.plan, "-", "--out", self.root / name / "first", stdin=site)
            first = self.root / name / "first" / "extended.plan.json"
            second = site.replace(NEW_BUILDING, NEW_BUILDING + NEW_BUILDING.replace("camp", "hut"))
            second = second.replace(NEW_PLACES, NEW_PLACES + NEW_PLACES.replace("camp", "hut").replace("300", "270"))
            second = second.replace(NEW_SEGMENTS, NEW_SEGMENTS + "    - {id: to-hut, from: camp, to: hut, ground: grass}\n")
            self.extend(first, "-", "--out", self.root / name / "second", stdin=second)
            return (self.root / name / "second" / "extended.plan.json").read_bytes()
        self.assertEqual(replayed("a"), replayed("b"))

    def test_one_that_goes_frees_strands_that_the_next_takes(self):
        text = LAKESIDE.read_text()
        start = text.index("  - id: kiosk\n")
        without = text[:start] + text[text.index("\n# What can be bought", start):]
        gone = self.extend(self.plan, "-", "--out", self.root / "gone", stdin=without)
        self.assertEqual((gone["gone"], gone["untouched"]["freed_strands"]), (["kiosk"], 4))
        plan = json.loads((self.root / "gone" / "extended.plan.json").read_text())
        for strand in plan["strands"]:
            self.assertNotEqual(strand["building"], "kiosk")
            if strand["cable"] == "drop-kiosk" and strand["strand"] <= 2:
                self.assertEqual(strand["purpose"], "spare")

    def with_lodges(self, *names):
        """The lakeside site with buildings behind the gate, some 80 m down the trunk."""
        text = LAKESIDE.read_text()
        for i, name in enumerate(names):
            place = NEW_PLACES.replace("camp", name).replace("[300, 150]", f"[{80 + 10 * i}, {45 + 20 * i}]")
            way = NEW_SEGMENTS.replace("camp", name).replace("jetty", "gate")
            text = text.replace("  segments:\n", place + "  segments:\n", 1)
            text = text.replace("    - {id: road, from", way + "    - {id: road, from", 1)
            text = text.replace("\n# What can be bought", NEW_BUILDING.replace("camp", name) + "\n# What can be bought", 1)
        return text

    def test_a_cut_into_the_trunk_is_told_and_taken_with_leave_alone(self):
        site = self.with_lodges("lodge")
        left = self.extend(self.plan, "-", stdin=site)
        self.assertIsNone(left["interruption"])
        self.assertLess(left["interrupting"]["total"], left["total"])
        self.assertIn("--allow-interruption takes it", run("extend", self.plan, "-", stdin=site).out)
        folder = self.root / "cut"
        cut = self.extend(self.plan, "-", "--allow-interruption", "--out", folder, stdin=site)
        self.assertEqual(cut["total"], left["interrupting"]["total"])
        self.assertEqual([link["building"] for link in cut["interruption"]["links"]],
                         ["boathouse", "cabins", "kiosk", "sauna"])
        self.assertGreater(cut["interruption"]["outage_minutes"], 200)
        for label in cut["interruption"]["labels"]:
            self.assertEqual(label["before"].replace("trunk-lawn-corner", "trunk-gate")
                             if label["place"] == "office" else "", label["after"])
        plan = json.loads((folder / "extended.plan.json").read_text())
        self.assertEqual(plan["version"], 2)
        before = self.strands_in_use(self.plan)
        after = self.strands_in_use(folder / "extended.plan.json")
        for (cable, number), strand in before.items():
            if cable.startswith("drop-"):
                self.assertEqual(after[cable, number], strand)
            else:
                near, far = after["trunk-gate", number], after["trunk-lawn-corner", number]
                for key in ("building", "link", "leg", "near", "near_adapter", "near_port"):
                    self.assertEqual(near[key], strand[key])
                self.assertEqual((near["far"], far["near"]), ("spliced", "spliced"))
                for key in ("building", "link", "leg", "far", "far_adapter", "far_port"):
                    self.assertEqual(far[key], strand[key])
        test = next(test for test in plan["tests"] if test["building"] == "cabins" and test["strand"] == 1)
        self.assertEqual(test["way"], ["trunk-gate/3", "trunk-lawn-corner/3", "drop-cabins/1"])
        self.assertEqual([event["what"] for event in test["events"]], ["connector", "splice", "connector", "connector"])

    def test_what_was_cut_is_extended_again_and_leaves_the_file_as_it_is(self):
        one, two = self.with_lodges("lodge"), self.with_lodges("lodge", "hut")
        folder = self.root / "cuts"
        self.extend(self.plan, "-", "--allow-interruption", "--out", folder / "one", stdin=one)
        first = folder / "one" / "extended.plan.json"
        again = self.extend(first, "-", "--out", folder / "again", stdin=one)
        self.assertEqual((again["total"], again["additions"]), (0, []))
        self.assertEqual(first.read_bytes(), (folder / "again" / "extended.plan.json").read_bytes())
        second = self.extend(first, "-", "--out", folder / "two", stdin=two)
        self.assertEqual(second["additions"][0]["from"], "gate")
        self.assertIsNone(second["interruption"])
        self.assertEqual(second["untouched"]["links"], 5)
        self.extend(folder / "two" / "extended.plan.json", "-", "--out", folder / "three", stdin=two)
        self.assertEqual((folder / "two" / "extended.plan.json").read_bytes(),
                         (folder / "three" / "extended.plan.json").read_bytes())

    def test_a_lodge_at_a_cut_that_goes_and_comes_back_takes_its_strands_again(self):
        one = self.with_lodges("lodge")
        start = one.index("  - {id: lodge, links")
        without = one[:start] + one[one.index("\n", start) + 1:]
        folder = self.root / "back"
        self.extend(self.plan, "-", "--allow-interruption", "--out", folder / "one", stdin=one)
        gone = self.extend(folder / "one" / "extended.plan.json", "-", "--out", folder / "gone", stdin=without)
        self.assertEqual((gone["gone"], gone["untouched"]["links"]), (["lodge"], 4))
        self.extend(folder / "gone" / "extended.plan.json", "-", "--out", folder / "back", stdin=one)
        before = self.strands_in_use(folder / "one" / "extended.plan.json")
        after = self.strands_in_use(folder / "back" / "extended.plan.json")
        self.assertEqual({name for name in before if name[0] == "trunk-gate"},
                         {name for name in after if name[0] == "trunk-gate"})

    def test_a_chain_takes_one_more_on_larger_gear_with_leave(self):
        text = LAKESIDE.read_text()
        start = text.index("  - id: boathouse\n")
        before = text[:start] + text[text.index("  - id: kiosk\n"):]
        folder = self.root / "chain"
        ended = run("compare", "-", "--layouts", "daisy-chain", "--out", folder, "--time-limit", "3", stdin=before)
        self.assertEqual(ended.code, OK)
        left = self.extend(folder / "plan.json", LAKESIDE)
        self.assertEqual((left["additions"][0]["source"], left["interruption"]), ("hub", None))
        self.assertLess(left["interrupting"]["total"], left["total"])
        taken = self.extend(folder / "plan.json", LAKESIDE, "--allow-interruption", "--out", folder / "more")
        self.assertEqual(taken["additions"][0]["source"], "building")
        self.assertEqual(len(taken["interruption"]["links"]), 1)
        self.assertEqual(taken["untouched"]["links"], 2)
        plan = json.loads((folder / "more" / "extended.plan.json").read_text())
        self.assertEqual(plan["chains"][0][-1], "boathouse")
        again = self.extend(folder / "more" / "extended.plan.json", LAKESIDE, "--out", folder / "again")
        self.assertEqual(again["total"], 0)
        self.assertEqual((folder / "more" / "extended.plan.json").read_bytes(),
                         (folder / "again" / "extended.plan.json").read_bytes())

    def test_one_that_comes_back_takes_its_drop_again_for_its_gear_and_tests_alone(self):
        text = LAKESIDE.read_text()
        start = text.index("  - id: kiosk\n")
        without = text[:start] + text[text.index("\n# What can be bought", start):]
        folder = self.root / "comes-back"
        self.extend(self.plan, "-", "--out", folder / "gone", stdin=without)
        back = self.extend(folder / "gone" / "extended.plan.json", LAKESIDE, "--out", folder / "back")
        self.assertEqual([(one["building"], one["cable_there"]) for one in back["additions"]], [("kiosk", True)])
        self.assertEqual((back["new_trench"], back["opened_again"], back["cable_ordered"]), (0, 0, 0))
        self.assertEqual({line["category"] for line in back["costs"]},
                         {"terminations", "optics", "endpoint-gear", "testing", "mobilisation", "contingency", "tax"})
        items = {line["item"] for line in back["costs"] if line["category"] == "terminations"}
        self.assertEqual(items, {"cord-duplex", "plug and label strands again"})
        self.assertEqual(self.strands_in_use(folder / "back" / "extended.plan.json"), self.strands_in_use(self.plan))

    def test_all_contradictions_are_told_at_once(self):
        text = LAKESIDE.read_text().replace("site: Lakeside holiday park", "site: Elsewhere")
        text = text.replace("cable-12", "cable-13").replace("shore-path", "shore-way")
        ended = run("extend", self.plan, "-", stdin=text)
        self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
        for part in ("of the site 'Lakeside holiday park'", "no cable product 'cable-12'", "no segment 'shore-path'",
                     "contradictions between"):
            self.assertIn(part, ended.err)

    def test_a_plan_file_that_is_none_and_a_site_that_is_none_are_both_told(self):
        broken = self.root / "broken.plan.json"
        broken.write_text(self.plan.read_text().replace('"layout": "trunk-one"', '"layout": "trunk-two"'))
        ended = run("extend", broken, "-", stdin="format: 1\n")
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertIn("broken.plan.json:", ended.err)
        self.assertIn("<standard input>:", ended.err)
        missing = run("extend", self.root / "nowhere.json", LATER)
        self.assertEqual(missing.code, INVALID_SITE)
        self.assertIn("cannot be read", missing.err)
        self.assertEqual(run("extend", self.plan).code, USAGE)

    def test_site_and_plan_the_wrong_way_round_are_told_as_what_they_are(self):
        ended = run("extend", LATER, self.plan)
        self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
        self.assertIn(f"{LATER}:1:1: error: '#'; expected a plan file, which begins with '{{'", ended.err)
        self.assertIn(f"{self.plan}:2:13: error: format is 'spadework-plan': this is no site file", ended.err)
        self.assertIn(f"1 error in {LATER}\n", ended.err)
        self.assertIn(f"1 error in {self.plan}\n", ended.err)

    def test_one_that_cannot_be_reached_is_infeasible_with_its_name(self):
        site = grown(LAKESIDE.read_text()).replace("rate: 1G}], devices: [{what: camera, count: 1", "rate: 100G}], devices: [{what: camera, count: 1")
        ended = run("extend", self.plan, "-", stdin=site)
        self.assertEqual(ended.code, INFEASIBLE)
        self.assertIn("camp", ended.out)

    def test_the_estate_takes_three_more(self):
        folder = self.root / "estate"
        ended = run("compare", SCENARIOS / "estate.yaml", "--layouts", "trunk-one", "--out", folder, "--time-limit", "4")
        self.assertEqual(ended.code, OK)
        new = "".join(f"  - {{id: new-{place}, place: {place}, links: [{{rate: 1G}}]}}\n"
                      for place in ("A1nw", "B1se", "A1s1"))
        site = (SCENARIOS / "estate.yaml").read_text().replace("buildings:\n", "buildings:\n" + new, 1)
        ended = run("extend", folder / "trunk-one.plan.json", "-", "--format", "json", stdin=site, cwd=SCENARIOS)
        self.assertEqual((ended.code, ended.err), (OK, ""))
        result = json.loads(ended.out)
        self.assertEqual(len(result["additions"]), 3)
        self.assertEqual(result["untouched"]["touched"], 0)
        self.assertEqual(result["untouched"]["links"], 40)


if __name__ == "__main__":
    unittest.main()
