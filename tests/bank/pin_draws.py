"""The fifty draws that a release pins: an old seed must give an old question, word for word and number for number.

Renew them for a release, when every change in them is meant:  python -m tests.bank.pin_draws
"""

import hashlib
import json
from itertools import cycle, islice
from pathlib import Path

from question_bank import load_bank

PINS = Path(__file__).with_name("pins.json")
HOW_MANY = 50


def drawn(bank, item_id, seed, system):
    """One pin: what the draw shows and what is right."""
    question = bank[item_id].draw(seed, system)
    return {"item": item_id, "seed": seed, "system": system, "stem": question.stem, "key": key(question)}


def key(question):
    """The right answer of a question, as JSON can hold it; with it the drawn order is pinned."""
    match question.kind:
        case "numeric" | "estimate":
            return question.key_text
        case "gauge":
            return [question.key_text, hashlib.sha256(question.dial.encode("utf-8")).hexdigest()]
        case "find-the-wrong-line":
            return [question.wrong, [each.result for each in question.shown]]
        case "choice":
            return [question.right, [each.text for each in question.options]]
        case "order":
            return question.accepted
        case "match":
            return question.pairs
        case "card":
            return question.back


def main():
    """Write pins.json anew: every item in turn, systems in turn, a new seed each time; numeric items twice as often."""
    bank = load_bank()
    numeric = [each.id for each in bank.values() if each.kind == "numeric"]
    turns = cycle([*numeric, *bank])
    pins = [
        drawn(bank, item_id, 101 + 37 * at, ("us", "metric")[at % 2])
        for at, item_id in enumerate(islice(turns, HOW_MANY))
    ]
    PINS.write_text(json.dumps(pins, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    print(f"{len(pins)} draws of {len({each['item'] for each in pins})} items are pinned in {PINS.name}.")


if __name__ == "__main__":
    main()
