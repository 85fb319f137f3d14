# Made by client/generator/generate.py from the contract with SHA-256 6cd67baa576d6ac8fb7b55f038de25ccd0a315ecb28f4a14f5f48758fd5c42d1. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "6cd67baa576d6ac8fb7b55f038de25ccd0a315ecb28f4a14f5f48758fd5c42d1"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
