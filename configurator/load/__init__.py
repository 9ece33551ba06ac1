"""The one door through which text comes in: TOML, spoken words, build codes."""
