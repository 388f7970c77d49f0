"""Chances and expected costs of spadework strands against scipy's distributions."""

import json
import unittest

from running import OK, SCENARIOS, run

try:
    from scipy import stats
except ImportError:
    stats = None

GROWING = """
growth:
  horizon: 12
  unnamed-links-per-year: 0.35
  discount-rate: 4
  headroom: 20
  buildings:
    - {id: annexe, chance: 0.6, year: 3, links: 1}
    - {id: barns, chance: 0.25, year: 7, links: 4}
    - {id: never, chance: 0.9, year: 40, links: 30}
"""


def site_that_grows():
    """The lakeside site with other growth."""
    text = (SCENARIOS / "lakeside.yaml").read_text()
    return text[:text.index("growth:\n")] + GROWING


def links_by(year):
    """Chance of each number of further links by the end of a year, with scipy."""
    chances = [stats.poisson.pmf(k, 0.35 * year) for k in range(200)]
    for chance, due, links in ((0.6, 3, 1), (0.25, 7, 4)):
        if due > year:
            continue
        chances = [(1 - chance) * chances[k] + (chance * chances[k - links] if k >= links else 0)
                   for k in range(200)]
    return chances


@unittest.skipIf(stats is None, "scipy is not installed")
class Chances(unittest.TestCase):
    def setUp(self):
        ended = run("strands", "-", "--format", "json", stdin=site_that_grows())
        self.assertEqual((ended.code, ended.err), (OK, ""))
        self.study = json.loads(ended.out)

    def test_the_distribution_is_scipys(self):
        expected = links_by(12)
        for strands, chance in enumerate(self.study["growth_distribution"]):
            wanted = expected[strands // 2] if strands % 2 == 0 else 0
            self.assertAlmostEqual(chance, wanted, places=8)

    def test_each_size_lasts_with_scipys_chance_year_by_year(self):
        for size in self.study["sizes"]:
            fits = size["spare_strands"] // 2
            for year, chance in enumerate(size["chance_run_out_by_year"]):
                lasts = sum(links_by(year)[:fits + 1]) if fits >= 0 else 0
                self.assertAlmostEqual(1 - chance, lasts, places=8)

    def test_sizes_for_target_chances_are_scipys(self):
        whole = links_by(12)
        for policy in self.study["policies"]:
            if "chance that growth fits" not in policy["policy"]:
                continue
            target = int(policy["policy"].split()[0]) / 100
            links = next(k for k in range(200) if sum(whole[:k + 1]) >= target)
            self.assertEqual(policy["strands"], self.study["need"]["in_use"] + 2 * links)

    def test_binomial_chances_are_scipys(self):
        buildings = "".join(f"    - {{id: plot-{i}, chance: 0.3, year: 2}}\n" for i in range(10))
        text = site_that_grows()
        text = text[:text.index("growth:\n")] + "growth:\n  buildings:\n" + buildings
        study = json.loads(run("strands", "-", "--format", "json", stdin=text).out)
        for k in range(11):
            self.assertAlmostEqual(study["growth_distribution"][2 * k], stats.binom.pmf(k, 10, 0.3), places=8)


if __name__ == "__main__":
    unittest.main()
