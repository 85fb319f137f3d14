# Made by client/generator/generate.py from the contract with SHA-256 a1fa844eefc8cae9259beef7fffe100e619d76041593eb9f3c81665860d751f1. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "a1fa844eefc8cae9259beef7fffe100e619d76041593eb9f3c81665860d751f1"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
