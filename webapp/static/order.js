// Steps in order: the buttons move a step at once, and a step can be dragged by its text. Without this file each press
// of a button loads the page again with the new order.
"use strict";

for (const list of document.querySelectorAll("ol.steps")) {
  const status = document.querySelector(`[data-moved="${list.dataset.move}"]`);
  const items = () => [...list.children];

  // The order stands in the address, as it does without this file: loading the page again then keeps it.
  const keep = () => {
    const form = document.getElementById(list.dataset.move);
    const address = new URL(form.action);
    address.search = new URLSearchParams(new FormData(form));
    history.replaceState(history.state, "", address);
  };

  const settle = (moved, keepFocus) => {
    items().forEach((item, at, all) => {
      item.querySelector("[name=up]").disabled = at === 0;
      item.querySelector("[name=down]").disabled = at === all.length - 1;
      item.classList.toggle("just-moved", item === moved);
    });
    const kept = document.querySelectorAll(`#${CSS.escape(list.dataset.move)} [name=step]`);
    items().forEach((item, at) => { kept[at].value = item.querySelector("[name=step]").value; });
    keep();
    list.dispatchEvent(new Event("change", { bubbles: true }));
    status.textContent = `${moved.querySelector(".step-text").textContent}: now number ${items().indexOf(moved) + 1}.`;
    if (keepFocus && keepFocus.disabled) moved.querySelector(`[name=${keepFocus.name === "up" ? "down" : "up"}]`).focus();
    else if (keepFocus) keepFocus.focus();
  };

  list.addEventListener("click", (event) => {
    const button = event.target.closest("button[name=up], button[name=down]");
    if (!button) return;
    event.preventDefault();
    const item = button.closest("li");
    if (button.name === "up" && item.previousElementSibling) list.insertBefore(item, item.previousElementSibling);
    if (button.name === "down" && item.nextElementSibling) list.insertBefore(item.nextElementSibling, item);
    settle(item, button);
  });

  let dragged = null;
  list.addEventListener("pointerdown", (event) => {
    const text = event.target.closest(".step-text");
    if (!text || event.button !== 0) return;
    dragged = text.closest("li");
    dragged.classList.add("is-dragged");
    text.setPointerCapture(event.pointerId);
    event.preventDefault();
  });
  list.addEventListener("pointermove", (event) => {
    if (!dragged) return;
    const below = items().find((item) => item !== dragged && event.clientY < middle(item));
    if (below !== dragged.nextElementSibling) list.insertBefore(dragged, below || null);
  });
  for (const end of ["pointerup", "pointercancel"]) {
    list.addEventListener(end, () => {
      if (!dragged) return;
      dragged.classList.remove("is-dragged");
      settle(dragged, null);
      dragged = null;
    });
  }
}

function middle(item) {
  const box = item.getBoundingClientRect();
  return box.top + box.height / 2;
}
