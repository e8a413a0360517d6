"""What stands in deploy/ to run the service by: each file held by the tool that reads it, and against the others."""
