# Made by client/generator/generate.py from the contract with SHA-256 26d12cbaacd6656beb2900e6a245c5d785f36cff495fc7735687fdd3747d0257. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "26d12cbaacd6656beb2900e6a245c5d785f36cff495fc7735687fdd3747d0257"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
