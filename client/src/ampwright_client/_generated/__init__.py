# Made by client/generator/generate.py from the contract with SHA-256 a45db7e119d1dd1f88356cb7c11aceba7ec580a3152a21ff447ad9beb558eb81. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "a45db7e119d1dd1f88356cb7c11aceba7ec580a3152a21ff447ad9beb558eb81"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
