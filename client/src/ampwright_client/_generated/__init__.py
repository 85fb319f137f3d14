# Made by client/generator/generate.py from the contract with SHA-256 034c8d596704c86037765240f8a67e898127539121386622981fb209a0bf1aec. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "034c8d596704c86037765240f8a67e898127539121386622981fb209a0bf1aec"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
