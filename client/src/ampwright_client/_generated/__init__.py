# Made by client/generator/generate.py from the contract with SHA-256 039732ac56be277979b26259cd52f37be10766b66c122b00ef7f4aa67fcd1015. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "039732ac56be277979b26259cd52f37be10766b66c122b00ef7f4aa67fcd1015"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
