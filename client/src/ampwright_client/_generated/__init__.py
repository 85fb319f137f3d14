# Made by client/generator/generate.py from the contract with SHA-256 9d36c20128f7ae56c27814406d2fcc806f40f41e440e20a0ec1a33087ce692ac. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "9d36c20128f7ae56c27814406d2fcc806f40f41e440e20a0ec1a33087ce692ac"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
