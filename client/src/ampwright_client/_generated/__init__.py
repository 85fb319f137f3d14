# Made by client/generator/generate.py from the contract with SHA-256 1cc9ba1eccdea63f8353ee84e3501cc4c81b3555ac6fe2a511056c2acdd45f7a. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "1cc9ba1eccdea63f8353ee84e3501cc4c81b3555ac6fe2a511056c2acdd45f7a"
CONTRACT_VERSION = "1.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
