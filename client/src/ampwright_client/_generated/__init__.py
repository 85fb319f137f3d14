# Made by client/generator/generate.py from the contract with SHA-256 ef877986df2a8997f3974fcbe3a87b554e9487f98ce027cd39a6ab0b6a8fed42. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "ef877986df2a8997f3974fcbe3a87b554e9487f98ce027cd39a6ab0b6a8fed42"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
