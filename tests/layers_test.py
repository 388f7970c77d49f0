"""Holds every include in lib/ to lib/layers.txt, tools/ to the lib's headers, and yaml-cpp to the one module that may
see it. A module includes its own headers and those of the modules its line names, nothing else."""

import pathlib
import re
import unittest

ROOT = pathlib.Path(__file__).resolve().parent.parent
LIB = ROOT / "lib"
INCLUDE = re.compile(r'^\s*#\s*include\s*(["<])([^">]+)[">]', re.MULTILINE)

# Outside libraries that stay within the modules named.
CONFINED = {"yaml-cpp/": {"site_file"}, "nlohmann/": {"site_file", "drawn_map", "report"}, "GeographicLib/": {"geometry"},
            "boost/": {"graph", "routing", "survey", "open_ground", "doubt"}, "Eigen/": {"graph", "survey"},
            "pugixml": {"drawn_map"}, "zip.h": {"drawn_map"}, "ogr": {"drawn_map"}, "gdal": {"drawn_map"}}
# Outside libraries that no public header may need.
HIDDEN = ("yaml-cpp/", "nlohmann/", "GeographicLib/", "boost/", "Eigen/", "fmt/", "pugixml", "zip.h", "ogr")
# What a library that never prints and owns no files has no use for.
INPUT_AND_OUTPUT = {"iostream", "fstream", "cstdio", "stdio.h", "filesystem", "print", "unistd.h"}


def layers():
    """The modules that each module may include, by the list's lines in order."""
    allowed = {}
    for line in (LIB / "layers.txt").read_text().splitlines():
        if line and not line.startswith("#"):
            module, upstream = line.split(":")
            allowed[module] = upstream.split()
    return allowed


def includes(path):
    """(line number, kind of bracket, what is included) of a source file."""
    text = path.read_text()
    return [(text.count("\n", 0, match.start(2)) + 1, match[1], match[2]) for match in INCLUDE.finditer(text)]


def sources(folder, *endings):
    return sorted(path for path in folder.rglob("*") if path.suffix in endings)


class Layers(unittest.TestCase):
    def test_every_module_names_only_modules_above_it(self):
        seen = set()
        for module, upstream in layers().items():
            self.assertLessEqual(set(upstream), seen, f"{module} names a module that does not stand above it")
            seen.add(module)

    def test_every_folder_of_lib_is_a_module_of_the_list(self):
        folders = {path.name for path in LIB.iterdir() if path.is_dir() and sources(path, ".hpp", ".cpp")}
        self.assertLessEqual(folders, set(layers()))

    def test_includes_follow_the_list(self):
        allowed = layers()
        wrong = []
        for path in sources(LIB, ".hpp", ".cpp"):
            module = path.relative_to(LIB).parts[0]
            for line, bracket, target in includes(path):
                owner = target.split("/")[0]
                if bracket == '"' and owner != module and owner not in allowed[module]:
                    wrong.append(f"{path.relative_to(ROOT)}:{line}: {module} may not include {target}")
        self.assertEqual(wrong, [])

    def test_includes_in_quotes_name_files_of_lib(self):
        wrong = [f"{path.relative_to(ROOT)}:{line}: no file {target}" for path in sources(LIB, ".hpp", ".cpp")
                 for line, bracket, target in includes(path) if bracket == '"' and not (LIB / target).is_file()]
        self.assertEqual(wrong, [])

    def test_outside_libraries_stay_where_they_belong(self):
        wrong = []
        for path in sources(LIB, ".hpp", ".cpp"):
            module = path.relative_to(LIB).parts[0]
            for line, _, target in includes(path):
                for library, modules in CONFINED.items():
                    if target.startswith(library) and module not in modules:
                        wrong.append(f"{path.relative_to(ROOT)}:{line}: {module} may not include {target}")
        self.assertEqual(wrong, [])

    def test_outside_libraries_stay_out_of_headers(self):
        wrong = [f"{path.relative_to(ROOT)}:{line}: {target} in a header" for path in sources(LIB, ".hpp")
                 for line, _, target in includes(path) if target.startswith(HIDDEN)]
        self.assertEqual(wrong, [])

    def test_the_library_neither_prints_nor_opens_files(self):
        wrong = [f"{path.relative_to(ROOT)}:{line}: {target}" for path in sources(LIB, ".hpp", ".cpp")
                 for line, _, target in includes(path) if target in INPUT_AND_OUTPUT]
        self.assertEqual(wrong, [])

    def test_every_header_is_included_once(self):
        wrong = [str(path.relative_to(ROOT)) for path in sources(ROOT / "lib", ".hpp") + sources(ROOT / "tools", ".hpp")
                 if not path.read_text().startswith("#pragma once\n")]
        self.assertEqual(wrong, [])


if __name__ == "__main__":
    unittest.main()
