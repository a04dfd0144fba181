"""Results for people: the sheet as data, and renderers."""
