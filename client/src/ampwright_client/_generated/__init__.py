# Made by client/generator/generate.py from the contract with SHA-256 f3673ae81e09dee05ce9a516d492268c41a558e6f3636bbad699ca07e644aef3. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "f3673ae81e09dee05ce9a516d492268c41a558e6f3636bbad699ca07e644aef3"
CONTRACT_VERSION = "1.0.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
