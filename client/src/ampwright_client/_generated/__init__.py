# Made by client/generator/generate.py from the contract with SHA-256 636bf23967159078e50921a8ec0ead9228c37e00725593226d1454c5a6fb8915. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "636bf23967159078e50921a8ec0ead9228c37e00725593226d1454c5a6fb8915"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
