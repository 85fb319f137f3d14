"""What flows, how warm it gets and which device opens: solved cases of a site."""
