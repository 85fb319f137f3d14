# Made by client/generator/generate.py from the contract with SHA-256 662d38299acb1982d3958b18fd8e645c021cdab3b5f0ef24287b13101d82f1e8. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "662d38299acb1982d3958b18fd8e645c021cdab3b5f0ef24287b13101d82f1e8"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
