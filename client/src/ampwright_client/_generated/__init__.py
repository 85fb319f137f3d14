# Made by client/generator/generate.py from the contract with SHA-256 b7238ff36c230b3a03e3f546ed42e953764ea573af17d0dcd0ef109a883b4d6a. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "b7238ff36c230b3a03e3f546ed42e953764ea573af17d0dcd0ef109a883b4d6a"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
