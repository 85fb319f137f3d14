# Made by client/generator/generate.py from the contract with SHA-256 e661b798cb3927bc3a30e9b6bdd151f29e9d5954823ba1a81d1836cc9ab4d5c2. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "e661b798cb3927bc3a30e9b6bdd151f29e9d5954823ba1a81d1836cc9ab4d5c2"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
