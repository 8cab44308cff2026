"""Facts become sentences of a language: the only place where a page or a screen gets its words."""
