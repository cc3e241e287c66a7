// What a refused form leaves behind. The box under the title has the focus, so that it is read first; and the browser's
// history keeps the page of the form in the place of what was sent, so that Back past it is never the browser's own page
// of errors. Without this file the box stands there all the same.
"use strict";

const box = document.querySelector("main .mend");

if (box) {
  if (box.tabIndex === -1 && document.activeElement === document.body) box.focus();
  const cameFrom = document.referrer && new URL(document.referrer);
  if (cameFrom && cameFrom.origin === location.origin) history.replaceState(history.state, "", cameFrom);
}
