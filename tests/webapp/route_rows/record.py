"""Today's minutes, the record's pages and its files: each is the own one of whoever asks."""

TABLE = [
    ("POST", "/today/more", {"minutes": "10"}, 303, 303, 303),
    ("GET", "/record/items", {}, 303, 200, 200),
    ("GET", "/record/sat", {}, 303, 200, 200),
    ("GET", "/record/whole", {}, 303, 200, 200),
    ("GET", "/record/forecast", {}, 303, 200, 200),
    ("GET", "/record/file", {}, 303, 200, 200),
    ("GET", "/record/answers.csv", {}, 303, 200, 200),
]
