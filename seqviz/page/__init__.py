"""The page: one file that shows the work in any browser, without a server and without a network."""
