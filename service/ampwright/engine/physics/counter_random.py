"""How does a row get random numbers that no chunk, thread or order of work can change?

Philox4x32-10, a counter-based generator: four words are a pure function of a key (the seed) and a counter (row, draw).
Source: J. K. Salmon et al., Parallel random numbers: as easy as 1, 2, 3, SC11, 2011; checked against the known-answer
vectors published with it.
Not here: what is drawn (start_probability.py and others).
"""

import numpy as np
from numpy.typing import NDArray

from ampwright.engine.physics.compile import kernel

_MULTIPLIER_0 = np.uint64(0xD2511F53)
_MULTIPLIER_1 = np.uint64(0xCD9E8D57)
_WEYL_0 = np.uint64(0x9E3779B9)
_WEYL_1 = np.uint64(0xBB67AE85)
_LOW = np.uint64(0xFFFFFFFF)
_SHIFT = np.uint64(32)
# 53 bits of two words, centred: never 0, never 1.
_TO_UNIT = 1.0 / 9007199254740992.0


@kernel("void(uint64[::1], uint64, uint64, uint64[::1])")
def philox4x32(counter: NDArray[np.uint64], key_low: np.uint64, key_high: np.uint64, word: NDArray[np.uint64]) -> None:
    """Four 32-bit words for a counter and a key.

    Parameters
    ----------
    counter : (4,) each below 2^32 [-]
    key_low, key_high : each below 2^32 [-]
    word : (4,) out, each below 2^32 [-]

    Errors: none.
    Source: Salmon et al. 2011, Philox4x32 with 10 rounds.
    """
    c0, c1, c2, c3 = counter[0], counter[1], counter[2], counter[3]
    k0 = key_low
    k1 = key_high
    for _ in range(10):
        p0 = _MULTIPLIER_0 * c0
        p1 = _MULTIPLIER_1 * c2
        c0, c1, c2, c3 = (p1 >> _SHIFT) ^ c1 ^ k0, p1 & _LOW, (p0 >> _SHIFT) ^ c3 ^ k1, p0 & _LOW
        k0 = (k0 + _WEYL_0) & _LOW
        k1 = (k1 + _WEYL_1) & _LOW
    word[0], word[1], word[2], word[3] = c0, c1, c2, c3


@kernel("void(uint64, uint64, uint64, float64[:, ::1])")
def uniform_rows(seed: np.uint64, stream: np.uint64, first_row: np.uint64, unit: NDArray[np.float64]) -> None:
    """Uniform numbers in (0, 1), each a function of seed, stream, row and column only.

    Parameters
    ----------
    seed : below 2^64 [-]
    stream : below 2^32 [-], one per use, so that two uses of a seed do not share numbers
    first_row : below 2^32 [-], number of the first row
    unit : (n, k) out [-]

    Errors: none.
    Source: Salmon et al. 2011; two words make 53 bits.
    """
    counter = np.empty(4, dtype=np.uint64)
    word = np.empty(4, dtype=np.uint64)
    for row in range(unit.shape[0]):
        for pair in range((unit.shape[1] + 1) // 2):
            counter[0] = np.uint64(pair)
            counter[1] = (first_row + np.uint64(row)) & _LOW
            counter[2] = stream & _LOW
            counter[3] = np.uint64(0)
            philox4x32(counter, seed & _LOW, seed >> _SHIFT, word)
            for half in range(2):
                column = 2 * pair + half
                if column < unit.shape[1]:
                    high = word[2 * half] >> np.uint64(5)
                    low = word[2 * half + 1] >> np.uint64(6)
                    unit[row, column] = (np.float64(high) * 67108864.0 + np.float64(low) + 0.5) * _TO_UNIT


@kernel("void(float64[:, ::1], float64[:, ::1])")
def triangular(band: NDArray[np.float64], unit: NDArray[np.float64]) -> None:
    """Uniform numbers turned into triangular ones between low and high with their top at typical.

    Parameters
    ----------
    band : (3, k) low, typical, high in any unit; three equal values stay what they are
    unit : (n, k) in: uniform in (0, 1) [-]; out: drawn values in the unit of the band

    Errors: none; a band out of order gives NaN.
    Source: inverse of the triangular distribution function.
    """
    for row in range(unit.shape[0]):
        for column in range(unit.shape[1]):
            low = band[0, column]
            top = band[1, column]
            high = band[2, column]
            u = unit[row, column]
            if not (low <= top <= high):
                unit[row, column] = np.nan
            elif not high > low:
                unit[row, column] = low
            elif u * (high - low) < top - low:
                unit[row, column] = low + np.sqrt(u * (high - low) * (top - low))
            else:
                unit[row, column] = high - np.sqrt((1.0 - u) * (high - low) * (high - top))
