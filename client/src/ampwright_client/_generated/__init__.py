# Made by client/generator/generate.py from the contract with SHA-256 3dd70afbb2867210f989a44bceca6468511a6d825cb199befc0b455ed9edfbe6. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "3dd70afbb2867210f989a44bceca6468511a6d825cb199befc0b455ed9edfbe6"
CONTRACT_VERSION = "1.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
