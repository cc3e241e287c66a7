"""Who answered what, and when. All SQL of the project lives in this folder; dataclasses come out of it.

    from webapp.records.connection import Store
    store = Store("pinandbox.sqlite")
    store.migrate()

`attempts` and `decisions` are append-only, and the database itself holds that. Marks and memory are folds over
attempts minus decisions, ordered by (answered_at, id); `memory` keeps the second fold for quick reading.
"""
