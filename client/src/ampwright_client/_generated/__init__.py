# Made by client/generator/generate.py from the contract with SHA-256 d744def82079fcd9d3625ff600009bbb0fc018a79b3ac46dabfc11de244d7c79. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "d744def82079fcd9d3625ff600009bbb0fc018a79b3ac46dabfc11de244d7c79"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
