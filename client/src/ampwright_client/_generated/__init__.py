# Made by client/generator/generate.py from the contract with SHA-256 8b855e1e25403213b2677e013c8c67cf4cefe3e43fae8a8f09327a2bc6460043. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "8b855e1e25403213b2677e013c8c67cf4cefe3e43fae8a8f09327a2bc6460043"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
