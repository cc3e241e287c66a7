// The clock of a conversion runs on from the seconds that the server counted. Without this file it is not seen to run.
"use strict";

for (const clock of document.querySelectorAll("[data-seconds]")) {
  const started = Date.now() - 1000 * Number(clock.dataset.seconds);
  const text = clock.querySelector("[data-clock]");
  const show = () => {
    const seconds = Math.floor((Date.now() - started) / 1000);
    text.textContent = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  };
  show();
  setInterval(show, 1000);
}
