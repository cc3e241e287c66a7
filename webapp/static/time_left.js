// The time left runs down from the seconds that the server counted. Without this file the page says until when.
"use strict";

for (const clock of document.querySelectorAll("[data-seconds-left]")) {
  const end = Date.now() + 1000 * Number(clock.dataset.secondsLeft);
  const shown = clock.querySelector("[data-left]");
  const told = clock.querySelector("[data-told]");
  let before = Infinity;
  let over = false;

  const show = () => {
    const left = Math.max(0, Math.ceil((end - Date.now()) / 1000));
    shown.textContent = `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")} left`;
    for (const minutes of [10, 5, 1]) {
      if (left <= 60 * minutes && before > 60 * minutes && before !== Infinity) {
        told.textContent = minutes === 1 ? "One minute left." : `${minutes} minutes left.`;
      }
    }
    clock.classList.toggle("time-short", left <= 300);
    if (left <= 3 && before > 3) document.dispatchEvent(new Event("nearly-over"));
    // A second later the server is past the deadline too, and shows what it came to.
    if (left === 0 && !over) {
      over = true;
      setTimeout(() => location.assign(clock.dataset.over), 1000);
    }
    before = left;
  };
  show();
  setInterval(show, 500);
}
