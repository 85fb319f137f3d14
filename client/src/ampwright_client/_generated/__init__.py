# Made by client/generator/generate.py from the contract with SHA-256 e1f12be4225f778410c2f4ab2e9f1b0a0b308a16f175d742a70320928d5bc874. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "e1f12be4225f778410c2f4ab2e9f1b0a0b308a16f175d742a70320928d5bc874"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
