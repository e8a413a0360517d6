"""How the client fares with a service that does not behave."""
