"""Text out: answers and quotes as JSON, lists as CSV, enquiries as TOML, and the one way in which a file is saved."""
