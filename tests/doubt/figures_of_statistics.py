"""Prints the figures that statistics_test.cpp and quantile_test.cpp expect, by numpy and scipy (python3-scipy).

    /usr/bin/python3 tests/doubt/figures_of_statistics.py
"""

import numpy
from scipy import stats

A = [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9]
B = [2, 7, 1, 8, 2, 8, 1, 8, 2, 8, 4, 5, 9, 0, 4]

for share in (0.1, 0.33, 0.5, 0.8):
    print("quantile", share, repr(float(numpy.quantile(A, share))))
print("mean", repr(float(numpy.mean(A))), "variance", repr(float(numpy.var(A, ddof=1))))
print("half width", repr(float(stats.t.ppf(0.975, len(A) - 1) * numpy.std(A, ddof=1) / len(A) ** 0.5)))
print("rank correlation", repr(float(stats.spearmanr(A, B).correlation)))
for share in (0.05, 0.5, 0.93):
    print("triangular 40 50 70", share, repr(float(stats.triang(1 / 3, 40, 30).ppf(share))))
    print("pert 40 50 70", share, repr(float(stats.beta(1 + 4 / 3, 1 + 8 / 3, 40, 30).ppf(share))))

# Kelley's epsilon-squared of four classes: with F from an analysis of variance, (F - 1) (k - 1) / (F (k - 1) + n - k).
Y = [(i * i) % 37 + (9 if i >= 300 else 0) for i in range(600)]
F = float(stats.f_oneway(Y[:150], Y[150:300], Y[300:450], Y[450:]).statistic)
print("epsilon squared", repr((F - 1) * 3 / (F * 3 + 596)))
