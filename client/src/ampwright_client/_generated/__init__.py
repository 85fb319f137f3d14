# Made by client/generator/generate.py from the contract with SHA-256 51161c314ba7a9c02d1b3e45e0f0f822c0e25538b5d6bf785b6a9a2199151ffd. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "51161c314ba7a9c02d1b3e45e0f0f822c0e25538b5d6bf785b6a9a2199151ffd"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
