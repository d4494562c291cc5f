"""The Seed page: the seed box and seed lists."""
