"""Pages for people: the counter, the docs and the way in. Everything they load comes from this service."""
