# Made by client/generator/generate.py from the contract with SHA-256 b9564bf4eaeacf3a3270df50178934af55efa2d0e714960e873d184042bf59f3. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "b9564bf4eaeacf3a3270df50178934af55efa2d0e714960e873d184042bf59f3"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
