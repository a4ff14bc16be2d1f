"""Reports: what the audit found, for a machine, a terminal, a browser, the vendor. They judge nothing."""
