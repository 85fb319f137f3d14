# Made by client/generator/generate.py from the contract with SHA-256 fc39677ca0990daa991cc25de5222b7163624ac95baeb3ffb38065116f56f8f2. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "fc39677ca0990daa991cc25de5222b7163624ac95baeb3ffb38065116f56f8f2"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
