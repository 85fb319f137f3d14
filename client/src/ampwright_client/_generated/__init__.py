# Made by client/generator/generate.py from the contract with SHA-256 bb9c99c5f4804334cdfc87a594071d0f58b4f20ed7630bfb3200582e01b9a150. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "bb9c99c5f4804334cdfc87a594071d0f58b4f20ed7630bfb3200582e01b9a150"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
