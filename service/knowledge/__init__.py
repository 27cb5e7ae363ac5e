"""Reference knowledge: the files under rules/ read strictly into frozen values, and names looked up in them."""
