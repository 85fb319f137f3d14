# Made by client/generator/generate.py from the contract with SHA-256 3fa4934bc5afdf8ff807d911099992a92f81e64ee169f2cca608bb28399a4962. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "3fa4934bc5afdf8ff807d911099992a92f81e64ee169f2cca608bb28399a4962"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
