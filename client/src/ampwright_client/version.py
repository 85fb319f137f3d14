"""Which version of the client is this?"""

__version__ = "0.1.0"
