"""Where do versioned documents live, and how is their history kept unchangeable?

A document here is (kind, slug, format, canonical body bytes); what a body means is the business of `contract`.
One module a question: `revisions`, `releases`, `withdrawals`, `search`, `facets`, `keys`, `audit` hold the queries;
`snapshot` keeps a release in memory; `exchange` and `backup` take the catalogue out and in; `migrate` brings a database
up to date.
"""
