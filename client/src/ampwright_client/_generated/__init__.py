# Made by client/generator/generate.py from the contract with SHA-256 138eaa7f956b740cdb6605d4c2605eaf12d35429dec92765619ce3da60cc2d2b. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "138eaa7f956b740cdb6605d4c2605eaf12d35429dec92765619ce3da60cc2d2b"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
