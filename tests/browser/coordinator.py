"""A coordinator at the browser: makes rigs and crews, brings people in, fills in a sheet, assigns, decides."""

import re

from playwright.sync_api import Locator, Page, expect

from question_bank.rig_sheet import sheet_fields
from question_bank.units import split_quantity

PASSWORD = "kelly spins at dawn"


class Coordinator:
    """One coordinator with one page. Each way begins at Crews, as a hand on the mouse would go it."""

    def __init__(self, page: Page):
        self.page = page

    def opens_the_house(self, told: str, name: str) -> None:
        """By the address that the first start prints."""
        self.page.goto(re.search(r"http\S+", told)[0])
        self.page.get_by_label("Name").fill(name)
        self.page.get_by_label("Password").fill(PASSWORD)
        self.press("Become a coordinator")
        self.page.get_by_role("link", name="I have written it down").click()

    def makes(self, rig: str, turned_by: str, crew: str) -> None:
        """A rig, and a crew for it that has its first day today: 14 on, 14 off."""
        self.goes_to()
        self.page.get_by_role("link", name="New rig").click()
        self.page.get_by_label("Name of the rig").fill(rig)
        self.page.get_by_label(turned_by).check()
        self.press("Make the rig")
        self.page.get_by_label("Name of the crew").fill(crew)
        self.press("Make the crew")

    def goes_to(self, crew: str = "", page: str = "") -> None:
        """Crews; a crew of it; a page of that crew by its row of links."""
        self.page.get_by_role("banner").get_by_role("link", name="Crews", exact=True).click()
        if crew:
            self.page.get_by_role("link", name=crew, exact=True).click()
        if page:
            self.page.get_by_label("Pages of this crew").get_by_role("link", name=page, exact=True).click()

    def opens_hand(self, crew: str, hand: str) -> None:
        """The page of one hand, from the crew's table."""
        self.goes_to(crew)
        self.page.get_by_role("link", name=hand, exact=True).click()

    def makes_slip(self, crew: str) -> str:
        """A slip for that crew; the code on it."""
        self.goes_to(crew, "Slips")
        self.press("Make a slip")
        return self.page.locator(".slip-code").first.inner_text()

    def fills_in(self, values: dict[str, str]) -> None:
        """Numbers into the open rig sheet, each in the unit that it is written with."""
        for name, text in values.items():
            number, unit = split_quantity(text)
            self.page.get_by_label(sheet_fields()[name].label, exact=True).fill(number)
            if unit:
                self.page.locator(f"#f-{name}-unit").select_option(unit)

    def assigns(self, crew: str, *modules: str) -> None:
        """Modules to the whole crew, by the end of the hitch that runs; yes where the page asks first."""
        self.goes_to(crew, "Assign")
        for module in modules:
            self.page.get_by_role("checkbox", name=module).check()
        self.press("Assign")
        if (asked := self.page.get_by_role("button", name="Assign all the same")).count():
            asked.click()
        expect(self.page.get_by_role("status")).to_have_text("It is assigned.")

    def names_observer(self, crew: str, person: str, module: str) -> None:
        """Somebody may sign all tasks of a module for that crew."""
        self.goes_to(crew, "Observers")
        self.page.get_by_label("Observer", exact=True).fill(person)
        self.page.locator("summary", has_text=module).click()
        self.page.get_by_label(re.compile(f"^All of module {module.partition(' ')[0]}$")).check()
        self.press("Give the right")
        self.press("Give it all the same")  # Nobody here is signed as done on anything yet.
        expect(self.page.get_by_role("status")).to_have_text("The right is given.")

    def cell(self, hand: str, module: str) -> Locator:
        """How a hand stands in a module, in the crew's table that is open. The module by its number."""
        heads = self.page.locator(".matrix thead th").all_inner_texts()
        place = next(n for n, head in enumerate(heads) if head.split()[0] == module)
        return self.page.get_by_role("row", name=hand).locator("th, td").nth(place)

    def press(self, button: str) -> None:
        """A button by its words."""
        self.page.get_by_role("main").get_by_role("button", name=button, exact=True).click()
