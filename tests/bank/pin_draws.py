"""The hundred draws that a release pins: an old seed must give an old question, word for word and number for number.

Renew them for a release, when every change in them is meant:  python -m tests.bank.pin_draws
"""

import hashlib
import json
from pathlib import Path

from question_bank import load_bank

PINS = Path(__file__).with_name("pins.json")
HOW_MANY = 100


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
        case "part":
            return [question.right, [each.part for each in question.places]]
        case "card":
            return question.back


def main():
    """Write pins.json anew: items spread evenly over the bank, both systems, a new seed each time."""
    bank = load_bank()
    ways = [(item_id, system) for item_id in bank for system in ("us", "metric")]
    spread = [ways[at * len(ways) // HOW_MANY] for at in range(HOW_MANY)]
    pins = [drawn(bank, item_id, 101 + 37 * at, system) for at, (item_id, system) in enumerate(spread)]
    PINS.write_text(json.dumps(pins, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    print(f"{len(pins)} draws of {len({each['item'] for each in pins})} items are pinned in {PINS.name}.")


if __name__ == "__main__":
    main()
