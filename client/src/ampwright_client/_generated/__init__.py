# Made by client/generator/generate.py from the contract with SHA-256 c2472ffc9c0a01b2f4f6893db5c9f2a20c63e96b2c57deb3887c0de245493568. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "c2472ffc9c0a01b2f4f6893db5c9f2a20c63e96b2c57deb3887c0de245493568"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
