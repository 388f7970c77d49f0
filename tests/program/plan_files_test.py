"""Plans as KML, GeoJSON and SVG, read back by programs that share nothing with ours: GDAL and an XML parser."""

import pathlib
import tempfile
import unittest
import xml.etree.ElementTree

from running import OK, SCENARIOS, run

try:
    from osgeo import ogr
    ogr.UseExceptions()
except ImportError:
    ogr = None

KML = "{http://www.opengis.net/kml/2.2}"
SVG = "{http://www.w3.org/2000/svg}"
# OGC 07-147r2, sections 9.1 and 9.11: children of a Feature come in this order.
FEATURE_ORDER = ["name", "visibility", "open", "description", "styleUrl", "Style", "Region", "ExtendedData",
                 "Placemark", "Folder", "Point", "LineString"]


class PlanFiles(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)
        ended = run("compare", SCENARIOS / "campus.yaml", "--layouts", "trunk-one", "--time-limit", "2", "--out",
                    cls.folder)
        assert ended.code == OK, ended.err

    def geometries(self, name):
        """The geometries of each layer of a file as GDAL reads it, in two dimensions, as well-known text."""
        if ogr is None:
            self.skipTest("python3-gdal is not installed")
        source = ogr.Open(str(self.folder / name))
        geometries = {}
        for i in range(source.GetLayerCount()):
            layer = source.GetLayer(i)
            texts = geometries[layer.GetName()] = []
            for feature in layer:
                geometry = feature.GetGeometryRef().Clone()
                geometry.FlattenTo2D()
                texts.append(geometry.ExportToWkt())
        return geometries

    def test_gdal_reads_the_same_lines_and_points_from_kml_and_geojson(self):
        kml = self.geometries("plan.kml")
        self.assertEqual(set(kml), {"Places", "Trenches", "Cables"})
        (in_geojson,) = self.geometries("plan.geojson").values()
        self.assertGreater(len(in_geojson), 20)
        self.assertEqual(sorted(text for texts in kml.values() for text in texts), sorted(in_geojson))

    def test_children_of_features_in_kml_come_in_the_order_of_the_standard(self):
        root = xml.etree.ElementTree.parse(self.folder / "plan.kml").getroot()
        self.assertEqual(root.tag, KML + "kml")
        styles = {style.get("id") for style in root.iter(KML + "Style")}
        for feature in [root[0], *root.iter(KML + "Folder"), *root.iter(KML + "Placemark")]:
            ranks = [FEATURE_ORDER.index(child.tag.removeprefix(KML)) for child in feature]
            self.assertEqual(ranks, sorted(ranks))
        for url in root.iter(KML + "styleUrl"):
            self.assertIn(url.text.removeprefix("#"), styles)

    def test_every_feature_of_the_kml_has_its_facts(self):
        root = xml.etree.ElementTree.parse(self.folder / "plan.kml").getroot()
        for mark in root.iter(KML + "Placemark"):
            facts = {data.get("name"): data.find(KML + "value").text for data in mark.iter(KML + "Data")}
            self.assertIn("kind", facts)
            balloon = mark.find(KML + "description").text
            for name, value in facts.items():
                if name != "kind" and value:
                    self.assertIn(value.replace("&", "&amp;"), balloon)

    def test_the_drawing_is_well_formed_svg_with_a_title_and_no_script(self):
        root = xml.etree.ElementTree.parse(self.folder / "plan.svg").getroot()
        self.assertEqual(root.tag, SVG + "svg")
        self.assertEqual(len([child for child in root if child.tag == SVG + "title"]), 1)
        self.assertEqual([element.tag for element in root.iter() if element.tag.endswith("script")], [])


if __name__ == "__main__":
    unittest.main()
