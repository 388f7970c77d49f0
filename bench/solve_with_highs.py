"""Solves a mixed integer program in free MPS text with HiGHS, as scipy brings it.

    python3 bench/solve_with_highs.py MODEL.mps SECONDS

Prints one line: status=optimal|stopped value=... bound=... cpu_seconds=... wall_seconds=... version=...
Times are those of the solver alone, without reading the file. Exit code 5 where scipy's solver is not installed.
Reads what bench_milp writes: no ranges, and no bounds but binary ones; other variables are 0 or more.
"""

import sys
import time

NOT_INSTALLED = 5

try:
    import numpy
    import scipy
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_matrix
except ImportError:
    print("HiGHS is not installed: apt-get install python3-scipy", file=sys.stderr)
    sys.exit(NOT_INSTALLED)


class Model:
    """Rows, columns and entries, in the order of the file."""

    def __init__(self):
        self.rows, self.columns = {}, {}
        self.senses, self.objective_row = [], None
        self.costs, self.binary = [], set()
        self.entries = ([], [], [])
        self.right_sides = {}

    def add_row(self, sense, name):
        if sense == "N":
            self.objective_row = name
        else:
            self.rows[name] = len(self.rows)
            self.senses.append(sense)

    def add_entries(self, column, pairs):
        at = self.columns.setdefault(column, len(self.columns))
        if at == len(self.costs):
            self.costs.append(0.0)
        for row, value in zip(pairs[::2], pairs[1::2]):
            if row == self.objective_row:
                self.costs[at] = float(value)
            else:
                for list_, entry in zip(self.entries, (self.rows[row], at, float(value))):
                    list_.append(entry)


def read_mps(path):
    model, section = Model(), ""
    with open(path, encoding="ascii") as lines:
        for line in lines:
            words = line.split()
            if not line.startswith(" "):
                section = words[0]
            elif section == "ROWS":
                model.add_row(*words)
            elif section == "COLUMNS" and words[1] != "'MARKER'":
                model.add_entries(words[0], words[1:])
            elif section == "RHS":
                for row, value in zip(words[1::2], words[2::2]):
                    model.right_sides[model.rows[row]] = float(value)
            elif section == "BOUNDS":
                model.binary.add(model.columns[words[2]])
    return model


def solve(model, seconds):
    rows, columns, values = model.entries
    matrix = coo_matrix((values, (rows, columns)), (len(model.rows), len(model.columns))).tocsr()
    right = numpy.zeros(len(model.rows))
    for row, value in model.right_sides.items():
        right[row] = value
    low = numpy.array([value if sense == "E" else -numpy.inf for sense, value in zip(model.senses, right)])
    whole, high = numpy.zeros(len(model.columns)), numpy.full(len(model.columns), numpy.inf)
    whole[list(model.binary)], high[list(model.binary)] = 1, 1
    cpu, wall = time.process_time(), time.monotonic()
    result = milp(model.costs, constraints=LinearConstraint(matrix, low, right), integrality=whole,
                  bounds=Bounds(0, high), options={"time_limit": seconds, "mip_rel_gap": 0})
    return result, time.process_time() - cpu, time.monotonic() - wall


def main():
    result, cpu, wall = solve(read_mps(sys.argv[1]), float(sys.argv[2]))
    value = "none" if result.fun is None else f"{result.fun:.6f}"
    bound = "none" if result.mip_dual_bound is None else f"{result.mip_dual_bound:.6f}"
    status = "optimal" if result.status == 0 else "stopped"
    print(f"status={status} value={value} bound={bound} cpu_seconds={cpu:.3f} wall_seconds={wall:.3f} "
          f"version=scipy-{scipy.__version__}")


if __name__ == "__main__":
    main()
