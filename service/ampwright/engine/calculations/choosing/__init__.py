"""Sources against kits, kits against jobs: cells of load checks, ranked and told."""
