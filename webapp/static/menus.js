// Menus of the top bar: Escape and a press elsewhere close them. Without this file the menu's own button does.
"use strict";

const open = () => document.querySelectorAll("details.menu[open]");

document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  for (const menu of open()) {
    menu.open = false;
    menu.querySelector("summary").focus();
  }
});

document.addEventListener("pointerdown", (event) => {
  for (const menu of open()) {
    if (!menu.contains(event.target)) menu.open = false;
  }
});
