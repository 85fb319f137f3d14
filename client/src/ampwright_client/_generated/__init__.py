# Made by client/generator/generate.py from the contract with SHA-256 877e6d5097fe63f158f4417888481798274f8dd1591b4c62e34015946c28e406. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "877e6d5097fe63f158f4417888481798274f8dd1591b4c62e34015946c28e406"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
