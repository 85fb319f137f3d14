# Made by client/generator/generate.py from the contract with SHA-256 93c5f8cf2727b1a256927ed4131b68f1fb950221a53f6ccaa4c1d79331673272. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "93c5f8cf2727b1a256927ed4131b68f1fb950221a53f6ccaa4c1d79331673272"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
