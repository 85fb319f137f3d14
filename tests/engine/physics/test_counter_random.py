"""Are the random numbers those of the published generator, and the same whatever the chunk?"""

from __future__ import annotations

import numpy as np
import pytest
from ampwright.engine.physics.counter_random import philox4x32, triangular, uniform_rows

# Known-answer vectors for philox4x32 with 10 rounds, distributed with the generator of Salmon et al., SC11 (2011):
# counter, key, output. Read in several public copies of them.
KNOWN = [
    ((0, 0, 0, 0), (0, 0), (0x6627E8D5, 0xE169C58D, 0xBC57AC4C, 0x9B00DBD8)),
    ((0xFFFFFFFF,) * 4, (0xFFFFFFFF,) * 2, (0x408F276D, 0x41C83B0E, 0xA20BC7C6, 0x6D5451FD)),
    (
        (0x243F6A88, 0x85A308D3, 0x13198A2E, 0x03707344),
        (0xA4093822, 0x299F31D0),
        (0xD16CFE09, 0x94FDCCEB, 0x5001E420, 0x24126EA1),
    ),
]


@pytest.mark.parametrize(("counter", "key", "expected"), KNOWN)
def test_published_vectors(counter: tuple[int, ...], key: tuple[int, int], expected: tuple[int, ...]) -> None:
    word = np.empty(4, dtype=np.uint64)
    philox4x32(np.array(counter, dtype=np.uint64), np.uint64(key[0]), np.uint64(key[1]), word)
    assert tuple(int(part) for part in word) == expected


def drawn(seed: int, stream: int, first: int, rows: int, columns: int) -> np.ndarray:
    unit = np.empty((rows, columns))
    uniform_rows(np.uint64(seed), np.uint64(stream), np.uint64(first), unit)
    return unit


def test_rows_do_not_depend_on_the_chunk() -> None:
    whole = drawn(2**63 + 17, 3, 0, 100, 5)
    parts = np.vstack([drawn(2**63 + 17, 3, first, 20, 5) for first in (0, 20, 40, 60, 80)])
    assert whole.tobytes() == parts.tobytes()


def test_seed_and_stream_change_everything() -> None:
    one = drawn(1, 1, 0, 50, 4)
    assert not np.any(one == drawn(2, 1, 0, 50, 4))
    assert not np.any(one == drawn(1, 2, 0, 50, 4))
    assert not np.any(one == drawn(1 + 2**32, 1, 0, 50, 4))


def test_uniform_in_both_directions() -> None:
    # Kolmogorov-Smirnov at 1 %: 1.63 / sqrt(n). A seed is an input, so this either always passes or never.
    unit = drawn(7, 1, 0, 4000, 5)
    for sample in (unit[:, 0], unit[:, 4], unit.ravel()):
        ordered = np.sort(sample)
        distance = np.max(np.abs(ordered - (np.arange(ordered.size) + 0.5) / ordered.size))
        assert distance < 1.63 / np.sqrt(ordered.size)
    assert unit.min() > 0.0
    assert unit.max() < 1.0


def test_triangular_has_the_textbook_mean_and_stays_inside() -> None:
    # mean (a + b + c)/3, variance (a2 + b2 + c2 - ab - ac - bc)/18; 4 standard errors
    unit = drawn(11, 1, 0, 20000, 2)
    triangular(np.array([[2.0, 5.0], [3.0, 5.0], [7.0, 5.0]]), unit)
    variance = (4 + 9 + 49 - 6 - 14 - 21) / 18
    assert unit[:, 0].mean() == pytest.approx(4.0, abs=4 * np.sqrt(variance / 20000))
    assert unit[:, 0].var() == pytest.approx(variance, rel=0.05)
    assert unit[:, 0].min() >= 2.0
    assert unit[:, 0].max() <= 7.0
    assert np.all(unit[:, 1] == 5.0)
