# Made by client/generator/generate.py from the contract with SHA-256 96908ff82fcdec39eb4a553a376b6b8b9675fd471741f4774c5f3084dca78ac2. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "96908ff82fcdec39eb4a553a376b6b8b9675fd471741f4774c5f3084dca78ac2"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
