"""The suction check and the service's pages in a real browser: a package, with the last test of which it ends."""
