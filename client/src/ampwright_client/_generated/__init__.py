<<<<<<< HEAD
# Made by client/generator/generate.py from the contract with SHA-256 920c4b80d0088280c8a205ca081edccf9e20a0a03788cc3324f47bc2cff7aa1f. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "920c4b80d0088280c8a205ca081edccf9e20a0a03788cc3324f47bc2cff7aa1f"
=======
# Made by client/generator/generate.py from the contract with SHA-256 17ca1c258d295f6810c79a2d7152298dfa5723fc761f89b4ab28aaddc1b86694. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "17ca1c258d295f6810c79a2d7152298dfa5723fc761f89b4ab28aaddc1b86694"
>>>>>>> 6cf65e3 (Write the contract, and make the client from it)
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
