// A sitting keeps an answer while the hand is still at it: a closed tab loses nothing. Without this file the button does.
"use strict";

for (const question of document.querySelectorAll("[data-keeps]")) {
  const form = question.querySelector("form.answer");
  const told = question.querySelector("[data-kept]");
  let waiting = null;
  let sending = null;
  let touched = false;

  const tell = (words) => {
    if (told.textContent === words) return;
    told.textContent = words;
    told.hidden = false;
  };

  // One after the other: what was typed last must be what is kept last.
  const send = (markOnly) => {
    clearTimeout(waiting);
    const fields = new URLSearchParams(new FormData(form));
    if (markOnly) fields.set("mark-only", "yes");
    else touched = false;
    const before = sending || Promise.resolve();
    const mine = before.then(() => fetch(question.dataset.keeps, { method: "POST", body: fields, keepalive: true }))
      .then((answer) => {
        if (answer.status === 410) location.reload();
        else tell(answer.ok ? (markOnly ? "The mark is kept." : "Kept while you write.") : "Not kept yet. Use the button.");
      })
      .catch(() => tell("Not kept: the server can’t be reached. Use the button when it is back."))
      .finally(() => { if (sending === mine) sending = null; });
    sending = mine;
    return mine;
  };

  const soon = (milliseconds) => {
    touched = true;
    clearTimeout(waiting);
    waiting = setTimeout(() => send(false), milliseconds);
  };

  form.addEventListener("input", (event) => {
    if (event.target.name !== "come-back") soon(800);
  });
  // A press of the button ends a field's change as well: it goes first, and nothing is sent twice.
  form.addEventListener("change", (event) => {
    if (event.target.name === "come-back") send(!touched);
    else soon(300);
  });

  const flush = () => { if (touched) send(false); };
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "hidden") flush(); });
  document.addEventListener("nearly-over", flush);

  // What is on its way by itself must not come after what the button sends.
  form.addEventListener("submit", (event) => {
    clearTimeout(waiting);
    touched = false;
    if (!sending) return;
    event.preventDefault();
    Promise.race([sending, new Promise((enough) => setTimeout(enough, 3000))]).finally(() => form.submit());
  });
}
