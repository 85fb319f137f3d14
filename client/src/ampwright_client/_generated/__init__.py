# Made by client/generator/generate.py from the contract with SHA-256 e2dbf7f741caf78d0fb51a0ce19a5648b9c80ee5bb425de7e6306c173b46e4fd. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "e2dbf7f741caf78d0fb51a0ce19a5648b9c80ee5bb425de7e6306c173b46e4fd"
CONTRACT_VERSION = "1.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
